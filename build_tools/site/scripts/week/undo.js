// Undo and Redo: two buttons, and the keys that everybody knows.

import { part } from "../dom.js";

/** Letters that are being typed belong to the browser's own undo. */
const isTyping = (target) => target.matches('input:not([type="checkbox"], [type="radio"], [type="file"])') && target.value !== target.defaultValue;

/** Sets both up; `back(step)` is called with "undo" or "redo". */
export function undoing(back) {
  for (const step of ["undo", "redo"]) part(step).addEventListener("click", () => back(step));
  addEventListener("keydown", (event) => {
    const step = { z: event.shiftKey ? "redo" : "undo", y: "redo" }[event.key.toLowerCase()];
    if (!step || !(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
    event.preventDefault();
    back(step);
  });
}
