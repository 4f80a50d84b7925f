// Accessories for lagging parts, in the order and by the rules of build_tools/planning/shortlist.py, which explains them.

import { order } from "./core.js";

export const WAYS = ["length", "joint", "load"];
const MOST = 2;
const total = (numbers) => Object.values(numbers).reduce((sum, value) => sum + value, 0);

/** Whether an exercise is an accessory that the coach could add; a wish is {parts, equipment, concerns, week, sets}. */
export function fits(exercises, wish, id) {
  const exercise = exercises[id];
  return !exercise.main && !wish.week.includes(id) && exercise.equipment.every((thing) => wish.equipment.includes(thing))
    && !exercise.concerns.some((concern) => wish.concerns.includes(concern));
}

/** How two exercises for a part differ, as far as both are known. */
export function ways(exercises, first, second, part) {
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
