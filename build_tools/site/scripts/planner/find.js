// The page Find: the form, the address and the list of results. What fits is decided in rules/finder.js; nothing is listed before it is asked.

import { make, part } from "../dom.js";
import { asked, find, grouped, marked, partsOf, read, relaxed, withCare, write } from "../rules/finder.js";
import { named } from "../rules/names.js";
import { listed, upper } from "../rules/text.js";
import { box } from "./box.js";
import { begin, careOf, fetched, grounds, link, sign } from "./page.js";

const NAMES = { part: "part", kind: "evidence", has: "equipment", position: "position", sides: "sides", avoid: "care", name: "name" };
const WAIT = 250; // milliseconds of rest before typing counts
const OFFERED = 12, MOST = 12;
let data, names, form, marks = [], later = 0, turn = 0;

const field = (name) => form.elements[name];
const ticked = (name) => [...form.querySelectorAll(`[name="${name}"]:checked`)].map((one) => one.value).sort();
const place = (ref) => names.places[ref][0];
/** What a part or muscle is called in the box; of a muscle with several parts any of them is meant. */
const called = (ref) => place(ref) + (data.muscles[ref]?.parts.length > 1 ? ", any part" : "");
const count = (some) => `${some.length} ${some.length === 1 ? "exercise" : "exercises"}`;

/** What is known before anything is asked: the names, and the choices that stand in the form. */
function known() {
  const values = (name) => Object.fromEntries([...form.querySelectorAll(`[name="${name}"] option, input[name="${name}"]`)].map(({ value }) => [value, true]));
  const muscles = {};
  for (const ref of Object.keys(names.places)) if (ref.includes("/")) (muscles[ref.split("/")[0]] ??= { parts: [] }).parts.push(ref);
  return { parts: names.places, muscles, equipment: values("has"), positions: values("position"), concerns: values("avoid"), exercises: {}, orders: {} };
}

/** The facts of all exercises, once something is asked. */
async function facts() {
  const { exercises, orders, signs } = await fetched("data/find.json");
  for (const [id, one] of Object.entries(exercises)) data.exercises[id] ??= { ...one, name: names.exercises[id][0], also: names.exercises[id].slice(1) };
  Object.assign(data, { orders, signs });
}

function fill(query) {
  for (const name of ["kind", "position", "sides", "name"]) field(name).value = query[name];
  choosePart(query.part);
  for (const name of ["has", "avoid"]) {
    for (const one of form.querySelectorAll(`[name="${name}"]`)) one.checked = query[name].includes(one.value);
  }
  kit(query.has);
  if (query.avoid.length) part("avoid").closest("details").open = true;
  if (query.kind || query.position || query.sides) part("more").closest("details").open = true;
}

function choosePart(ref) {
  field("part").dataset.ref = ref;
  field("part").value = ref && called(ref);
}

/** The kit that holds just these things, else the folded boxes. */
function kit(has) {
  const all = [...form.querySelectorAll('[name="kit"]')], same = all.find(({ value }) => value === has.join(","));
  for (const one of all) one.checked = one === same;
  if (!same) part("has").closest("details").open = true;
}

const current = () => ({
  part: field("part").dataset.ref ?? "", kind: field("kind").value, has: ticked("has"), position: field("position").value,
  sides: field("sides").value, avoid: ticked("avoid"), name: field("name").value.trim(),
});

function row(id, query, statements) {
  const exercise = data.exercises[id], { part: ref } = marked(data, id, query), told = statements[id]?.[ref];
  const half = query.part && !partsOf(data, query.part).some((one) => exercise.credits[one] === 1);
  const whole = Object.keys(exercise.credits).filter((one) => exercise.credits[one] === 1);
  const trains = `A set counts for ${listed(whole.slice(0, 4).map((one) => place(one).toLowerCase()))}${whole.length > 4 ? " and more" : ""}.`;
  const box = make("input", { type: "checkbox", checked: marks.includes(id), onchange: ({ target }) => choose(id, target) });
  return make("li", {}, make("div", {}, make("span", { className: "hb-index__name" }, link(`exercises/${id}/`, exercise.name)),
    half ? make("span", { className: "hb-quiet" }, " half a set") : "",
    make("label", { className: "hb-tick" }, box, make("span", {}, "Compare", make("span", { className: "hb-unseen" }, ` ${exercise.name}`)))),
  ...told ? [make("p", {}, `${told[0]} `, grounds(told[1], `${place(ref)}, ${exercise.name}`))] : query.part ? [] : [make("p", {}, whole.length ? trains : "It only helps.")]);
}

/** The first of a list, and the others in a fold. */
function some(ids, made) {
  const rows = (part) => make("ul", { className: "hb-index hb-found-list" }, ...part.map(made)), rest = ids.slice(MOST);
  return [...ids.length ? [rows(ids.slice(0, MOST))] : [], ...rest.length ? [make("details", { className: "hb-below" }, make("summary", {}, `${rest.length} more`), rows(rest))] : []];
}

/** Results under the marks of the map where a part is asked, else by name. */
function list(ids, query, statements) {
  const made = (id) => row(id, query, statements);
  if (!query.part) return some(ids, made);
  return grouped(data, ids, query).flatMap(({ sign: n, ids: group }) => n < 0
    ? [make("details", { className: "hb-below", open: group.length === ids.length }, make("summary", {}, `Trained, and nobody tested it (${group.length})`), make("ul", { className: "hb-index hb-found-list" }, ...group.map(made)))]
    : [make("h3", {}, sign(data.signs[n]), ` ${data.signs[n].says} `, make("span", { className: "hb-quiet" }, String(group.length))), ...some(group, made)]);
}

/** Exercises that fit but for the care they ask for, each with what to do instead and when to stop. */
function careful(ids, query, cautions) {
  if (!ids.length) return [];
  const signed = (id) => { const { sign: n } = marked(data, id, query); return query.part && n >= 0 ? [sign(data.signs[n]), make("span", { className: "hb-quiet" }, ` ${data.signs[n].says}`)] : []; };
  return [make("h3", {}, "Only with care ", make("span", { className: "hb-quiet" }, String(ids.length))), ...some(ids, (id) => make("li", {},
    make("span", { className: "hb-index__name" }, link(`exercises/${id}/`, data.exercises[id].name)), ...signed(id),
    ...careOf(cautions, id)))];
}

function relax(query) {
  const ways = relaxed(data, query);
  if (!ways.length) return [make("p", {}, "No single filter is the cause: leave out two or more, or begin anew.")];
  return [make("p", {}, "Leave out one filter:"), make("ul", {}, ...ways.map(([name, number]) => make("li", {}, make("button", {
    type: "button", className: "hb-action", onclick: () => { fill({ ...query, [name]: Array.isArray(query[name]) ? [] : "" }); change(); part("count").focus(); },
  }, `Without ${NAMES[name]}: ${number} ${number === 1 ? "exercise" : "exercises"}`))))];
}

async function show(query) {
  const mine = ++turn, any = asked(query).length > 0;
  part("anew").hidden = !any;
  part("nothing").hidden = any;
  if (!any) {
    part("count").textContent = "";
    return part("results").replaceChildren();
  }
  const muscle = query.part.split("/")[0];
  const [, statements, ...cautions] = await Promise.all([facts(), muscle ? fetched(`data/find/${muscle}.json`) : {}, ...query.avoid.map((id) => fetched(`data/care/${id}.json`))]);
  if (mine !== turn) return;
  const ids = find(data, query), care = withCare(data, query);
  part("count").textContent = `${ids.length ? upper(count(ids)) : "No exercise"} ${ids.length > 1 ? "fit" : "fits"}${care.length ? `, ${care.length} more only with care` : ""}.`;
  part("results").replaceChildren(...ids.length ? list(ids, query, statements) : care.length ? [] : relax(query), ...careful(care, query, cautions));
}

/** The address follows the form: each change is a step to go back from, a whole word typed is one. */
function change() {
  clearTimeout(later);
  const query = current(), before = read(data, location.search), address = location.pathname + write(query);
  const typing = before.name && query.name && write({ ...before, name: "" }) === write({ ...query, name: "" });
  if (address !== location.pathname + location.search) history[typing ? "replaceState" : "pushState"](null, "", address);
  return shown(query);
}

const shown = (query) => show(query).catch((wrong) => { part("failed").hidden = false; console.error(wrong); });

function choose(id, one) {
  if (one.checked && marks.length === 4) one.checked = false;
  else marks = one.checked ? [...marks, id] : marks.filter((other) => other !== id);
  part("compare").hidden = !marks.length;
  part("marked").textContent = marks.length === 4 ? "Four are marked, as many as fit side by side." : `${marks.length} marked: two to four can be compared.`;
  part("go").hidden = marks.length < 2;
  part("go").href = `../compare/?exercises=${marks.join(",")}`;
}

/** What was typed in the box for a part and not chosen from its list: the best that fits, or what stood there. */
function settle() {
  const input = field("part"), text = input.value.trim(), ref = input.dataset.ref ?? "";
  if (text === (ref && called(ref))) return;
  const found = text ? named(Object.entries(names.places), text)[0]?.id ?? ref : "";
  choosePart(found);
  if (found !== ref) change();
}

function boxes() {
  const all = Object.entries(names.places), input = field("part"), title = (id) => names.exercises[id][0];
  box(input, {
    offered: (text) => (text && text !== (input.dataset.ref && called(input.dataset.ref)) ? named(all, text).slice(0, OFFERED) : Object.keys(data.muscles).map((id) => ({ id, name: place(id) })))
      .map(({ id, name }) => ({ id, title: called(id), note: name === place(id) ? names.places[id][1] : name })),
    missing: "No part has this name.",
    take: ({ id }) => { choosePart(id); change(); },
  });
  input.addEventListener("blur", settle);
  box(field("name"), {
    offered: (text) => text ? named(Object.entries(names.exercises), text).slice(0, OFFERED).map(({ id, name }) => ({ id, title: title(id), note: name === title(id) ? "" : upper(name) })) : [],
    missing: "No exercise has this name.",
    take: ({ id }) => { field("name").value = title(id); change(); },
  });
  field("name").addEventListener("input", () => { clearTimeout(later); later = setTimeout(change, WAIT); });
}

begin(async () => {
  form = part("form");
  names = await fetched("data/names.json");
  data = known();
  boxes();
  form.addEventListener("submit", async (event) => { event.preventDefault(); settle(); await change(); part("count").focus(); });
  form.addEventListener("change", ({ target }) => {
    if (target.name === "kit") for (const one of form.querySelectorAll('[name="has"]')) one.checked = target.value.split(",").includes(one.value);
    if (target.name === "has") kit(ticked("has"));
    if (!["name", "part"].includes(target.name)) change();
  });
  part("anew").addEventListener("click", () => { fill(read(data, "")); change(); field("part").focus(); });
  addEventListener("popstate", () => restore());
  await restore();
});

function restore() {
  clearTimeout(later);
  const query = read(data, location.search);
  fill(query);
  return show(query);
}
