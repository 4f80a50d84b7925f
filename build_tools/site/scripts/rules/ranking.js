// How well a place of the handbook is called what was typed. A rank is a number, less is better:
//   0 its name, joined, apart or hyphenated; 1 the same words in another order or with a slip; 2 they stand in one name; 3 in several
//   names; 5 only some of them do, or they are few of many. A title of a source that holds them is 4.5.
// A place: {kind, weight, title, names: lists of stems, note: stems}. A slot: {stem: cost}, see query.js.

import { order } from "./text.js";

/** Indexes of the kinds that are ranked in a way of their own, as `KINDS` of build_tools/site/search/named.py. */
const EXERCISE = 0, CAUTION = 3, SOURCE = 5;
/** From which rank on a place is only near to what was typed. */
export const NEAR = 4;
const ENOUGH = 0.4; // of a name's words, where several were typed
const LOOSE = 5.6;

/** For each slot the cost of its best stem, each stem taken once; undefined where it has none. */
function matched(slots, stems) {
  const left = [...stems];
  return slots.map((slot) => {
    const at = left.reduce((best, stem, n) => (slot[stem] ?? 9) < (slot[left[best]] ?? 9) ? n : best, 0);
    const cost = slot[left[at]];
    if (cost !== undefined) left.splice(at, 1);
    return cost;
  });
}

const whole = (costs) => costs.every((cost) => cost !== undefined);
const sum = (costs) => costs.reduce((all, cost) => all + (cost ?? 0), 0);

function named(stems, slots, run, place, first) {
  if (stems.join("") === run) return place.kind === CAUTION && stems.length === 1 && first ? 2.5 : 0; // "knee" alone asks for no caution
  const costs = matched(slots, stems);
  if (!whole(costs)) return Infinity;
  const extra = stems.length - slots.length, begins = slots[0][stems[0]] !== undefined ? 0 : 0.05;
  const rank = extra <= 0 ? 1 : slots.length === 1 || slots.length / stems.length >= ENOUGH ? 2 : LOOSE;
  return rank + Math.min(rank === LOOSE ? 0.5 : 0.95, sum(costs) / 2 + 0.05 * Math.min(extra, 8) + begins);
}

/** Words that stand in several of its names and in its note; a place that is no exercise must have one of them in its title. */
function together(place, slots) {
  const stems = new Set(place.names.flat()), costs = matched(slots, [...stems]), first = matched(slots, place.names[0]);
  const from = place.kind === EXERCISE || first.some((cost) => cost !== undefined) ? 3 : place.kind === SOURCE ? NEAR : LOOSE;
  if (whole(costs)) return from + Math.min(0.45, sum(costs) / 2);
  const wider = matched(slots, [...stems, ...place.note.filter((stem) => !stems.has(stem))]);
  if (whole(wider)) return from + 0.5 + Math.min(0.45, sum(wider) / 2);
  // The last word of an English name says what kind of thing it is; of two as near, the one of whose name less is left.
  const weight = wider.map((_, n) => n === slots.length - 1 ? 1.5 : 1), all = sum(weight);
  const got = sum(wider.map((cost, n) => cost === undefined ? 0 : weight[n] * (1 - cost / 2)));
  const left = Math.min(...place.names.map((name) => 1 - matched(slots, name).filter((cost) => cost !== undefined).length / name.length));
  return got ? 5 + (all - got) / all + left / 10 : Infinity;
}

/** Whether a place may be named as the nearest to something that is missing: a source whose title shares a word is not. */
export const isNearest = ({ place }) => place.kind !== SOURCE;

/** The rank of a place for one reading of a query; `run` is the whole query run together. Infinity where nothing fits. */
export function rank(place, slots, run) {
  const best = Math.min(...place.names.map((stems, n) => named(stems, slots, run, place, !n) + (n ? 0.02 : 0)));
  return best < 3 ? best : Math.min(best, together(place, slots));
}

/** Ranked places, best first; of two that fit alike the kind decides, then how much is known, then the name. */
export const ranked = (found) => found.sort((a, b) => Math.round(50 * (a.rank - b.rank)) || a.place.kind - b.place.kind
  || b.place.weight - a.place.weight || order(a.place.title, b.place.title) || order(a.place.address, b.place.address));
