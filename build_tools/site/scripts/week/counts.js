// What the week counts for each muscle, as lines beside the cited range: direct sets solid, helping sets hatched, as their half is a convention.

import { make } from "../dom.js";
import { filled, upper } from "../rules/text.js";
import { countMuscles, ends, standing } from "../rules/week.js";
import { named, span } from "../rules/words.js";
import { link } from "../planner/page.js";

const WIDEST = 25, STEP = 5; // sets at the right end of a line (more makes all lines shorter), and between two marks of the scale
const number = (value) => String(Math.round(value * 10) / 10);

/** The line of one muscle on a scale that ends at `most` sets. */
function line(held, { low, high }, most) {
  const bar = make("span", { className: `hb-count__line${high === undefined ? " hb-count__line--open" : ""}` }, make("span", { className: "hb-count__range" }),
    make("span", { className: "hb-count__direct" }), make("span", { className: "hb-count__helping" }));
  const at = (sets) => `${Math.min(sets / most, 1) * 100}%`;
  for (const [name, sets] of [["low", low ?? 0], ["high", high ?? most], ["direct", held.direct], ["all", held.sets]]) bar.style.setProperty(`--${name}`, at(sets));
  bar.setAttribute("aria-hidden", "true");
  return bar;
}

function entry(data, muscle, held, range, most) {
  const { everyday, name } = data.muscles[muscle], own = ends(range, muscle), place = standing(muscle, held, range);
  const sets = held.direct === 1 && !held.helping ? data.words["sets-one"] : held.helping ? filled(data.words["sets-helped"], { direct: held.direct, all: number(held.sets) }) : filled(data.words["sets-direct"], { direct: held.direct });
  const parts = Object.entries(held.parts);
  return make("li", { className: "hb-count" }, make("span", { className: "hb-count__name" }, link(`muscles/${muscle}/`, upper(everyday)), ...everyday.toLowerCase() === name.toLowerCase() ? [] : [make("span", { className: "hb-quiet" }, ` ${name}`)]), line(held, own, most),
    make("span", { className: "hb-count__said" }, sets, make("span", { className: "hb-unseen" }, `, ${data.words[`standing-${place}`]} ${span(data, own)}`),
      ...held.days.length ? [make("span", { className: "hb-quiet" }, ` ${held.days.map((n) => data.plan.days[n].slice(0, 3)).join(" ")}`)] : []),
    ...parts.length > 1 ? [make("details", { className: "hb-below" }, make("summary", {}, `${parts.length} parts`, make("span", { className: "hb-unseen" }, ` of ${everyday}`)), make("ul", {}, ...parts.map(([ref, value]) => make("li", {}, `${named(data, ref)}: ${number(value)}`))))] : []);
}

/** The scale over the lines. */
function scale(most) {
  const made = make("div", { className: "hb-count__scale" }, ...Array.from({ length: Math.floor(most / STEP) + 1 }, (_, n) => {
    const tick = make("span", {}, String(n * STEP));
    tick.style.left = `${n * STEP / most * 100}%`;
    return tick;
  }));
  made.setAttribute("aria-hidden", "true");
  return made;
}

/** {counts, trained, helped, scale}: list items of muscles with direct sets and of those that only help, region by region, so that none moves
    while the week is written. */
export function counted(data, days, range) {
  const counts = countMuscles(days, data.exercises, data.muscles), regions = Object.keys(data.regions), region = (muscle) => regions.indexOf(data.muscles[muscle].region);
  const all = Object.entries(counts).sort(([a], [b]) => region(a) - region(b)), most = Math.max(WIDEST, ...all.map(([, { sets }]) => Math.ceil(sets / STEP) * STEP));
  const items = (some) => some.map(([muscle, held]) => entry(data, muscle, held, range, most));
  return { counts, scale: scale(most), trained: items(all.filter(([, { days: on }]) => on.length)), helped: items(all.filter(([, { days: on }]) => !on.length)) };
}
