// A starting load on the page Week: several equations side by side, each with its error, and what can be put on the bar for it.

import { make, part } from "../dom.js";
import { guesses, neighbours, onBar, toHang, told, totalLoad } from "../rules/loads.js";
import { filled } from "../rules/text.js";

const number = (text) => /^\s*[0-9]{1,4}([.,][0-9]{1,3})?\s*$/.test(text) ? Number(text.replace(",", ".")) : NaN;

const table = (heads, rows) => make("table", { className: "hb-numbers" }, make("thead", {}, make("tr", {}, ...heads.map((text) => make("th", { scope: "col" }, text)))),
  make("tbody", {}, ...rows.map(([first, ...rest]) => make("tr", {}, make("th", { scope: "row" }, first), ...rest.map((value) => make("td", {}, ...[value].flat()))))));

/** Sets the form up. `plan` gives the plan, `rowAt` a row's element, `use` puts a load into the row at {day, place}. Answers {draw, about}: what
    draws it anew, and what asks about one row. */
export function reckoning(data, { plan, rowAt, use }) {
  let row = null;
  const form = part("load"), { exercise, unit, weight, done, spare, want, keep, body, bar, plates } = form.elements;
  const say = (key, values) => filled(data.words[key], { unit: unit.value, ...values });
  part("prediction").textContent = data.prediction.means;
  form.addEventListener("input", reckon);
  form.addEventListener("submit", (event) => event.preventDefault());

  function choices(load) {
    const weights = plates.value.split(/[\s;]+/).map(number).filter((one) => one > 0).slice(0, 12);
    if (!weights.length) return [];
    const found = bar.value.trim() ? onBar(load, number(bar.value), weights) : neighbours(load, weights);
    return found.every(Number.isFinite) ? found.map((one) => `${told(one)} ${unit.value}`) : [];
  }

  /** A load that can be put into the row that was asked about, or else into the first row of the exercise. */
  function using(load) {
    const at = row ?? plan().days.flatMap((rows, day) => rows.map((one, place) => ({ day, place, id: one.exercise }))).find(({ id }) => id === exercise.value);
    return make("button", { type: "button", className: "hb-action", onclick: () => { use(at, load); row = null; } }, `Use ${load}`);
  }

  /** A load in kilograms as the coach handles it: on the bar, or added to the body. */
  function handled(load, mass, fraction) {
    const scale = unit.value === "lb" ? data.pound : 1;
    if (fraction === undefined) return [load / scale, `${told(load / scale)} ${unit.value}`];
    const hung = toHang(load, mass, fraction) / scale;
    return [hung, say(hung < 0 ? "load-help" : "load-add", { load: told(Math.abs(hung)) })];
  }

  function reckon() {
    const { fraction } = data.exercises[exercise.value] ?? {}, own = fraction !== undefined, scale = unit.value === "lb" ? data.pound : 1;
    part("mass").hidden = !own;
    const given = own && !weight.value.trim() ? 0 : number(weight.value) * scale, mass = number(body.value) * scale;
    const load = own ? totalLoad(mass, fraction, given) : given;
    const sets = [number(done.value) + number(spare.value), number(want.value) + number(keep.value)];
    if (!exercise.value || ![load, ...sets].every(Number.isFinite) || load <= 0) {
      return part("guesses").replaceChildren(make("p", {}, data.words[own ? "load-ask-mass" : "load-ask"]));
    }
    const rows = guesses(data.equations, exercise.value, sets[0], load, sets[1]).map((guess) => {
      const { name, repetitions, error, memory } = data.equations[guess.equation];
      const [amount, shown] = guess.load === null ? [NaN, data.words["load-none"]] : handled(guess.load, mass, fraction);
      return [name, shown, amount > 0 ? choices(amount).map(using) : "", guess.maximum === null ? "" : handled(guess.maximum, mass, fraction)[1],
        `${[...new Set(repetitions)].join(" to ")} repetitions. ${error}${memory ? " From memory, source not seen." : ""}`];
    });
    part("guesses").replaceChildren(
      ...(own ? [make("p", {}, say("load-total", { total: told(load / scale), fraction, added: told(given / scale) }))] : []),
      table(["Equation", "Load", "At hand", "Once at most", "Holds for, and error"], rows));
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
