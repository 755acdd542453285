// Sifting a bracket's table by what the reader's case, purse and ears allow. The form is made here, so that there is
// none without script. A unit whose figure is not known can't be said to keep a limit: it is left out and named.
(() => {
  "use strict";
  const bracket = window.guidegenBracket;
  const source = document.getElementById("sieve-data");
  if (!source) return;
  const { address } = bracket;
  const { NB, say, number, withUnit, listed } = window.guidegenNumbers;
  const data = JSON.parse(source.textContent);
  const table = document.getElementById("ranking");
  const box = table.parentNode;

  const SAID = {
    legends: { price: say("sieve.price"), computer: say("sieve.computer"), noise: say("sieve.noise"), cables: say("sieve.cables") },
    labels: {
      region: say("sieve.prices_of"), price: (mark) => say("sieve.costs", { mark }), form: say("sieve.form"), depth: say("sieve.case"),
      mark: say("sieve.full_load"), noise: say("sieve.half_load"), fan: say("sieve.fan"),
    },
    titles: {
      price: say("sieve.title_price"), form: say("sieve.title_form"), depth: say("sieve.title_depth"), noise: say("sieve.title_noise"),
      fan: say("sieve.title_fan"), cpu_8: say("sieve.title_cpu_8"), pcie_8: say("sieve.title_pcie_8"), pcie_16: say("sieve.title_pcie_16"),
      sata: say("sieve.title_sata"),
    },
    unknown: {
      price: (units, one) => say(one ? "sieve.no_price" : "sieve.no_prices", { units }),
      other: (units, one, limit) => say(one ? "sieve.untested" : "sieve.all_untested", { units, limit }),
      bound: (units, one) => say(one ? "sieve.bound" : "sieve.bounds", { units }),
    },
    hides: (titles, count) => say(titles.length > 1 ? "sieve.hide" : "sieve.hides_most", { limits: listed(titles), count }),
    relaxed: (limit, most, value, instead, units) => say(most ? "sieve.at_most" : "sieve.at_least", { limit: capital(limit), value, instead, units }),
    givenUp: (titles, units) => say(titles.length > 1 ? "sieve.give_up_all" : "sieve.give_up", { limits: listed(titles), units }),
    unit: ({ name, score }) => say(score ? "sieve.unit" : "sieve.unit_not_advised", { unit: name }),
  };
  const capital = (text) => text[0].toUpperCase() + text.slice(1);

  const make = (tag, attributes = {}, ...inside) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) if (value !== null) made.setAttribute(name, value);
    made.append(...inside);
    return made;
  };
  const units = data.units.map((unit, i) => {
    const row = table.tBodies[0].rows[i];
    const link = row.querySelector("th a");
    return { ...unit, row, name: link.textContent, href: link.getAttribute("href"), index: i };
  });
  const published = (entry) => (entry ? Number(entry[0].replace("−", "-")) : null);
  const figure = (id) => data.properties.findIndex((one) => one.id === id);
  const namesOf = (some) => {
    const names = some.slice(0, some.length > 4 ? 3 : 4).map(SAID.unit);
    return listed(names.length < some.length ? [...names, say("sieve.more", { count: some.length - names.length })] : names);
  };

  // The limits: what a unit has, and whether that will do.
  const does = { most: (had, wanted) => had <= wanted, least: (had, wanted) => had >= wanted, same: (had, wanted) => had === wanted };
  const measured = (id, kind, unit, group) => {
    const place = figure(id);
    return { id, kind, unit, group, title: SAID.titles[id] ?? data.properties[place].title, of: (one) => published(one.values[place]), entry: (one) => one.values[place] };
  };
  const named = (id, group, of, words) => ({ id, kind: "same", group, title: SAID.titles[id], of, words });
  const inRegion = (unit) => unit.prices[region()];
  const limits = [
    { id: "price", kind: "most", group: "price", title: SAID.titles.price, of: (one) => (inRegion(one)[1] ? Number(inRegion(one)[1]) : null) },
    named("form", "computer", (one) => one.form, (value) => value),
    measured("depth", "most", "mm", "computer"),
    measured("noise", "most", "dB(A)", "noise"),
    named("fan", "noise", (one) => (one.still ? "still" : "turns"), (value) => (value === "still" ? say("sieve.still") : "")),
    ...["cpu_8", "pcie_8", "pcie_16", "sata"].map((id) => measured(id, "least", "", "cables")),
  ].filter(({ kind, of }) => kind !== "same" || new Set(units.map(of)).size > 1);
  const printed = ({ id, unit }, value) => (id === "price" ? `${here().mark}${NB}${value}` : unit ? `${value}${NB}${unit}` : `${value}`);

  // The form.
  const fields = new Map();
  const line = (id, label, control) => {
    const message = make("p", { class: "message warn", id: `sieve-${id}-message` });
    Object.entries({ id: `sieve-${id}`, "aria-describedby": message.id }).forEach((pair) => control.setAttribute(...pair));
    const named = make("label", { for: control.id }, label);
    fields.set(id, { control, message, label: named });
    return make("div", { class: "line" }, named, control, message);
  };
  const typed = (whole) => make("input", { type: "text", inputmode: whole ? "numeric" : "decimal", autocomplete: "off", size: "5" });
  const listOf = (pairs) => make("select", {}, ...pairs.map(([value, text]) => make("option", { value }, text)));
  const choice = ({ of, words }) => listOf([["", say("sieve.any")],
    ...[...new Set(units.map(of))].sort().filter((value) => words(value)).map((value) => [value, words(value)])]);
  const labelOf = ({ id, title }) => {
    const label = SAID.labels[id] ?? title;
    return typeof label === "function" ? label(here().mark) : label;
  };
  const region = () => fields.get("region")?.control.value || data.home;
  const here = () => data.regions.find(({ id }) => id === region());
  const lines = { price: [], computer: [], noise: [], cables: [] };
  if (data.regions.length > 1) {
    lines.price.push(line("region", SAID.labels.region, listOf(data.regions.map(({ id, name }) => [id, capital(name)]))));
    fields.get("region").control.value = data.home;
  }
  for (const limit of limits) {
    lines[limit.group].push(line(limit.id, labelOf(limit), limit.kind === "same" ? choice(limit) : typed(limit.kind === "least")));
  }
  lines.computer.push(line("mark", SAID.labels.mark, typed()));
  const form = make("form", { novalidate: "", autocomplete: "off", "aria-label": say("sieve.summary") }, ...Object.entries(lines).map(([group, inside]) => (
    make("fieldset", {}, make("legend", {}, SAID.legends[group]), ...inside))));
  const drawer = make("details", {}, make("summary", {}, say("sieve.summary")), form);
  const status = make("p", { role: "status" });
  const again = make("button", { type: "button" }, say("sieve.again"));
  const notes = make("div", { class: "notes" });
  const sieve = make("div", { class: "sieve" }, drawer, make("div", { class: "sifted" }, status, again), notes);

  const typedNumber = (id, faults) => {
    const text = fields.get(id).control.value.trim();
    const written = text.replace(/^(\d*),(\d+)$/, "$1.$2");
    if (/^\d*\.?\d+$/.test(written)) return Number(written);
    if (text) faults.set(id, say("sieve.no_number", { came: text }));
    return null;
  };
  const asked = (faults) => limits.map((limit) => {
    const wanted = limit.kind === "same" ? fields.get(limit.id).control.value || null : typedNumber(limit.id, faults);
    return { ...limit, wanted, keeps: (unit) => limit.of(unit) !== null && does[limit.kind](limit.of(unit), wanted) };
  }).filter(({ wanted }) => wanted !== null);

  // What is said of the units left out, and what would bring one back.
  const chosen = (all, size) => (size === 0 ? [[]]
    : all.flatMap((one, i) => chosen(all.slice(i + 1), size - 1).map((rest) => [one, ...rest])));
  const without = (given, active) => units.filter((unit) => active.every((limit) => given.includes(limit) || limit.keeps(unit)));
  const relaxed = (limit, active) => {
    const back = without([limit], active);
    const known = back.filter((unit) => limit.of(unit) !== null);
    if (limit.kind === "same" || !known.length) return { far: Infinity, words: SAID.givenUp([limit.title], namesOf(back)), back };
    const value = Math[limit.kind === "most" ? "min" : "max"](...known.map(limit.of));
    const some = known.filter((unit) => does[limit.kind](limit.of(unit), value));
    const told = limit.id === "price" ? inRegion(some[0])[1] : value;
    return { far: Math.abs(value - limit.wanted) / (limit.wanted || 1), back,
      words: SAID.relaxed(limit.title, limit.kind === "most", printed(limit, told), printed(limit, limit.wanted), namesOf(some)) };
  };
  const wayBack = (active) => {
    const single = active.map((limit) => relaxed(limit, active)).filter(({ back }) => back.length).sort((a, b) => a.far - b.far);
    if (single.length) return single.map(({ words }) => words);
    for (let size = 2; size <= active.length; size += 1) {
      const found = chosen(active, size).filter((given) => without(given, active).length);
      if (found.length) return found.map((given) => SAID.givenUp(given.map(({ title }) => title), namesOf(without(given, active))));
    }
    return [];
  };
  const hiding = (active) => {
    const counts = active.map((limit) => [limit.title, units.filter((unit) => !limit.keeps(unit)).length]);
    const most = Math.max(0, ...counts.map(([, count]) => count));
    if (!most) return [];
    const titles = counts.filter(([, count]) => count === most).map(([title]) => title);
    return [active.length > 1 ? SAID.hides(titles, most) : say("sieve.hides", { limit: titles[0], count: most })];
  };
  const unknown = (active) => active.flatMap((limit) => {
    const said = (some, words) => (some.length ? [capital(words(namesOf(some), some.length === 1, limit.title))] : []);
    return [
      ...said(units.filter((unit) => limit.of(unit) === null), SAID.unknown[limit.id] ?? SAID.unknown.other),
      ...said(units.filter((unit) => limit.entry?.(unit)?.[4] && !limit.keeps(unit)), SAID.unknown.bound),
    ];
  });
  const tell = (active, left) => [
    say("sieve.shown", { count: left.length, all: units.length }),
    ...(left.length ? hiding(active) : [say("sieve.none"), ...wayBack(active)]),
    ...unknown(active),
  ].join(" ");

  // Prices of the region, and the reader's load on the strips.
  const heading = [...table.tHead.querySelectorAll("th.number")].at(-1);
  const priceHeading = heading.textContent;
  const homeMark = here().mark;
  let priced = data.home;
  const showPrices = () => {
    if (priced === region()) return;
    priced = region();
    const text = priceHeading.replace(homeMark, here().mark);
    for (const unit of units) {
      const cell = [...unit.row.querySelectorAll("td.number")].at(-1);
      const [words, order] = inRegion(unit);
      cell.textContent = words;
      cell.dataset.label = text;
      if (order) cell.dataset.v = order;
      else delete cell.dataset.v;
    }
    const button = heading.querySelector("button");
    (button ?? heading).textContent = text;
    if (button && heading.hasAttribute("aria-sort")) { button.click(); button.click(); }
    fields.get("price").label.textContent = SAID.labels.price(here().mark);
  };
  const lineOf = (unit) => unit.row.querySelector(".wide .s-mark");
  const usual = units.map((unit) => lineOf(unit)?.getAttribute("d"));
  bracket.shareOf = (load, { rating }) => say("sieve.share", { share: withUnit(100 * load / rating, "%"), rating: withUnit(rating, "W") });
  const showMark = (load) => {
    units.forEach((unit, i) => {
      const x = 290 * Math.min(100 * load / unit.rating, 110) / 110;
      lineOf(unit)?.setAttribute("d", load ? `M${number(x, 1)} 0V30` : usual[i]);
    });
    if (!load) return [];
    const ratings = [...new Set(units.map(({ rating }) => rating))].sort((a, b) => b - a);
    const [first, last] = [ratings[0], ratings.at(-1)].map((rating) => bracket.shareOf(load, { rating }));
    const over = units.filter(({ rating }) => load > rating);
    return [say("sieve.mark", { load: `${load}${NB}W`, shares: first === last ? first : say("sieve.between", { first, last }) }),
      ...(over.length ? [say(over.length === 1 ? "sieve.too_much" : "sieve.too_much_for_all", { units: namesOf(over) })] : [])];
  };

  const update = () => {
    const faults = new Map();
    const active = asked(faults);
    const load = typedNumber("mark", faults);
    for (const [id, { control, message }] of fields) {
      message.textContent = faults.get(id) ?? "";
      if (faults.has(id)) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
    showPrices();
    const left = without([], active);
    for (const unit of units) unit.row.hidden = !left.includes(unit);
    const told = tell(active, left);
    if (status.textContent !== told) status.textContent = told;
    again.hidden = !active.length && !faults.size;
    const words = [...(region() === data.home ? [] : [say("sieve.region", {
      name: here().name, mark: here().mark, seen: here().seen, home: data.regions.find(({ id }) => id === data.home).name })]), ...showMark(load)];
    notes.replaceChildren(...words.map((text) => make("p", { class: "note" }, text)));
    bracket.sifted?.();
  };
  const remember = () => {
    for (const [id, { control }] of fields) address.set(id, id === "region" && control.value === data.home ? "" : control.value.trim());
  };
  const enter = () => {
    for (const [id, { control }] of fields) {
      control.value = address.get(id) || (id === "region" ? data.home : "");
      if (control.selectedIndex === -1) control.value = id === "region" ? data.home : "";
    }
    update();
  };

  Object.assign(bracket, { data, units, make, namesOf, region, published, load: () => typedNumber("mark", new Map()) });
  box.before(sieve);
  enter();
  drawer.open = !again.hidden || notes.hasChildNodes() || matchMedia("(min-width: 60rem)").matches;
  form.addEventListener("input", () => { update(); remember(); });
  form.addEventListener("submit", (event) => event.preventDefault());
  again.addEventListener("click", () => {
    for (const { id } of limits) fields.get(id).control.value = "";
    update();
    remember();
    form.querySelector("input, select").focus();
  });
  address.onchange(enter);
})();
