// A starting load on the page Week: several equations side by side, each with its error, and what can be put on the bar for it.

import { make, part } from "../dom.js";
import { guesses, neighbours, onBar, toHang, told, totalLoad } from "../rules/loads.js";
import { filled } from "../rules/text.js";

const number = (text) => /^\s*[0-9]{1,4}([.,][0-9]{1,3})?\s*$/.test(text) ? Number(text.replace(",", ".")) : NaN;

/** Sets the form up; answers a function that tells it the plan. */
export function reckoning(data, table) {
  const form = part("load"), { exercise, unit, weight, done, spare, want, keep, body, bar, plates } = form.elements;
  const say = (key, values) => filled(data.words[key], { unit: unit.value, ...values });
  part("prediction").textContent = data.prediction.means;
  form.addEventListener("input", reckon);
  form.addEventListener("submit", (event) => event.preventDefault());

  function choices(load) {
    const weights = plates.value.split(/[\s;]+/).map(number).filter((one) => one > 0).slice(0, 12);
    if (!weights.length) return "";
    const found = bar.value.trim() ? onBar(load, number(bar.value), weights) : neighbours(load, weights);
    return found.every(Number.isFinite) ? found.map((one) => `${told(one)} ${unit.value}`).join(" or ") : "";
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
      return [name, shown, amount > 0 ? choices(amount) : "", guess.maximum === null ? "" : handled(guess.maximum, mass, fraction)[1],
        `${[...new Set(repetitions)].join(" to ")} repetitions. ${error}${memory ? " From memory, source not seen." : ""}`];
    });
    part("guesses").replaceChildren(
      ...(own ? [make("p", {}, say("load-total", { total: told(load / scale), fraction, added: told(given / scale) }))] : []),
      table(["Equation", "Load", "At hand", "Once at most", "Holds for, and error"], rows));
  }

  return ({ days }) => {
    const ids = [...new Set(days.flat().map((entry) => entry.exercise))], before = exercise.value;
    exercise.replaceChildren(...ids.map((id) => make("option", { value: id }, data.exercises[id].name)));
    if (ids.includes(before)) exercise.value = before;
    reckon();
  };
}
