// What the search field does: loaded when it is first used, and its index and style with it.
(() => {
  "use strict";
  const place = document.querySelector(".search");
  const { index, sheet } = place.dataset;
  const root = index.slice(0, index.lastIndexOf("/") + 1); // the index stands at the root of the site
  const most = 12;
  const say = window.guideSay;

  const made = (tag, attributes, ...inside) => {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    element.append(...inside);
    return element;
  };
  const form = place.querySelector("form");
  const field = form.querySelector("input");
  const status = made("p", { role: "status" });
  const list = made("ul", {});
  const found = made("div", { class: "search-found", hidden: "" }, status, list);
  place.append(found);

  const plain = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/\s+/gu, " ").trim();
  // Several words for a power supply are asked for by what they have in common, and a number of watts by the number.
  const [names, common] = say("search.same").split(": ");
  const meant = (words) => names.split(", ").reduce((text, name) => text.replaceAll(` ${name} `, ` ${common} `), ` ${words} `)
    .replace(/ (\d+) ?w(?:atts?)?(?= )/g, " $1").trim();
  const kept = (text) => text.replace(/(\d) (?=(?:[AVW]|mm|mV|dB\(A\)|%)(?!\w))/g, "$1\u00a0"); // a number stays with its unit
  let entries;
  let asked = false;
  const load = () => {
    if (asked) return;
    asked = true;
    document.head.append(made("link", { rel: "stylesheet", href: sheet }));
    const script = made("script", { src: index });
    script.addEventListener("load", () => {
      entries = globalThis.guideIndex.map((entry) => ({ entry, title: plain(entry[0]), all: plain(entry.join(" ")) }));
      show();
    });
    script.addEventListener("error", () => { asked = false; status.textContent = say("search.failed"); });
    document.head.append(script);
  };

  // Every word must occur; titles that begin with the words come first, then titles that hold them.
  const matches = (words) => {
    const parts = words.split(" ");
    const rank = ({ title }) => (title.startsWith(words) ? 0 : parts.every((part) => title.includes(part)) ? 1 : 2);
    return entries.filter(({ all }) => parts.every((part) => all.includes(part)))
      .map((one) => [rank(one), one.entry]).sort((a, b) => a[0] - b[0]).map(([, entry]) => entry);
  };

  const show = () => {
    const words = plain(field.value);
    found.hidden = !words;
    if (!words || !entries) return;
    const all = matches(meant(words));
    const shown = all.slice(0, most);
    status.textContent = all.length > most ? say("search.many", { count: all.length, shown: most })
      : all.length === 1 ? say("search.one") : all.length ? say("search.several", { count: all.length }) : say("search.none");
    list.replaceChildren(...shown.map(([title, address, kind]) => (
      made("li", {}, made("a", { href: root + address }, made("b", {}, kept(title)), ` ${kept(kind)}`))
    )));
  };

  const close = () => { found.hidden = true; };
  field.addEventListener("focus", () => { load(); show(); });
  field.addEventListener("input", () => { load(); show(); });
  form.addEventListener("submit", () => {
    if (!found.hidden) list.querySelector("a")?.click();
  });
  place.addEventListener("focusout", (event) => { if (!place.contains(event.relatedTarget)) close(); });
  place.addEventListener("keydown", (event) => {
    if (event.key === "Escape") {
      field.focus();
      close();
    }
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step || found.hidden) return;
    event.preventDefault();
    const stops = [field, ...list.querySelectorAll("a")];
    stops[Math.min(Math.max(stops.indexOf(document.activeElement) + step, 0), stops.length - 1)].focus();
  });
  load();
  show();
})();
