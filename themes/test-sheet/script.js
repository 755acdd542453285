// Sorting of tables, and a few kindnesses. The pages are complete without it.
(() => {
  "use strict";
  document.documentElement.classList.add("scripted");

  // Rows set as blocks lose their meaning for some screen readers: say again what they are.
  const roles = { TABLE: "table", THEAD: "rowgroup", TBODY: "rowgroup", TR: "row", TD: "cell" };
  for (const table of document.querySelectorAll("table.stacked, table.ranking")) {
    for (const part of [table, ...table.querySelectorAll("thead, tbody, tr, td, th")]) {
      part.setAttribute("role", roles[part.tagName] || (part.scope === "row" ? "rowheader" : "columnheader"));
    }
  }

  const words = JSON.parse(document.getElementById("words").textContent);
  const say = (name, values = {}) => words[name].replace(/\{(\w+)\}/g, (_, value) => values[value]);
  window.guideSay = say;
  const text = (cell) => cell.textContent.trim();
  const language = document.documentElement.lang;

  // Missing values come last either way; rows of equal value keep the order in which the page came.
  const sorted = (rows, column, down) => {
    const numeric = rows.some((row) => row.cells[column].dataset.v !== undefined);
    const keys = new Map(rows.map((row) => {
      const cell = row.cells[column];
      return [row, numeric ? Number.parseFloat(cell.dataset.v ?? "NaN") : text(cell)];
    }));
    const missing = (row) => keys.get(row) === "" || Number.isNaN(keys.get(row));
    const compare = (a, b) => (numeric ? a - b : a.localeCompare(b, language, { numeric: true }));
    return [...rows].sort((a, b) => (
      missing(a) - missing(b)
      || (missing(a) ? 0 : (down ? -1 : 1) * compare(keys.get(a), keys.get(b)))
    ));
  };

  for (const table of document.querySelectorAll("table")) {
    const headings = [...table.querySelectorAll("th[data-sort]")];
    if (!headings.length) continue;
    const body = table.tBodies[0];
    let rows = [...body.rows];
    const status = document.createElement("p");
    status.setAttribute("role", "status");
    status.className = "unseen";
    table.parentNode.after(status);
    // Another script that ranks the rows again says so; they are then in that order, and sorted by no heading.
    table.addEventListener("ranked", () => {
      rows = [...body.rows];
      for (const heading of headings) heading.removeAttribute("aria-sort");
    });
    for (const heading of headings) {
      const button = document.createElement("button");
      button.type = "button";
      button.append(...heading.childNodes);
      heading.append(button);
      button.addEventListener("click", () => {
        const down = heading.getAttribute("aria-sort") === "ascending";
        for (const other of headings) other.removeAttribute("aria-sort");
        heading.setAttribute("aria-sort", down ? "descending" : "ascending");
        body.append(...sorted(rows, heading.cellIndex, down));
        status.textContent = say(down ? "sorting.down" : "sorting.up", { column: text(button) });
      });
    }
  }

  // The search field stands from the beginning; what it does is loaded when it is first used.
  const place = document.querySelector(".search");
  if (place) {
    const form = document.createElement("form");
    form.setAttribute("role", "search");
    const label = document.createElement("label");
    label.textContent = say("search.label");
    const field = document.createElement("input");
    Object.assign(field, { type: "search", id: "search-field", autocomplete: "off", spellcheck: false });
    label.htmlFor = field.id;
    form.append(label, field);
    place.append(form);
    const wake = () => {
      const script = document.createElement("script");
      script.src = place.dataset.script;
      script.addEventListener("error", () => field.addEventListener("focus", wake, { once: true }));
      document.head.append(script);
    };
    field.addEventListener("focus", wake, { once: true });
    form.addEventListener("submit", (event) => event.preventDefault());
  }

  // A link into a closed drawer opens it, also where the browser does not do so by itself.
  const reveal = () => {
    const place = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    const drawer = place?.closest("details:not([open])");
    if (!drawer) return;
    drawer.open = true;
    place.scrollIntoView();
  };
  addEventListener("hashchange", reveal);
  reveal();

  // A box that has nothing to scroll needs no stop of the tab key.
  const boxes = document.querySelectorAll(".scroll");
  const watch = new ResizeObserver((entries) => {
    for (const { target } of entries) {
      if (target.scrollWidth > target.clientWidth + 1) target.tabIndex = 0;
      else target.removeAttribute("tabindex");
    }
  });
  for (const box of boxes) watch.observe(box);
})();
