// The ranking of a bracket by any weights: the same sums as the guide's own, in the same order, so that scores, places
// and level units agree. Nothing here touches the page but to read the data that stands in it.
(() => {
  "use strict";
  const element = document.getElementById("weighing");
  if (!element) return;
  const { number, sum } = window.guidegenNumbers;
  const data = JSON.parse(element.textContent);
  const { criteria, units, tiers } = data;
  const published = criteria.map(({ points }) => points);
  const parts = criteria.flatMap(({ parts: own, measures }, c) => own.map((points, p) => ({ c, points, total: sum(own), measure: measures[p] })));
  const measures = [...new Set(parts.map(({ measure }) => measure))];

  const sharesOf = (points) => {
    const total = sum(points);
    return points.map((one) => one / total);
  };
  // Each criterion's worth by itself, 0 to 1, with everything unknown at its worst: it does not depend on the weights.
  const worths = units.map(({ low }) => criteria.map((_, c) => (
    sum(parts.map((part, i) => (part.c === c ? part.points * (low[i] ?? 0) : 0))) / sum(criteria[c].parts))));

  // What was not measured counts from worth 0 to worth 1.
  const scored = ({ low }, weights, unknown) => 100 * sum(weights.map((weight, i) => weight * (low[i] ?? unknown)));
  // Standard uncertainty of a difference in points: own doubts add in quadrature, shared ones, which move all that was
  // measured alike together, as far as they differ.
  const doubt = (a, b, weights) => {
    let squares = 0;
    for (let i = 0; i < weights.length; i += 1) {
      squares += weights[i] * weights[i] * (a.own[i] * a.own[i] + b.own[i] * b.own[i]);
    }
    for (const measure of measures) {
      const between = sum(parts.map((part, i) => (part.measure === measure ? weights[i] * (a.shared[i] - b.shared[i]) : 0)));
      squares += between * between;
    }
    return 100 * Math.sqrt(squares);
  };

  const printed = ({ low, high }) => {
    const [worst, best] = [number(low, 1), number(high, 1)];
    return worst === best ? worst : `${worst}–${best}`;
  };
  const tierOf = (score) => (tiers.find(([from]) => score >= from) ?? tiers.at(-1))[1];

  // Every unit with its score, its place, the places that its level units leave open, and who these are, best first.
  const rank = (points) => {
    const shares = sharesOf(points);
    const weights = parts.map((part) => shares[part.c] * part.points / part.total);
    const field = units.map((unit, index) => ({ index, unit, low: scored(unit, weights, 0), high: scored(unit, weights, 1) }));
    field.sort((a, b) => b.low - a.low || (a.unit.id < b.unit.id ? -1 : 1));
    const above = (a, b) => (
      a.low - b.high > data.tie && a.low - b.high > data.certainty * doubt(a.unit, b.unit, weights));
    for (const one of field) {
      const others = field.filter((other) => other !== one);
      const [over, under] = [others.filter((other) => above(other, one)), others.filter((other) => above(one, other))];
      one.place = 1 + others.filter((other) => other.low > one.low + data.tie).length;
      one.best = 1 + over.length;
      one.worst = field.length - under.length;
      one.level = others.filter((other) => !over.includes(other) && !under.includes(other)).map(({ index }) => index);
    }
    return field;
  };

  window.guidegenBracket.weighing = { data, published, sharesOf, worths, printed, tierOf, rank };
})();
