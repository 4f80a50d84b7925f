// The page Lagging part: what is asked for, and the answer of rules/shortlist.js in words.

import { make, part } from "../dom.js";
import { relaxed, shortlist } from "../rules/shortlist.js";
import { filled, listed, upper } from "../rules/text.js";
import { added, count, ends, lastDay, toAdd } from "../rules/week.js";
import { named, span } from "../rules/words.js";
import { proposed, reasons, sign } from "./answers.js";
import { begin, link, root } from "./page.js";
import { arrived, fragment, keep, loaded } from "./state.js";

let data, plan, wish, counts, own = false;

const held = () => [...new Set(plan.days.flat().map((entry) => entry.exercise))];
const boxes = (name) => [...document.querySelectorAll(`[name="${name}"]`)];
const action = (text, act, label = text) => make("button", { type: "button", className: "hb-action", ariaLabel: label, onclick: act }, text);

function offer() {
  for (const [region, name] of Object.entries(data.regions)) {
    const refs = Object.values(data.muscles).filter((one) => one.region === region).flatMap(({ parts }) => parts).filter((ref) => ref in data.orders);
    if (refs.length) part("choice").append(make("optgroup", { label: name }, ...refs.map((ref) => make("option", { value: ref }, named(data, ref)))));
  }
  for (const [name, terms] of [["equipment", data.equipment], ["avoid", data.concerns]]) {
    part(name).append(...Object.entries(terms).map(([value, term]) => make("label", { className: "hb-tick" },
      make("input", { type: "checkbox", name, value }), make("span", {}, term.name))));
  }
  const all = { name: upper(data.words.everything), equipment: Object.keys(data.equipment) };
  part("kits").append(...[all, ...data.kits].map(({ name, equipment }) => action(name, () => { wish.equipment = equipment; answer(); })));
  part("day").append(...data.plan.days.map((name, n) => make("option", { value: n }, name)));
  part("day").value = lastDay(plan.days);
}

/** The parts asked for, each with a way to take it out. */
function chosen() {
  part("chosen").replaceChildren(...wish.parts.map((ref) => make("li", {}, `${named(data, ref)} `, action("Remove", () => {
    wish.parts = wish.parts.filter((other) => other !== ref);
    answer();
    part("choice").focus();
  }, `Remove ${named(data, ref)}`))));
  for (const option of part("choice").options) option.disabled = wish.parts.includes(option.value);
  part("choice").value = "";
  for (const box of boxes("equipment")) box.checked = wish.equipment.includes(box.value);
  for (const box of boxes("avoid")) box.checked = wish.concerns.includes(box.value);
  const all = Object.keys(data.equipment).length, has = wish.equipment.length;
  part("at-hand").textContent = has === all ? data.words.everything : has ? filled(data.words.some, { count: has, all }) : data.words.nothing;
  part("left-out").textContent = wish.concerns.length ? listed(wish.concerns.map((id) => data.concerns[id].name.toLowerCase())) : "nothing left out";
}

/** The button that takes the week with the accessory to the page Week. */
function adding(id, sets) {
  const day = Number(part("day").value), full = plan.days[day].length >= data.plan.exercises;
  return make("p", { className: "hb-actions" }, full ? filled(data.words["full-day"], { count: data.plan.exercises })
    : make("a", { className: "hb-action", href: new URL(`week/${fragment({ ...plan, days: added(plan.days, day, [id], sets) }, wish, data)}`, root).href },
      filled(data.words.add, { sets, day: data.plan.days[day] })));
}

/** What to change alone so that something fits, the most helpful first. */
function relaxing(ref, asked) {
  const found = relaxed(data, asked, ref), change = (to) => () => { Object.assign(wish, to); answer(); part("status").focus(); };
  const item = (key, values, act) => make("li", {}, act ? action(filled(data.words[key], values), act) : filled(data.words[key], values));
  const ways = [
    ...found.equipment.slice(0, 3).map(([id, gain]) => item("relax-equipment", { equipment: data.equipment[id].name.toLowerCase(), count: gain },
      change({ equipment: Object.keys(data.equipment).filter((one) => one === id || wish.equipment.includes(one)) }))),
    ...found.concerns.slice(0, 3).map(([id, gain]) => item("relax-concern", { concern: data.concerns[id].name.toLowerCase(), count: gain },
      change({ concerns: wish.concerns.filter((one) => one !== id) }))),
    ...["week", "main"].filter((key) => found[key]).map((key) => item(`relax-${key}`, { count: found[key] }))];
  return [make("p", {}, filled(data.words["no-fit-part"], { part: data.parts[ref].inside })),
    ...found.equipment.length || found.concerns.length ? [] : [make("p", {}, data.words["relax-nothing"])], make("ul", {}, ...ways)];
}

function listOf(ref, places, asked) {
  const list = make("ol", { className: "hb-places" }, ...places.map((place) => make("li", {},
    make("p", { className: "hb-kind" }, ...sign(place.kind), make("span", {}, data.kinds[place.kind].name)),
    ...(place.exercises.length > 1 ? [make("p", { className: "hb-quiet" }, data.words.tie)] : []),
    make("ul", {}, ...place.exercises.map((id) => make("li", {}, link(data.exercises[id].address, data.exercises[id].name),
      ...(place.kind === "none" ? [] : [make("details", { className: "hb-below" },
        make("summary", {}, "Reason", make("span", { className: "hb-unseen" }, ` for ${data.exercises[id].name}`)),
        make("div", {}, ...reasons(data, id, ref, place.kind)))])))))));
  return [make("h3", {}, named(data, ref)), ...(places.length ? [list] : relaxing(ref, asked))];
}

/** How much the first part gets now, and from it how many sets to begin with, until the coach writes a number. */
function dosed() {
  const [ref] = wish.parts, now = counts[ref]?.sets ?? 0, goal = data.goals[plan.goal];
  if (!own && ref) part("sets").value = toAdd(ref, now, goal);
  part("gets").replaceChildren(...(ref ? [filled(data.words.gets, { Part: upper(data.parts[ref].inside), sets: now, range: span(data, ends(goal.weekly_sets, ref)) }), " ",
    link(goal.weekly_sets.address, "What the range rests on")] : []));
  const sets = Number(part("sets").value), sound = /^[0-9]{1,2}$/.test(part("sets").value.trim()) && sets >= 1 && sets <= 20;
  part("sets").setAttribute("aria-invalid", String(!sound));
  return sound ? sets : ref ? toAdd(ref, now, goal) : 1;
}

function answer() {
  chosen();
  keep(plan, wish, data);
  const asked = { ...wish, week: held(), sets: dosed() }, { options, proposals } = shortlist(data, asked);
  const words = ["no-fit", "one", "two"];
  part("status").textContent = data.words[wish.parts.length ? words[proposals.length] : "no-part"];
  part("adding").hidden = !proposals.length;
  part("answer").hidden = !wish.parts.length;
  part("proposals").replaceChildren(...proposals.map((found) => proposed(data, found, asked.sets, "h3", adding(found.exercise, asked.sets))));
  part("options").replaceChildren(...wish.parts.flatMap((ref) => listOf(ref, options[ref], asked)));
}

function choose(event) {
  event.preventDefault();
  const ref = part("choice").value;
  if (ref) wish.parts = [...wish.parts, ref];
  answer();
}

begin(async () => {
  const had = await loaded(), found = arrived(had);
  data = had.data;
  ({ plan, wish } = found);
  wish.parts = [...new Set(wish.parts)];
  counts = count(plan.days, data.exercises);
  part("wrong").textContent = found.wrong;
  const names = held().map((id) => data.exercises[id].name);
  part("held").textContent = names.length ? filled(data.words.held, { exercises: listed(names) }) : data.words["held-nothing"];
  offer();
  part("form").addEventListener("submit", choose);
  for (const [name, key] of [["equipment", "equipment"], ["avoid", "concerns"]]) {
    part(name).addEventListener("change", () => { wish[key] = boxes(name).filter((box) => box.checked).map((box) => box.value); answer(); });
  }
  part("sets").addEventListener("input", () => { own = true; answer(); });
  part("day").addEventListener("change", answer);
  addEventListener("hashchange", () => location.reload());
  answer();
});
