// The answer to a question of the sizing worksheet, in the words of the guide: rule, reasons, sums, what to give up.
(() => {
  "use strict";
  const sizing = window.guidegenSizing;
  const { data, rules, say, NB, number, withUnit, watts, percent, percentAgainst, listed, fault, checked, awake } = sizing;
  const { buildOf, loadOf, usesOf, named, allowedPct, failing, recommend, largestFor, fitting, shown, yearly, money } = sizing;
  const high = rules.high / 100;
  const never = rules.never / 100;
  const nothing = "A supply delivers what the computer asks for, not what its label says: more watts than that buy nothing.";

  const ruleWords = (found, load) => ({
    middle: `usual full load at most ${percent(high)} of the rating`,
    headroom: `${percent(load.headroom / 100)} of room for a later upgrade, as wished`,
    peaks: "short peaks within what the supply may deliver for a moment",
    rail_12v: "current on 12 V within the rail",
    ceiling: `the largest rating here: above the ${percent(high)} to aim at, and with ageing below the ${percent(never)} never to exceed`,
    largest: "no rating in the guide is large enough",
  })[found.rule];

  const tooMuch = (load) => {
    const largest = data.offers.at(-1);
    const broken = failing(load, largest);
    const said = `No rating in this guide is large enough for ${watts(load.full)}: the largest is ${watts(largest.rating)}`;
    if (broken.includes("ceiling")) {
      return `${said}, where full load with ageing would be ${percentAgainst(load.aged / largest.rating, never)} of the rating; `
        + `regular use should stay below ${percent(never)}.`;
    }
    const why = broken.includes("peaks") ? "its short peaks exceed what such a supply may deliver" : "its 12 V rail carries less";
    return `${said}, and ${why}.`;
  };
  const smallerFails = ({ rule, smaller }, load) => ({
    headroom: `the upgrade wished for would bring it to ${percentAgainst(load.grown / smaller, high)}`,
    peaks: "its short peaks would exceed what the supply may deliver for a moment",
    rail_12v: `the 12 V rail would be short of ${withUnit(load.amps, "A")}`,
  })[rule] ?? `it would be ${percentAgainst(load.full / smaller, high)}, more than the ${percent(high)} to aim at`;
  const main = (found, load) => {
    const said = `${watts(found.rating)}: the usual full load of ${watts(load.full)} is ${percentAgainst(found.share, high)} of it`;
    if (found.rule === "ceiling") {
      return `${said}, more than the ${percent(high)} to aim at, but no larger rating is in this guide; it stays below the `
        + `${percent(never)} that regular use should never exceed.`;
    }
    if (found.smaller === null) return `${said}; it is the smallest rating in this guide, and enough.`;
    return `${said}; at ${watts(found.smaller)} ${smallerFails(found, load)}.`;
  };
  const goal = (found, load) => {
    if (found.rule === "headroom" && !found.met) {
      return `The upgrade would bring it to ${percentAgainst(load.grown / found.rating, high)}, more than the ${percent(high)} to `
        + "aim at; no larger rating is in this guide.";
    }
    if (found.share < rules.low / 100 && found.rule === "middle" && found.smaller !== null) {
      return `That is below the ${percent(rules.low / 100)} to aim at, because no rating in between is in this guide.`;
    }
    return "";
  };
  const change = (found, load) => {
    const perWatt = high / (1 + load.headroom / 100);
    const said = [];
    if (found.larger !== null) said.push(`above ${watts(found.rating * perWatt)} of full load it would be ${watts(found.larger)}`);
    if (found.smaller !== null && ["middle", "headroom"].includes(found.rule)) {
      said.push(`at ${watts(found.smaller * perWatt)} or less ${watts(found.smaller)} would do`);
    }
    if (load.headroom && found.rule === "headroom") said.push("without the wish for an upgrade a smaller rating may do");
    return said.length ? `What would change the answer: ${said.join("; ")}.` : "";
  };
  // What a larger rating costs beside the recommended one, by the cheapest advised unit of each.
  const priced = (found, larger, region) => {
    const asked = (rating) => Math.min(...data.units.filter((unit) => unit.rating === rating && !region.advised[unit.id]?.[2])
      .map(({ id }) => region.advised[id]?.[1] ?? Infinity));
    const [here, there] = [found.rating, larger].map(asked);
    return Math.max(here, there) === Infinity ? ""
      : `; the cheapest advised unit of ${watts(larger)} costs ${money(there, region)}, that of ${watts(found.rating)} ${money(here, region)}`;
  };
  const asWell = (found, load, serving, region) => {
    const [one] = serving;
    if (!one) return "";
    const several = serving.length > 1;
    return `${listed(serving.map(watts))} ${several ? "keep" : "keeps"} full load within the rule as well, at `
      + `${listed(serving.map((rating) => percent(load.full / rating)))}, so units of ${several ? "those ratings" : "that rating"} that fit `
      + `are offered, too${priced(found, one, region)}.`;
  };
  const tooLarge = (found, load, [beyond], region) => (!beyond ? nothing
    : `Why not ${watts(beyond)}: it would bring full load down to ${percent(load.full / beyond)} and idle with it, nearer to the light `
      + `loads at which every supply wastes most${priced(found, beyond, region)}. ${nothing}`);
  const reasons = (found, load, region) => {
    if (found.rating === null) return [tooMuch(load)];
    const larger = data.offers.map(({ rating }) => rating).filter((rating) => rating > found.rating);
    const serving = larger.filter((rating) => rating <= largestFor(load));
    return [main(found, load), goal(found, load), change(found, load), asWell(found, load, serving, region),
      tooLarge(found, load, larger.slice(serving.length), region)].filter(Boolean);
  };

  // The sums after the full load, for pencil and paper.
  const steps = (found, load) => {
    const said = load.headroom ? [`${watts(load.full)} + ${percent(load.headroom / 100)} for an upgrade = ${watts(load.grown)}`] : [];
    said.push(`${watts(load.grown)} ÷ ${percent(high)} = ${watts(load.grown / high)}`);
    if (!found.offer) return [...said, `Largest rating in the guide: ${watts(data.offers.at(-1).rating)}`];
    const { rating, excursions, rail_12v: rail } = found.offer;
    said.push(`${found.met ? "Next rating" : "Largest rating"} in the guide: ${watts(rating)}`);
    said.push(`${watts(load.full)} + ${percent(rules.ageing / 100)} for ageing = ${watts(load.aged)}: `
      + `${percentAgainst(load.aged / rating, never)} of ${watts(rating)}, never above ${percent(never)}`);
    for (const peak of load.peaks.filter(({ power }) => power > rating)) {
      said.push(`Short peak (${peak.title}): ${watts(peak.power)} for ${number(peak.ms)}${NB}ms is ${percent(peak.power / rating)}; `
        + `the ablest unit may deliver ${percent(allowedPct(peak.ms, excursions) / 100)} for so long`);
    }
    if (load.rail) {
      said.push(`On 12 V: ${watts(load.rail)} ÷ 12${NB}V = ${withUnit(load.amps, "A", 1)}`
        + (rail === null ? "" : `; the rail gives ${withUnit(rail, "A")}`));
    }
    return said;
  };

  // Where nothing fits: the fewest wishes whose giving up brings a unit, each alone, then pairs, then all.
  const called = ({ id, name }, region) => {
    const absent = region.advised[id][2];
    return absent ? `${name} (${absent === "no_price" ? "no fresh price" : absent.replaceAll("_", " ")})` : name;
  };
  const plugWords = (plugs) => listed(plugs.map((n, i) => n && `${n} ${data.plugs[i]}${n > 1 ? "s" : ""}`).filter(Boolean));
  const chosen = (all, size) => (size === 0 ? [[]]
    : all.flatMap((one, i) => chosen(all.slice(i + 1), size - 1).map((rest) => [one, ...rest])));
  const giveUp = (load, wishes, build, region) => {
    const none = wishes.plugs.map(() => 0);
    const words = {
      headroom: `the ${withUnit(load.headroom, "%")} of room for an upgrade`,
      depth: `the limit of ${withUnit(wishes.depth ?? 0, "mm")} in depth`,
      budget: `the limit of ${number(wishes.budget ?? 0)} on the price`,
      plugs: `the plugs asked for (${plugWords(wishes.plugs)})`,
    };
    const active = Object.keys(words).filter((wish) => (
      { headroom: load.headroom > 0, depth: wishes.depth !== null, budget: wishes.budget !== null, plugs: wishes.plugs.some(Boolean) })[wish]);
    for (let size = 1; size <= active.length; size += 1) {
      const helpful = chosen(active, size).map((given) => {
        const relaxed = loadOf(load, given.includes("headroom") ? 0 : load.headroom);
        const [depth, budget] = ["depth", "budget"].map((wish) => (given.includes(wish) ? null : wishes[wish]));
        const left = { depth, budget, plugs: given.includes("plugs") ? none : wishes.plugs };
        return { given, names: fitting(recommend(relaxed), relaxed, left, build, region).map((unit) => called(unit, region)) };
      }).filter(({ names }) => names.length);
      if (helpful.length) {
        return helpful.map(({ given, names }) => {
          const some = names.length <= 3 ? listed(names) : `${names.slice(0, 3).join(", ")} and ${names.length - 3} more`;
          return `If you give up ${listed(given.map((wish) => words[wish]))}, ${some} ${names.length === 1 ? "fits" : "fit"}.`
            + (given.includes("plugs") ? " Then choose parts that need no plug that is missing; do not make one up with an adapter." : "");
        });
      }
    }
    return ["Giving up a wish does not help; wait for the next edition or choose parts that draw less."];
  };
  // What the first unit is among those of its rating that can be bought; alone it is not the best, nor where it can't be.
  const firstWords = (units, several) => {
    const [first] = units;
    if (first.absent) return "";
    const alike = units.filter(({ rating }) => rating === first.rating);
    const there = alike.filter(({ absent }) => !absent);
    const which = (several ? ` with ${watts(first.rating)}` : "") + (there.length < alike.length ? " that can be bought" : "");
    if (there.length === 1) return `; ${first.name} is the only one${which}`;
    return `; ${first.name} has the best score${which && ` of those${which}`}`
      + (there.some(({ score }) => score.includes("–")) ? ", with what was not tested counted at its worst" : "");
  };
  const fitWords = (units, found, region) => {
    const [first] = units;
    const ratings = [...new Set(units.map(({ rating }) => rating))].sort((a, b) => a - b);
    const said = ratings.includes(found.rating) ? []
      : [`No advised unit of that rating fits; those that do have ${listed(ratings.map(watts))}.`];
    said.push(units.length === 1 ? `One advised unit fits: ${first.name}.`
      : `${units.length} advised units fit${firstWords(units, ratings.length > 1)}.`);
    const missing = units.filter(({ absent }) => absent).map((unit) => called(unit, region));
    if (missing.length) said.push(`Not to be had at present: ${listed(missing)}.`);
    if (first.mains !== region.mains) {
      said.push(`The figures of ${first.name} were measured at ${withUnit(first.mains, "V")}, not at the ${withUnit(region.volts, "V")} of your mains; `
        + "efficiency is usually a little lower at the lower voltage.");
    }
    return said;
  };
  // Whether the best unit pays for itself against the cheapest: its saving with the doubt of the meters, 95 %.
  const paying = (units, uses, region) => {
    const [best] = units;
    const there = units.filter(({ absent }) => !absent);
    if (there.length < 2) return [];
    const cheapest = there.reduce((least, one) => (one.price < least.price ? one : least));
    if (cheapest === best) return [`${best.name} is the cheapest of those that can be bought.`];
    const standby = best.made.standby && cheapest.made.standby;
    const [ours, theirs] = [best, cheapest].map(({ loss, made }) => yearly(loss, uses, standby && made.standby));
    if (!ours || !theirs) return [];
    const saved = (theirs[0] - ours[0]) * region.tariff;
    const doubt = 1.96 * Math.hypot(Math.hypot(ours[1], theirs[1]) * region.tariff, Math.abs(theirs[2] - ours[2]) * region.tariff);
    const dearer = best.price - cheapest.price;
    const [years, earliest, latest] = [saved, saved + doubt, saved - doubt].map((value) => (value > 0 ? dearer / value : Infinity));
    const told = (value) => (value === Infinity ? "never" : value > 99 ? "more than 99" : number(value, 1));
    const open = told(earliest) === told(latest) ? "" : ` (${told(earliest)} to ${told(latest)} by the measurements, with 95${NB}%)`;
    const { warranty } = best.made;
    const within = `within its warranty of ${withUnit(warranty, "years", Number.isInteger(warranty) ? 0 : 1)}`;
    const outcome = earliest > warranty ? `it never pays for itself ${within}`
      : latest <= warranty ? `it has paid for itself ${within}` : `the measurements leave open whether it pays for itself ${within}`;
    const yearlyWords = `${money(Math.abs(saved), region)} ± ${money(doubt, region)} a year`;
    return [`Against ${cheapest.name}, the cheapest of those that can be bought, ${best.name} `
      + `${saved > 0 ? `saves ${yearlyWords}` : `costs ${yearlyWords} more to run`} and costs ${money(dearer, region)} more: ${outcome}`
      + (earliest === Infinity ? "." : `; years until then: ${told(years)}${open}, at these hours and this tariff.`)];
  };
  const circuit = (wall, region) => {
    const limit = region.volts * region.circuit * 0.8;
    const said = `A circuit of ${withUnit(region.circuit, "A")} at ${withUnit(region.volts, "V")} carries ${watts(limit)} for hours on end`;
    if (wall > limit) {
      return `${said}: less than the ${watts(wall)} that this computer takes. Do not run it there; ask a qualified electrician.`;
    }
    return `${said}; this computer takes ${percentAgainst(wall / limit, 1)} of that, and screens, heaters and everything else on `
      + "the circuit share the rest. Local codes decide; ask a qualified electrician if in doubt.";
  };

  // The door: a question {parts | wall | delivered, headroom, depth, region, profile} to its answer; faults are thrown.
  sizing.answer = (question) => {
    const region = named(data.regions, question.region ?? data.home, "region");
    const profile = named(data.profiles, question.profile ?? data.profiles[0].id, "profile");
    const { headroom = 0, depth = null, budget = null } = question;
    if (!(headroom >= 0 && headroom <= rules.most_headroom)) throw fault("headroom", say("worksheet.up_to", { most: withUnit(rules.most_headroom, "%") }));
    if (depth !== null && !(depth > 0 && Number.isFinite(depth))) throw fault("depth", say("worksheet.more_than", { least: `0${NB}mm` }));
    if (budget !== null && !(budget > 0 && Number.isFinite(budget))) throw fault("budget", say("worksheet.more_than", { least: 0 }));
    const build = question.parts ? buildOf(question.parts) : null;
    const measured = () => (question.wall === undefined ? checked(question.delivered, say("worksheet.delivered"), "delivered")
      : awake(checked(question.wall, say("worksheet.reading"), "wall") * rules.assumed / 100));
    const bare = build ?? { full: measured(), peaks: [] };
    const load = loadOf({ rail: bare.full, ...bare }, headroom);
    const found = recommend(load);
    const wishes = { depth, budget, plugs: build ? build.plugs : data.plugs.map(() => 0) };
    const uses = usesOf(profile, build, load.full);
    const units = fitting(found, load, wishes, build, region).map((unit) => shown(unit, load, uses, region));
    const wall = load.full * 100 / (units[0]?.efficiency ?? rules.assumed);
    const fits = units.length ? fitWords(units, found, region)
      : found.rating === null ? [] : ["No unit that is advised here fits.", ...giveUp(load, wishes, build, region)];
    const plugs = plugWords(wishes.plugs);
    return {
      ...found, rule: ruleWords(found, load), full: load.full, wall, units, uses, region, profile, build,
      reasons: reasons(found, load, region), steps: steps(found, load), circuit: circuit(wall, region),
      fits: [...(plugs ? [`The parts need ${plugs}.`] : []), ...fits,
        ...(build ? [] : ["The short peaks of the graphics card are not known from watts alone; prefer a unit built to ATX 3.x."]), ...paying(units, uses, region)],
    };
  };
})();
