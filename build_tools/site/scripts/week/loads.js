// A starting load on the page Week: one line, and behind it the equations with what each rests on. The rule: rules/loads.js.

import { make, part } from "../dom.js";
import { link } from "../planner/page.js";
import { startingLoad, told } from "../rules/loads.js";
import { start } from "../rules/words.js";

const number = (text) => /^\s*[0-9]{1,4}([.,][0-9]{1,3})?\s*$/.test(text) ? Number(text.replace(",", ".")) : NaN;
const positive = (one) => one > 0;

const table = (heads, rows) => make("table", { className: "hb-numbers" }, make("thead", {}, make("tr", {}, ...heads.map((text) => make("th", { scope: "col" }, text)))),
  make("tbody", {}, ...rows.map(([first, ...rest]) => make("tr", {}, make("th", { scope: "row" }, first), ...rest.map((value) => make("td", {}, value))))));

/** Sets the form up. `plan` gives the plan, `use` puts a load into the row at {day, place}. Answers {draw, about}: what draws it anew, and what
    asks about one row. */
export function reckoning(data, { plan, use }) {
  let row = null;
  const form = part("load"), { exercise, unit, weight, done, spare, want, keep, body, bar, plates } = form.elements, output = part("guesses");
  form.addEventListener("input", reckon);
  form.addEventListener("submit", (event) => event.preventDefault());

  function atHand() {
    const step = part(`step-${unit.value}`), weights = plates.value.split(/[\s;]+/).map(number).filter(positive).slice(0, 12);
    return { bar: positive(number(bar.value)) ? number(bar.value) : null, weights, step: [step.value, step.defaultValue].map(number).find(positive) };
  }

  /** A load that can be put into the row that was asked about, or else into the first row of the exercise. */
  function using(load) {
    const at = row ?? plan().days.flatMap((rows, day) => rows.map((one, place) => ({ day, place, id: one.exercise }))).find(({ id }) => id === exercise.value);
    return make("button", { type: "button", className: "hb-action", onclick: () => { use(at, load); row = null; } }, `Use ${load}`);
  }

  function shown(value) {
    if (value === null) return data.words["load-none"];
    return value < 0 ? `${told(-value)} ${unit.value} help` : `${told(value)} ${unit.value}`;
  }
  const equations = (guesses) => table(["Equation", "Load", "Once at most", "Repetitions"], guesses.map(({ equation, load, maximum }) => {
    const { name, address, repetitions } = data.equations[equation];
    return [link(address, name), shown(load), maximum === null ? "" : shown(maximum), [...new Set(repetitions)].join(" to ")];
  }));

  function reckon() {
    const known = data.exercises[exercise.value];
    part("mass").hidden = known?.fraction === undefined;
    if (!known) return output.replaceChildren();
    const answer = startingLoad(data, { exercise: exercise.value, load: weight.value, unit: unit.value, mass: number(body.value) || null,
      done: { repetitions: number(done.value), left: number(spare.value || "0") }, wanted: { repetitions: number(want.value), left: number(keep.value || "0") } }, atHand());
    const { line, behind } = start(data, answer), { guesses, texts } = answer, open = output.querySelector("details")?.open ?? false;
    output.replaceChildren(make("p", {}, make("b", {}, line)),
      ...(texts.length ? [make("p", { className: "hb-actions" }, ...texts.map(using))] : []),
      ...(behind.length ? [make("details", { className: "hb-below", open }, make("summary", {}, "Why"), make("div", {}, ...(guesses.length ? [equations(guesses)] : []),
        make("p", {}, `${behind.join(" ")} `, link(data.prediction.address, "What the programme says"))))] : []));
  }

  function draw() {
    const ids = [...new Set(plan().days.flat().map((entry) => entry.exercise))], before = exercise.value;
    exercise.replaceChildren(...ids.map((id) => make("option", { value: id }, data.exercises[id].name)));
    if (ids.includes(before)) exercise.value = before;
    reckon();
  }

  function about(at) {
    const asked = plan().days[at.day][at.place], [low, high] = asked.repetitions.replace("s", "").split("-");
    row = at;
    exercise.value = asked.exercise;
    [want.value, keep.value] = [high ?? low, asked.left ?? 0];
    reckon();
    part("loads").open = true;
    part("loads").scrollIntoView({ block: "start" });
    weight.focus({ preventScroll: true });
  }
  exercise.addEventListener("input", () => { row = null; });
  return { draw, about };
}
