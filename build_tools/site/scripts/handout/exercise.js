// One exercise in the builder: its fields, what is wrong in them, and what stands outside the handbook's ranges.

import { part } from "../dom.js";
import { outside } from "../rules/doses.js";
import { holds } from "../rules/link.js";
import { filled } from "../rules/text.js";
import { said, words } from "./view.js";

let made = 0;

/** What a coach may type for the same thing. */
const TIDY = {
  repetitions: (text) => text.replace(/\s*[-–—]\s*/u, "-").replace(/\s*(s|sec|secs|seconds)$/iu, "s"),
  tempo: (text) => text.replace(/\s*[-–—./]\s*/gu, "-"),
};

/** A list item with the fields of one exercise; `given` holds what they start with. */
export function chosen(name, given) {
  const item = part("exercise").content.cloneNode(true).firstElementChild;
  item.dataset.id = given.id;
  part("name", item).textContent = name;
  for (const button of item.querySelectorAll("button")) button.setAttribute("aria-label", said("of_exercise", { button: button.textContent, name }));
  for (const input of item.querySelectorAll("input")) {
    input.value = given[input.name] ?? "";
    const [wrong, aside] = ["wrong", "aside"].map((kind) => part(kind, input.closest(".field")));
    made += 1;
    [wrong.id, aside.id] = [`wrong-${made}`, `aside-${made}`];
    input.setAttribute("aria-describedby", `${input.getAttribute("aria-describedby") ?? ""} ${wrong.id} ${aside.id}`.trim());
  }
  return item;
}

/** What the fields say, as {id, sets, ...}; null while one of them cannot be read. Marks what is wrong or unusual. */
export function read(item, { rules, doses }) {
  const limits = new Map(rules.fields), given = { id: item.dataset.id };
  let sound = true;
  for (const input of item.querySelectorAll("input")) {
    const limit = limits.get(input.name), value = valueOf(input, limit);
    const fits = value === null || (value !== undefined && holds(limit, value));
    const field = input.closest(".field");
    input.setAttribute("aria-invalid", String(!fits));
    part("wrong", field).textContent = fits ? "" : wrong(input.name, limit);
    part("aside", field).textContent = fits ? outside(input.name, value, doses) : "";
    given[input.name] = fits ? value : null;
    sound &&= fits;
  }
  return sound ? given : null;
}

/** Null for an empty field, undefined for what is no whole number where one is asked for. */
function valueOf(input, limit) {
  const text = input.value.replace(/\s+/gu, " ").trim();
  if (text === "") return null;
  if ("low" in limit) return /^[0-9]{1,4}$/.test(text) ? Number(text) : undefined;
  return (TIDY[input.name] ?? ((same) => same))(text);
}

function wrong(name, limit) {
  const known = words.wrong;
  return Object.hasOwn(TIDY, name) ? known[name] : "low" in limit ? filled(known.number, limit) : known.text;
}
