// Units side by side: the figures of the page, and the differences said in words. What the same meter does to two units
// alike falls out of their difference; what is left within 1.96 standard uncertainties is level.
(() => {
  "use strict";
  const bracket = window.guidegenBracket;
  const { data, units, make, namesOf, region, published } = bracket;
  const { NB, say, number, ...numbers } = window.guidegenNumbers;
  const lang = document.getElementById("ranking").tBodies[0].lang || null;
  const listed = (all) => numbers.listed(all, "and");
  const theNames = (some) => listed(some.map(({ name, score }) => `the ${name}${score ? "" : " (not advised)"}`));

  // Rows and differences are told in the language of the guide's figures and in the words of its tables.
  const SAID = {
    place: "Place, our ranking",
    verdict: "Verdict",
    score: "Score of 100, our weights",
    price: (mark) => `Price, ${mark}`,
    load: "Your load",
    form: "Form factor",
    fan: "Fan at low load",
    still: "may stand still",
    turns: "always turns",
    sixteen: "Standard of the 16-pin plug",
    none: "none",
    untested: "not tested",
    bound: (text) => `at most ${text}`,
    same: "the same",
    level: "level",
    notTold: "not told apart: upper bounds",
    better: (name, verb, parts) => `The ${name} ${verb} ${listed(parts)}`,
    than: (far, better, name) => `${far} ${better}than the ${name}`,
    atLeast: (far) => `at least ${far}`,
    levelWith: (names) => `level with ${names}`,
    sameAs: (names) => `the same as ${names}`,
    unknown: (names) => `not known of ${names}`,
    cheaper: ["costs", "less"],
    points: "points",
    higher: ["scores", "more"],
    differ: "different",
  };

  // The pair of figures: level where the doubt of their difference covers it; an upper bound hides how far below it lies.
  const decimals = ([text]) => (text.split(".")[1] ?? "").length;
  const doubt = ([, , own = 0, shared = 0], [, , own2 = 0, shared2 = 0]) => data.certainty * Math.hypot(own, own2, shared - shared2);
  const full = (entry) => entry[1] ?? published(entry);
  const measuredLevel = (one, other) => (other.entry[4] === 1 || Math.abs(full(one.entry) - full(other.entry)) <= doubt(one.entry, other.entry));

  const differences = (row, chosen) => {
    const known = chosen.map((unit) => ({ unit, entry: row.of(unit) })).filter(({ entry }) => entry);
    const missing = chosen.filter((unit) => !row.of(unit));
    const tail = missing.length && known.length ? [SAID.unknown(theNames(missing))] : [];
    if (known.length < 2) return tail.join("");
    const sorted = [...known].sort((a, b) => (row.up ? -1 : 1) * (published(a.entry) - published(b.entry)));
    const [best, ...others] = sorted;
    const level = others.filter((one) => row.level(best, one) || published(one.entry) === published(best.entry));
    const apart = others.filter((one) => !level.includes(one));
    const exact = known.every(({ entry }) => entry[2] === undefined) && !row.byScore;
    if (!apart.length) {
      const words = exact ? SAID.same : level.some(({ entry }) => entry[4]) ? SAID.notTold : SAID.level;
      return [words, ...tail].join("; ");
    }
    const parts = apart.map(({ unit, entry }, i) => {
      const far = number(Math.abs(published(entry) - published(best.entry)), Math.max(decimals(entry), decimals(best.entry)));
      const whole = row.mark ? `${row.mark}${NB}${far}` : row.apart && !i ? `${far}${NB}${row.apart}` : far;
      return SAID.than(best.entry[4] ? SAID.atLeast(whole) : whole, i ? "" : `${row.better} `, unit.name);
    });
    const with_ = level.length ? [(exact ? SAID.sameAs : SAID.levelWith)(theNames(level.map(({ unit }) => unit)))] : [];
    return `${[SAID.better(best.unit.name, row.verb, parts), ...with_, ...tail].join("; ")}.`;
  };
  const measuredRow = (property, i) => ({
    ...property, of: (unit) => unit.values[i], level: measuredLevel,
    title: property.unit ? `${property.title}, ${property.unit}` : property.title,
    text: (unit) => { const entry = unit.values[i]; return entry ? (entry[4] ? SAID.bound(entry[0]) : entry[0]) : SAID.untested; },
  });
  const scoreRow = {
    title: SAID.score, up: true, apart: SAID.points, verb: SAID.higher[0], better: SAID.higher[1], byScore: true,
    of: (unit) => unit.score && [unit.score[1]], text: (unit) => (unit.score ? unit.score[0] : SAID.none),
    level: (one, other) => one.unit.level.includes(other.unit.index),
  };
  const priceRow = () => {
    const { mark } = data.regions.find(({ id }) => id === region());
    const price = (unit) => unit.prices[region()];
    return {
      title: SAID.price(mark), up: false, mark, verb: SAID.cheaper[0], better: SAID.cheaper[1], level: () => false,
      of: (unit) => (price(unit)[1] ? [price(unit)[0].slice(mark.length + 1)] : null), text: (unit) => price(unit)[0],
    };
  };
  const said = (title, text, differ = SAID.differ) => ({ title, text, differ });
  const rowsOf = () => {
    const load = bracket.load();
    return [
      said(SAID.place, (unit) => unit.place, ""),
      said(SAID.verdict, (unit) => unit.verdict, ""),
      scoreRow, priceRow(),
      ...(load ? [said(SAID.load, (unit) => bracket.shareOf(load, unit))] : []),
      ...data.properties.map(measuredRow),
      said(SAID.sixteen, (unit) => unit.sixteen || SAID.none),
      said(SAID.form, (unit) => unit.form),
      said(SAID.fan, (unit) => (unit.still ? SAID.still : SAID.turns)),
    ];
  };
  const wordsOf = (row, chosen) => {
    if (row.of) return differences(row, chosen);
    return new Set(chosen.map(row.text)).size === 1 ? SAID.same : row.differ;
  };

  // The table: units in columns, properties in rows, words last; told again what rows and cells are, since narrow
  // windows set them as blocks.
  const cell = (tag, role, attributes, ...inside) => make(tag, { role, ...attributes }, ...inside);
  const heading = (...inside) => cell("th", "columnheader", { scope: "col" }, ...inside);
  const body = (row, chosen) => cell("tr", "row", {}, cell("th", "rowheader", { scope: "row" }, row.title),
    ...chosen.map((unit) => cell("td", "cell", { "data-label": unit.name, class: row.title === SAID.verdict && unit.warning ? "warn" : null }, row.text(unit))),
    cell("td", "cell", { class: "words" }, wordsOf(row, chosen)));
  const pairWords = (chosen) => {
    if (chosen.length !== 2 || !data.pairs.length) return [];
    const [i, j] = chosen.map(({ index }) => index);
    return [make("p", { class: "why", lang }, data.pairs[i * units.length - i * (i + 1) / 2 + j - i - 1])];
  };
  bracket.compare = (chosen, { head, box, foot }) => {
    const caption = make("caption", { id: "compared-caption" }, say("comparison.caption", { units: namesOf(chosen) }));
    const clear = make("button", { type: "button" }, say("comparison.clear"));
    clear.addEventListener("click", () => bracket.clear());
    const out = chosen.filter(({ row }) => row.hidden);
    head.replaceChildren(make("h3", {}, say("comparison.title")), ...pairWords(chosen));
    box.replaceChildren(cell("table", "table", { class: "stacked compared" }, caption,
      cell("thead", "rowgroup", {}, cell("tr", "row", {}, heading(say("comparison.property")),
        ...chosen.map((unit) => heading(make("a", { href: unit.href }, unit.name))), heading(say("comparison.words")))),
      cell("tbody", "rowgroup", { lang }, ...rowsOf().map((row) => body(row, chosen)))));
    foot.replaceChildren(...(out.length ? [make("p", { class: "note" }, say("comparison.hidden", { units: namesOf(out) }))] : []),
      make("p", { class: "links" }, ...chosen.flatMap((unit) => [make("a", { href: unit.href }, unit.name), " "]), clear));
  };
})();
