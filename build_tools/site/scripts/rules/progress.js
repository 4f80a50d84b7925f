// The next week from what was done in this one, by the advice on progression in programme.yaml, and what was done before.
//
// A row asks for repetitions (8-12: 8 to 12) with so many left in reserve. What was possible is the fewest repetitions of its sets and what
// was left then; what was asked is the upper end and what was to be left. The kinds of answer:
// - up: at least the first of `repetitions-above` was possible beyond what was asked: the smallest step that is within `percent`.
// - more: likewise, but the next step is beyond `percent`, or the load is no weight: more repetitions, as many as were possible beyond and
//   at most the second of `repetitions-above`, up to the end of the goal's range. Beyond it: stuck (a weight) or harder (a band, the body).
// - stay: within what was asked. short: fewer sets than asked. again: fewer repetitions than the lower end asks for; down: so in the week
//   before as well, a step within `percent`.
// - missed; away: missed for at least `weeks` in a row, `percent` less (at most twice that by the steps there are). unwritten: nothing is known. time: held for a time.
// No kind goes beyond the percentages, and nothing but the load and the repetitions of a row is changed.

const NOISE = 1e-9, DAY = 86_400_000;
const rounded = (value) => Math.round(value * 1e6) / 1e6;

/** {value, unit, after} of a load that is a weight, such as "22.5 kg each"; null for any other ("red band", "10 kg help" included). */
export function weight(text) {
  const [, value, unit, after] = /^\s*([0-9]{1,4}(?:[.,][0-9]{1,3})?)\s*(kg|lb)\b(.*)$/iu.exec(text ?? "") ?? [];
  const number = Number((value ?? "").replace(",", "."));
  return number > 0 && !/help|assist|support|less/iu.test(after) ? { value: number, unit: unit.toLowerCase(), after } : null;
}

const shown = ({ unit, after }, value) => `${rounded(value)} ${unit}${after}`;
const share = (from, to) => Math.round(Math.abs(to - from) / from * 1000) / 10;

/** The smallest change of a weight by whole steps that is at least `low` per cent; `sign` is 1 or -1. null where nothing is left of it. */
function stepped(value, step, sign, low) {
  const count = Math.max(1, Math.ceil(value * low / 100 / step - NOISE)), changed = rounded(value + sign * count * step);
  return changed > 0 ? changed : null;
}

function bounds(repetitions) {
  const [low, high] = repetitions.split("-").map(Number);
  return { low, high: high ?? low };
}

const fell = (row) => row?.done && row.done.sets > 0 && row.done.repetitions !== null
  && row.done.repetitions + (row.done.left ?? row.left ?? 0) < bounds(row.repetitions).low + (row.left ?? 0);

/** {kind, row, said}: the row of next week, and what to say of it. `last` is the row of the week before, `weeks` for how many weeks in a
    row the exercise was missed, `most` the end of the goal's range of repetitions, `steps` the smallest step in {kg, lb}. */
function nextRow(row, last, weeks, { advice, most, steps }) {
  const { done, ...fresh } = row, next = (kind, said = {}, changed = {}) => ({ kind, row: { ...fresh, ...changed, done: null }, said });
  const lifted = weight(done?.load ?? row.load), load = done?.load ?? row.load, step = lifted && steps[lifted.unit];
  const changed = (value) => ({ load: shown(lifted, value), before: shown(lifted, lifted.value), percent: share(lifted.value, value) });
  if (done?.sets === 0) {
    const { weeks: [from], percent: [less] } = advice.away.numbers;
    if (weeks < from) return next("missed");
    const lighter = lifted && stepped(lifted.value, step, -1, less);
    return lighter && share(lifted.value, lighter) <= 2 * less ? next("away", { weeks, ...changed(lighter) }, { load: shown(lifted, lighter) }) : next("away-words", { weeks });
  }
  if (!done || done.repetitions === null) return next("unwritten");
  if (row.repetitions.endsWith("s")) return next("time", {}, { load });
  if (done.sets < row.sets) return next("short", { sets: done.sets, asked: row.sets }, { load });
  const { low, high } = bounds(row.repetitions), kept = row.left ?? 0;
  const possible = done.repetitions + (done.left ?? kept), target = high + kept, said = { possible, target };
  const { "repetitions-above": [above, far], percent: [least, greatest] } = advice["add-load"].numbers;
  if (possible - target >= above) {
    const heavier = lifted && stepped(lifted.value, step, 1, least);
    if (heavier && (heavier - lifted.value) / lifted.value * 100 <= greatest + NOISE) {
      return next("up", { ...said, ...changed(heavier) }, { load: shown(lifted, heavier) });
    }
    const longer = high + Math.min(possible - target, far ?? above), repetitions = `${low}-${longer}`;
    if (longer <= most) return next(heavier ? "more" : "more-words", { ...said, repetitions: `${low} to ${longer}`, ...(heavier ? changed(heavier) : {}) }, { load, repetitions });
    return heavier ? next("stuck", { ...said, ...changed(heavier) }, { load }) : next("harder", said, { load });
  }
  if (!fell(row)) return next("stay", said, { load });
  if (!fell(last)) return next("again", said, { load });
  const lighter = lifted && stepped(lifted.value, step, -1, least);
  return lighter && share(lifted.value, lighter) <= greatest ? next("down", changed(lighter), { load: shown(lifted, lighter) }) : next("down-words", said, { load });
}

/** The same row in an easy week. */
function easyRow(row, { advice }) {
  const { "sets-share": [part], "left-more": [more] } = advice["easy-week"].numbers;
  const sets = Math.max(1, Math.ceil(row.sets * part - NOISE)), left = Math.min(10, (row.left ?? 0) + more);
  return { kind: "easy", row: { ...row, sets, left, done: null }, said: { sets, left } };
}

const after = (monday) => monday && new Date(Date.parse(`${monday}T00:00:00Z`) + 7 * DAY).toISOString().slice(0, 10);

/** For how many weeks in a row up to the last of these everything of an exercise was missed. */
function away(weeks, id) {
  const rows = ({ days }) => days.flat().filter((row) => row.exercise === id);
  const gone = (week) => rows(week).length > 0 && rows(week).every((row) => row.done?.sets === 0);
  return weeks.length - 1 - weeks.findLastIndex((week) => !gone(week));
}

/** How many weeks in a row, this one included, were no easy ones. */
export function sinceEasy({ easy = false, before = [] }) {
  const weeks = [...before, { easy }];
  return weeks.length - 1 - weeks.findLastIndex((week) => week.easy);
}

/** {plan, lines: [{day, place, exercise, kind, said}], notes: [kind]}: the week after this one, an easy one if asked for. After an easy week
    it goes on from the week before that. `weeks` is how many past weeks a file may hold; the oldest gives way. */
export function nextWeek(plan, rules, easy, weeks) {
  const { before = [] } = plan, past = [...before, { monday: plan.monday, easy: plan.easy, days: plan.days }];
  const usual = plan.easy ? before.findLastIndex((week) => !week.easy) : past.length - 1;
  const from = usual < 0 ? past.length - 1 : usual, usualWeeks = past.slice(0, from + 1).filter((week) => !week.easy), last = usualWeeks.at(-2);
  const made = past[from].days.map((rows, day) => rows.map((row, place) => easy ? easyRow(row, rules)
    : nextRow(row, last?.days[day].find((one) => one.exercise === row.exercise), away(usualWeeks, row.exercise), rules)));
  return {
    plan: { ...plan, monday: after(plan.monday), easy, days: made.map((rows) => rows.map(({ row }) => row)), before: past.slice(-weeks) },
    lines: made.flatMap((rows, day) => rows.map(({ row, kind, said }, place) => ({ day, place, exercise: row.exercise, kind, said }))),
    notes: [...(from < past.length - 1 ? ["after-easy"] : []), ...(past.length > weeks ? ["dropped"] : [])],
  };
}

/** What was done of an exercise so far, the oldest first: [{monday, day, row}]. */
export const history = ({ monday = null, days, before = [] }, id) => [...before, { monday, days }].flatMap((week) => week.days.flatMap((rows, day) =>
  rows.filter((row) => row.exercise === id && row.done).map((row) => ({ monday: week.monday, day, row }))));

/** A row done just as it was asked. */
export const asPlanned = (row) => ({ sets: row.sets, repetitions: bounds(row.repetitions.replace("s", "")).high, load: row.load, left: row.left });
