// Accessories for lagging parts: all that fit, in the order that the data gives, and one or two of them proposed.
//
// What fits: it trains the part directly, it is no main lift, it is not in the week yet, everything it needs is at hand, and none of its
// cautions speaks of a concern to avoid. Two are proposed at most, so that a coach can tell what helped:
// 1. The first is the first place of the first part. Of a tie: what trains most of the chosen parts directly, then what costs least in
//    other parts, then the first by name.
// 2. The second is chosen likewise for the next chosen part that the first does not train directly. Where there is none, it is the next
//    for the first part that differs from the first: in the length of the part, in the joint, or in the kind of load; of a tie, what
//    differs in the earlier of these.
// Where nothing fits, it is told how many more would if one thing alone were changed.

import { order } from "./text.js";

const WAYS = ["length", "joint", "load"];
const MOST = 2;
const total = (numbers) => Object.values(numbers).reduce((sum, value) => sum + value, 0);

/** Whether an exercise is an accessory that the coach could add. A wish is {parts, the most important first; equipment at hand; concerns to
    avoid; week, the exercises that it holds; sets that a proposal would get}. */
function fits(exercises, wish, id) {
  const exercise = exercises[id];
  return !exercise.main && !wish.week.includes(id) && exercise.equipment.every((thing) => wish.equipment.includes(thing))
    && !exercise.concerns.some((concern) => wish.concerns.includes(concern));
}

/** How two exercises for a part differ, as far as both are known. */
function ways(exercises, first, second, part) {
  const [a, b] = [exercises[first], exercises[second]];
  const differ = (one, other) => one !== undefined && other !== undefined && one !== other;
  return WAYS.filter((way) => ({
    length: differ(a.lengths[part]?.word, b.lengths[part]?.word), joint: differ(a.joints[part], b.joints[part]), load: a.load !== b.load,
  })[way]);
}

const costs = (exercises, wish, id) => Object.fromEntries(Object.entries(exercises[id].credits)
  .filter(([part]) => !wish.parts.includes(part)).map(([part, credit]) => [part, wish.sets * credit]));

/** Of a tie: most of the chosen parts, then the lowest costs, then by name. */
function preferred(exercises, wish, ids) {
  const rank = (id) => [-exercises[id].direct.filter((part) => wish.parts.includes(part)).length, total(costs(exercises, wish, id))];
  const before = (a, b) => {
    const [one, other] = [rank(a), rank(b)];
    return one[0] - other[0] || one[1] - other[1] || order(exercises[a].name, exercises[b].name);
  };
  return [...ids].sort(before)[0];
}

function proposal(exercises, wish, part, place, exercise) {
  const same = wish.week.filter((other) => exercises[other].direct.includes(part))
    .sort((a, b) => order(exercises[a].name, exercises[b].name));
  return {
    exercise, part, kind: place.kind, tied: place.exercises.length > 1, costs: costs(exercises, wish, exercise),
    differences: same.map((other) => ({ other, ways: ways(exercises, exercise, other, part) })),
  };
}

function second(exercises, wish, first, places) {
  for (const place of places) {
    const found = place.exercises.filter((id) => id !== first.exercise)
      .map((id) => [id, ways(exercises, id, first.exercise, first.part)[0]]).filter(([, way]) => way);
    if (!found.length) continue;
    const earliest = WAYS.find((way) => found.some(([, differs]) => differs === way));
    const ids = found.filter(([, way]) => way === earliest).map(([id]) => id);
    return [proposal(exercises, wish, first.part, place, preferred(exercises, wish, ids))];
  }
  return [];
}

/** {options: part -> places that fit, proposals}. */
export function shortlist({ exercises, orders }, wish) {
  const options = Object.fromEntries(wish.parts.map((part) => [part, orders[part]
    .map((place) => ({ kind: place.kind, exercises: place.exercises.filter((id) => fits(exercises, wish, id)) }))
    .filter((place) => place.exercises.length)]));
  const proposals = [];
  for (const part of wish.parts) {
    const trained = proposals.some((made) => exercises[made.exercise].direct.includes(part)), [place] = options[part];
    if (proposals.length < MOST && !trained && place) {
      proposals.push(proposal(exercises, wish, part, place, preferred(exercises, wish, place.exercises)));
    }
  }
  if (proposals.length === 1) proposals.push(...second(exercises, wish, proposals[0], options[proposals[0].part]));
  return { options, proposals };
}

const ranked = (gains) => gains.filter(([, gain]) => gain).sort(([a, one], [b, other]) => other - one || order(a, b));

/** {equipment: [[id, gain]], concerns: [[id, gain]], week, main} for one part of a wish: how many accessories one more thing at hand would
    add, and one concern no longer avoided, the greatest gain first, then by id; how many the week holds already, and the main lifts. */
export function relaxed({ exercises, orders }, wish, part) {
  const out = orders[part].flatMap((place) => place.exercises).filter((id) => !fits(exercises, wish, id));
  const gained = (change) => out.filter((id) => fits(exercises, { ...wish, ...change }, id)).length;
  const missing = [...new Set(out.flatMap((id) => exercises[id].equipment))].filter((thing) => !wish.equipment.includes(thing));
  return {
    equipment: ranked(missing.map((thing) => [thing, gained({ equipment: [...wish.equipment, thing] })])),
    concerns: ranked(wish.concerns.map((concern) => [concern, gained({ concerns: wish.concerns.filter((other) => other !== concern) })])),
    week: gained({ week: [] }), main: out.filter((id) => exercises[id].main).length,
  };
}
