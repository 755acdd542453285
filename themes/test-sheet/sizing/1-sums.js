// The sums of the sizing worksheet: the same arithmetic as the guide's own, in the same order, so that every printed
// digit agrees. Nothing here touches the page but to read the data that stands in it.
(() => {
  "use strict";
  const data = JSON.parse(document.getElementById("worksheet-data").textContent);
  const { NB, say, number, withUnit, sum } = window.guidegenNumbers;
  const ROUNDING = 1e-9;
  const rules = data.rules;

  const watts = (value) => withUnit(value, "W");
  const percent = (share) => withUnit(100 * share, "%");
  const percentAgainst = (share, limit) => {
    const apart = [0, 1, 2].find((d) => share === limit || number(100 * share, d) !== number(100 * limit, d)) ?? 2;
    return withUnit(100 * share, "%", apart);
  };
  // Reasons and sums are told in the language of the guide's own.
  const listed = (all) => window.guidegenNumbers.listed(all, "and");
  const money = (amount, region) => `${region.mark}${NB}${number(amount, amount >= 20 ? 0 : 2)}`;

  // The shape-preserving cubic through measured losses (Fritsch and Carlson 1980).
  const edge = (h0, h1, m0, m1) => {
    const slope = ((2 * h0 + h1) * m0 - h0 * m1) / (h0 + h1);
    if (Math.sign(slope) !== Math.sign(m0)) return 0;
    return Math.sign(m0) !== Math.sign(m1) && Math.abs(slope) > 3 * Math.abs(m0) ? 3 * m0 : slope;
  };
  const slopes = (points) => {
    const h = points.slice(1).map(([x], i) => x - points[i][0]);
    const m = points.slice(1).map(([, y], i) => (y - points[i][1]) / h[i]);
    if (points.length === 2) return [m[0], m[0]];
    const inner = m.slice(1).map((next, i) => {
      if (Math.sign(next) !== Math.sign(m[i]) || !next || !m[i]) return 0;
      const [w1, w2] = [2 * h[i + 1] + h[i], h[i + 1] + 2 * h[i]];
      return 1 / ((w1 / m[i] + w2 / next) / (w1 + w2));
    });
    const n = m.length;
    return [edge(h[0], h[1], m[0], m[1]), ...inner, edge(h[n - 1], h[n - 2], m[n - 1], m[n - 2])];
  };
  const within = (points, load) => points && points.length && points[0][0] <= load && load <= points.at(-1)[0];
  const lossAt = (points, load) => {
    if (!within(points, load) || points.length < 2) return null;
    const d = slopes(points);
    const i = Math.max(0, Math.min(points.findLastIndex(([x]) => x <= load), points.length - 2));
    const [[x0, y0], [x1, y1]] = [points[i], points[i + 1]];
    const h = x1 - x0;
    const slope = (y1 - y0) / h;
    const t = (d[i] + d[i + 1] - 2 * slope) / h;
    const s = load - x0;
    return y0 + d[i] * s + ((slope - d[i]) / h - t) * (s * s) + (t / h) * (s * s * s);
  };
  const efficiencyAt = (points, load) => {
    const lost = lossAt(points, load);
    return lost === null || load <= 0 ? null : (100 * load) / (load + lost);
  };
  const straightAt = (points, load) => {
    if (!within(points, load)) return null;
    const right = points.findIndex(([x]) => x >= load);
    if (right === 0 || points[right][0] === load) return points[right][1];
    const [[x0, y0], [x1, y1]] = [points[right - 1], points[right]];
    return y0 + ((load - x0) / (x1 - x0)) * (y1 - y0);
  };

  // What a question comes to: the load, then the rating, then the units. Faults are told by field.
  const fault = (field, message) => Object.assign(new Error(message), { field });
  const checked = (value, name, field) => {
    if (!(Number.isFinite(value) && value > 0 && value <= rules.most_w)) {
      throw fault(field, say("worksheet.at_most", { name, most: watts(rules.most_w) }));
    }
    return value;
  };
  const awake = (delivered) => {
    if (delivered < rules.least_w) throw fault("wall", say("worksheet.awake", { least: watts(rules.least_w) }));
    return delivered;
  };
  const buildOf = (wanted) => {
    const lines = data.parts.filter((part) => wanted[part.id]).map((part) => ({ part, count: wanted[part.id] }));
    for (const { part, count } of lines) {
      if (!Number.isInteger(count) || count < 0 || count > part.most) throw fault(part.id, say("worksheet.whole", { most: part.most }));
    }
    if (!lines.length) throw fault("processor", say("worksheet.no_part"));
    const total = (state, some = lines) => sum(some.map(({ part, count }) => count * part[state]));
    const onRail = (rail) => total("sustained", lines.filter(({ part }) => part.rail === rail));
    const full = checked(total("sustained"), say("worksheet.full_load"), "processor");
    const peaks = lines.map(({ part, count }) => ({ part, extra: count * part.peak - count * part.sustained }))
      .filter(({ extra }) => extra > 0).map(({ part, extra }) => ({ power: full + extra, ms: part.peak_ms, title: part.title }));
    const plugs = data.plugs.map((_, i) => lines.reduce((all, { part, count }) => all + count * part.plugs[i], 0));
    return { lines, full, idle: total("idle"), typical: total("typical"), rail: onRail("12v"), minor: onRail("5v") + onRail("3v3"), peaks, plugs };
  };
  const loadOf = (load, headroom) => ({
    ...load, headroom, grown: load.full * (1 + headroom / 100), aged: load.full * (1 + rules.ageing / 100), amps: load.rail / 12,
  });
  const usesOf = (profile, build, full) => {
    const known = build ? { idle: build.idle, work: Math.min(build.typical, full) } : {};
    const uses = profile.uses.map(([use, share, hours]) => ({ use, load: known[use] ?? full * share / 100, hours }));
    const rest = build && !uses.some(({ use }) => use === "idle") ? [{ use: "idle", load: build.idle, hours: 0 }] : [];
    return [...rest, ...uses, { use: "full", load: full, hours: 0 }];
  };
  const named = (all, id, field) => {
    const found = all.find((one) => one.id === id);
    if (!found) throw fault(field, say("worksheet.listed"));
    return found;
  };

  // The rating: the smallest that breaks no rule, or the largest where it can bear the load.
  const meets = (value, limit) => value <= limit * (1 + ROUNDING);
  const allowed = (ms, excursions) => Math.max(...excursions.filter(([, lasts]) => lasts >= ms).map(([peak]) => peak), -1);
  const allowedPct = (ms, excursions) => { const found = allowed(ms, excursions); return found < 0 ? 100 : found; };
  const failing = (load, offer) => {
    const { rating, excursions, rail_12v: rail } = offer;
    const kept = {
      middle: meets(load.full, rating * (rules.high / 100)),
      headroom: meets(load.grown, rating * (rules.high / 100)),
      ceiling: meets(load.aged, rating * rules.never / 100),
      peaks: load.peaks.every(({ power, ms }) => power <= rating * allowedPct(ms, excursions) / 100),
      rail_12v: rail === null || meets(load.amps, rail),
    };
    return Object.keys(kept).filter((rule) => !kept[rule]);
  };
  const recommend = (load) => {
    const made = (place, rule) => ({
      offer: data.offers[place], rating: data.offers[place].rating, share: load.full / data.offers[place].rating, rule,
      smaller: data.offers[place - 1]?.rating ?? null, larger: data.offers[place + 1]?.rating ?? null,
      met: meets(load.grown, data.offers[place].rating * rules.high / 100),
    });
    const place = data.offers.findIndex((offer) => !failing(load, offer).length);
    if (place >= 0) return made(place, place ? failing(load, data.offers[place - 1])[0] : "middle");
    const broken = failing(load, data.offers.at(-1));
    if (broken.every((rule) => rule === "middle" || rule === "headroom")) {
      return made(data.offers.length - 1, broken.includes("middle") ? "ceiling" : "headroom");
    }
    return { offer: null, rating: null, share: null, rule: "largest", smaller: null, larger: null, met: false };
  };

  // The units: advised, able, as wished; of every rating that keeps the load within the rule, the smallest first and in it
  // the best score; what can't be bought now stands below them all.
  const largestFor = (load) => load.full * 100 / rules.low;
  const fitting = (found, load, wishes, build, region) => {
    if (found.rating === null) return [];
    const largest = Math.max(found.rating, largestFor(load));
    const fits = data.units.filter((unit) => {
      if (!region.advised[unit.id] || unit.rating < found.rating || unit.rating > largest) return false;
      const broken = failing(load, unit).filter((rule) => found.met || (rule !== "middle" && rule !== "headroom"));
      return !broken.length && (build?.minor ?? 0) <= unit.minor && (wishes.depth === null || unit.depth <= wishes.depth)
        && (wishes.budget === null || (region.advised[unit.id][1] ?? Infinity) <= wishes.budget)
        && wishes.plugs.every((count, i) => count <= unit.plugs[i]);
    });
    const said = ({ id }) => region.advised[id];
    return fits.sort((a, b) => !!said(a)[2] - !!said(b)[2] || a.rating - b.rating || said(b)[0] - said(a)[0] || (a.id < b.id ? -1 : 1));
  };
  // Energy in a year, kWh, with its own doubt and that of the meters: [value, own, shared]. A loss is [load, W, own, shared].
  const doubtAt = (points, load) => {
    const right = points.findIndex(([x]) => x >= load);
    const [x1, , own1, shared1] = points[right];
    if (right === 0 || x1 === load) return [own1, shared1];
    const [x0, , own0, shared0] = points[right - 1];
    const share = (load - x0) / (x1 - x0);
    return [Math.hypot((1 - share) * own0, share * own1), (1 - share) * shared0 + share * shared1];
  };
  const yearly = (loss, uses, standby) => {
    const kwh = (power, hours) => power * hours * 365 / 1000;
    const timed = uses.filter(({ hours }) => hours > 0);
    const lost = timed.map(({ load }) => lossAt(loss, load) ?? straightAt(loss, load));
    if (!loss || lost.includes(null)) return null;
    const off = Math.max(0, 24 - sum(timed.map(({ hours }) => hours)));
    const lines = timed.map(({ load, hours }, i) => [load + lost[i], ...doubtAt(loss, load)].map((power) => kwh(power, hours)));
    if (standby) lines.push(standby.map((power) => kwh(power, off)));
    const [energy, own, shared] = [0, 1, 2].map((i) => lines.map((line) => line[i]));
    return [sum(energy), Math.hypot(...own), sum(shared)];
  };
  const shown = (unit, load, uses, region) => {
    const mains = unit.nearest[region.mains];
    const { loss, noise, bounded } = unit.bench[mains];
    const efficiency = loss ? efficiencyAt(loss, load.full) : null;
    const [low, price, absent, high] = region.advised[unit.id];
    const ends = [low, high ?? low].map((end) => number(end, 1));
    const energy = yearly(loss, uses, unit.standby)?.[0] ?? null;
    return {
      id: unit.id, name: unit.name, address: unit.address, rating: unit.rating, score: [...new Set(ends)].join("–"), price, absent, share: load.full / unit.rating,
      efficiency, noise: noise ? straightAt(noise, load.full) : null, bound: load.full <= bounded, mains,
      heat: efficiency ? load.full * 100 / efficiency - load.full : null, energy, cost: energy === null ? null : energy * region.tariff, made: unit, loss,
    };
  };

  window.guidegenSizing = {
    data, rules, say, NB, number, withUnit, watts, percent, percentAgainst, listed, money, sum, lossAt, fault, checked, awake, buildOf, loadOf,
    usesOf, named, allowedPct, failing, recommend, largestFor, fitting, shown, yearly, straightAt,
  };
})();
