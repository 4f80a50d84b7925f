// A week of training: what it counts for each muscle and part, on which days, how long each day takes, and what stands out.
//
// One set counts 1 for a part that the exercise trains directly and 0.5 where the part helps (the values and their source stand in
// programme.yaml). Sets of different exercises are added; nothing else is. A muscle gets from a set what its best part gets, so no set
// counts twice: the ranges of programme.yaml are those of studies that counted by muscle. What stands out is a remark with its passage of
// programme.yaml, never a ban:
// - below, above: a muscle that the week trains directly gets at most half of where the goal's range begins, helping sets included, or by
//   direct sets alone at least half as much again as where it ends. Muscles that only help are not held against it, nor is a range without
//   an upper end.
// - consecutive: two hard days in a row for a muscle, Sunday and Monday included, as the week comes round again. A day is hard from that many
//   direct sets on which are its share of where the range begins, spread over the least number of days.
// - accessory-first: an accessory stands before a main lift on the same day; told once a day.

import { rowOf } from "./plan.js";
import { order } from "./text.js";

/** Days of a week. */
const DAYS = 7;
/** Shares of a range's ends at which a count stands out. */
const FEW = 0.5, MANY = 1.5;

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

/** Muscle -> {direct, helping, sets, days, each, parts: part -> sets}: sets that train one of its parts directly, sets in which it only helps,
    what both count together, the days with direct ones, and how many each of the seven holds; muscles with a count, in their order. `muscles`
    is muscle -> {parts}. */
export function countMuscles(days, exercises, muscles) {
  const parts = count(days, exercises);
  return Object.fromEntries(Object.entries(muscles).flatMap(([muscle, { parts: refs }]) => {
    const held = { direct: 0, helping: 0, sets: 0, days: [], each: Array(DAYS).fill(0), parts: Object.fromEntries(refs.filter((ref) => ref in parts).map((ref) => [ref, parts[ref].sets])) };
    for (const [day, entries] of days.entries()) {
      for (const { exercise, sets } of entries) {
        const { credits, direct } = exercises[exercise], best = Math.max(0, ...refs.map((ref) => credits[ref] ?? 0));
        if (!best) continue;
        const trained = refs.some((ref) => direct.includes(ref));
        held.sets += sets * best;
        held[trained ? "direct" : "helping"] += sets;
        if (!trained) continue;
        held.each[day] += sets;
        if (!held.days.includes(day)) held.days.push(day);
      }
    }
    return held.sets ? [[muscle, held]] : [];
  }));
}

/** The ends of a range that hold for a part, as Dose.ends in build_tools/catalog/entries/programme.py. */
export const ends = (range, part) => range.muscles?.[part.split("/")[0]] ?? range;

/** Where a muscle or part stands against a range: below, within, above, or helper where nothing trains it directly. */
export function standing(part, { sets, days }, range) {
  if (!days.length) return "helper";
  const { low, high } = ends(range, part);
  return low !== undefined && sets < low ? "below" : high !== undefined && sets > high ? "above" : "within";
}

/** The week with what a coach takes of the proposals, [{exercise, days, sets, repetitions, left, instead}]. Rows of `instead`, if it names an
    exercise, become rows of this one, with their sets and repetitions and no load. On each of `days` it gets so many sets: in the row that
    it has there already, up to `most`, or in one at the end. */
export const added = (days, takes, most) => days.map((rows, n) => takes.reduce((held, take) => {
  const { exercise, sets, repetitions, left = null, instead = null } = take;
  const kept = held.map((row) => row.exercise === instead ? rowOf({ ...row, exercise, load: null, note: null, done: null }) : row);
  const at = take.days.includes(n) ? kept.findIndex((row) => row.exercise === exercise) : Infinity;
  if (at < 0) return [...kept, rowOf({ exercise, sets, repetitions, left })];
  return kept.map((row, place) => place === at ? { ...row, sets: Math.min(most, row.sets + sets) } : row);
}, rows));

/** Sets of one day with which a part begins on so many days: what it lacks of the low end; above it, what is left to the high end. Never
    fewer than one a day, nor more than the low end spread over the least number of days. */
export function toAdd(part, held, { weekly_sets, weekly_sessions: { low: least = 1 } }, days = 1) {
  const { low = 1, high } = ends(weekly_sets, part);
  const most = Math.max(1, Math.ceil(low / least)), spread = Math.max(1, days);
  const room = held < low ? Math.ceil((low - held) / spread) : high === undefined ? most : Math.floor((high - held) / spread);
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

/** Everything that stands out: {kind, muscles, bound, days, exercises}, with what does not apply left empty or null; `counts` are those of
    countMuscles, `doses` those of the goal. Muscles that miss the same end in the same way are told together, those furthest off first. */
export function warnings(days, counts, exercises, { weekly_sets: range, weekly_sessions: { low: least = 1 } }) {
  return [...consecutive(counts, range, least), ...volume(counts, range), ...misplaced(days, exercises)];
}

const remark = (kind, said) => ({ kind, muscles: [], bound: null, days: [], exercises: [], ...said });

function volume(counts, range) {
  const trained = Object.entries(counts).filter(([, held]) => held.days.length);
  const grouped = (kind, end, misses, sign) => {
    const groups = {};
    for (const [muscle, held] of [...trained].sort(([, a], [, b]) => sign * (a.sets - b.sets))) {
      const bound = ends(range, muscle)[end];
      if (bound !== undefined && misses(held, bound)) (groups[bound] ??= { bound, muscles: [] }).muscles.push(muscle);
    }
    return Object.values(groups).sort((a, b) => a.bound - b.bound).map((group) => remark(kind, group));
  };
  return [...grouped("below", "low", ({ sets }, low) => sets <= low * FEW, 1), ...grouped("above", "high", ({ direct }, high) => direct >= high * MANY, -1)];
}

function consecutive(counts, range, least) {
  const hard = (muscle) => Math.ceil((ends(range, muscle).low ?? least) / least);
  return Array.from({ length: DAYS }, (_, day) => {
    const after = (day + 1) % DAYS;
    const muscles = Object.keys(counts).filter((muscle) => [day, after].every((one) => counts[muscle].each[one] >= hard(muscle)));
    return remark("consecutive", { muscles, days: [day, after] });
  }).filter(({ muscles }) => muscles.length);
}

function misplaced(days, exercises) {
  return days.flatMap((entries, day) => {
    const found = entries.map(({ exercise }, place) => [exercise, entries.slice(place + 1).find((after) => exercises[after.exercise].main)?.exercise])
      .find(([exercise, main]) => main && !exercises[exercise].main);
    return found ? [remark("accessory-first", { days: [day], exercises: found })] : [];
  });
}
