// Up to four units to tick; what sets them side by side is loaded with the second tick. The address keeps them.
(() => {
  "use strict";
  const bracket = window.guidegenBracket;
  if (!bracket.units) return;
  const { address, units, make, namesOf } = bracket;
  const MOST = 4;

  // Every text of this script.
  const SAID = {
    tick: "compare",
    see: "side by side",
    one: (name) => `Tick another unit beside the ${name} to compare them.`,
    many: (names) => `Below the table: ${names}.`,
    full: (name) => `Four at most: take one away before you add the ${name}.`,
    failed: "The comparison could not be loaded: tick once more to try again.",
  };

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
      head.replaceChildren(make("p", { class: "warn" }, SAID.failed));
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
    status.textContent = chosen.length > 1 ? SAID.many(namesOf(chosen)) : chosen.length ? SAID.one(chosen[0].name) : "";
  };
  const set = (wanted) => {
    for (const unit of units) unit.tick.checked = wanted.includes(unit);
    address.set("compare", ticked().map(({ id }) => id).join(","));
    tell(draw());
  };
  for (const unit of units) {
    unit.tick = make("input", { type: "checkbox", id: `tick-${unit.id}` });
    unit.see = make("a", { href: "#comparison", hidden: "" }, SAID.see);
    unit.refused = make("span", { class: "warn" });
    unit.row.querySelector(".wide").append(make("p", { class: "tick" }, unit.tick,
      make("label", { for: unit.tick.id }, SAID.tick, make("span", { class: "unseen" }, ` ${unit.name}`)), unit.see, unit.refused));
    unit.tick.addEventListener("change", () => {
      for (const { refused } of units) refused.textContent = "";
      if (ticked().length <= MOST) { set(ticked()); return; }
      unit.tick.checked = false;
      unit.refused.textContent = SAID.full(unit.name);
      status.textContent = SAID.full(unit.name);
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
