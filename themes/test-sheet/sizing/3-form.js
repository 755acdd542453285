// The form of the sizing worksheet: made here, so that there is none without script; answered at every change. What was
// entered stands in the address, and nothing leaves the page.
(() => {
  "use strict";
  const sizing = window.guidegenSizing;
  const { data, rules, say, NB, number, withUnit, watts, percent, money } = sizing;
  const place = document.getElementById("worksheet");
  const home = place.dataset.home.replace(/index\.html$/, "");
  // What the records say is marked where it is in another language than the form.
  const lang = place.dataset.language === document.documentElement.lang ? null : place.dataset.language;
  const leadsTo = (address) => home + address + (address.endsWith("/") ? "index.html" : "");

  const make = (tag, attributes = {}, ...inside) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) if (value !== null) made.setAttribute(name, value);
    made.append(...inside);
    return made;
  };

  // Fields: each with its label, its line of the sheet, and a place for a message beside it.
  const fields = new Map();
  const line = (id, label, control, ...behind) => {
    const message = make("p", { class: "message warn", id: `ws-${id}-message` });
    Object.entries({ id: `ws-${id}`, "aria-describedby": message.id }).forEach((pair) => control.setAttribute(...pair));
    fields.set(id, { control, message });
    return make("div", { class: "line" }, make("label", { for: control.id }, ...label), control, ...behind, message);
  };
  const listOf = (options) => make("select", {}, ...options.map(([value, text]) => make("option", { value, lang: value ? lang : null }, text)));
  const typed = (mode = "decimal") => make("input", { type: "text", inputmode: mode, autocomplete: "off", size: "5" });
  const group = (title, ...inside) => make("fieldset", {}, make("legend", {}, title), ...inside);
  const figure = () => make("span", { class: "figure" });

  const chosenKinds = { processor: null, graphics: say("worksheet.no_graphics"), board: say("worksheet.no_board") };
  const titles = { processor: say("worksheet.processor"), graphics: say("worksheet.graphics"), board: say("worksheet.board") };
  const byKind = (kind) => data.parts.filter((part) => part.kind === kind);
  const counted = data.parts.filter((part) => !(part.kind in chosenKinds));
  const sums = new Map();
  const choosing = Object.entries(chosenKinds).map(([kind, none]) => {
    const options = byKind(kind).map((part) => [part.id, `${part.title}: ${part.examples}`]);
    sums.set(kind, figure());
    return line(kind, [titles[kind]], listOf(none ? [["", none], ...options] : options), sums.get(kind));
  });
  const counting = counted.map((part) => {
    sums.set(part.id, figure());
    const label = [make("span", { lang }, part.title), " ", make("small", { lang }, part.examples)];
    const made = line(part.id, label, typed("numeric"), make("span", { class: "each" }, `× ${watts(part.sustained)}`), sums.get(part.id));
    made.classList.add("count");
    return made;
  });
  const total = figure();
  const delivered = figure();
  const partsGroup = group(say("worksheet.parts"), ...choosing, ...counting,
    make("p", { class: "line total" }, make("span", {}, say("worksheet.together")), total));
  const meterGroup = group(say("worksheet.meter"), line("wall", [say("worksheet.meter_reading")], typed()),
    make("p", { class: "line total" }, make("span", {}, say("worksheet.assumed", { share: percent(rules.assumed / 100) })), delivered));
  const way = (value, text) => {
    const control = make("input", { type: "radio", name: "way", value, id: `ws-way-${value}` });
    return make("span", {}, control, make("label", { for: control.id }, text));
  };
  const form = make("form", { novalidate: "", autocomplete: "off", "aria-label": say("worksheet.form") },
    group(say("worksheet.known"), make("p", { class: "ways-in" }, way("parts", say("worksheet.way_parts")), way("wall", say("worksheet.way_meter")))),
    partsGroup, meterGroup,
    group(say("worksheet.wishes"),
      line("headroom", [say("worksheet.headroom")], typed()),
      line("depth", [say("worksheet.depth"), " ", make("small", {}, say("worksheet.any"))], typed()),
      line("budget", [say("worksheet.budget"), " ", make("small", {}, say("worksheet.any"))], typed()),
      line("region", [say("worksheet.region")], listOf(data.regions.map(({ id, name }) => [id, name[0].toUpperCase() + name.slice(1)]))),
      line("profile", [say("worksheet.day")], listOf(data.profiles.map(({ id, title, uses }) => (
        [id, say("worksheet.hours", { title, hours: number(sizing.sum(uses.map(([, , hours]) => hours)), 0) })]))))),
    make("p", {}, make("button", { type: "reset" }, say("worksheet.reset"))));

  // The answer: what is said aloud, the reasons, the sums, the units.
  const rating = make("p", { class: "rating" });
  const said = make("div", { role: "status", class: "spoken" });
  const why = make("div", { class: "why-this", lang });
  const toList = make("div", { class: "to-list" });
  const sumsList = make("ol", { class: "sums", lang });
  const headings = [say("worksheet.unit"), say("worksheet.rated"), say("worksheet.score"), say("worksheet.share"), say("worksheet.efficiency"), say("worksheet.noise"), say("worksheet.heat"),
    say("worksheet.energy"), say("worksheet.cost"), say("worksheet.price")];
  // So many units are looked at; more would be scrolled past, and stand behind a drawer.
  const MOST = 5;
  const tableOf = (title, ...inside) => {
    const rows = make("tbody", { role: "rowgroup" });
    return [rows, make("section", { class: "scroll", "aria-labelledby": title.id }, make("table", { class: "stacked", role: "table" },
      ...inside, make("thead", { role: "rowgroup" }, make("tr", { role: "row" },
        ...headings.map((text, i) => make("th", { scope: "col", role: "columnheader", class: i ? "number" : null }, text)))), rows))];
  };
  const caption = make("caption", { id: "worksheet-units-caption" });
  const moreTitle = make("summary", { id: "worksheet-more" });
  const [rows, firstTable] = tableOf(caption, caption);
  const [moreRows, moreTable] = tableOf(moreTitle);
  const more = make("details", {}, moreTitle, moreTable);
  const table = make("div", { id: "worksheet-units" }, firstTable, more);
  const fits = make("div", { class: "fits", lang });
  const strips = make("div", { class: "strips" });
  const details = make("details", {}, make("summary", {}, say("worksheet.steps")), sumsList);
  const answer = make("div", { class: "answer" }, make("h4", {}, say("worksheet.rating")), rating, said, toList, why, details);

  const value = (id) => fields.get(id).control.value.trim();
  const byParts = () => form.elements.way.value === "parts";
  const read = (id, faults) => {
    const text = value(id).replace(/^(\d*),(\d+)$/, "$1.$2");
    if (/^\d*\.?\d+$/.test(text)) return Number(text);
    if (text) faults.push([id, say("worksheet.no_number", { came: value(id) })]);
    return null;
  };
  const wanted = (faults) => {
    const parts = {};
    for (const kind of Object.keys(chosenKinds)) if (value(kind)) parts[value(kind)] = 1;
    for (const part of counted) {
      const count = read(part.id, faults);
      if (count) parts[part.id] = count;
      if (count !== null && !(Number.isInteger(count) && count <= part.most)) faults.push([part.id, say("worksheet.whole", { most: part.most })]);
    }
    return parts;
  };
  const question = (faults) => {
    const asked = { headroom: read("headroom", faults) ?? 0, depth: read("depth", faults), budget: read("budget", faults), region: value("region"), profile: value("profile") };
    if (byParts()) return { ...asked, parts: wanted(faults) };
    return { ...asked, wall: read("wall", faults) };
  };

  const absences = { no_price: say("worksheet.no_price"), hard_to_find: say("worksheet.hard_to_find"), out_of_stock: say("worksheet.out_of_stock") };
  const cellsOf = (unit, region) => [
    number(unit.rating), unit.score, number(100 * unit.share), ...[[unit.efficiency], [unit.noise, unit.bound], [unit.heat]].map(([v, bound]) => (v === null ? say("worksheet.not_tested") : (bound ? `≤${NB}` : "") + number(v, 1))),
    unit.energy === null ? say("worksheet.not_tested") : number(unit.energy), unit.cost === null ? say("worksheet.not_tested") : money(unit.cost, region),
    [unit.price === null ? "" : money(unit.price, region), absences[unit.absent]].filter(Boolean).join(", "),
  ];
  const rowOf = (unit, region) => make("tr", { role: "row", class: unit.absent ? "absent" : null },
    make("th", { scope: "row", role: "rowheader" }, make("a", { href: leadsTo(unit.address) }, unit.name)),
    ...cellsOf(unit, region).map((text, i) => make("td", { role: "cell", class: "number", "data-label": headings[i + 1] }, text)));
  // The lists of those wattages, sifted by what was entered and with the reader's load on their strips.
  const listLinks = (found, asked) => {
    const ratings = found.units.length ? found.units.map(({ rating }) => rating) : [found.rating];
    const offers = data.offers.filter(({ rating }) => ratings.includes(rating));
    return offers.filter(({ address }, i) => offers.findIndex((one) => one.address === address) === i)
      .map((offer) => make("p", {}, listLink(found, asked, offer)));
  };
  const listLink = (found, { depth, budget, region }, offer) => {
    const plugs = (found.build?.plugs ?? []).map((count, i) => [data.plug_kinds[i], count]).filter(([, count]) => count);
    const kept = new URLSearchParams([...(region === data.home ? [] : [["region", region]]), ...(budget ? [["price", budget]] : []),
      ...(depth ? [["depth", depth]] : []), ...plugs, ["mark", number(found.full)]]);
    const yours = [budget && say("worksheet.your_price"), depth && say("worksheet.your_case"), plugs.length && say("worksheet.your_plugs"), say("worksheet.your_load")].filter(Boolean);
    return make("a", { href: `${leadsTo(offer.address)}?${kept}#tested` }, say(found.units.length ? "worksheet.see_these" : "worksheet.see", {
      bracket: offer.bracket, yours: window.guidegenNumbers.listed(yours) }));
  };
  // The same computer takes more or less at the plug by what lies between: what a unit was measured at, or what is assumed.
  const plugWords = ({ wall, units: [first] }) => say(first?.efficiency ? "worksheet.plug_measured" : "worksheet.plug_assumed", {
    wall: watts(wall), unit: first?.name, share: first?.efficiency ? withUnit(first.efficiency, "%", 1) : percent(rules.assumed / 100) });
  const paragraphs = (texts) => texts.map((text) => make("p", {}, text));

  const showSums = (asked) => {
    for (const kind of Object.keys(chosenKinds)) {
      const part = data.parts.find(({ id }) => id === value(kind));
      sums.get(kind).textContent = part ? watts(part.sustained) : watts(0);
    }
    for (const part of counted) sums.get(part.id).textContent = watts((asked.parts?.[part.id] || 0) * part.sustained);
  };
  // What draws the strips is loaded when the reader comes near them, or enters anything; then they are drawn at once.
  let drawn = null;
  const drawStrips = () => { if (sizing.stripsOf && drawn) strips.replaceChildren(...sizing.stripsOf(drawn, MOST, make)); };
  let asked = false;
  const wantStrips = () => {
    if (asked) return;
    asked = true;
    const script = make("script", { src: place.dataset.strip });
    script.addEventListener("load", drawStrips);
    script.addEventListener("error", () => { asked = false; });
    document.head.append(script);
  };
  const filled = () => {
    place.classList.add("filled");
    wantStrips();
  };
  const clear = () => {
    for (const box of [rating, toList, why, sumsList, rows, moreRows, fits, strips]) box.replaceChildren();
    drawn = null;
    total.textContent = "";
    delivered.textContent = "";
    table.hidden = true;
    details.hidden = true;
  };
  const show = (found, asked) => {
    (byParts() ? total : delivered).textContent = watts(found.full);
    details.hidden = false;
    table.hidden = !found.units.length;
    const offer = found.offer;
    rating.replaceChildren(offer ? make("a", { href: leadsTo(offer.address) }, watts(found.rating)) : say("worksheet.none"));
    said.replaceChildren(make("p", {}, make("span", { class: "unseen" }, offer ? `${say("worksheet.look_for", { rating: watts(found.rating) })} ` : ""), make("span", { lang }, found.reasons[0])),
      make("p", { class: "rule" }, `${say("worksheet.decided")} `, make("span", { lang }, `${found.rule}.`)));
    why.replaceChildren(...paragraphs(found.reasons.slice(1)), make("p", {}, make("span", { lang: lang && document.documentElement.lang }, plugWords(found)), ` ${found.circuit}`));
    toList.replaceChildren(...(offer ? listLinks(found, asked) : []));
    sumsList.replaceChildren(...found.steps.map((step) => make("li", {}, step)));
    fits.replaceChildren(...paragraphs(found.fits));
    caption.textContent = say("worksheet.caption", { load: watts(found.full) });
    drawn = found;
    drawStrips();
    const made = found.units.map((unit) => rowOf(unit, found.region));
    rows.replaceChildren(...made.slice(0, MOST));
    moreRows.replaceChildren(...made.slice(MOST));
    more.hidden = made.length <= MOST;
    moreTitle.textContent = say("worksheet.more", { count: made.length - MOST });
  };
  const mark = (faults) => {
    for (const [id, { control, message }] of fields) {
      const found = faults.find(([field]) => field === id);
      message.textContent = found ? found[1] : "";
      if (found) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
  };
  const update = () => {
    partsGroup.hidden = !byParts();
    meterGroup.hidden = byParts();
    const faults = [];
    const asked = question(faults);
    showSums(asked);
    let found = null;
    // A field that is still empty is no fault: the answer waits for it.
    const waiting = !byParts() && !value("wall");
    if (!faults.length && !waiting) {
      try {
        found = sizing.answer(asked);
      } catch (error) {
        if (!error.field) throw error;
        faults.push([error.field, error.message]);
      }
    }
    mark(faults);
    clear();
    if (found) show(found, asked);
    else said.replaceChildren(make("p", {}, faults.length ? say("worksheet.no_answer") : say("worksheet.no_reading")));
  };

  // What was entered, in the address and back.
  const remember = () => {
    const kept = new URLSearchParams();
    if (byParts()) {
      for (const kind of Object.keys(chosenKinds)) if (value(kind)) kept.set(value(kind), "1");
      for (const part of counted) if (value(part.id) && value(part.id) !== "0") kept.set(part.id, value(part.id));
    } else kept.set("wall", value("wall"));
    for (const id of ["headroom", "depth", "budget", "region", "profile"]) if (value(id)) kept.set(id, value(id));
    history.replaceState(null, "", `#${kept}`);
  };
  const enter = (kept) => {
    form.elements.way.value = kept.has("wall") ? "wall" : "parts";
    for (const kind of Object.keys(chosenKinds)) {
      const found = byKind(kind).find(({ id }) => kept.has(id));
      fields.get(kind).control.value = found ? found.id : chosenKinds[kind] ? "" : byKind(kind)[0].id;
    }
    for (const part of counted) fields.get(part.id).control.value = kept.get(part.id) ?? "0";
    for (const id of ["wall", "headroom", "depth", "budget"]) fields.get(id).control.value = kept.get(id) ?? { headroom: "0" }[id] ?? "";
    for (const [id, all, first] of [["region", data.regions, data.home], ["profile", data.profiles, data.profiles[0].id]]) {
      fields.get(id).control.value = all.some((one) => one.id === kept.get(id)) ? kept.get(id) : first;
    }
    update();
  };
  const fromAddress = () => {
    if (!location.hash.includes("=")) return false;
    enter(new URLSearchParams(location.hash.slice(1)));
    filled();
    return true;
  };

  place.append(make("p", { class: "note" }, say("worksheet.note")),
    make("div", { class: "columns" }, form, answer), fits, table, strips);
  if (!fromAddress()) enter(new URLSearchParams(data.usual));
  form.addEventListener("input", () => { filled(); update(); remember(); });
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("reset", (event) => {
    event.preventDefault();
    place.classList.remove("filled");
    enter(new URLSearchParams(data.usual));
    history.replaceState(null, "", location.pathname + location.search);
  });
  addEventListener("hashchange", () => { if (fromAddress()) place.scrollIntoView(); });
  place.hidden = false;
  const near = new IntersectionObserver((seen) => {
    if (!seen.some((one) => one.isIntersecting)) return;
    wantStrips();
    near.disconnect();
  }, { rootMargin: "0px 0px 600px" });
  near.observe(fits);
})();
