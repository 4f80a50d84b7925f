// The page Week: the plan in memory, in the fragment and in the tab, and what follows from it.

import { make, part } from "../dom.js";
import { named } from "../rules/names.js";
import { BadPlan, read, rowOf as blankRow, seen } from "../rules/plan.js";
import { filled, upper } from "../rules/text.js";
import { typed } from "../rules/typed.js";
import { duration, warnings } from "../rules/week.js";
import { span } from "../rules/words.js";
import { counted } from "../week/counts.js";
import { reckoning } from "../week/loads.js";
import { paper } from "../week/paper.js";
import { progressing } from "../week/progress.js";
import { offer } from "../week/replace.js";
import { rowOf, valueOf } from "../week/row.js";
import { taking } from "../week/take.js";
import { undoing } from "../week/undo.js";
import { versions } from "../week/versions.js";
import { remark } from "./answers.js";
import { box } from "./box.js";
import { begin, link, root } from "./page.js";
import { arrived, fragment, keep, loaded, lost } from "./state.js";

const OFFERED = 8, REMARKS = 3;
let had, data, names, wish, plans, page, reckon, took, progressed;

const say = (text) => { part("status").textContent = text; };
const plan = () => plans.current();
const name = (id) => data.exercises[id].name;
const days = () => plan().days.flatMap((rows, n) => rows.length ? [n] : []);

/** Changes the plan by a copy of it, says so, and tells what follows; the rows stay as they are drawn. */
function edit(change, said, key = null) {
  const next = plans.copy();
  change(next);
  plans.set(next, key);
  if (said) say(said);
  tell();
}

/** Likewise, and draws the rows anew; the focus goes to the row at {day, place} where one is given. */
function redo(change, said, to) {
  edit(change, said);
  draw();
  if (to) rowAt(to)?.querySelector("a")?.focus();
}

const rowAt = ({ day, place }) => document.querySelector(`.hb-row[data-day="${day}"][data-place="${place}"]`);
const room = (day) => plan().days[day].length < data.plan.exercises || void say(filled(data.words["full-day"], { count: data.plan.exercises }));

const act = {
  remove({ day, place }) {
    const { exercise } = plan().days[day][place];
    redo((next) => next.days[day].splice(place, 1), filled(data.words.removed, { exercise: name(exercise) }));
    part("undo").focus();
  },
  up: (at) => swap(at, at.place - 1),
  down: (at) => swap(at, at.place + 1),
  move({ day, place }, to) {
    if (!room(to)) return;
    const { exercise } = plan().days[day][place];
    redo((next) => next.days[to].push(...next.days[day].splice(place, 1)), filled(data.words["moved-day"], { exercise: name(exercise), day: data.plan.days[to] }), { day: to, place: plan().days[to].length });
  },
  main: (exercise, is) => redo((next) => { next.main[exercise] = is; }, filled(data.words[is ? "main-set" : "main-unset"], { exercise: name(exercise) })),
  load: (at) => reckon.about(at),
  replace({ day, place }, row) {
    const { exercise } = plan().days[day][place], held = plan().days[day].map((one) => one.exercise);
    document.querySelector(".hb-replace")?.remove();
    const close = () => { panel.remove(); rowAt({ day, place }).querySelector('[data-act="Replace"]').focus(); };
    const take = (other) => redo((next) => { Object.assign(next.days[day][place], { exercise: other, load: null, done: null }); }, filled(data.words.replaced, { exercise: name(exercise), other: name(other) }), { day, place });
    const panel = offer(data, exercise, wish, held, { take, close, offered });
    row.append(panel);
    panel.querySelector("button").focus();
  },
};

function swap({ day, place }, to) {
  const { exercise } = plan().days[day][place];
  redo((next) => { const rows = next.days[day]; [rows[place], rows[to]] = [rows[to], rows[place]]; }, filled(data.words.moved, { exercise: name(exercise), place: to + 1 }), { day, place: to });
}

function dayOf(rows, day) {
  const text = data.plan.days[day], time = make("span", { className: "hb-quiet" }), others = data.plan.days.flatMap((other, n) => n === day ? [] : [make("option", { value: n }, other)]);
  time.dataset.time = day;
  const copy = make("select", { ariaLabel: `Copy ${text} to`, onchange: ({ target }) => target.value && copied(day, Number(target.value)) }, make("option", { value: "" }, "Copy to…"), ...others);
  return make("section", { className: "hb-day" }, make("h3", {}, text, " ", time), make("ol", {}, ...rows.map((_, place) => rowOf(plan(), { day, place }, page))),
    make("p", { className: "hb-actions" }, make("button", { type: "button", className: "hb-action", onclick: () => choose(day) }, `Add to ${text}`), copy));
}

function copied(day, to) {
  const rows = plan().days[day].map((row) => ({ ...structuredClone(row), done: null }));
  if (plan().days[to].length + rows.length > data.plan.exercises) return say(filled(data.words["full-day"], { count: data.plan.exercises }));
  redo((next) => next.days[to].push(...rows), filled(data.words["copied-day"], { day: data.plan.days[day], other: data.plan.days[to] }), { day: to, place: plan().days[to].length });
}

function choose(day) {
  for (const one of part("day").querySelectorAll("input")) one.checked = Number(one.value) === day;
  part("name").focus();
}

function draw() {
  part("days").replaceChildren(...days().map((n) => dayOf(plan().days[n], n)));
  tell();
}

/** Everything that follows from the plan. */
function tell() {
  const now = plan(), filledIn = days().length > 0, range = data.goals[now.goal].weekly_sets, exercises = seen(now, data.exercises);
  keep(now, wish, data);
  for (const line of document.querySelectorAll("[data-time]")) {
    const minutes = Math.ceil(duration(now.days[line.dataset.time], data.exercises, data.seconds[now.goal]) / 60);
    line.textContent = filled(data.words.minutes, { minutes });
  }
  const { counts, scale, trained, helped } = counted(data, now.days, range);
  part("range").replaceChildren(`${span(data, range)} ${range.unit}. ${data.words["muscle-rule"]} ${range.unsure} `, link(range.address, "Sources"));
  part("scale").replaceChildren(scale);
  part("count").replaceChildren(...trained);
  part("helped").replaceChildren(...helped);
  part("helped-count").textContent = helped.length;
  const found = warnings(now.days, counts, exercises, data.goals[now.goal]).map((one) => remark(data, now.goal, one));
  part("remarks").replaceChildren(...found.slice(0, REMARKS));
  part("remarks-more").replaceChildren(...found.slice(REMARKS));
  part("remarks-count").textContent = found.length - REMARKS;
  for (const [one, shown] of [["hint", !filledIn], ["planned", filledIn], ["warned", found.length], ["folded", found.length > REMARKS], ["helpers", helped.length]]) part(one).hidden = !shown;
  const { behind, ahead } = plans.at();
  // A button that is disabled under the finger would lose the focus.
  for (const [name, left] of [["undo", behind], ["redo", ahead]]) part(name).setAttribute("aria-disabled", String(!left));
  part("steps").hidden = !behind && !ahead && !filledIn;
  part("lagging").href = new URL(`lagging/${fragment(now, wish, data)}`, root).href;
  part("paper").replaceChildren(...paper(data, now));
  took();
  reckon.draw();
  progressed();
}

/** What the box of names offers for a text. */
const offered = (text) => text ? named(names, typed(text).name).slice(0, OFFERED).map(({ id, name: fits }) => ({ id, title: name(id), note: fits === name(id) ? "" : upper(fits) })) : [];

function add({ id }) {
  const day = Number(part("day").querySelector("input:checked").value), { name: _, ...dose } = typed(part("name").value);
  const row = Object.fromEntries(Object.entries(dose).map(([key, value]) => [key, value === null ? null : valueOf(page.limits.get(key), key, String(value))]));
  if (Object.values(row).includes(undefined)) return say(data.words["bad-dose"]);
  part("name").value = "";
  if (!room(day)) return;
  redo((next) => next.days[day].push(blankRow({ exercise: id, ...row })), filled(data.words.added, { exercise: name(id), day: data.plan.days[day] }));
  part("name").focus();
}

async function open() {
  const [file] = part("open").files;
  part("open").value = "";
  if (!file) return;
  try {
    const text = await file.text();
    plans.set(read(text, data, had.rules));
    part("goal").value = plan().goal;
    part("wrong").textContent = lost(text, data);
    draw();
    say(data.words.opened);
  } catch (bad) {
    if (!(bad instanceof BadPlan)) throw bad;
    part("wrong").textContent = bad.message;
  }
}

function back(step) {
  if (!plans[step]()) return;
  part("goal").value = plan().goal;
  draw();
  say(data.words[step]);
}

begin(async () => {
  had = await loaded();
  data = had.data;
  const found = arrived(had);
  wish = found.wish;
  plans = versions(found.plan);
  page = { data, limits: new Map(had.rules.fields), say, edit, act };
  part("wrong").textContent = found.wrong;
  part("goal").value = plan().goal;
  part("hint-text").textContent = data.words["week-empty"];
  part("day").append(...data.plan.days.map((text, n) => make("label", { className: "hb-day-of" }, make("input", { type: "radio", name: "day", value: n, checked: n === (days()[0] ?? 0), ariaLabel: text }), make("span", {}, text.slice(0, 3)))));
  part("progression").append(...data.progression.map((rule) => make("li", {}, make("b", {}, rule.do), ` ${rule.because}`)));
  const change = (next, said, key = null) => {
    plans.set(next, key);
    if (key === null) draw();
    else tell();
    if (said) say(said);
  };
  names = Object.entries(data.exercises).map(([id, one]) => [id, [one.name, ...one.also]]).sort(([, [a]], [, [b]]) => a.localeCompare(b));
  box(part("name"), { missing: data.words["unknown-exercise"], take: add, offered });
  reckon = reckoning(data, { plan, use: ({ day, place }, load) => redo((next) => { next.days[day][place].load = load; }, filled(data.words["load-used"], { load, exercise: name(plan().days[day][place].exercise) }), { day, place }) });
  took = taking(had, { plan, wish, change });
  progressed = data.progress ? progressing(had, { current: plan, copy: () => plans.copy(), change }) : () => {};
  part("goal").addEventListener("input", () => edit((next) => { next.goal = part("goal").value; }, ""));
  part("open").addEventListener("change", open);
  undoing(back);
  addEventListener("hashchange", () => location.reload());
  draw();
});
