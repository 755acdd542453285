// What other weights change, and why, in sentences that follow from the sums.
(() => {
  "use strict";
  const { weighing } = window.guidegenBracket;
  if (!weighing) return;
  const { say, number, withUnit, listed, sum } = window.guidegenNumbers;
  const { data, published, sharesOf, worths, printed, rank } = weighing;
  const NAMED = 2;

  const lower = (text) => text[0].toLowerCase() + text.slice(1);
  const percent = (share) => withUnit(100 * share, "%", 1);
  const points = (value) => {
    const size = Math.abs(value);
    return withUnit(size, say("weights.points"), [1, 2, 3].find((decimals) => Number(number(size, decimals)) > 0) ?? 0);
  };

  // What each criterion's new weight brings a unit against others, in points, on average over these.
  const brings = (unit, rivals, before, after) => data.criteria.map((_, c) => {
    const theirs = sum(rivals.map((rival) => worths[rival][c])) / rivals.length;
    return 100 * (after[c] - before[c]) * (worths[unit][c] - theirs);
  });
  const cause = (unit, rivals, before, after) => {
    const gained = brings(unit, rivals, before, after);
    const most = (sum(gained) > 0 ? Math.max : Math.min)(...gained);
    return { unit, rivals, criterion: gained.indexOf(most), points: most };
  };

  // The facts behind the sentences: who is first, who moved, through what. Units are told by their place in the data.
  const changes = (wanted) => {
    const [before, after] = [sharesOf(published), sharesOf(wanted)];
    const [ours, theirs] = [rank(published), rank(wanted)];
    const now = new Map(theirs.map((one) => [one.index, one]));
    const former = ours[0];
    const first = now.get(former.index).place === 1 ? now.get(former.index) : theirs[0];
    const found = { before, after, former, first, ours, theirs, now };
    if (first.index !== former.index) return { ...found, cause: cause(first.index, [former.index], before, after) };
    const step = (was) => was.place - now.get(was.index).place;
    const shift = (was) => Math.abs(now.get(was.index).low - was.low);
    const moved = ours.filter(step).sort((a, b) => Math.abs(step(b)) - Math.abs(step(a)) || shift(b) - shift(a));
    if (!moved.length) return { ...found, cause: null };
    const [mover] = moved;
    const over = (a, b) => a.low > b.low + data.tie;
    const crossed = ours.filter((was) => (step(mover) > 0
      ? over(was, mover) && !over(now.get(was.index), now.get(mover.index))
      : !over(was, mover) && over(now.get(was.index), now.get(mover.index))));
    return { ...found, mover, cause: cause(mover.index, crossed.map(({ index }) => index), before, after) };
  };

  const some = (indices, names) => listed([
    ...indices.slice(0, indices.length > NAMED + 1 ? NAMED : NAMED + 1).map((index) => names[index]),
    ...(indices.length > NAMED + 1 ? [say("weights.others", { count: indices.length - NAMED })] : [])]);

  const why = ({ cause: found, mover, before, after, now, ours, theirs, first }, names) => {
    if (!found) {
      const [second] = theirs.filter((one) => one !== first);
      const was = (index) => ours.find((one) => one.index === index).low;
      const [led, leads] = [points(was(first.index) - was(second.index)), points(first.low - second.low)];
      return say(led === leads ? "weights.leads" : "weights.keeps", { second: names[second.index], before: led, after: leads });
    }
    const { title } = data.criteria[found.criterion];
    const told = {
      unit: names[found.unit], criterion: lower(title), Criterion: title, points: points(found.points),
      before: percent(before[found.criterion]), after: percent(after[found.criterion]), former: names[found.rivals[0]],
    };
    if (!mover) return say("weights.unseats", told);
    const [from, to, count] = [mover.place, now.get(mover.index).place, found.rivals.length];
    const rivals = count > 1 ? say(to < from ? "weights.passed" : "weights.passing", { count }) : told.former;
    return say(to < from ? "weights.rises" : "weights.falls", { ...told, from, to, rivals });
  };

  const said = (wanted, names) => {
    const found = changes(wanted);
    const { first, former, now, theirs } = found;
    const tied = theirs.filter((one) => one.place === 1 && one !== first).map(({ index }) => index);
    const told = { unit: names[first.index], score: printed(first), former: names[former.index], place: now.get(former.index).place, others: some(tied, names) };
    const kind = first.index !== former.index ? "weights.first" : tied.length ? "weights.shares_first" : "weights.keeps_first";
    const alike = first.level.length ? [say("weights.alike", { others: some(first.level, names) })] : [];
    return [say(kind, told), why(found, names), ...alike].join(" ");
  };

  Object.assign(weighing, { percent, changes, said });
})();
