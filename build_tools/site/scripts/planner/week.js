// The page Week: the plan in memory and in the fragment, its fields, and what follows from it.

import { make, part } from "../dom.js";
import { encode, holds } from "../rules/link.js";
import { BadPlan, handout, read, rowOf } from "../rules/plan.js";
import { filled } from "../rules/text.js";
import { count, duration, ends, standing, warnings } from "../rules/week.js";
import { named, span } from "../rules/words.js";
import { remark } from "./answers.js";
import { begin, link, root } from "./page.js";
import { arrived, fragment, keep, loaded } from "./state.js";
import { exporting } from "./week_buttons.js";
import { reckoning } from "./week_loads.js";

const FIELDS = [["sets", "Sets", true], ["repetitions", "Repetitions", true], ["left", "Left", false], ["rest", "Rest, seconds", false]];
let had, data, plan, wish, limits, reckon;

const say = (text) => { part("status").textContent = text; };
const exercise = (id) => data.exercises[id];
const table = (heads, rows) => {
  const cell = (name, value, properties = {}) => make(name, properties, value);
  const body = make("tbody"), head = make("tr", {}, ...heads.map((text) => cell("th", text, { scope: "col" })));
  body.append(...rows.map(([first, ...rest]) => make("tr", {}, cell("th", first, { scope: "row" }), ...rest.map((value) => cell("td", value)))));
  return make("table", { className: "hb-numbers" }, make("thead", {}, head), body);
};

/** The value of a field, or undefined for what it cannot hold. */
function valueOf(name, text, needed) {
  const limit = limits.get(name), said = text.trim().replace(/\s*[-–—]\s*/u, "-");
  if (said === "") return needed ? undefined : null;
  const value = "low" in limit ? (/^[0-9]{1,4}$/.test(said) ? Number(said) : undefined) : said;
  return value !== undefined && holds(limit, value) ? value : undefined;
}

function field(entry, [name, label, needed]) {
  const input = make("input", { value: entry[name] ?? "", placeholder: " ", maxLength: 10, autocomplete: "off", inputMode: name === "repetitions" ? "text" : "numeric" });
  input.setAttribute("aria-label", `${label}: ${exercise(entry.exercise).name}`);
  input.addEventListener("input", () => {
    const value = valueOf(name, input.value, needed);
    input.setAttribute("aria-invalid", String(value === undefined));
    if (value === undefined) return say(filled(data.words[name === "repetitions" ? "bad-repetitions" : "bad-number"], { field: label, ...limits.get(name) }));
    entry[name] = value;
    say("");
    tell();
  });
  return make("label", { className: "hb-field" }, `${label} `, input);
}

function button(text, name, act) {
  const made = make("button", { type: "button", className: "hb-action", onclick: act }, text);
  made.setAttribute("aria-label", `${text}: ${name}`);
  return made;
}

function dayOf(entries, n) {
  const list = make("ol");
  list.append(...entries.map((entry, place) => {
    const { name, address } = exercise(entry.exercise);
    const up = button("Up", name, () => { [entries[place - 1], entries[place]] = [entry, entries[place - 1]]; draw(); say(filled(data.words.moved, { exercise: name, place })); });
    up.disabled = place === 0;
    const remove = button("Remove", name, () => { entries.splice(place, 1); draw(); part("name").focus(); say(filled(data.words.removed, { exercise: name })); });
    return make("li", {}, make("p", {}, link(address, name)), make("div", { className: "hb-entry" },
      make("p", { className: "hb-fields" }, ...FIELDS.map((one) => field(entry, one))), make("p", { className: "hb-actions" }, up, remove)));
  }));
  const time = make("p", { className: "hb-quiet" });
  time.dataset.day = n;
  return make("section", {}, make("h3", {}, data.plan.days[n]), list, time);
}

function draw() {
  part("days").replaceChildren(...plan.days.flatMap((entries, n) => entries.length ? [dayOf(entries, n)] : []));
  tell();
}

function handed(n) {
  try {
    const made = encode(handout(plan, { title: data.plan.days[n] }, [n]), had.rules);
    return [make("li", {}, make("a", { href: new URL(`handout/#${made}`, root).href }, `Handout for ${data.plan.days[n]}`))];
  } catch {
    return [make("li", {}, `${data.plan.days[n]} is more than a handout can hold.`)];
  }
}

/** Where a part stands, and its own range where the sources tell muscles apart. */
const against = (ref, place, range) => data.words[`standing-${place}`] + (ends(range, ref) === range ? "" : ` (${span(data, ends(range, ref))})`);

/** Trained parts in the table, the ones that miss the range first; parts that are only helped stand folded below it. */
function counted(counts, range) {
  const places = ["below", "above", "within", "helper"];
  const rows = Object.entries(counts).map(([ref, held]) => ({ ref, held, place: standing(ref, held, range) }));
  const of = (some) => some.map(({ ref, held, place }) => [named(data, ref), String(held.sets), against(ref, place, range),
    held.days.map((n) => data.plan.days[n].slice(0, 3)).join(", ")]);
  const trained = places.slice(0, 3).flatMap((place) => rows.filter((row) => row.place === place)), helped = rows.filter(({ place }) => place === "helper");
  const open = part("count").querySelector("details")?.open ?? false;
  part("count").replaceChildren(table(["Part", "Sets", "Against the range", "Directly on"], of(trained)), ...(helped.length ? [
    make("details", { className: "hb-below", open }, make("summary", {}, `Only helped: ${helped.length}`),
      make("p", { className: "hb-quiet" }, data.words["standing-helper"], "."), table(["Part", "Sets"], of(helped).map((row) => row.slice(0, 2))))] : []));
}

/** Everything that follows from the plan. */
function tell() {
  keep(plan, wish, data);
  const range = data.goals[plan.goal].weekly_sets, counts = count(plan.days, data.exercises);
  for (const line of document.querySelectorAll("[data-day]")) {
    const minutes = Math.ceil(duration(plan.days[line.dataset.day], data.exercises, data.seconds[plan.goal]) / 60);
    line.textContent = filled(data.words.minutes, { minutes });
  }
  part("range").replaceChildren(`Range: ${span(data, range)} ${range.unit}. Not known: ${range.unsure} `, link(range.address, "Sources"));
  counted(counts, range);
  const found = warnings(plan.days, counts, data.exercises, range);
  part("remarks").replaceChildren(...found.map((one) => remark(data, plan.goal, one)));
  const filledIn = plan.days.some((day) => day.length);
  for (const [name, shown] of [["hint", !filledIn], ["planned", filledIn], ["warned", found.length]]) part(name).hidden = !shown;
  part("handouts").replaceChildren(...plan.days.flatMap((entries, n) => entries.length ? handed(n) : []));
  part("lagging").href = new URL(`lagging/${fragment(plan, wish, data)}`, root).href;
  reckon(plan);
}

function add(event) {
  event.preventDefault();
  const typed = part("name").value.trim().toLowerCase(), n = Number(part("day").value);
  const id = Object.keys(data.exercises).find((one) => [exercise(one).name, ...exercise(one).also].some((name) => name.toLowerCase() === typed));
  if (!id) return say(data.words["unknown-exercise"]);
  if (plan.days[n].length >= data.plan.exercises) return say(filled(data.words["full-day"], { count: data.plan.exercises }));
  plan.days[n].push(rowOf({ exercise: id, sets: 3, repetitions: "8-12" }));
  part("name").value = "";
  draw();
  say(filled(data.words.added, { exercise: exercise(id).name, day: data.plan.days[n] }));
}

async function open() {
  const [file] = part("open").files;
  if (!file) return;
  try {
    plan = read(await file.text(), data, had.rules);
    part("goal").value = plan.goal;
    part("wrong").textContent = "";
    draw();
    say(data.words.opened);
  } catch (bad) {
    if (!(bad instanceof BadPlan)) throw bad;
    part("wrong").textContent = bad.message;
  }
}

begin(async () => {
  had = await loaded();
  data = had.data;
  limits = new Map(had.rules.fields);
  const found = arrived(had);
  ({ plan, wish } = found);
  part("wrong").textContent = found.wrong;
  part("goal").value = plan.goal;
  part("hint-text").textContent = data.words["week-empty"];
  part("names").append(...Object.values(data.exercises).map(({ name, also }) => make("option", { value: name }, also.join(", "))));
  part("day").append(...data.plan.days.map((name, n) => make("option", { value: n }, name)));
  part("progression").append(...data.progression.map((rule) => make("li", {}, make("b", {}, rule.do), ` ${rule.because}`)));
  reckon = reckoning(data, table);
  exporting(data, () => plan);
  part("goal").addEventListener("input", () => { plan.goal = part("goal").value; tell(); });
  part("add").addEventListener("submit", add);
  part("open").addEventListener("change", open);
  addEventListener("hashchange", () => location.reload());
  draw();
});
