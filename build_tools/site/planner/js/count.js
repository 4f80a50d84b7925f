// What a week counts, how long its days take and what it goes against: as build_tools/planning/week.py and warnings.py, which explain it.

import { order } from "./core.js";

export const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

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

/** Weekly sets that an accessory begins with, as build_tools/planning/additions.py reckons them. */
export function toAdd(part, held, { weekly_sets, weekly_sessions: { low: days = 1 } }) {
  const { low = 1, high } = ends(weekly_sets, part);
  const most = Math.max(1, Math.ceil(low / days));
  const room = held < low ? Math.ceil(low - held) : high === undefined ? most : Math.floor(high - held);
  return Math.max(1, Math.min(room, most));
}

/** Seconds of a day; `times` is {change, warm_up, repetition, rest}. One side at a time takes the work twice and the rest once. */
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
  return DAYS.map((_, day) => {
    const after = (day + 1) % DAYS.length;
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
