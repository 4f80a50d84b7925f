// What to do for lagging parts: all that trains them with what is at hand, in the order that the data gives, and at most two proposed.
//
// What is listed: it trains the part directly, and everything it needs is at hand. Nothing is left out for care: what has a caution on a
// concern of the wish stands after everything that has none, and says so. What the week holds already may get more sets or another day.
//
// Proposed are accessories. Two at most, so that a coach can tell what helped:
// 1. The first is the first place of the first part, without a caution if there is one. Of a tie: what trains most of the chosen parts
//    directly, then what costs least in other parts, then the first by name.
// 2. The second is chosen likewise for the next chosen part that the first does not train directly. Where there is none, it is the next
//    for the first part that differs from the first: in the length of the part, in the joint, or in the kind of load; of a tie, what
//    differs in the earlier of these. It asks for care only where the first does.
// Where a main lift has the best place, it is told besides, with the week's main lift that it could stand in place of or beside.
//
// How sets count for other parts comes with its source from programme.yaml. That fewer sets elsewhere settle a tie, and that two are
// enough, is common practice; no study here tested it.

import { order } from "./text.js";

const WAYS = ["length", "joint", "load"];
const MOST = 2;
const total = (numbers) => Object.values(numbers).reduce((sum, value) => sum + value, 0);

/** The concerns of a wish that a caution of the exercise speaks of. A wish is {parts, the most important first; equipment at hand; concerns
    to take care of; week, the exercises that it holds}. */
const concerned = (exercise, wish) => wish.concerns.filter((concern) => exercise.concerns.includes(concern));

const atHand = (exercise, { equipment }) => exercise.equipment.every((thing) => equipment.includes(thing));

/** What so many sets of an exercise count for parts that were not chosen. */
export const elsewhere = (exercises, parts, id, sets) => Object.fromEntries(Object.entries(exercises[id].credits)
  .filter(([part]) => !parts.includes(part)).map(([part, credit]) => [part, sets * credit]));

/** How two exercises for a part differ, as far as both are known. */
function ways(exercises, first, second, part) {
  const [a, b] = [exercises[first], exercises[second]];
  const differ = (one, other) => one !== undefined && other !== undefined && one !== other;
  return WAYS.filter((way) => ({
    length: differ(a.lengths[part]?.word, b.lengths[part]?.word), joint: differ(a.joints[part], b.joints[part]), load: a.load !== b.load,
  })[way]);
}

/** {exercise, why} of a tie: most of the chosen parts, then the lowest costs, then by name; `why` is what told it from the next. */
function preferred(exercises, wish, ids) {
  const rank = (id) => [-exercises[id].direct.filter((part) => wish.parts.includes(part)).length, total(elsewhere(exercises, wish.parts, id, 1))];
  const apart = (a, b) => rank(a).findIndex((value, n) => value !== rank(b)[n]);
  const before = (a, b) => {
    const at = apart(a, b);
    return at < 0 ? order(exercises[a].name, exercises[b].name) : rank(a)[at] - rank(b)[at];
  };
  const [exercise, next] = [...ids].sort(before);
  return { exercise, why: next === undefined ? null : ["parts", "costs"][apart(exercise, next)] ?? "name" };
}

function proposal(exercises, wish, part, place, { exercise, why }) {
  const same = wish.week.filter((other) => other !== exercise && exercises[other].direct.includes(part))
    .sort((a, b) => order(exercises[a].name, exercises[b].name));
  return {
    exercise, part, kind: place.kind, care: place.care, tied: place.exercises.length, why, held: wish.week.includes(exercise),
    differences: same.map((other) => ({ other, ways: ways(exercises, exercise, other, part) })),
  };
}

const accessories = (exercises, places) => places.map((place) => ({ ...place, exercises: place.exercises.filter((id) => !exercises[id].main) }))
  .filter((place) => place.exercises.length);

function second(exercises, wish, first, places) {
  for (const place of places.filter(({ care }) => care === first.care)) {
    const found = place.exercises.filter((id) => id !== first.exercise)
      .map((id) => [id, ways(exercises, id, first.exercise, first.part)[0]]).filter(([, way]) => way);
    if (!found.length) continue;
    const earliest = WAYS.find((way) => found.some(([, differs]) => differs === way));
    const ids = found.filter(([, way]) => way === earliest).map(([id]) => id);
    return [proposal(exercises, wish, first.part, place, preferred(exercises, wish, ids))];
  }
  return [];
}

/** The main lift that has the best place for a part, as a proposal with `beside`: the week's main lift that trains the part, or else its
    muscle. `tied` counts the accessories of the same place. */
function lift(exercises, wish, part, [place]) {
  const mains = place && place.kind !== "none" ? place.exercises.filter((id) => exercises[id].main) : [];
  if (!mains.length) return [];
  const held = mains.filter((id) => wish.week.includes(id)), { exercise } = preferred(exercises, wish, held.length ? held : mains);
  const near = (id) => [part, part.split("/")[0]].findIndex((of) => exercises[id].direct.some((ref) => `${ref}/`.startsWith(`${of}/`)));
  const [beside = null] = wish.week.filter((id) => id !== exercise && exercises[id].main && near(id) >= 0)
    .sort((a, b) => near(a) - near(b) || order(exercises[a].name, exercises[b].name));
  return [{ ...proposal(exercises, wish, part, place, { exercise, why: null }), tied: place.exercises.length - mains.length, beside }];
}

/** {options: part -> places, proposals, lifts}; a place is {kind, care, exercises}, those that ask for care last. */
export function shortlist({ exercises, orders }, wish) {
  const places = (part, care) => orders[part].map(({ kind, exercises: ids }) => ({ kind, care,
    exercises: ids.filter((id) => atHand(exercises[id], wish) && concerned(exercises[id], wish).length > 0 === care) })).filter((place) => place.exercises.length);
  const options = Object.fromEntries(wish.parts.map((part) => [part, [...places(part, false), ...places(part, true)]]));
  const proposals = [];
  for (const part of wish.parts) {
    const trained = proposals.some((made) => exercises[made.exercise].direct.includes(part)), [place] = accessories(exercises, options[part]);
    if (proposals.length < MOST && !trained && place) {
      proposals.push(proposal(exercises, wish, part, place, preferred(exercises, wish, place.exercises)));
    }
  }
  if (proposals.length === 1) proposals.push(...second(exercises, wish, proposals[0], accessories(exercises, options[proposals[0].part])));
  return { options, proposals, lifts: wish.parts.flatMap((part) => lift(exercises, wish, part, options[part])) };
}

/** An exercise of the list that the coach takes, as a proposal; undefined where the list does not hold it. */
export function picked({ exercises }, wish, { options }, part, exercise) {
  const place = options[part]?.find(({ exercises: ids }) => ids.includes(exercise));
  return place && proposal(exercises, wish, part, place, { exercise, why: null });
}

/** [[thing, gain]] for one part of a wish: how many exercises one more thing at hand would add, the greatest gain first, then by id. */
export function relaxed({ exercises, orders }, wish, part) {
  const out = orders[part].flatMap((place) => place.exercises).filter((id) => !atHand(exercises[id], wish));
  const missing = [...new Set(out.flatMap((id) => exercises[id].equipment))].filter((thing) => !wish.equipment.includes(thing));
  return missing.map((thing) => [thing, out.filter((id) => atHand(exercises[id], { equipment: [...wish.equipment, thing] })).length])
    .filter(([, gain]) => gain).sort(([a, one], [b, other]) => other - one || order(a, b));
}
