// The load strip of a unit with the reader's own loads: the same bands, in the same places, as the guide draws them.
// Everything is an attribute or a class; nothing needs a style. Loaded when the reader comes near, or enters anything.
(() => {
  "use strict";
  const sizing = window.guidegenSizing;
  const { say, percent, watts, straightAt } = sizing;
  const { listed } = window.guidegenNumbers;
  const RIGHT = 290;
  const HIGH = 7;
  const TOPS = [2, 11.5, 21];
  const BANDS = [say("worksheet.band_heat"), say("worksheet.band_noise"), say("worksheet.band_ripple")];
  const at = (load) => RIGHT * Math.min(Math.max(load, 0), 110) / 110;
  const place = (value) => String(Number(value.toFixed(1)));
  const draw = (tag, attributes, ...inside) => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...inside);
    return made;
  };

  // Stretches without the gap at full load, and a band over them; an outline lies half a unit within.
  const pieces = (begin, end) => [[begin, Math.min(end, at(100) - 1)], [Math.max(begin, at(100) + 1), end]];
  const box = (x0, x1, top, high) => `M${place(x0)} ${place(top)}H${place(x1)}v${place(high)}H${place(x0)}Z`;
  const filled = (begin, end, top) => pieces(begin, end).filter(([a, b]) => b - a > 0.05).map(([a, b]) => box(a, b, top, HIGH)).join("");
  const outline = (begin, end, top) => {
    const d = pieces(begin, end).filter(([a, b]) => b - a > 3).map(([a, b]) => box(a + 0.5, b - 0.5, top + 0.5, HIGH - 1)).join("");
    return d ? [draw("path", { class: "s-frame", d, fill: "none", stroke: "currentColor", "stroke-opacity": "0.4" })] : [];
  };

  // The course with the loads at which it meets its limit, and the stretches beyond.
  const crossed = (shares) => shares.flatMap(([load, share], i) => {
    const [before, was] = shares[i - 1] ?? [load, share];
    const meets = (was - 1) * (share - 1) < 0 ? [[before + (1 - was) / (share - was) * (load - before), 1]] : [];
    return [...meets, [load, share]];
  });
  const beyond = (points) => {
    const runs = [];
    points.forEach(([load, share], i) => {
      const over = share > 1 || (share === 1 && (points[i - 1]?.[1] > 1 || points[i + 1]?.[1] > 1));
      if (over && runs.length && runs.at(-1).next === i) Object.assign(runs.at(-1), { end: load, next: i + 1 });
      else if (over) runs.push({ begin: load, end: load, next: i + 1 });
    });
    return runs.map(({ begin, end }) => [at(end) - at(begin) < 1.5 ? Math.max(0, at(end) - 1.5) : at(begin), at(end)]);
  };
  const band = (id, shares, top) => {
    if (!shares.length) return outline(0, RIGHT, top);
    const points = crossed(shares);
    const [first, last] = [at(points[0][0]), at(points.at(-1)[0])];
    const stops = points.map(([load, share]) => draw("stop", {
      offset: ((at(load) - first) / (last - first || 1)).toFixed(3), "stop-opacity": (0.06 + 0.94 * Math.min(Math.max(share, 0), 1)).toFixed(2) }));
    const over = beyond(points).map(([begin, end]) => filled(begin, end, top)).join("");
    return [
      draw("linearGradient", { id, class: "s-ink", gradientUnits: "userSpaceOnUse", x1: place(first), x2: place(last) }, ...stops),
      draw("path", { d: filled(first, last, top), fill: `url(#${id})` }),
      ...(first > 0.06 * RIGHT ? outline(0, first, top) : []),
      ...(RIGHT - last > 0.06 * RIGHT ? outline(last, RIGHT, top) : []),
      ...(over ? [draw("path", { d: over, fill: "url(#ws-over)" })] : []),
    ];
  };
  // The hatch, once for all strips.
  const hatch = () => draw("pattern", { id: "ws-over", width: 5, height: 5, patternUnits: "userSpaceOnUse" },
    draw("rect", { class: "s-paper", width: 5, height: 5, fill: "#fff" }),
    draw("path", { class: "s-over", d: "M-1 1l2-2M0 5L5 0M4 6l2-2", fill: "none", stroke: "currentColor", "stroke-width": "1.4" }));

  // Where the reader is: at idle, in the use that takes most hours, and at full load.
  sizing.marksOf = (uses) => {
    const timed = uses.filter(({ use, hours }) => use !== "idle" && hours > 0);
    const usual = timed.reduce((most, one) => (one.hours > (most?.hours ?? 0) ? one : most), null);
    const idle = uses.find(({ use }) => use === "idle");
    const full = uses.at(-1);
    return [["idle", idle], ["usual", usual], ["full", full]].filter(([, use]) => use).map(([mark, { load }]) => [mark, load]);
  };
  sizing.markWords = { idle: say("worksheet.mark_idle"), usual: say("worksheet.mark_usual"), full: say("worksheet.mark_full") };
  const toldAt = ([mark, load], unit) => {
    const told = BANDS.map((title, i) => [title, straightAt(unit.made.strip[i], 100 * load / unit.rating)]).filter(([, share]) => share !== null);
    const said = listed(told.map(([title, share]) => `${title} ${percent(share)}`)) || say("worksheet.not_measured");
    return `${sizing.markWords[mark]}, ${watts(load)}: ${said}`;
  };
  sizing.strip = (unit, marks, withHatch) => {
    const id = `ws-strip-${unit.id}`;
    const missing = BANDS.filter((_, i) => !unit.made.strip[i].length);
    const words = say("worksheet.strip", { unit: unit.name, marks: marks.map((mark) => toldAt(mark, unit)).join("; ") })
      + (missing.length ? ` ${say("worksheet.missing", { bands: listed(missing) })}` : "");
    return draw("svg", { class: "strip", viewBox: `0 0 ${RIGHT} 30`, width: RIGHT, height: 30, role: "img", "aria-labelledby": `${id}-title` },
      draw("title", { id: `${id}-title` }, words), ...(withHatch ? [hatch()] : []),
      ...TOPS.flatMap((top, i) => band(`${id}-${i}`, unit.made.strip[i], top)),
      ...marks.map(([what, load]) => draw("path", { class: "s-mark", d: `M${place(at(100 * load / unit.rating))} 0V30`, fill: "none",
        stroke: "currentColor", "stroke-width": what === "full" ? "2" : "1" })));
  };
  // The strips of the first units of an answer, below a note on what is drawn; ``make`` makes elements of the page.
  sizing.stripsOf = ({ units, uses }, most, make) => {
    if (!units.length) return [];
    const marks = sizing.marksOf(uses);
    const some = units.length > most ? [`${say("worksheet.best_strips", { count: most })} `] : [];
    return [make("p", { class: "note" }, ...some, say("worksheet.legend", {
      lines: listed(marks.map(([mark, load]) => `${sizing.markWords[mark]} (${watts(load)})`)) })),
    ...units.slice(0, most).map((unit, i) => make("figure", {}, make("figcaption", {}, unit.name), sizing.strip(unit, marks, !i)))];
  };
})();
