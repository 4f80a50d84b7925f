// The home page: one muscle at a time where the window is narrow, and the rows that fit what is asked. The query stands in the fragment alone.

import { part } from "../dom.js";
import { asked, suits, written } from "../rules/evidence_map.js";
import { listed } from "../rules/text.js";
import { fetched, settle } from "./block.js";

const map = document.querySelector(".hb-map"), form = part("tools", map), blocks = [...map.querySelectorAll(".hb-block")];
const narrow = matchMedia("screen and (max-width: 44.99em)"), boxes = (name) => [...form.querySelectorAll(`[name="${name}"]`)];
const fields = { muscle: form.elements.muscle, has: boxes("has"), avoid: boxes("avoid") }, values = (list) => list.map(({ value }) => value);
const known = { muscle: values([...fields.muscle.options]), has: values(fields.has), avoid: values(fields.avoid) };
const kits = [...form.querySelectorAll("[data-kit]")];
const ticked = (name) => fields[name].filter((box) => box.checked);
const SOUGHT = "onbeforematch" in document.body ? "until-found" : "", all = new Set([...map.querySelectorAll("[data-exercise]")].map((line) => line.dataset.exercise));
let query, exercises, chosen;

/** One block where the window is narrow, folded ones where all are asked for; found in the page, a hidden one shows itself. */
function choose() {
  if (chosen === `${narrow.matches} ${query.muscle}`) return; // what a reader folded stays so
  chosen = `${narrow.matches} ${query.muscle}`;
  const one = narrow.matches && query.muscle !== "all";
  for (const block of blocks) {
    if (one && block.dataset.muscle !== query.muscle) block.setAttribute("hidden", SOUGHT);
    else block.removeAttribute("hidden");
    block.open = !narrow.matches || block.dataset.muscle === query.muscle;
  }
  for (const region of map.querySelectorAll(".hb-region")) region.classList.toggle("hb-region--one", one);
}

/** What is left of each block and of the whole. */
async function narrowed() {
  const asking = query.has.length || query.avoid.length;
  exercises ??= asking ? await fetched("data/map/exercises.json") : undefined;
  const fits = (id) => !asking || suits(exercises[id], query);
  for (const block of blocks) {
    for (const line of block.querySelectorAll("[data-exercise]")) line.hidden = !fits(line.dataset.exercise);
    const table = block.querySelector("table"), blank = block.querySelector(".hb-map__blank");
    if (table) settle(table);
    if (blank) {
      const left = blank.querySelectorAll("li:not([hidden])").length;
      blank.hidden = !left;
      part("blank", blank).textContent = left;
    }
    part("none", block).hidden = block.querySelector("[data-exercise]:not([hidden])") !== null;
  }
  part("count", map).textContent = asking ? `${[...all].filter(fits).length} of ${all.size} exercises shown` : "";
}

function show() {
  fields.muscle.value = query.muscle;
  for (const name of ["has", "avoid"]) for (const box of fields[name]) box.checked = query[name].includes(box.value);
  for (const [name, nothing] of [["has", "any"], ["avoid", "nothing"]]) {
    const names = ticked(name).map((box) => box.parentElement.textContent.trim().toLowerCase());
    const kit = name === "has" && kits.find(({ dataset }) => dataset.kit.split(",").sort().join() === query.has.join());
    const said = part(`${name}-said`, map);
    if (said) said.textContent = names.length ? kit ? kit.textContent.toLowerCase() : listed(names) : nothing;
  }
  choose();
  return narrowed().catch((wrong) => { part("count", map).textContent = "The list could not be loaded; nothing is left out."; console.error(wrong); });
}

function change() {
  query = { muscle: fields.muscle.value, has: values(ticked("has")).sort(), avoid: values(ticked("avoid")).sort() };
  history.replaceState(null, "", written({ ...query, muscle: query.muscle === known.muscle[0] ? "" : query.muscle }) || location.pathname + location.search);
  show();
}

/** The query of the address. A narrow window begins with the first block. An anchor asks for nothing but its own muscle. */
function read() {
  const block = blocks.find(({ id }) => location.hash === `#${id}`);
  if (!query || location.hash.includes("=")) query = asked(known, location.hash);
  query.muscle = block?.dataset.muscle ?? (query.muscle || known.muscle[0]);
  show();
  block?.scrollIntoView();
}

form.addEventListener("submit", (event) => event.preventDefault());
form.addEventListener("change", change);
form.addEventListener("click", ({ target }) => {
  if (target.dataset.kit === undefined) return;
  for (const box of fields.has) box.checked = target.dataset.kit.split(",").includes(box.value);
  change();
});
for (const block of blocks) {
  block.addEventListener("beforematch", () => { query.muscle = block.dataset.muscle; show(); });
}
narrow.addEventListener("change", show);
addEventListener("hashchange", read);
map.classList.add("hb-map--live");
form.hidden = false;
part("keys", map).hidden = false;
read();
