// What may stand in place of an exercise, and how it differs. First the swaps that the handbook gives, in its order, then what trains most of
// the same parts directly and least beside them. Within both, what needs nothing that is not at hand and what no concern to avoid speaks of
// goes before the rest; of two as near, by name. That such a likeness carries over to growth is common practice; no study here tested it.

import { order } from "./text.js";

const outside = (some, others) => some.filter((one) => !others.includes(one));

/** How alike two exercises train: parts that both train directly, of all that either does (0 to 1; Jaccard's index). */
function likeness(exercises, a, b) {
  const [one, other] = [a, b].map((id) => exercises[id].direct), both = one.filter((part) => other.includes(part)).length;
  return both ? both / (one.length + other.length - both) : 0;
}

/** Parts told as briefly as they can be: a whole muscle where the others hold nothing of it. */
function brief(parts, others) {
  const muscle = (part) => part.split("/")[0], kept = new Set(others.map(muscle));
  return [...new Set(parts.map((part) => kept.has(muscle(part)) ? part : muscle(part)))];
}

/** Parts that one trains directly: `gone` the other leaves out, with `half` it only helps. */
function beyond(one, other) {
  const missing = outside(one.direct, other.direct), gone = missing.filter((part) => !(part in other.credits)), half = outside(missing, gone);
  return { gone: brief(gone, [...other.direct, ...half]), half: brief(half, [...other.direct, ...gone]) };
}

/** [{exercise, named, needs, lacks, concerns, gone, half, more}] for one exercise, at most `most`, the nearest first: `named` says that it is one of
    the handbook's swaps, `needs` is its equipment (null where both need the same), `lacks` what of it is not at hand, `concerns` those to avoid
    that it has, `gone` and `half` what it leaves out or only helps, `more` what it adds. None of `held` is among them. `wish` is {equipment, concerns}. */
export function nearest(exercises, id, { equipment, concerns }, held, most) {
  const own = exercises[id], place = (other) => own.swaps.indexOf(other);
  const found = Object.keys(exercises).filter((other) => other !== id && !held.includes(other) && (own.swaps.includes(other) || likeness(exercises, id, other) > 0))
    .map((exercise) => {
      const { equipment: needs, concerns: all } = exercises[exercise], same = !outside(needs, own.equipment).length && !outside(own.equipment, needs).length;
      return { exercise, named: own.swaps.includes(exercise), needs: same ? null : needs, lacks: outside(needs, equipment),
        concerns: all.filter((concern) => concerns.includes(concern)), ...beyond(own, exercises[exercise]), more: brief(outside(exercises[exercise].direct, own.direct), own.direct) };
    });
  return found.sort((a, b) => b.named - a.named || !!a.lacks.length - !!b.lacks.length || !!a.concerns.length - !!b.concerns.length
    || place(a.exercise) - place(b.exercise) || likeness(exercises, id, b.exercise) - likeness(exercises, id, a.exercise)
    || order(exercises[a.exercise].name, exercises[b.exercise].name)).slice(0, most);
}
