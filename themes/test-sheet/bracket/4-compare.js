// Up to four units to tick; what sets them side by side is loaded with the second tick. The address keeps them.
(() => {
  "use strict";
  const bracket = window.guidegenBracket;
  if (!bracket.units) return;
  const { address, units, make, namesOf } = bracket;
  const { say } = window.guidegenNumbers;
  const MOST = 4;
  const own = document.getElementById("ranking").tBodies[0].lang ? document.documentElement.lang : null;

  // The box stays, so that whoever watches boxes that scroll watches this one, too.
  const [head, foot] = [make("div"), make("div")];
  const box = make("section", { class: "scroll", "aria-labelledby": "compared-caption" });
  let loading = false;
  const load = () => {
    if (loading) return;
    loading = true;
    const script = make("script", { src: document.getElementById("sieve-data").dataset.comparison });
    script.addEventListener("load", () => draw());
    script.addEventListener("error", () => {
      loading = false;
      script.remove();
      head.replaceChildren(make("p", { class: "warn" }, say("comparison.failed")));
    });
    document.head.append(script);
  };

  // Ticks, what they say, and the address.
  const comparison = make("section", { id: "comparison", class: "comparison", hidden: "" }, head, box, foot);
  const status = make("p", { role: "status", class: "unseen" });
  const ticked = () => units.filter(({ tick }) => tick.checked);
  const draw = () => {
    const chosen = ticked();
    for (const { tick, see } of units) see.hidden = !(tick.checked && chosen.length > 1);
    comparison.hidden = chosen.length < 2;
    if (chosen.length > 1) {
      if (bracket.compare) bracket.compare(chosen, { head, box, foot });
      else load();
    }
    return chosen;
  };
  const tell = (chosen) => {
    status.textContent = chosen.length > 1 ? say("comparison.many", { units: namesOf(chosen) }) : chosen.length ? say("comparison.one", { unit: chosen[0].name }) : "";
  };
  const set = (wanted) => {
    for (const unit of units) unit.tick.checked = wanted.includes(unit);
    address.set("compare", ticked().map(({ id }) => id).join(","));
    tell(draw());
  };
  for (const unit of units) {
    unit.tick = make("input", { type: "checkbox", id: `tick-${unit.id}` });
    unit.see = make("a", { href: "#comparison", hidden: "" }, say("comparison.see"));
    unit.refused = make("span", { class: "warn" });
    unit.row.querySelector(".wide").append(make("p", { class: "tick", lang: own }, unit.tick,
      make("label", { for: unit.tick.id }, say("comparison.tick"), make("span", { class: "unseen" }, ` ${unit.name}`)), unit.see, unit.refused));
    unit.tick.addEventListener("change", () => {
      for (const { refused } of units) refused.textContent = "";
      if (ticked().length <= MOST) { set(ticked()); return; }
      unit.tick.checked = false;
      unit.refused.textContent = say("comparison.full", { unit: unit.name });
      status.textContent = say("comparison.full", { unit: unit.name });
    });
  }
  const enter = () => {
    const wanted = address.get("compare").split(",");
    set(units.filter(({ id }) => wanted.includes(id)).slice(0, MOST));
  };
  document.getElementById("ranking").parentNode.parentNode.append(status, comparison);
  Object.assign(bracket, { sifted: draw, clear: () => { set([]); units[0].tick.focus(); } });
  enter();
  address.onchange(enter);
})();
