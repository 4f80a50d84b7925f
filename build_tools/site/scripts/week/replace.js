// What may stand in place of an exercise, each with how it differs, as buttons below its row, and a box for any other.

import { make } from "../dom.js";
import { box } from "../planner/box.js";
import { nearest } from "../rules/nearest.js";
import { filled, listed } from "../rules/text.js";

const MOST = 6;

/** How one exercise differs from another, in words. */
function reason(data, { named, needs, lacks, concerns, gone, half, more }) {
  const of = (refs) => refs.map((ref) => (data.muscles[ref] ?? data.parts[ref]).everyday).join(", "), things = (ids) => listed(ids.map((id) => data.equipment[id].name.toLowerCase()));
  const say = (key, values) => filled(data.words[`near-${key}`], values);
  return [`${say(named ? "named" : "parts")}, ${needs === null ? say("same") : needs.length ? say("with", { things: things(needs) }) : say("nothing")}`,
    ...gone.length ? [say("less", { parts: of(gone) })] : [], ...half.length ? [say("half", { parts: of(half) })] : [], ...more.length ? [say("more", { parts: of(more) })] : [],
    ...lacks.length ? [say("lacks", { things: things(lacks) })] : [],
    ...concerns.length ? [say("care", { concerns: listed(concerns.map((id) => data.concerns[id].name.toLowerCase())) })] : []].join(" ");
}

/** A box that knows every name. */
function other(data, offered, take) {
  const input = make("input", { id: "instead", maxLength: 80, autocomplete: "off", role: "combobox" });
  for (const [key, value] of [["expanded", "false"], ["controls", "instead-list"], ["autocomplete", "list"]]) input.setAttribute(`aria-${key}`, value);
  const made = make("div", { className: "hb-box" }, make("label", { htmlFor: "instead" }, "Any other"), " ", input,
    make("ul", { id: "instead-list", role: "listbox", ariaLabel: "Exercises", hidden: true }), make("p", { role: "status" }));
  box(input, { offered, missing: data.words["unknown-exercise"], take: ({ id }) => take(id) });
  return made;
}

/** A panel with the nearest; `take(id)` puts one in place, `close()` leaves all as it was, `offered(text)` gives names for what is typed. */
export function offer(data, id, wish, held, { take, close, offered }) {
  const found = nearest(data.exercises, id, wish, held, MOST), { inside } = data.exercises[id];
  const panel = make("div", { className: "hb-replace" }, make("p", {}, make("b", {}, filled(data.words[found.length ? "near" : "near-none"], { exercise: inside }))),
    make("ul", {}, ...found.map((one) => make("li", {}, make("button", { type: "button", className: "hb-action", onclick: () => take(one.exercise) }, data.exercises[one.exercise].name), " ",
      make("span", {}, reason(data, one))))),
    other(data, offered, take), make("p", { className: "hb-actions" }, make("button", { type: "button", className: "hb-action", onclick: close }, "Leave it as it is")));
  panel.addEventListener("keydown", (event) => { if (event.key === "Escape" && event.target.getAttribute("aria-expanded") !== "true") close(); });
  return panel;
}
