// What may stand in place of an exercise, each with why it is near, as buttons below its row.

import { make } from "../dom.js";
import { nearest } from "../rules/nearest.js";
import { filled, listed } from "../rules/text.js";

const MOST = 6;

/** Why one exercise is near another, in words. */
function reason(data, { named, shared, lacks }) {
  const parts = shared.length ? filled(data.words["near-parts"], { parts: listed(shared.map((ref) => data.parts[ref].inside)) }) : "";
  const needs = lacks.length ? filled(data.words["near-lacks"], { equipment: listed(lacks.map((id) => data.equipment[id].name.toLowerCase())) }) : "";
  return [named ? data.words["near-named"] : "", parts, needs].filter(Boolean).join(" ");
}

/** A panel with the nearest; `take(id)` puts one in place, `close()` leaves all as it was. */
export function offer(data, id, equipment, held, { take, close }) {
  const found = nearest(data.exercises, id, equipment, held, MOST), { name } = data.exercises[id];
  const panel = make("div", { className: "hb-replace" }, make("p", {}, make("b", {}, filled(data.words[found.length ? "near" : "near-none"], { exercise: name }))),
    make("ul", {}, ...found.map((one) => make("li", {}, make("button", { type: "button", className: "hb-action", onclick: () => take(one.exercise) }, data.exercises[one.exercise].name), ` ${reason(data, one)}`))),
    make("p", { className: "hb-actions" }, make("button", { type: "button", className: "hb-action", onclick: close }, "Leave it as it is")));
  panel.addEventListener("keydown", (event) => { if (event.key === "Escape") close(); });
  return panel;
}
