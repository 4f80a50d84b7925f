// The page Find: the form, the address and the list of results. What fits is decided in rules/finder.js.

import { make, part } from "../dom.js";
import { asked, best, find, KINDS, NOTHING, partsOf, read, relaxed, write } from "../rules/finder.js";
import { filled, upper } from "../rules/text.js";
import { begin, fetched, grounds, link, mark } from "./page.js";

const NAMES = { part: "part", kind: "evidence", has: "equipment", position: "position", sides: "sides", avoid: "care", name: "name" };
const WAIT = 250; // milliseconds of rest before typing counts
let data, form, marked = [], later = 0;

const options = (select, entries) => select.append(...entries.map(([value, { name }]) => make("option", { value }, name)));
const field = (name) => form.elements[name];
const ticked = (name) => [...form.querySelectorAll(`[name="${name}"]:checked`)].map((box) => box.value).sort();

function parts() {
  const select = field("part");
  for (const [region, name] of Object.entries(data.regions)) {
    const group = make("optgroup", { label: name });
    for (const [id, muscle] of Object.entries(data.muscles).filter(([, found]) => found.region === region)) {
      if (muscle.parts.length > 1) group.append(make("option", { value: id }, `${muscle.name}, any part`));
      group.append(...muscle.parts.map((ref) => make("option", { value: ref }, data.parts[ref].name)));
    }
    if (group.children.length) select.append(group);
  }
}

function boxes(name, entries) {
  const list = part(name);
  list.append(...entries.map(([value, term]) => make("label", { className: "hb-tick" },
    make("input", { type: "checkbox", name, value }), make("span", {}, term.name))));
}

function fill(query) {
  for (const name of ["part", "kind", "position", "sides", "name"]) field(name).value = query[name];
  for (const name of ["has", "avoid"]) {
    for (const box of form.querySelectorAll(`[name="${name}"]`)) box.checked = query[name].includes(box.value);
    if (query[name].length) part(name).closest("details").open = true;
  }
}

const current = () => ({
  part: field("part").value, kind: field("kind").value, has: ticked("has"), position: field("position").value,
  sides: field("sides").value, avoid: ticked("avoid"), name: field("name").value.trim(),
});

/** What puts an exercise ahead on the asked part, growth and activation apart, each under its own label. */
function reasons(exercise, query) {
  const refs = query.part ? partsOf(data, query.part).filter((ref) => ref in exercise.credits) : Object.keys(exercise.credits);
  const found = [], kinds = query.kind ? [query.kind] : KINDS;
  for (const kind of kinds) {
    const seen = new Set(refs.map((ref) => best(data, exercise, ref, kind)).filter(Boolean));
    const most = query.part ? seen : [...seen].slice(0, 1);
    for (const statement of most) {
      const label = kind === "taught" ? [] : [make("span", { className: "hb-reason__kind" }, data.kinds[kind].name), " "]; // the sentence says it
      found.push(make("p", { className: "hb-reason" }, mark(kind), ...label, statement.sentence,
        statement.certainty ? ` Certainty: ${statement.certainty}. ` : " ", grounds(statement, exercise)));
    }
    for (const ref of kind === "length" && (query.part || query.kind) ? refs : []) {
      const length = exercise.lengths[ref];
      if (length?.hard && length.word === "long") {
        found.push(make("p", { className: "hb-reason" }, mark("length"),
          make("span", { className: "hb-reason__kind" }, data.kinds.length.name), " ",
          filled(data.words["length-reason"], { Part: upper(data.parts[ref].inside), percent: length.percent })));
      }
    }
  }
  return found.length ? found : [make("p", { className: "hb-reason hb-quiet" }, "Nothing recorded here puts it ahead of another exercise.")];
}

function row(id, query) {
  const exercise = data.exercises[id];
  const box = make("input", { type: "checkbox", checked: marked.includes(id), onchange: ({ target }) => choose(id, target) });
  const counts = partsOf(data, query.part).filter((ref) => ref in exercise.credits)
    .map((ref) => `${exercise.direct.includes(ref) ? "a full set" : "half a set"} for ${data.parts[ref].inside}`);
  const facts = [exercise.equipment.map((kit) => data.equipment[kit].name).join(", ") || "Body alone",
    data.positions[exercise.position], exercise.sides === "both" ? "both sides together" : "one side at a time"];
  return make("li", {}, make("p", { className: "hb-index__name" }, link(exercise.address, exercise.name)),
    exercise.also.length ? make("p", { className: "hb-quiet" }, `Also called ${exercise.also.join(", ")}`) : "",
    make("p", { className: "hb-quiet" }, `${facts.join(" · ")}${counts.length ? `. One set counts as ${counts.join(", ")}.` : "."}`),
    ...reasons(exercise, query), make("label", { className: "hb-tick" }, box, make("span", {}, "Compare", make("span", { className: "hb-unseen" }, ` ${exercise.name}`))));
}

/** Results under the kind of evidence that orders them where one part is asked; exercises without an order among them say so. */
function list(ids, query) {
  const places = (data.orders[query.part] ?? []).map(({ kind, exercises }) => ({ kind, ids: exercises.filter((id) => ids.includes(id)) })).filter((p) => p.ids.length);
  const rows = (some) => make("ul", { className: "hb-index" }, ...some.map((id) => row(id, query)));
  if (!places.length) return [rows(ids)];
  const made = [], rest = ids.filter((id) => !places.some((place) => place.ids.includes(id)));
  let kind = null;
  for (const place of places) {
    if (place.kind !== kind) made.push(make("h3", {}, data.kinds[place.kind].name), make("p", { className: "hb-quiet" }, data.kinds[place.kind].means));
    kind = place.kind;
    if (place.ids.length > 1) made.push(make("p", { className: "hb-tie" }, `A tie. ${data.words.tie} Listed by name.`));
    made.push(rows(place.ids));
  }
  if (rest.length) made.push(make("h3", {}, "Half a set only"), make("p", { className: "hb-quiet" }, "Listed by name."), rows(rest));
  return made;
}

function relax(query) {
  const ways = relaxed(data, query);
  if (!ways.length) return [make("p", {}, "No single filter is the cause: leave out two or more, or begin anew.")];
  return [make("p", {}, "Leave out one filter:"), make("ul", {}, ...ways.map(([name, count]) => make("li", {}, make("button", {
    type: "button", className: "hb-action", onclick: () => { fill({ ...query, [name]: Array.isArray(query[name]) ? [] : "" }); change(); part("count").focus(); },
  }, `Without ${NAMES[name]}: ${count} ${count === 1 ? "exercise" : "exercises"}`))))];
}

function show(query) {
  const ids = find(data, query);
  part("count").textContent = ids.length === 1 ? "1 exercise fits." : ids.length ? `${ids.length} exercises fit.` : "No exercise fits.";
  part("results").replaceChildren(...ids.length ? list(ids, query) : relax(query));
  part("anew").hidden = !asked(query).length;
}

/** The address follows the form: each change is a step to go back from, a whole word typed is one. */
function change() {
  clearTimeout(later);
  const query = current(), before = read(data, location.search), address = location.pathname + write(query);
  const typing = before.name && query.name && write({ ...before, name: "" }) === write({ ...query, name: "" });
  if (address !== location.pathname + location.search) history[typing ? "replaceState" : "pushState"](null, "", address);
  show(query);
}

function choose(id, box) {
  if (box.checked && marked.length === 4) box.checked = false;
  else marked = box.checked ? [...marked, id] : marked.filter((other) => other !== id);
  const go = part("compare");
  go.hidden = !marked.length;
  part("marked").textContent = marked.length === 4 ? "Four are marked, as many as fit side by side." : `${marked.length} marked: two to four can be compared.`;
  part("go").hidden = marked.length < 2;
  part("go").href = `../compare/?exercises=${marked.join(",")}`;
}

begin(async () => {
  data = await fetched("data/planner.json");
  form = part("form");
  parts();
  options(field("kind"), KINDS.filter((kind) => kind in data.kinds).map((kind) => [kind, data.kinds[kind]]));
  options(field("position"), Object.entries(data.positions).map(([id, name]) => [id, { name }]));
  boxes("has", [[NOTHING, { name: "Nothing but the body" }], ...Object.entries(data.equipment)]);
  boxes("avoid", Object.entries(data.concerns));
  form.addEventListener("submit", (event) => { event.preventDefault(); change(); part("count").focus(); });
  form.addEventListener("change", ({ target }) => { if (target.name !== "name") change(); });
  field("name").addEventListener("input", () => { clearTimeout(later); later = setTimeout(change, WAIT); });
  part("anew").addEventListener("click", () => { fill(read(data, "")); change(); field("part").focus(); });
  addEventListener("popstate", restore);
  restore();
});

function restore() {
  clearTimeout(later);
  const query = read(data, location.search);
  fill(query);
  show(query);
}
