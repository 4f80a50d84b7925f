// The handout as the client sees it, without the figures: this much needs nothing but the link, so that the list and the lines of when to
// stop stand there at once, whatever the signal. sheets.js brings the rest.

import { make, part } from "../dom.js";
import { upcoming, weekday } from "../rules/days.js";
import { dose, work } from "../rules/doses.js";
import { filled } from "../rules/text.js";

/** What the page holds for its scripts, and its fixed words. */
export const data = JSON.parse(part("data").textContent), { words } = data;
/** A sentence of the page with its {places} filled. */
export const said = (name, values) => filled(words[name], values);

const view = part("view"), nav = part("days", view);
let handout = null, chosen = null;
/** How long the list waits for the lines of care, in milliseconds: they stand above it, and would push it down. */
const PATIENCE = 2_500;
/** Where an exercise's cue sheet is, and a concern's lines. */
export const sheetOf = (id) => new URL(`../cues/${id}/`, location.href).href;
export const careOf = (id) => new URL(`../data/care/${id}.json`, location.href).href;

/** `Monday` of 0, and `7 December 2026` of `2026-12-07`. */
export const dayName = (day) => told(Date.UTC(2024, 0, 1 + day), { weekday: "long" }); // that year began on a Monday
const dateName = (date) => told(Date.parse(date), { day: "numeric", month: "long", year: "numeric" });
const told = (time, how) => new Date(time).toLocaleDateString(words.dates, { ...how, timeZone: "UTC" });

/** What is kept on this device under a name; null where nothing is, or nothing may be. */
export function stored(name) {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

/** All but the figures and cues; resolves when it stands. `names` maps ids to names, `concerns` are those of the handbook. */
export async function draw(shown, names, concerns) {
  const { title, coach, date, care, days } = handout = shown;
  document.title = part("heading", view).textContent = title ?? words.heading;
  const from = [coach && said("from", { coach }), date && dateName(date)].filter(Boolean).join(", ");
  part("from", view).textContent = from;
  part("from", view).hidden = !from;
  part("kept", view).hidden = true;
  let number = 0;
  const each = (day, one) => day.items.map((item, n) => one(item, n + 1, names.get(item.id), number++));
  const blocks = (one, wrap) => days.map((day) => block(day, wrap(each(day, one))));
  part("list", view).replaceChildren(...blocks(line, (lines) => [make("ol", { className: "list" }, ...lines)]));
  number = 0;
  part("exercises", view).replaceChildren(...blocks(article, (articles) => articles));
  const coming = upcoming(days, weekday(new Date()));
  nav.hidden = days.length === 1;
  nav.replaceChildren(...coming.map(({ day }) => dayButton(day)));
  choose(coming[0].day);
  view.dataset.step = "0";
  const place = part("care", view);
  place.hidden = !care.length;
  place.replaceChildren(make("p", {}, words.care_coming));
  if (care.length) await Promise.race([takeCare(shown, place, names, concerns), new Promise((done) => setTimeout(done, PATIENCE))]);
}

async function takeCare(shown, place, names, concerns) {
  const { care, days } = shown, known = care.filter((id) => Object.hasOwn(concerns, id)), ids = days.flatMap(({ items }) => items.map(({ id }) => id));
  let made;
  try {
    const files = known.map((id) => fetch(careOf(id)).then((answer) => answer.ok ? answer.json() : null).catch(() => null));
    const [{ told: lines }, , ...had] = await Promise.all([import("./care.js"), import("../rules/care.js"), ...files]); // its rule at the same time
    made = lines(care, concerns, Object.fromEntries(known.map((id, n) => [id, had[n]])), ids, names);
  } catch {
    made = [make("p", {}, words.care_missing)];
  }
  if (handout !== shown) return;
  place.replaceChildren(...made);
  choose(chosen);
}

function block({ day }, children) {
  const made = make("section", { className: "day" }, ...(day === null ? [] : [make("h2", {}, dayName(day))]), ...children);
  made.dataset.day = String(day);
  return made;
}

function dayButton(day) {
  const today = day === weekday(new Date()), made = make("button", { type: "button", onclick: () => choose(day) }, today ? said("today", { day: dayName(day) }) : dayName(day));
  made.dataset.day = String(day);
  return made;
}

/** Shows one day, with the care for its exercises; paper has all. */
function choose(day) {
  chosen = day;
  for (const each of view.querySelectorAll(".day")) each.toggleAttribute("data-chosen", each.dataset.day === String(day));
  for (const each of nav.children) each.setAttribute("aria-pressed", String(each.dataset.day === String(day)));
  const ids = handout.days.find((each) => each.day === day).items.map(({ id }) => id);
  for (const each of view.querySelectorAll("[data-part=care] [data-id]")) each.toggleAttribute("data-other", !ids.includes(each.dataset.id));
}

function box(label, n, set) {
  const made = make("input", { type: "checkbox", autocomplete: "off" });
  made.setAttribute("aria-label", label);
  Object.assign(made.dataset, { n, ...(set === null ? {} : { set }) });
  return made;
}

function line(item, number, name, n) {
  const how = work(item, words.dose), link = make("a", { href: location.href }, make("b", {}, `${number}. ${name}`), ...(how ? [" ", make("span", {}, how)] : []));
  link.dataset.n = n;
  return make("li", {}, box(said("done_of", { name }), n, null), link);
}

function article(item, number, name, n) {
  const [first, ...sentences] = dose(item, words.dose), sets = Array.from({ length: item.sets ?? 1 }, (_, set) => set);
  const made = make("article", {}, make("h2", { tabIndex: -1 }, `${number}. ${name}`));
  made.dataset.n = n;
  if (first) made.append(make("p", { className: "dose" }, first));
  made.append(make("fieldset", { className: "sets" }, make("legend", {}, item.sets ? words.sets_done : words.done),
    ...sets.map((set) => make("label", {}, box(item.sets ? said("set_number", { n: set + 1 }) : words.done, n, set), item.sets ? ` ${set + 1}` : ""))));
  if (sentences.length) made.append(make("p", {}, sentences.join(" ")));
  if (item.note) made.append(make("p", { className: "note" }, item.note));
  const cues = make("div", { className: "sheet" });
  Object.assign(cues.dataset, { part: "sheet", wait: "" });
  made.append(cues, make("a", { className: "button", href: sheetOf(item.id) }, said("cue_sheet", { name })));
  return made;
}
