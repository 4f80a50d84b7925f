// What the rules answer, as elements: the reason for an exercise, a proposed accessory, a remark on a week.

import { make } from "../dom.js";
import { costs, difference, reason, warning } from "../rules/words.js";
import { link, mark } from "./page.js";

/** Only what is measured or modelled has a sign of its own. */
export const sign = (kind) => ["growth", "activation", "length"].includes(kind) ? [mark(kind)] : [];

/** Why an exercise stands where it stands, and how sure it is. */
export function reasons(data, id, ref, of) {
  const { kind, name, sentence, sure, address } = reason(data, id, ref, of);
  return [make("p", { className: "hb-kind" }, ...sign(kind), make("span", {}, name)),
    make("p", { className: "hb-sentence" }, sentence),
    make("p", { className: "hb-found" }, `${sure} `, ...(address ? [link(address, "Numbers and reasons")] : []))];
}

/** An accessory with all that speaks for it and what it costs under a heading of this level; `sets` are those it would get. */
export function proposed(data, { exercise: id, part: ref, kind, tied, differences, costs: found }, sets, level, ...more) {
  return make("article", { className: "hb-claim" },
    make(level, {}, link(data.exercises[id].address, data.exercises[id].name)), make("p", {}, `For ${data.parts[ref].inside}.`),
    ...reasons(data, id, ref, kind), ...(tied ? [make("p", {}, data.words.tie)] : []),
    ...differences.map((one) => make("p", {}, difference(data, id, ref, one))), make("p", {}, costs(data, found, sets)), ...more);
}

export function remark(data, goal, found) {
  const { sentence, address } = warning(data, goal, found);
  return make("li", {}, `${sentence} `, ...(address ? [link(address, "What the programme says")] : []));
}
