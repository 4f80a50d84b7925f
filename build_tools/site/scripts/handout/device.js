// What stays on the client's own device: which sets are ticked, and whether the type is large. Works as well where nothing may be kept.

import { part } from "../dom.js";
import { blank, hashed, read, write } from "../rules/ticks.js";
import { say } from "./say.js";
import { stored, words } from "./view.js";

const view = part("view"), anew = part("anew", view), larger = part("larger", view), root = document.documentElement;
let name = "", ticks = [];

function store(under, value) {
  try {
    if (value === null) localStorage.removeItem(under);
    else localStorage.setItem(under, value);
  } catch { /* a private window, or no room */ }
}

function draw() {
  for (const box of view.querySelectorAll("input[type=checkbox]")) {
    const marks = ticks[box.dataset.n], { set } = box.dataset;
    box.checked = set ? marks[set] : marks.every(Boolean);
    box.indeterminate = !set && !box.checked && marks.some(Boolean);
  }
  anew.hidden = write(ticks) === null;
}

/** Takes up what was ticked of the handout of a fragment. */
export function remember(fragment, items) {
  const sizes = items.map(({ sets }) => sets ?? 1);
  name = `handout ${hashed(fragment)}`;
  ticks = read(stored(name), sizes);
  draw();
}

function set(made) {
  ticks = made;
  store(name, write(ticks));
  draw();
}

view.addEventListener("change", ({ target }) => {
  const { n, set: one } = target.dataset;
  set(ticks.map((marks, i) => i === Number(n) ? marks.map((mark, j) => one === undefined || j === Number(one) ? target.checked : mark) : marks));
});
anew.addEventListener("click", () => {
  set(blank(ticks.map((marks) => marks.length)));
  part("heading", view).focus();
  say(words.ticks_gone);
});
larger.addEventListener("click", () => {
  const large = root.dataset.type !== "large";
  if (large) root.dataset.type = "large";
  else delete root.dataset.type;
  larger.setAttribute("aria-pressed", String(large));
  store("handout type", large ? "large" : null);
});
