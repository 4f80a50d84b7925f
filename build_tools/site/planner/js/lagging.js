// The page Lagging part: what is asked for, and the answer of shortlist.js in words.

import { best } from "./core.js";
import { begin, link, make, mark, part, root } from "./dom.js";
import { shortlist } from "./shortlist.js";
import { arrived, filled, fragment, keep, listed, loaded, upper } from "./state.js";

const SETS = 3;
let data, plan, wish;

const inside = (ref) => data.parts[ref].inside;
/** Only what is measured or modelled has a sign of its own. */
const sign = (kind) => ["growth", "activation", "length"].includes(kind) ? [mark(kind)] : [];
const held = () => [...new Set(plan.days.flat().map((entry) => entry.exercise))];

function choices() {
  for (const select of document.querySelectorAll("[name=part]")) {
    for (const [region, name] of Object.entries(data.regions)) {
      const group = make("optgroup", { label: name });
      for (const muscle of Object.values(data.muscles).filter((one) => one.region === region)) {
        group.append(...muscle.parts.filter((ref) => ref in data.orders).map((ref) => make("option", { value: ref }, data.parts[ref].name)));
      }
      if (group.children.length) select.append(group);
    }
  }
  for (const [name, terms, chosen] of [["equipment", data.equipment, wish.equipment], ["avoid", data.concerns, wish.concerns]]) {
    part(name).append(...Object.entries(terms).map(([value, term]) => make("label", { className: "hb-tick" },
      make("input", { type: "checkbox", name, value, checked: chosen.includes(value) }), make("span", {}, term.name))));
  }
  [...document.querySelectorAll("[name=part]")].forEach((select, n) => { select.value = wish.parts[n] ?? ""; });
}

function asked() {
  const ticked = (name) => [...document.querySelectorAll(`[name="${name}"]:checked`)].map((box) => box.value);
  const parts = [...document.querySelectorAll("[name=part]")].map((select) => select.value).filter(Boolean);
  return { parts: [...new Set(parts)], equipment: ticked("equipment"), concerns: ticked("avoid") };
}

/** The sentence for which an exercise stands where it stands, and how sure it is. */
function reason(id, ref, kind) {
  const told = best(data, data.exercises[id], ref, kind), { name, means } = data.kinds[kind];
  const percent = data.exercises[id].lengths[ref]?.percent;
  const sentence = told?.sentence ?? filled(data.words[`${kind}-reason`], { part: inside(ref), Part: upper(inside(ref)), percent });
  const sure = told ? [told.verdict && `Verdict: ${told.verdict}.`, told.certainty && `Certainty: ${told.certainty}.`].filter(Boolean).join(" ") : means;
  return [make("p", { className: "hb-kind" }, ...sign(kind), make("span", {}, name)),
    make("p", { className: "hb-sentence" }, sentence),
    make("p", { className: "hb-verdict" }, `${sure} `, ...(told ? [link(told.address, "Why")] : []))];
}

function difference(id, ref, { other, ways }) {
  const [a, b] = [data.exercises[id], data.exercises[other]];
  if (!ways.length) return filled(data.words["differs-unknown"], { other: b.inside });
  const [one, two] = [a.lengths[ref], b.lengths[ref]];
  return ways.map((way) => filled(data.words[`differs-${way}`], {
    Part: upper(inside(ref)), part: inside(ref), other: b.inside, word: one?.word, percent: one?.percent, other_word: two?.word,
    other_percent: two?.percent, load: a.load, other_load: b.load, joint: data.joints[a.joints[ref]] ?? a.joints[ref],
    other_joint: data.joints[b.joints[ref]] ?? b.joints[ref],
  })).join(" ");
}

function costs(found) {
  const counted = {};
  for (const [ref, sets] of Object.entries(found)) (counted[sets] ??= []).push(inside(ref));
  const told = Object.entries(counted).sort(([a], [b]) => b - a)
    .map(([sets, refs]) => filled(data.words.costs, { sets: SETS, counted: sets, part: listed(refs) }));
  return told.length ? told.join(" ") : data.words["costs-nothing"];
}

function added(id) {
  const days = plan.days.map((day) => [...day]), trained = days.findLastIndex((day) => day.length);
  days[Math.max(trained, 0)].push({ exercise: id, sets: SETS, repetitions: "8-12", left: null, rest: null });
  return new URL(`week/${fragment({ ...plan, days }, wish, data)}`, root).href;
}

function proposed(found) {
  const { exercise: id, part: ref } = found;
  return make("article", { className: "hb-claim" },
    make("h3", {}, link(data.exercises[id].address, data.exercises[id].name)), make("p", {}, `For ${inside(ref)}.`), ...reason(id, ref, found.kind),
    ...(found.tied ? [make("p", {}, data.words.tie)] : []), ...found.differences.map((one) => make("p", {}, difference(id, ref, one))),
    make("p", {}, costs(found.costs)),
    make("p", { className: "hb-actions" }, make("a", { className: "hb-action", href: added(id) }, `Add ${SETS} sets to the week`)));
}

function listOf(ref, places) {
  const list = make("ol", { className: "hb-places" });
  list.append(...places.map((place) => {
    const item = make("li", {}, make("p", { className: "hb-kind" }, ...sign(place.kind), make("span", {}, data.kinds[place.kind].name)));
    if (place.exercises.length > 1) item.append(make("p", { className: "hb-quiet" }, data.words.tie));
    const names = make("ul");
    names.append(...place.exercises.map((id) => make("li", {}, link(data.exercises[id].address, data.exercises[id].name),
      ...(place.kind === "none" ? [] : [make("details", { className: "hb-below" }, make("summary", {}, "Reason"), make("div", {}, ...reason(id, ref, place.kind)))]))));
    item.append(names);
    return item;
  }));
  return [make("h3", {}, data.parts[ref].name), places.length ? list : make("p", {}, data.words["no-fit"])];
}

function answer() {
  wish = asked();
  keep(plan, wish, data);
  const { options, proposals } = shortlist(data, { ...wish, week: held(), sets: SETS });
  part("status").textContent = !wish.parts.length ? "Choose a part." : proposals.length
    ? `${proposals.length === 1 ? "One accessory" : "Two accessories"} to consider.`
    : `${data.words["no-fit"]} Tick more equipment, or leave fewer cautions out.`;
  part("proposals").replaceChildren(...proposals.map(proposed));
  part("options").replaceChildren(...wish.parts.flatMap((ref) => listOf(ref, options[ref])));
}

begin(async () => {
  const had = await loaded();
  data = had.data;
  const found = arrived(had);
  ({ plan, wish } = found);
  part("wrong").textContent = found.wrong;
  const names = held().map((id) => data.exercises[id].name);
  part("held").textContent = names.length ? `The week holds ${listed(names)}; they are not proposed again.` : "No week is open; everything counts as new.";
  choices();
  part("form").addEventListener("input", answer);
  part("form").addEventListener("submit", (event) => event.preventDefault());
  addEventListener("hashchange", () => location.reload());
  answer();
});
