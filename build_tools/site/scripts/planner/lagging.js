// The page What lags: what is asked for, and the answer of rules/shortlist.js in words, up to the week or a handout.

import { make, part } from "../dom.js";
import { begun } from "../rules/first_dose.js";
import { BadFragment, encode } from "../rules/link.js";
import { named } from "../rules/names.js";
import { handout, seen } from "../rules/plan.js";
import { picked, relaxed, shortlist } from "../rules/shortlist.js";
import { filled, listed, upper } from "../rules/text.js";
import { added, count, countMuscles, ends } from "../rules/week.js";
import { span } from "../rules/words.js";
import { marked, reasons } from "./answers.js";
import { box } from "./box.js";
import { begin, careOf, fetched, link, root } from "./page.js";
import { card, isTaken } from "./proposal.js";
import { arrived, asked, fragment, keep, loaded } from "./state.js";

const OFFERED = 12, NOTHING = "none";
let had, data, names, plan, wish, doses, own = new Map(), taken = [], shown = [], turn = 0;
const open = new Set();

const held = () => [...new Set(plan.days.flat().map((entry) => entry.exercise))];
const boxes = (name) => [...document.querySelectorAll(`[name="${name}"]`)];
const action = (text, act, label = text) => make("button", { type: "button", className: "hb-action", ariaLabel: label, onclick: act }, text);
const place = (ref) => names.places[ref][0];
const limit = (field) => new Map(had.rules.fields).get(field);
const partsOf = (ref) => (data.muscles[ref]?.parts ?? [ref]).filter((one) => data.trained.includes(one));

/** The parts asked for, each with ways to move it to the front and to take it out. */
function chosen() {
  part("chosen").replaceChildren(...wish.parts.map((ref, n) => make("li", {}, make("b", {}, place(ref)), " ", make("span", { className: "hb-quiet" }, names.places[ref][1]), " ",
    ...(n ? [action("First", () => ask({ parts: [ref, ...wish.parts.filter((other) => other !== ref)] }, "what"), `Put ${place(ref)} first`), " "] : []),
    action("Remove", () => ask({ parts: wish.parts.filter((other) => other !== ref) }, "what"), `Remove ${place(ref)}`))));
  const all = wish.equipment.length === Object.keys(data.equipment).length, has = all ? "" : [...wish.equipment].sort().join(",") || NOTHING;
  for (const one of boxes("kit")) one.checked = one.value === has;
  for (const one of boxes("has")) one.checked = wish.equipment.includes(one.value);
  for (const one of boxes("avoid")) one.checked = wish.concerns.includes(one.value);
  if (!boxes("kit").some((one) => one.checked)) part("has").closest("details").open = true;
  if (wish.concerns.length) part("avoid").closest("details").open = true;
}

function take(ref) {
  part("what").value = "";
  ask({ parts: [...new Set([...wish.parts, ...partsOf(ref)])] });
}

function asking() {
  const all = Object.entries(names.places).filter(([ref]) => partsOf(ref).length), whole = (ref) => place(ref) + (partsOf(ref).length > 1 ? ", all parts" : "");
  box(part("what"), {
    offered: (text) => (text ? named(all, text).slice(0, OFFERED) : Object.keys(data.muscles).filter((id) => partsOf(id).length).map((id) => ({ id, name: place(id) })))
      .map(({ id, name }) => ({ id, title: whole(id), note: name === place(id) ? names.places[id][1] : name })),
    missing: "No part has this name.",
    take: ({ id }) => take(id),
  });
  part("form").addEventListener("submit", (event) => {
    event.preventDefault();
    const [found] = part("what").value.trim() ? named(all, part("what").value) : [];
    if (found) take(found.id);
  });
  part("form").addEventListener("change", ({ target }) => {
    const values = (name) => boxes(name).filter((one) => one.checked).map((one) => one.value);
    if (target.name === "kit") ask({ equipment: target.value ? target.value.split(",").filter((id) => id !== NOTHING) : Object.keys(data.equipment) });
    if (target.name === "has") ask({ equipment: values("has") });
    if (target.name === "avoid") ask({ concerns: values("avoid") });
  });
}

/** What to have at hand so that something fits, the most helpful first. */
function relaxing(ref) {
  const ways = relaxed(data, wish, ref).slice(0, 3);
  return [make("p", {}, filled(data.words["no-fit"], { part: data.parts[ref].inside })), ...(ways.length ? [] : [make("p", {}, data.words["relax-nothing"])]),
    make("ul", {}, ...ways.map(([id, gain]) => make("li", {}, action(filled(data.words.relax, { equipment: data.equipment[id].name.toLowerCase(), count: gain }),
      () => ask({ equipment: Object.keys(data.equipment).filter((one) => one === id || wish.equipment.includes(one)) }, "status")))))];
}

/** One exercise of the list, with its reason and the way to take it. */
function row(answer, ref, { kind, care }, id, cautions) {
  const { address, name, main } = data.exercises[id], of = make("span", { className: "hb-unseen" }, ` for ${name}`);
  return make("li", {}, link(address, name), ...(main ? [make("span", { className: "hb-quiet" }, " main lift")] : []), " ",
    ...(shown.some((one) => one.exercise === id) ? [] : [action("Take it", () => { taken.push({ part: ref, exercise: id }); show(answer, cautions); part("status").focus(); }, `Take it: ${name}`)]),
    ...(kind === "none" ? [] : [make("details", { className: "hb-below" }, make("summary", {}, "Reason", of), ...reasons(data, id, ref, kind))]), ...(care ? careOf(cautions, id) : []));
}

/** All that trains a part, folded: first what no caution speaks of, then what asks for care. */
function listOf(answer, ref, cautions) {
  const places = answer.options[ref], number = (some) => some.flatMap(({ exercises }) => exercises).length;
  if (!places.length) return relaxing(ref);
  const careful = places.filter(({ care }) => care), free = places.filter(({ care }) => !care);
  const list = (some) => make("ol", { className: "hb-places" }, ...some.map((one) => make("li", {},
    make("p", { className: "hb-kind" }, ...marked(data, one.exercises[0], ref, one.kind), make("span", {}, data.kinds[one.kind].name)),
    ...(one.exercises.length > 1 ? [make("p", { className: "hb-quiet" }, filled(data.words.tie, { count: one.exercises.length }))] : []),
    make("ul", {}, ...one.exercises.map((id) => row(answer, ref, one, id, cautions))))));
  return [make("details", { className: "hb-below", open: open.has(ref), ontoggle: ({ target }) => open[target.open ? "add" : "delete"](ref) },
    make("summary", {}, filled(data.words[careful.length ? "all-care" : "all"], { part: data.parts[ref].inside, count: number(places), care: number(careful) })),
    ...(free.length ? [list(free)] : []), ...(careful.length ? [make("h3", {}, "Only with care"), list(careful)] : []))];
}
/** How a proposal begins: the first for a part has its days, a second one and a main lift beside an accessory wait for a tick. */
function doseOf(found) {
  if (own.has(found.exercise)) return own.get(found.exercise);
  const lift = found.beside !== undefined;
  const first = shown.find((one) => one.part === found.part && (lift || one.beside === undefined)), waits = lift ? shown.some((one) => one.beside === undefined && one.part === found.part) : first !== found;
  const dose = begun(found.part, plan.days, doses);
  own.set(found.exercise, { ...dose, days: waits && !taken.some((one) => one.exercise === found.exercise) ? [] : dose.days, instead: null });
  return own.get(found.exercise);
}

/** What follows from the doses: the sum against the range, the way to the week, the handout. */
function sum() {
  const takes = shown.map(({ exercise }) => ({ exercise, ...own.get(exercise) })).filter(isTaken), ids = takes.map(({ exercise }) => exercise), { counts, muscles, goal } = doses;
  const sound = takes.every(({ sets, repetitions, left }) => ![sets, repetitions, left].includes(undefined)), many = wish.concerns.length > had.rules.concerns;
  const days = sound ? added(plan.days, takes, limit("sets").high) : plan.days, after = count(days, data.exercises), all = countMuscles(days, data.exercises, data.muscles);
  const told = (name, one, other) => make("li", {}, filled(data.words[takes.length ? "gets" : "gets-now"], { name, sets: one?.sets ?? 0, then: other?.sets ?? 0 }));
  const several = [...new Set(wish.parts.map((ref) => ref.split("/")[0]))].filter((id) => data.muscles[id].parts.length > 1);
  part("gets").replaceChildren(...wish.parts.map((ref) => told(data.parts[ref].inside, counts[ref], after[ref])),
    ...several.map((id) => told(filled(data.words["in-all"], { muscle: data.muscles[id].everyday.toLowerCase() }), muscles[id], all[id])));
  part("span").textContent = filled(data.words["muscle-range"], { range: span(data, ends(goal.weekly_sets, wish.parts[0])) });
  let why = !takes.length ? data.words["no-day"] : sound ? "" : data.words["bad-dose"];
  part("into").hidden = part("now").hidden = Boolean(why);
  part("into").href = new URL(`week/${fragment({ ...plan, days }, wish, data)}`, root).href;
  if (!why) {
    try {
      const only = days.map((rows) => rows.filter(({ exercise }) => ids.includes(exercise)));
      part("now").href = new URL(`handout/#${encode(handout({ days: only }, { title: upper(data.parts[wish.parts[0]].everyday), care: Object.keys(data.concerns).filter((id) => wish.concerns.includes(id)) }), had.rules)}`, root).href;
    } catch (bad) {
      if (!(bad instanceof BadFragment)) throw bad;
      part("now").hidden = true;
      why = many ? filled(data.words["many-concerns"], { count: had.rules.concerns }) : data.words["too-long"];
    }
  }
  part("why").textContent = why;
}

/** Signs that need help stand on top, then whom to ask; `cautions` are those of the concerns. */
function careFirst(cautions) {
  part("care").hidden = !wish.concerns.length;
  for (const one of document.querySelectorAll("[data-concern]")) one.hidden = !wish.concerns.includes(one.dataset.concern);
  const whom = [...new Set(shown.flatMap(({ exercise }) => cautions.flatMap((of) => of[exercise] ?? [])).map((lines) => lines[3]))];
  part("ask").hidden = !whom.length;
  part("asked").textContent = whom.join(" ");
}

function show(answer, cautions) {
  const { options, proposals, lifts } = answer;
  const more = taken.map(({ part: ref, exercise }) => picked({ exercises: seen(plan, data.exercises) }, { ...wish, week: held() }, answer, ref, exercise)).filter(Boolean);
  const first = [...lifts, ...proposals];
  shown = [...first, ...more.filter(({ exercise }) => !first.some((one) => one.exercise === exercise))];
  const said = [...(lifts.length ? [data.words.lifts] : []), ...(proposals.length ? [data.words[["one", "two"][proposals.length - 1]]] : []),
    ...(shown.length && shown.every(({ care }) => care) ? [data.words["with-care"]] : [])];
  const without = wish.parts.find((ref) => !options[ref].some(({ exercises }) => exercises.some((id) => !data.exercises[id].main)));
  part("status").textContent = !wish.parts.length ? data.words["no-part"] : said.join(" ") || filled(data.words["no-accessory"], { part: data.parts[without ?? wish.parts[0]].inside });
  part("adding").hidden = !shown.length;
  part("more").hidden = !wish.parts.length;
  for (const found of shown) doseOf(found);
  const room = (id) => plan.days.flatMap((rows, n) => rows.length >= data.plan.exercises && !rows.some(({ exercise }) => exercise === id) ? [n] : []);
  part("proposals").replaceChildren(...shown.map((found) => card({ ...had, data }, found, own.get(found.exercise),
    { parts: wish.parts, full: room(found.exercise), care: found.care ? careOf(cautions, found.exercise) : [], changed: sum })));
  part("options").replaceChildren(...wish.parts.flatMap((ref) => listOf(answer, ref, cautions)));
  careFirst(cautions);
  if (shown.length) sum();
}

async function answer() {
  const mine = ++turn;
  chosen();
  keep(plan, wish, data);
  const told = asked(had.data, wish.parts), cautions = await Promise.all(wish.concerns.map((id) => fetched(`data/care/${id}.json`))), found = await told;
  if (mine !== turn) return;
  data = found;
  show(shortlist({ exercises: seen(plan, data.exercises), orders: data.orders }, { ...wish, week: held() }), cautions);
}

/** Asks anew, and puts the focus where the coach goes on. */
async function ask(change, then) {
  Object.assign(wish, change);
  own = new Map([...own].filter(([, dose]) => dose.touched));
  await answer().catch((wrong) => { part("failed").hidden = false; console.error(wrong); });
  if (then) part(then).focus();
}

begin(async () => {
  [had, names] = await Promise.all([loaded(), fetched("data/names.json")]);
  data = had.data;
  const found = arrived(had);
  ({ plan, wish } = found);
  wish.parts = [...new Set(wish.parts)];
  doses = { counts: count(plan.days, data.exercises), muscles: countMuscles(plan.days, data.exercises, data.muscles), goal: data.goals[plan.goal], most: data.plan.exercises };
  part("wrong").textContent = found.wrong;
  const names_of = held().map((id) => data.exercises[id].name);
  part("held").textContent = names_of.length ? filled(data.words.held, { exercises: listed(names_of) }) : "";
  part("range").href = new URL(doses.goal.weekly_sets.address, root).href;
  asking();
  addEventListener("hashchange", () => location.reload());
  await answer();
});
