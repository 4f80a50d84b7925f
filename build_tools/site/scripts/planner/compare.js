// The page Compare: two to four exercises of the address side by side. What is said of them was composed by the build.

import { make, part } from "../dom.js";
import { chosen, KINDS, partsOf } from "../rules/finder.js";
import { order } from "../rules/text.js";
import { chart, LETTERS, sample, told } from "./chart.js";
import { begin, fetched, grounds, link, mark, root } from "./page.js";

const FEWEST = 2, MOST = 4, GROUPS = { set_up: "Set up", move: "Move", check: "Check" };
const CAUTION = { who: "Who takes care", instead: "Instead", stop_if: "Stop if", ask: "Whom to ask" };
const NAMES = { strength: "Strength", architecture: "Architecture" };
let data;

const section = (title, ...children) => make("section", {}, make("h2", {}, title), ...children);
const columns = (ids, of) => make("div", { className: "hb-columns" }, ...ids.map((id, n) => make("section", {},
  make("h3", {}, `${LETTERS[n]} `, data.exercises[id].name), ...of(id, n))));
const number = (value) => String(Number(value.toPrecision(3)));

function statement(found) {
  const children = [make("p", { className: "hb-sentence" }, found.sentence)];
  const facts = [];
  if (found.ratio) facts.push(`As a ratio: ${number(found.ratio[0])} (${number(found.ratio[1])} to ${number(found.ratio[2])})`);
  if (found.studies) facts.push(`${found.studies} ${found.studies === 1 ? "study" : "studies"}${found.people ? `, ${found.people} people` : ""}`);
  if (found.kind !== "length") facts.push(`Finding: ${found.finding}`);
  if (found.certainty) facts.push(`Certainty: ${found.certainty}`);
  children.push(make("p", { className: "hb-found" }, facts.length ? `${facts.join(". ")}. ` : "", grounds(found, data.exercises[found.first])));
  return make("li", { className: `hb-claim${found.finding === "not studied" ? " hb-claim--untested" : ""}` }, ...children);
}

/** Everything said of two of the exercises, part by part, each kind of evidence under its own label. */
function sentences(ids) {
  const found = data.statements.filter(({ first, second }) => ids.includes(first) && ids.includes(second));
  if (!found.length) return [make("p", {}, "Nothing here compares these exercises with each other: no study, no model of length, no common teaching.")];
  const kinds = [...KINDS.slice(0, 2), "strength", ...KINDS.slice(2)];
  const name = (ref) => (data.parts[ref] ?? data.muscles[ref]).name;
  return [...new Set(found.map((each) => each.part))].sort((a, b) => order(name(a), name(b))).flatMap((ref) => [
    make("h3", {}, data.parts[ref] ? name(ref) : `${name(ref)}, as a whole`),
    ...kinds.flatMap((kind) => {
      const some = found.filter((each) => each.part === ref && each.kind === kind);
      return some.length ? [make("p", { className: "hb-kind" }, mark(kind), data.kinds[kind]?.name ?? NAMES[kind] ?? kind),
        make("ul", { className: "hb-claims" }, ...some.map(statement))] : [];
    })]);
}

function curves(ids, details) {
  const names = ids.map((id) => data.exercises[id].name);
  const figure = (title, some, note) => make("figure", { className: "hb-figure" }, make("p", { className: "hb-figure__title" }, title),
    chart(some, `${title}. ${told(some, names)}`), make("figcaption", {}, note));
  const loads = details.map(({ load }, n) => ({ n, values: load })).filter(({ values }) => values);
  const made = [make("ul", { className: "hb-key" }, ...ids.map((id, n) => make("li", {}, sample(n), ` ${LETTERS[n]} ${names[n]}`)))];
  if (loads.length) made.push(figure("Load over the repetition", loads,
    "Each as a share of its own peak, from the start to the end of the repetition; below 0 the other side of the joint is asked. The peaks themselves are not compared."));
  details.forEach(({ no_load: why }, n) => { if (why) made.push(make("p", { className: "hb-quiet" }, `${LETTERS[n]} has no load curve: ${why}.`)); });
  for (const ref of [...new Set(details.flatMap(({ lengths }) => Object.keys(lengths)))].sort()) {
    const some = details.map(({ lengths }, n) => ({ n, values: lengths[ref] })).filter(({ values }) => values);
    if (some.length >= FEWEST) made.push(figure(`Length of ${data.parts[ref].inside}`, some,
      "By the model, as a share of the part's own range: 0% shortest, 100% longest. Length alone shows no growth."));
  }
  if (made.length === 1) made.push(make("p", {}, "No curve is known for these exercises."));
  return made;
}

const rows = (pairs) => make("dl", { className: "hb-glance" }, ...pairs.map(([term, text]) => make("div", {}, make("dt", {}, term), " ", make("dd", {}, text))));

function glance(id) {
  const exercise = data.exercises[id];
  const sets = (value) => Object.keys(exercise.credits).filter((ref) => exercise.credits[ref] === value).map((ref) => data.parts[ref].name).join(", ") || "nothing";
  return [rows([["Equipment", exercise.equipment.map((kit) => data.equipment[kit].name).join(", ") || "Body alone"], ["Position", data.positions[exercise.position]],
    ["Sides", exercise.sides === "both" ? "Both together" : "One at a time"], ["A set counts for", sets(1)], ["Half a set for", sets(0.5)]])];
}

function table(ids, details) {
  return [
    section("Figures and equipment", columns(ids, (id, n) => [make("img", { src: new URL(details[n].figure, root).href,
      alt: `${data.exercises[id].name}, start and finish, with the postures in words` }), ...glance(id), make("p", {}, link(data.exercises[id].address, "Its page"))])),
    section("What compares them", make("p", { className: "hb-quiet" }, "Growth and activation are different things: activation is one session's signal and says nothing on growth."), ...sentences(ids)),
    section("Load and length", ...curves(ids, details)),
    section("Cautions", columns(ids, (id, n) => [
      ...details[n].care.map(([heading, lines]) => make("div", { className: "hb-caution" }, make("p", { className: "hb-subhead" }, heading),
        make("ul", {}, ...lines.map((line) => make("li", {}, line))))),
      ...details[n].cautions.map((caution) => make("dl", { className: "hb-caution" }, ...Object.keys(CAUTION).map((key) =>
        make("div", {}, make("dt", {}, CAUTION[key]), " ", make("dd", {}, caution[key])))))])),
    section("Cues", columns(ids, (id, n) => Object.entries(GROUPS).flatMap(([key, title]) => [
      make("p", { className: "hb-subhead" }, title), make("ul", {}, ...details[n].cues[key].map((text) => make("li", {}, text)))]))),
  ];
}

function go(ids) {
  history.pushState(null, "", location.pathname + (ids.length ? `?exercises=${ids.join(",")}` : ""));
  return show();
}

async function show() {
  const ids = chosen(data, location.search), add = part("add");
  part("chosen").replaceChildren(...ids.map((id, n) => make("li", {}, `${LETTERS[n]} ${data.exercises[id].name} `,
    make("button", { type: "button", className: "hb-action", ariaLabel: `Remove ${data.exercises[id].name}`,
      onclick: async () => { await go(ids.filter((other) => other !== id)); add.focus(); } }, "Remove"))));
  for (const option of add.options) option.disabled = ids.includes(option.value);
  add.value = "";
  part("adding").hidden = ids.length === MOST;
  part("count").textContent = ids.length < FEWEST ? `${ids.length ? "One exercise is" : "No exercise is"} chosen. Choose ${ids.length ? "one more" : "two"} to compare.`
    : `${ids.length} exercises are compared.${ids.length === MOST ? " More do not fit; remove one to add another." : ""}`;
  const before = location.search, details = ids.length < FEWEST ? [] : await Promise.all(ids.map((id) => fetched(`data/compare/${id}.json`)));
  if (before === location.search) part("results").replaceChildren(...details.length ? table(ids, details) : []);
}

/** Exercises under each region of which they train a part directly. */
function offer() {
  const entries = Object.entries(data.exercises).sort(([, a], [, b]) => order(a.name, b.name));
  for (const [region, name] of Object.entries(data.regions)) {
    const here = new Set(Object.keys(data.muscles).filter((id) => data.muscles[id].region === region).flatMap((id) => partsOf(data, id)));
    const some = entries.filter(([, { direct }]) => direct.some((ref) => here.has(ref)));
    if (some.length) part("add").append(make("optgroup", { label: name }, ...some.map(([value, exercise]) => make("option", { value }, exercise.name))));
  }
}

begin(async () => {
  data = await fetched("data/planner.json");
  offer();
  part("form").addEventListener("submit", async (event) => {
    event.preventDefault();
    const ids = chosen(data, location.search), id = part("add").value;
    if (id) await go([...ids, id]);
    part("count").focus();
  });
  const redo = () => show().catch(() => { part("failed").hidden = false; });
  addEventListener("popstate", redo);
  await show();
});
