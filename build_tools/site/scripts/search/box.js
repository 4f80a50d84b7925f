// The search field of the header: a combobox with a list, as the ARIA Authoring Practices describe it (editable combobox with list
// autocomplete). Its words and places are fetched when the field is first used. What fits is decided in engine.js and rules/.

import { make } from "../dom.js";
import { folded } from "../rules/text.js";
import { fill } from "./field.js";

const root = new URL("../../", import.meta.url), WAIT = 60, MOST = 8, MOST_NEAR = 4, MOST_SECTIONS = 5, LONG = 4;
const box = document.querySelector('[data-part="site-search"]');
const { field, list, panel, told, opener, closer } = fill(box);
let ready, names, texts, active = -1, asked = 0, later = 0, shown = ""; // `shown`: the text whose answer stands in the list

const fetched = async (name) => {
  const answer = await fetch(new URL(`search/${name}.json`, root));
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return answer.json();
};

/** Each file once, and again only after it could not be had. */
const held = new Map();
function once(name) {
  if (!held.has(name)) held.set(name, fetched(name).catch((wrong) => { held.delete(name); throw wrong; }));
  return held.get(name);
}

async function start() {
  const [{ Names, Texts }, index] = await Promise.all([import("./engine.js"), once("names")]);
  names ??= new Names(index);
  return async () => { texts ??= new Texts(await once("texts"), index.same); };
}

async function take(index, kind, numbers) {
  for (const rows of await Promise.all(numbers.map((number) => once(`${kind}-${number}`)))) index.add(rows);
}

const options = () => [...list.children];

/** Choose the option at this place, counted round; none for null. */
function mark(at) {
  const all = options();
  active = at === null || !all.length ? -1 : (at + all.length) % all.length;
  all.forEach((option, n) => option.setAttribute("aria-selected", String(n === active)));
  if (active < 0) return field.removeAttribute("aria-activedescendant");
  field.setAttribute("aria-activedescendant", all[active].id);
  all[active].scrollIntoView({ block: "nearest" });
}

function show(open) {
  panel.hidden = !open;
  field.setAttribute("aria-expanded", String(open && list.children.length > 0));
  if (!open) { asked += 1; mark(null); } // what is still under way may not open it again
}

const line = ({ title, note, kind, address }, n) => make("a",
  { className: "hb-search__result", id: `hb-search-${n}`, role: "option", tabIndex: -1, href: new URL(address, root).href, ariaSelected: "false" },
  make("span", { className: "hb-search__title" }, title), " ", make("span", { className: "hb-search__kind" }, kind), " ",
  make("span", { className: "hb-search__note" }, note));

/** A place as a line; an exercise with other names, first the one that was typed. */
function placed({ place }) {
  const typed = (name) => folded(name).startsWith(folded(field.value.trim()));
  const others = [...place.others].sort((a, b) => typed(b) - typed(a)).slice(0, 3);
  return { ...place, kind: names.kinds[place.kind], note: place.kind === 0 && others.length ? `Also ${others.join(", ")}` : place.note };
}
const written = ({ title, heading, address }) => ({ title: heading || title, note: heading ? title : "", kind: "In the text", address });

/** The list and, above it, how many there are or that the name is missing. `whole` once nothing more is looked up. */
function render(text, { found, named }, sections, whole) {
  const near = named ? found.slice(0, MOST) : found.filter(({ rank }) => rank < found[0].rank + 0.5).slice(0, MOST_NEAR);
  const known = new Set(near.map(({ place }) => place.address));
  const read = sections.filter(({ address }) => !known.has(address)).slice(0, MOST_SECTIONS).map(written);
  const titled = !named && text.split(/\s+/).length >= LONG; // long words of a title: who types them knows the text
  const lines = titled ? [...read, ...near.map(placed)] : [...near.map(placed), ...read];
  const kept = active > 0 ? active : -1;
  const before = options();
  lines.map(line).forEach((made, n) => { // what stands already stays, so that nothing moves under a finger
    if (before[n]?.href !== made.href) { if (before[n]) before[n].replaceWith(made); else list.append(made); }
  });
  options().slice(lines.length).forEach((left) => left.remove());
  const nearest = near.length ? `; nearest: ${near[0].place.title}` : "";
  const said = named ? `${lines.length} ${lines.length === 1 ? "result" : "results"}` : whole || near.length
    ? `Not in the handbook under this name${nearest}.` : "Looking …";
  shown = text;
  if (told.textContent !== said) told.textContent = said;
  told.classList.toggle("hb-search__told--missing", !named);
  show(true);
  mark(named || kept > 0 ? Math.min(Math.max(kept, 0), lines.length - 1) : null);
}

/** Look up what stands in the field; `first` is called when the first answer stands in the list. */
async function look(first = () => {}) {
  clearTimeout(later);
  const text = field.value.trim(), turn = ++asked, over = () => turn !== asked;
  if (text.length < 2) { shown = text; return show(false); }
  try {
    const more = await (ready ??= start().catch((wrong) => { ready = undefined; throw wrong; }));
    const query = names.read(text);
    await take(names, "names", query.files);
    if (over()) return;
    let found = names.find(query);
    if (!found.named) {
      await take(names, "names", query.more);
      if (over()) return;
      found = names.find(query);
    }
    render(text, found, [], false);
    first();
    await more();
    const words = texts.read(text);
    await take(texts, "texts", words.files);
    const sections = texts.find(words).slice(0, MOST + MOST_SECTIONS), numbers = texts.told(sections);
    const files = await Promise.all(numbers.map(async (number) => [number, await once(`sections-${number}`)]));
    if (!over()) render(text, found, texts.called(sections, new Map(files)), true);
  } catch (wrong) {
    if (over()) return;
    list.replaceChildren();
    told.textContent = "The search could not be loaded. Is there a network?";
    show(true);
    console.error(wrong);
  }
}

function typed() {
  clearTimeout(later);
  later = setTimeout(() => look(), WAIT);
}

/** On a narrow screen the field takes the place of the header. */
function open(wide) {
  box.classList.toggle("hb-search--open", wide);
  opener.setAttribute("aria-expanded", String(wide));
  if (wide) field.focus(); else show(false);
}

const ACTS = {
  ArrowDown: () => { if (panel.hidden) look(); else mark(active + 1); },
  ArrowUp: () => { if (!panel.hidden) mark(active < 0 ? -1 : active - 1); },
  Enter: async () => {
    if (field.value.trim() !== shown) await new Promise((done) => look(done)); // who types fast means what stands in the field
    options()[active]?.click();
  },
  Escape: () => { if (!panel.hidden) show(false); else if (field.value) field.value = ""; else { open(false); field.blur(); } },
};

field.addEventListener("keydown", (event) => {
  if (!ACTS[event.key] || event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  event.stopPropagation();
  ACTS[event.key]();
});
field.addEventListener("input", typed);
field.addEventListener("focus", () => { ready ??= start().catch(() => { ready = undefined; }); if (field.value.trim()) look(); });
opener.addEventListener("click", () => open(true));
closer.addEventListener("click", () => { open(false); opener.focus(); });
panel.addEventListener("mousedown", (event) => event.preventDefault()); // the field keeps the focus
list.addEventListener("click", () => { open(false); field.blur(); }); // the address may lie on this very page
document.addEventListener("pointerdown", ({ target }) => { if (!box.contains(target)) open(false); });
box.addEventListener("focusout", ({ relatedTarget }) => { if (relatedTarget && !box.contains(relatedTarget)) show(false); });
document.addEventListener("keydown", (event) => {
  const busy = event.target.closest?.("input, textarea, select, [contenteditable]");
  if (event.key !== "/" || busy || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  open(true);
  field.select();
});
box.hidden = false;
