// How a proposal begins: on which days, with how many sets, and with how many repetitions in reserve. The coach changes it at will.
//
// Days: as many as the programme names at least for a part, less those that train it directly already, but one. They are taken from the
// days on which the client comes (of an empty week from all), each as far as can be from those that train the part; of two as far, the
// earlier. The week comes round: Sunday lies beside Monday. Sets: what the part lacks, spread over these days (toAdd). In reserve: the
// middle of the cited range. That days should lie apart is common practice (the topic how-often of programme.yaml).

import { toAdd } from "./week.js";

const REPETITIONS = "8-12"; // common practice for an accessory, inside the cited range for growth
const round = (a, b, length) => Math.min(Math.abs(a - b), length - Math.abs(a - b));

/** {days, sets, repetitions, left} for a part; `counts` are those of the days, `goal` its doses, `most` how many exercises a day holds. */
export function begun(part, days, counts, goal, most) {
  const taken = [...counts[part]?.days ?? []], came = days.some((rows) => rows.length), { low = 0, high = low } = goal.repetitions_left;
  const free = days.flatMap((rows, n) => (came && !rows.length) || rows.length >= most ? [] : [n]);
  const wanted = Math.max(1, (goal.weekly_sessions.low ?? 1) - taken.length), chosen = [];
  const far = (n) => Math.min(days.length, ...[...taken, ...chosen].map((other) => round(n, other, days.length)));
  for (const left = [...free]; left.length && chosen.length < wanted;) {
    const best = left.reduce((one, other) => far(other) > far(one) ? other : one);
    chosen.push(...left.splice(left.indexOf(best), 1));
  }
  chosen.sort((a, b) => a - b);
  return { days: chosen, sets: toAdd(part, counts[part]?.sets ?? 0, goal, chosen.length), repetitions: REPETITIONS, left: Math.round((low + high) / 2) };
}
