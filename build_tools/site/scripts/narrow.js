// A list that stands whole on its page, narrowed by the form above it. What fits is decided in rules/narrow.js.

import { part } from "./dom.js";
import { fitting, read, WORDS, write } from "./rules/narrow.js";
import { folded } from "./rules/text.js";

const WAIT = 200; // milliseconds of rest before typing counts
const form = part("narrow"), count = part("count"), all = part("all"), jump = part("jump");
const fields = [...form.elements].filter(({ name }) => name);
const offered = Object.fromEntries(fields.filter(({ name }) => name !== WORDS)
  .map((field) => [field.name, [...field.options].map(({ value }) => value)]));
let later = 0;

const isHeading = (block) => /^H[1-6]$/.test(block.tagName);

/** What stands under a heading: all up to the next of its level or above. */
function under(heading) {
  const found = [];
  for (let block = heading.nextElementSibling; block && !(isHeading(block) && block.tagName <= heading.tagName); block = block.nextElementSibling) found.push(block);
  return found;
}

/** An entry: a list's item, or a heading with what stands under it. */
const entries = [...document.querySelectorAll("[data-entry]")].map((element) => {
  const blocks = isHeading(element) ? [element, ...under(element)] : [element];
  const text = [element.dataset.words ?? "", ...blocks.map((block) => block.textContent)].join(" ");
  return { blocks, text: folded(text), values: Object.fromEntries(Object.keys(offered).map((name) => [name, (element.dataset[name] ?? "").split(" ")])) };
});

/** Headings that hold entries, each with what stands under it, from the outside in. */
const groups = [...document.querySelectorAll(".md-content h2, .md-content h3")].filter((heading) => !("entry" in heading.dataset)).map((heading) => {
  const blocks = under(heading);
  return { blocks: [heading, ...blocks], holds: entries.map(({ blocks: [first] }) => blocks.some((block) => block.contains(first))) };
}).filter(({ holds }) => holds.includes(true));

function show() {
  const query = Object.fromEntries(fields.map(({ name, value }) => [name, value.trim()])), fits = fitting(entries, query);
  const hide = (blocks, hidden) => { for (const block of blocks) block.hidden = hidden; };
  for (const { blocks, holds } of groups) hide(blocks, !fits.some((fit, at) => fit && holds[at]));
  entries.forEach(({ blocks }, at) => hide(blocks, !fits[at]));
  const found = fits.filter(Boolean).length, narrowed = write(query);
  count.textContent = narrowed ? `${found || "None"} of ${count.dataset.all}` : count.dataset.all;
  all.hidden = !narrowed;
  if (jump) jump.hidden = Boolean(narrowed);
  return narrowed;
}

function ask() {
  const narrowed = show();
  history.replaceState(null, "", narrowed ? `#${narrowed}` : location.pathname + location.search);
}

function begin() {
  const query = read(offered, location.hash);
  for (const field of fields) field.value = query[field.name] ?? "";
  show();
}

form.addEventListener("input", ({ target }) => {
  clearTimeout(later);
  if (target.name === WORDS) later = setTimeout(ask, WAIT);
  else ask();
});
form.addEventListener("submit", (event) => { event.preventDefault(); clearTimeout(later); ask(); });
all.addEventListener("click", () => { form.reset(); ask(); fields[0].focus(); });
addEventListener("hashchange", () => { if (location.hash.includes("=")) begin(); }); // an anchor leaves the list as it is
begin();
form.hidden = false;
