// The rows of a bracket's table by any weights, and back to what was published, letter by letter.
(() => {
  "use strict";
  const { weighing } = window.guidegenBracket;
  if (!weighing) return;
  const { say, number, withUnit } = window.guidegenNumbers;
  const { data, published, sharesOf, worths, printed, tierOf, rank } = weighing;
  const SAME_SHARE = 1e-12;
  // What a row says is told in the words in which it was published.
  const levelWith = (name) => `level with the ${name}`;
  const table = document.getElementById("ranking");
  const body = table.tBodies[0];

  // What a row shows that depends on the weights: first as it was published, then whatever was put there.
  const rowOf = (row, index) => {
    const { noted } = data.units[index];
    const [place, score] = ["td.place", "td.score"].map((cell) => row.querySelector(cell));
    const [points, tier, svg] = ["b", "p small", "svg"].map((part) => score.querySelector(part));
    const name = row.querySelector("th");
    const note = noted ? null : name.querySelector("small") ?? document.createElement("small");
    const drawn = { tracks: [...svg.querySelectorAll(".p-track")], fills: [...svg.querySelectorAll(".p-fill")], title: svg.querySelector("title") };
    const ours = {
      place: place.textContent, order: place.dataset.v, score: points.textContent, value: score.dataset.v, tier: tier.textContent,
      note: note?.isConnected ? note.textContent : "", tracks: drawn.tracks.map((one) => one.getAttribute("d")),
      fills: drawn.fills.map((one) => one.getAttribute("width")), title: drawn.title.textContent,
    };
    let shown = ours;
    const show = (wanted) => {
      if (wanted.place !== shown.place) place.textContent = wanted.place;
      if (wanted.score !== shown.score) points.textContent = wanted.score;
      if (wanted.tier !== shown.tier) tier.textContent = wanted.tier;
      if (wanted.title !== shown.title) drawn.title.textContent = wanted.title;
      if (note && wanted.note !== shown.note) {
        note.textContent = wanted.note;
        if (wanted.note) name.append(note);
        else note.remove();
      }
      place.dataset.v = wanted.order;
      score.dataset.v = wanted.value;
      drawn.tracks.forEach((one, c) => { if (wanted.tracks[c] !== shown.tracks[c]) one.setAttribute("d", wanted.tracks[c]); });
      drawn.fills.forEach((one, c) => { if (wanted.fills[c] !== shown.fills[c]) one.setAttribute("width", wanted.fills[c]); });
      shown = wanted;
    };
    return { row, ours, show, name: name.querySelector("a").textContent };
  };
  const rows = data.units.map((_, index) => rowOf(body.rows[index], index));
  const unplaced = [...body.rows].slice(rows.length);
  const names = rows.map(({ name }) => name);

  // A row by other weights, in the form of the published one; a track is as long as its weight (sheets/pieces.html).
  const untested = data.units.map(({ low }) => {
    let place = 0;
    return data.criteria.map(({ parts }) => low.slice(place, place += parts.length).includes(null));
  });
  const drawingOf = (shares) => {
    const long = shares.map((share) => 100 * share / Math.max(...shares));
    return {
      long, tracks: long.map((length, c) => `M71 ${13 * c + 6}h${number(length, 1)}m0-3v6`),
      percents: shares.map((share) => withUnit(100 * share, "%", 1)),
    };
  };
  const looks = ({ index, unit, low, high, place, best, worst, level }, above, { long, tracks, percents }) => {
    const part = (criterion, c) => `${criterion.title}: ${unit.worths[c]} of 100, weight ${percents[c]}`
      + (untested[index][c] ? ", not everything tested" : "");
    return {
      tracks, place: best === worst ? `${best}` : `${best}–${worst}`, order: `${place}`,
      score: printed({ low, high }), value: number(low, 1), tier: tierOf(low),
      note: above && level.includes(above.index) ? levelWith(names[above.index]) : "",
      fills: long.map((length, c) => (length * worths[index][c]).toFixed(1)),
      title: `${names[index]}: ${data.criteria.map(part).join("; ")}`,
    };
  };

  const sameAsOurs = (points) => {
    const ours = sharesOf(published);
    return sharesOf(points).every((share, c) => Math.abs(share - ours[c]) < SAME_SHARE);
  };

  // Rows that are in order among themselves stay (the longest rising run, Schensted 1961, from memory); only the others
  // are moved, since every moved row costs the browser its layout.
  const staying = (places) => {
    const [ends, before] = [[], []];
    places.forEach((place, i) => {
      const length = ends.findIndex((end) => places[end] >= place);
      const at = length < 0 ? ends.length : length;
      before[i] = ends[at - 1];
      ends[at] = i;
    });
    const found = new Set();
    for (let i = ends.at(-1); i !== undefined; i = before[i]) found.add(i);
    return found;
  };
  const arrange = (ordered) => {
    const wanted = [...ordered, ...unplaced];
    const now = new Map([...body.rows].map((row, place) => [row, place]));
    const kept = staying(wanted.map((row) => now.get(row)));
    let below = null;
    for (let i = wanted.length - 1; i >= 0; i -= 1) {
      if (!kept.has(i)) body.insertBefore(wanted[i], below);
      below = wanted[i];
    }
    table.dispatchEvent(new Event("ranked"));
  };
  const caption = document.createElement("span");
  caption.textContent = ` ${say("weights.caption")}`;
  const show = (points) => {
    if (sameAsOurs(points)) {
      for (const one of rows) one.show(one.ours);
      arrange(rows.map(({ row }) => row));
      caption.remove();
      return;
    }
    const drawing = drawingOf(sharesOf(points));
    const field = rank(points);
    field.forEach((one, i) => rows[one.index].show(looks(one, field[i - 1], drawing)));
    arrange(field.map(({ index }) => rows[index].row));
    table.caption.append(caption);
  };

  Object.assign(weighing, { names, sameAsOurs, show });
})();
