// The tour: what the working pages answer for each invented client, worked out by the same rules, with links that open those pages filled in.

import { make, part } from "../dom.js";
import { begun } from "../rules/first_dose.js";
import { encode } from "../rules/link.js";
import { handout } from "../rules/plan.js";
import { shortlist } from "../rules/shortlist.js";
import { added, count, countMuscles, duration, warnings } from "../rules/week.js";
import { proposed, remark } from "./answers.js";
import { begin, careOf, fetched, link, root } from "./page.js";
import { asked, fragment, loaded } from "./state.js";

/** What a client holds besides plan and wish: what is proposed, the doses it begins with, and the week with them. */
function answered({ goal, days, parts, equipment, concerns }, { data, rules }) {
  const before = count(days, data.exercises), week = [...new Set(days.flat().map((entry) => entry.exercise))], wish = { parts, equipment, concerns, week };
  const known = { counts: before, muscles: countMuscles(days, data.exercises, data.muscles), goal: data.goals[goal], most: data.plan.exercises };
  const { lifts, proposals } = shortlist(data, wish);
  const takes = proposals.filter(({ part: ref }, n) => proposals.findIndex((one) => one.part === ref) === n)
    .map(({ exercise, part: ref }) => ({ exercise, ...begun(ref, days, known) }));
  const more = added(days, takes, new Map(rules.fields).get("sets").high);
  return { goal, days, wish, known, proposals: [...lifts, ...proposals], takes, more, before, after: count(more, data.exercises) };
}

function counts({ wish, before, after }, data) {
  const cell = (name, text, properties = {}) => make(name, properties, text), of = (held, ref) => String(held[ref]?.sets ?? 0);
  const head = ["What lags", "Sets a week as it is", "With the accessories"].map((text) => cell("th", text, { scope: "col" }));
  const rows = wish.parts.map((ref) => make("tr", {}, cell("th", data.parts[ref].name, { scope: "row" }), cell("td", of(before, ref)), cell("td", of(after, ref))));
  const table = make("table", { className: "hb-numbers" }, make("thead", {}, make("tr", {}, ...head)), make("tbody", {}, ...rows));
  return make("div", { className: "hb-scroll", role: "region", ariaLabel: head[0].textContent, tabIndex: 0 }, table);
}

function remarks({ goal, more }, data) {
  const found = warnings(more, countMuscles(more, data.exercises, data.muscles), data.exercises, data.goals[goal]);
  if (!found.length) return [make("p", {}, "The week with the accessories goes against nothing that the programme says.")];
  return [make("p", {}, "What the week with the accessories goes against:"), make("ul", {}, ...found.map((one) => remark(data, goal, one)))];
}

/** One day of the week with the accessories, its time and its handout. */
function handed({ goal, more, wish }, n, { data, rules }) {
  const entries = more[n], name = data.plan.days[n];
  const minutes = Math.ceil(duration(entries, data.exercises, data.seconds[goal]) / 60);
  const rows = entries.flatMap(({ exercise: id, sets, repetitions }, n) => [
    n ? ", " : "", link(data.exercises[id].address, data.exercises[id].name), ` ${sets} × ${repetitions}`]);
  const to = link(`handout/#${encode(handout({ days: more }, { title: name, care: wish.concerns.slice(0, rules.concerns) }, [n]), rules)}`, `Handout for ${name}`);
  to.dataset.tour = "handout";
  return make("li", {}, make("b", {}, name), `, about ${minutes} minutes: `, ...rows, ". ", to);
}

async function fill(section, number, had) {
  const { data } = had, found = answered(JSON.parse(section.dataset.client), had), { goal, days, wish, known, proposals, takes, more } = found;
  const cautions = await Promise.all(wish.concerns.map((id) => fetched(`data/care/${id}.json`)));
  const sets = (id) => takes.filter(({ exercise }) => exercise === id).map((one) => one.sets * one.days.length)[0];
  const put = (name, ...children) => part(`${name}-${number}`).replaceChildren(...children);
  for (const [name, page, week] of [["lagging", "lagging", days], ["week", "week", days], ["added", "week", more]]) {
    part(`${name}-${number}`).href = new URL(`${page}/${fragment({ goal, days: week }, wish, data)}`, root).href;
  }
  put("proposals", ...proposals.map((one) => proposed(data, one, wish.parts, sets(one.exercise) ?? begun(one.part, days, known).sets, "h4", one.care ? careOf(cautions, one.exercise) : [])));
  put("counts", counts(found, data), ...remarks(found, data));
  put("days", ...more.flatMap((entries, n) => entries.length ? [handed(found, n, had)] : []));
}

begin(async () => {
  const { data, rules } = await loaded(), clients = [...document.querySelectorAll("[data-client]")];
  const had = { rules, data: await asked(data, clients.flatMap((section) => JSON.parse(section.dataset.client).parts)) };
  await Promise.all(clients.map((section, n) => fill(section, n + 1, had)));
});
