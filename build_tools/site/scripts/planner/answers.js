// What the rules answer, as elements: the reason for an exercise, a proposal, a remark on a week.

import { make } from "../dom.js";
import { elsewhere } from "../rules/shortlist.js";
import { filled, upper } from "../rules/text.js";
import { costs, difference, reason, warning } from "../rules/words.js";
import { link, sign } from "./page.js";

/** The mark of the evidence map that a place has, drawn; nothing where nothing puts the exercise ahead. */
export function marked(data, id, ref, place) {
  if (place === "none") return [];
  const [kind, wider] = place === "measured" ? ["growth"] : place.split("-");
  const fill = place === "measured" ? "no-more" : wider ?? data.statements[data.exercises[id].best[ref]?.[place]]?.finding;
  return [sign({ kind, sign: ["sign", kind, ...["growth", "activation"].includes(kind) ? [fill] : []].join("-") }), " "];
}

/** Why an exercise stands where it stands, and how sure it is. */
export function reasons(data, id, ref, place) {
  const { name, sentence, sure, address } = reason(data, id, ref, place);
  if (place === "none") return [make("p", { className: "hb-found" }, sentence)];
  return [make("p", { className: "hb-kind" }, ...marked(data, id, ref, place), make("span", {}, name)),
    make("p", { className: "hb-sentence" }, sentence),
    make("p", { className: "hb-found" }, `${sure} `, ...(address ? [link(address, "Numbers and reasons")] : []))];
}

/** Whether others have the same place, and what told this one from them. */
function tie(data, { tied, why, beside }) {
  if (beside !== undefined) return tied ? [filled(data.words["lift-tied"], { count: tied })] : [];
  return tied > 1 ? [filled(data.words.tie, { count: tied }), ...(why ? [data.words[`why-${why}`]] : [])] : [];
}

/** What a main lift is told to do in the week. */
function lifting(data, { exercise, held, beside }) {
  const key = held ? "lift-held" : beside ? "lift" : "lift-alone";
  return filled(data.words[key], { Exercise: upper(data.exercises[exercise].inside), other: beside && data.exercises[beside].inside });
}

/** What so many sets of a proposal count elsewhere. */
export const costing = (data, { exercise }, parts, sets) => costs(data, elsewhere(data.exercises, parts, exercise, sets));

/** A proposal with all that speaks for it and what it costs under a heading of this level; `sets` are those of a week, `care` its cautions. */
export function proposed(data, found, parts, sets, level, care, ...more) {
  const { exercise: id, part: ref, kind, differences, held, beside } = found, lift = beside !== undefined;
  const said = [`For ${data.parts[ref].inside}.`, ...(lift ? [lifting(data, found)] : held ? [data.words.again] : []), ...tie(data, found)];
  const cost = make("p", {}, costing(data, found, parts, sets));
  cost.dataset.part = "cost";
  return make("article", { className: "hb-claim" },
    make(level, {}, link(data.exercises[id].address, data.exercises[id].name)), make("p", {}, said.join(" ")), ...care, ...reasons(data, id, ref, kind), cost,
    ...(differences.length ? [make("details", { className: "hb-below" }, make("summary", {}, "Beside what the week holds", make("span", { className: "hb-unseen" }, `: ${data.exercises[id].name}`)),
      ...differences.map((one) => make("p", {}, difference(data, id, ref, one))))] : []), ...more);
}

export function remark(data, goal, found) {
  const { sentence, address } = warning(data, goal, found);
  return make("li", {}, `${sentence} `, ...(address ? [link(address, "What the programme says")] : []));
}
