// Finds exercises by name or other name.

import { make, part } from "../dom.js";
import { folded } from "../rules/text.js";
import { say } from "./say.js";
import { said } from "./view.js";

const MOST = 8;

/** Lets the coach search `exercises` ({id: [name, ...other names]}) and calls `add` with the chosen id. */
export function searching(exercises, add) {
  const field = part("search"), list = part("found");
  const entries = Object.entries(exercises).map(([id, names]) => ({ id, names, text: folded(names.join(" ")), first: folded(names[0]) }));

  function found() {
    const words = folded(field.value).split(/\s+/).filter(Boolean);
    if (!words.length) return [];
    return entries.filter(({ text }) => words.every((word) => text.includes(word)))
      .sort((a, b) => b.first.startsWith(words[0]) - a.first.startsWith(words[0]) || a.first.localeCompare(b.first));
  }

  function line({ id, names: [name, ...others] }) {
    const also = others.length ? [make("span", { className: "quiet" }, ` ${said("also_called", { names: others.join(", ") })}`)] : [];
    return make("li", {}, make("button", { type: "button", onclick: () => add(id) }, said("add", { name }), ...also));
  }

  field.addEventListener("input", () => {
    const all = found();
    list.replaceChildren(...all.slice(0, MOST).map(line));
    if (field.value.trim()) say(said(all.length > MOST ? "found_more" : "found", { n: all.length, shown: MOST }));
  });
  field.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    const [best] = found();
    if (best) add(best.id);
  });

  return function clear() {
    field.value = "";
    list.replaceChildren();
    field.focus();
  };
}
