// What may stand in place of an exercise: first the swaps that the handbook names, in its order, then what trains most of the same parts
// directly and least beside them; of two as near, what needs nothing that is not at hand, then by name. That such a likeness carries over
// to growth is common practice; no study here tested it.

import { order } from "./text.js";

/** How alike two exercises train: parts that both train directly, of all that either does (0 to 1; Jaccard's index). */
export function likeness(exercises, a, b) {
  const [one, other] = [a, b].map((id) => exercises[id].direct), both = one.filter((part) => other.includes(part)).length;
  return both ? both / (one.length + other.length - both) : 0;
}

/** [{exercise, named, shared, lacks}] for one exercise, at most `most`, the nearest first: `named` says that it is one of the handbook's
    swaps, `shared` are the parts that both train directly, `lacks` what it needs and is not at hand. None of `held` is among them. */
export function nearest(exercises, id, equipment, held, most) {
  const { direct, swaps } = exercises[id], lacks = (other) => exercises[other].equipment.filter((thing) => !equipment.includes(thing));
  const place = (other) => swaps.includes(other) ? swaps.indexOf(other) : swaps.length;
  const found = Object.keys(exercises).filter((other) => other !== id && !held.includes(other) && (swaps.includes(other) || likeness(exercises, id, other) > 0));
  return found.sort((a, b) => place(a) - place(b) || likeness(exercises, id, b) - likeness(exercises, id, a) || lacks(a).length - lacks(b).length
    || order(exercises[a].name, exercises[b].name)).slice(0, most)
    .map((exercise) => ({ exercise, named: swaps.includes(exercise), shared: exercises[exercise].direct.filter((part) => direct.includes(part)), lacks: lacks(exercise) }));
}
