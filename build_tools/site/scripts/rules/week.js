// A week of training: what it counts for each part, on which days, how long each day takes, and what it goes against.
//
// One set counts 1 for a part that the exercise trains directly and 0.5 where the part helps (the values and their source stand in
// programme.yaml). Sets of different exercises are added; nothing else is. A warning is a remark with its passage of programme.yaml, never
// a ban:
// - below, above: a part that the week trains directly gets fewer or more sets than the goal's range. Parts that are only helpers are not
//   held against it, nor is a range without an upper end.
// - consecutive: a part is trained directly on two days in a row, Sunday and Monday included, as the week comes round again.
// - accessory-first: an accessory stands before a main lift on the same day.

import { rowOf } from "./plan.js";
import { order } from "./text.js";

/** Days of a week, and what an accessory is added with. */
const DAYS = 7, ADDED = "8-12";

/** Part -> {sets, days}, in the order of the parts' ids; `days` is a list of lists of {exercise, sets, repetitions, left, rest}. */
export function count(days, exercises) {
  const found = {};
  for (const [day, entries] of days.entries()) {
    for (const { exercise, sets } of entries) {
      for (const [part, credit] of Object.entries(exercises[exercise].credits)) {
        const held = found[part] ??= { sets: 0, days: [] };
        held.sets += sets * credit;
        if (exercises[exercise].direct.includes(part) && !held.days.includes(day)) held.days.push(day);
      }
    }
  }
  return Object.fromEntries(Object.entries(found).sort(([a], [b]) => order(a, b)));
}

/** The ends of a range that hold for a part, as Dose.ends in build_tools/catalog/entries/programme.py. */
export const ends = (range, part) => range.muscles?.[part.split("/")[0]] ?? range;

/** Where a part stands against a range: below, within, above, or helper where nothing trains it directly. */
export function standing(part, { sets, days }, range) {
  if (!days.length) return "helper";
  const { low, high } = ends(range, part);
  return low !== undefined && sets < low ? "below" : high !== undefined && sets > high ? "above" : "within";
}

/** The last day that holds anything; the first of an empty week. */
export const lastDay = (days) => Math.max(days.findLastIndex((day) => day.length), 0);

/** The week with accessories at the end of one day. */
export const added = (days, day, exercises, sets) => days.map((entries, n) => n !== day ? [...entries]
  : [...entries, ...exercises.map((exercise) => rowOf({ exercise, sets, repetitions: ADDED }))]);

/** Weekly sets that an accessory begins with: what the part lacks of the low end; above it, what is left to the high end. Never fewer
    than one, nor more than the low end spread over the least number of days, as it all goes to one day. */
export function toAdd(part, held, { weekly_sets, weekly_sessions: { low: days = 1 } }) {
  const { low = 1, high } = ends(weekly_sets, part);
  const most = Math.max(1, Math.ceil(low / days));
  const room = held < low ? Math.ceil(low - held) : high === undefined ? most : Math.floor(high - held);
  return Math.max(1, Math.min(room, most));
}

/** Seconds of a day: warm-up, sets with their rests, and the changes between exercises; `times` is {change, warm_up, repetition, rest}.
    The upper end of a range of repetitions counts. One side at a time takes the work twice and the rest once. */
export function duration(entries, exercises, times) {
  return entries.reduce((total, { exercise, sets, repetitions, rest }) => {
    const most = Number(repetitions.match(/[0-9]+/g).at(-1)) * (repetitions.endsWith("s") ? 1 : times.repetition);
    return total + sets * (most * (exercises[exercise].sides === "one" ? 2 : 1) + (rest ?? times.rest));
  }, entries.length ? times.warm_up + times.change * (entries.length - 1) : 0);
}

/** Everything to remark on: {kind, parts, sets, bound, days, exercises}, with what does not apply left empty or null. */
export function warnings(days, counts, exercises, range) {
  return [...volume(counts, range), ...consecutive(counts), ...misplaced(days, exercises)];
}

const remark = (kind, said) => ({ kind, parts: [], sets: null, bound: null, days: [], exercises: [], ...said });

function volume(counts, range) {
  const trained = Object.entries(counts).filter(([, held]) => held.days.length);
  const grouped = (kind, end, misses) => {
    const groups = {};
    for (const [part, { sets }] of trained) {
      const bound = ends(range, part)[end];
      if (bound !== undefined && misses(sets, bound)) (groups[`${sets} ${bound}`] ??= { sets, bound, parts: [] }).parts.push(part);
    }
    return Object.values(groups).sort((a, b) => a.sets - b.sets || a.bound - b.bound).map((group) => remark(kind, group));
  };
  return [...grouped("below", "low", (sets, low) => sets < low), ...grouped("above", "high", (sets, high) => sets > high)];
}

function consecutive(counts) {
  return Array.from({ length: DAYS }, (_, day) => {
    const after = (day + 1) % DAYS;
    const parts = Object.keys(counts).filter((part) => [day, after].every((one) => counts[part].days.includes(one)));
    return remark("consecutive", { parts, days: [day, after] });
  }).filter(({ parts }) => parts.length);
}

function misplaced(days, exercises) {
  return days.flatMap((entries, day) => entries.flatMap(({ exercise }, place) => {
    const main = entries.slice(place + 1).find((after) => exercises[after.exercise].main)?.exercise;
    return main && !exercises[exercise].main ? [remark("accessory-first", { days: [day], exercises: [exercise, main] })] : [];
  }));
}
