// How a proposal begins: on which days, with how many sets, and with how many repetitions in reserve. The coach changes it at will.
//
// Days: as many as the programme names at least for a part, less those that train it directly already, but one. They are taken from the
// days on which the client comes (of an empty week from all), each as far as can be from those that train the part's muscle directly; of
// two as far, the earlier. A day that trains it already is better than the day beside it. The week comes round, from Sunday to Monday. Sets: what the part lacks, spread over these days (toAdd), and no more than its
// muscle has room for under the high end, as the cited range is one for a muscle. In reserve: the middle of the cited range. That days
// should lie apart is common practice (the topic how-often of programme.yaml), and so is holding a part against its muscle's low end.

import { ends, toAdd } from "./week.js";

const REPETITIONS = "8-12"; // common practice for an accessory, inside the cited range for growth
const round = (a, b, length) => Math.min(Math.abs(a - b), length - Math.abs(a - b));

/** {days, sets, repetitions, left} for a part; `counts` and `muscles` are those of count and countMuscles, `goal` its doses, `most` how many
    exercises a day holds. */
export function begun(part, days, { counts, muscles, goal, most }) {
  const taken = counts[part]?.days ?? [], held = muscles[part.split("/")[0]] ?? { sets: 0, days: [] }, came = days.some((rows) => rows.length), { low = 0, high = low } = goal.repetitions_left;
  const free = days.flatMap((rows, n) => (came && !rows.length) || rows.length >= most ? [] : [n]);
  const wanted = Math.max(1, (goal.weekly_sessions.low ?? 1) - taken.length), chosen = [];
  const far = (n) => {
    const least = Math.min(days.length, ...[...held.days, ...chosen].map((other) => round(n, other, days.length)));
    return least === 1 ? -1 : least;
  };
  for (const left = [...free]; left.length && chosen.length < wanted;) {
    const best = left.reduce((one, other) => far(other) > far(one) ? other : one);
    chosen.push(...left.splice(left.indexOf(best), 1));
  }
  chosen.sort((a, b) => a - b);
  const { high: top = Infinity } = ends(goal.weekly_sets, part), room = Math.floor((top - held.sets) / Math.max(1, chosen.length));
  const sets = Math.max(1, Math.min(room, toAdd(part, counts[part]?.sets ?? 0, goal, chosen.length)));
  return { days: chosen, sets, repetitions: REPETITIONS, left: Math.round((low + high) / 2) };
}
