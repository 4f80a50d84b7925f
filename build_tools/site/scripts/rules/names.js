// Choosing from a list of names that is at hand: names joined, apart or hyphenated, other names, plurals, beginnings of words.

import { spelled, stem } from "./query.js";

const OTHER = 0.1; // by which another name stands behind the name itself
const stems = (text) => spelled(text).map(stem);

/** Whether each word begins one of the others, each of which is taken once. */
function begun(words, others) {
  const left = [...others];
  return words.every((word) => {
    const at = left.findIndex((other) => other.startsWith(word));
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  });
}

function closeness(name, text) {
  const own = stems(name), words = stems(text);
  const runs = [[own.join(""), words.join("")], [spelled(name).join(""), spelled(text).join("")]]; // a plural may stand inside joined words
  if (runs.some(([run, typed]) => run === typed)) return 0;
  if (runs.some(([run, typed]) => run.startsWith(typed))) return 1;
  if (begun(words, own)) return 2;
  return runs.some(([run, typed]) => typed.length > 3 && run.includes(typed)) ? 3 : Infinity;
}

/** {rank, name}: how well one of the names fits (0 the name itself; Infinity not at all) and which; of two as near the first. */
export function fit(names, text) {
  const words = stems(text);
  if (!words.length) return { rank: 0, name: names[0] };
  const found = names.map((name, n) => ({ rank: closeness(name, text) + (n ? OTHER : 0), name })).sort((a, b) => a.rank - b.rank)[0];
  return found.rank < Infinity ? found : { rank: begun(words, names.flatMap(stems)) ? 4 : Infinity, name: names[0] };
}

/** Of [id, names] those that fit, best first, as {id, name}: `name` is the one that fits. Of two as near the one that stands first. */
export const named = (list, text) => list.map(([id, names]) => ({ id, ...fit(names, text) })).filter(({ rank }) => rank < Infinity)
  .sort((a, b) => a.rank - b.rank).map(({ id, name }) => ({ id, name }));
