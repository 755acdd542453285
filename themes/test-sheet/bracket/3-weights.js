// The reader's own weights: a slider for each criterion, made here, so that there is none without script. Every move ranks
// the table again; what is said aloud waits until the reader rests.
(() => {
  "use strict";
  const { address, weighing } = window.guidegenBracket;
  if (!weighing) return;
  const { say, withUnit, sum } = window.guidegenNumbers;
  const { data, published, sharesOf, percent, said, names, sameAsOurs, show } = weighing;
  const NAME = "weights";
  const REST_MS = 500;
  const MOST = Math.max(100, ...published);

  const make = (tag, attributes = {}, ...inside) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...inside);
    return made;
  };
  const ours = sharesOf(published);
  const lines = data.criteria.map(({ id, title }, c) => {
    const control = make("input", { type: "range", min: "0", max: `${MOST}`, step: "1", autocomplete: "off", id: `weight-${id}` });
    const share = make("output", { for: control.id, "aria-live": "off" });
    const own = make("small", {}, say("weights.ours", { share: percent(ours[c]) }));
    return { control, share, line: make("p", {}, make("label", { for: control.id }, title), share, control, own) };
  });
  const back = make("button", { type: "button" }, say("weights.back"));
  const status = make("p", { role: "status" });
  const form = make("fieldset", { class: "weights" }, make("legend", {}, say("weights.legend")),
    make("div", {}, ...lines.map(({ line }) => line)), status, make("p", { class: "hint" }, `${say("weights.stays")} `, back));
  const note = make("p", { class: "note" }, say("weights.note", { certainty: withUnit(95, "%") }));
  const ourNote = document.getElementById("level-note");
  const scroll = document.getElementById("ranking").parentNode;

  let points = published;
  let frame = 0;
  let rest = 0;
  const tell = () => {
    status.textContent = !sum(points) ? say("weights.nothing") : sameAsOurs(points) ? say("weights.hint") : said(points, names);
  };
  const update = () => {
    frame = 0;
    if (!sum(points)) return;
    const shares = sharesOf(points);
    const own = !sameAsOurs(points);
    lines.forEach(({ control, share }, c) => {
      share.textContent = percent(shares[c]);
      control.setAttribute("aria-valuetext", say("weights.share", { share: share.textContent }));
    });
    show(points);
    form.classList.toggle("own", own);
    note.hidden = !own;
    if (ourNote) ourNote.hidden = own;
  };
  const enter = (wanted) => {
    points = wanted;
    lines.forEach(({ control }, c) => { control.value = points[c]; });
    update();
    tell();
  };
  const fromAddress = () => {
    const wanted = address.get(NAME).split(",");
    const good = wanted.length === published.length && wanted.every((text) => /^\d+(\.\d+)?$/.test(text) && Number(text) <= MOST);
    const found = good ? wanted.map(Number) : published;
    return sum(found) ? found : published;
  };

  form.addEventListener("input", () => {
    points = lines.map(({ control }, c) => (Number(control.value) === Math.round(points[c]) ? points[c] : Number(control.value)));
    if (sum(points)) address.set(NAME, sameAsOurs(points) ? "" : points.join());
    frame ||= requestAnimationFrame(update);
    clearTimeout(rest);
    rest = setTimeout(tell, REST_MS);
  });
  back.addEventListener("click", () => {
    clearTimeout(rest);
    address.set(NAME, "");
    lines[0].control.focus();
    enter(published);
  });
  address.onchange(() => enter(fromAddress()));

  scroll.before(form);
  scroll.after(note);
  enter(fromAddress());
})();
