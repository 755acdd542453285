// Numbers as the guide adds, rounds and words them, so that what a script computes agrees with the pages in every digit;
// and the texts of the scripts, which stand in the page in the language of the interface.
(() => {
  "use strict";
  const NB = "\u00a0";
  const texts = JSON.parse(document.getElementById("script-words").textContent);
  const say = (name, values = {}) => texts[name].replace(/\{(\w+)\}/g, (_, value) => values[value]);

  // Half to even on the shortest decimal that stands for the float (ISO 80000-1, annex B, rule A).
  const number = (value, decimals = 0) => {
    const [mantissa, exponent = "0"] = String(Math.abs(value)).split("e");
    const [whole, part = ""] = mantissa.split(".");
    const surplus = part.length - Number(exponent) - decimals;
    let digits = BigInt(whole + part);
    if (surplus > 0) {
      const cut = 10n ** BigInt(surplus);
      const rest = 2n * (digits % cut);
      digits /= cut;
      if (rest > cut || (rest === cut && digits % 2n)) digits += 1n;
    } else digits *= 10n ** BigInt(-surplus);
    const text = digits.toString().padStart(decimals + 1, "0");
    const point = text.length - decimals;
    return (value < 0 && digits ? "−" : "") + text.slice(0, point) + (decimals ? `.${text.slice(point)}` : "");
  };
  const withUnit = (value, unit, decimals = 0) => `${number(value, decimals)}${NB}${unit}`;
  const listed = (all, and = say("list.and")) => (all.length < 2 ? all.join("") : `${all.slice(0, -1).join(", ")} ${and} ${all.at(-1)}`);

  // The correctly rounded sum (Shewchuk 1997): what falls off an addition is kept and added at the end.
  const sum = (values) => {
    const partials = [];
    for (let x of values) {
      let kept = 0;
      for (let y of partials) {
        if (Math.abs(x) < Math.abs(y)) [x, y] = [y, x];
        const high = x + y;
        const low = y - (high - x);
        if (low) partials[kept++] = low;
        x = high;
      }
      partials.length = kept;
      partials.push(x);
    }
    let high = partials.pop() ?? 0;
    let low = 0;
    while (partials.length && !low) {
      const x = high;
      const y = partials.pop();
      high = x + y;
      low = y - (high - x);
    }
    if (partials.length && low && (low < 0) === (partials.at(-1) < 0)) {
      const twice = high + 2 * low;
      if (2 * low === twice - high) high = twice;
    }
    return high;
  };

  window.guidegenNumbers = { NB, say, number, withUnit, listed, sum };
})();
