// What to give up where no accessory fits: as build_tools/planning/relax.py, which explains it.

import { order } from "./core.js";
import { fits } from "./shortlist.js";

const ranked = (gains) => gains.filter(([, gain]) => gain).sort(([a, one], [b, other]) => other - one || order(a, b));

/** {equipment: [[id, gain]], concerns: [[id, gain]], week, main} for one part of a wish. */
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
