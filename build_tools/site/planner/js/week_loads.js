// A starting load on the page Week: several equations side by side, each with its error, and what can be put on the bar for it.

import { make, part } from "./dom.js";
import { guesses, neighbours, onBar, told } from "./loads.js";

const number = (text) => /^\s*[0-9]{1,4}([.,][0-9]{1,3})?\s*$/.test(text) ? Number(text.replace(",", ".")) : NaN;

/** Sets the form up; answers a function that tells it the plan. */
export function reckoning(data, table) {
  const form = part("load"), { exercise, unit, weight, done, spare, want, keep, body, bar, plates } = form.elements;
  part("prediction").textContent = data.prediction.means;
  form.addEventListener("input", reckon);
  form.addEventListener("submit", (event) => event.preventDefault());

  function choices(load) {
    const weights = plates.value.split(/[\s;]+/).map(number).filter((one) => one > 0).slice(0, 12);
    if (!weights.length) return "";
    const found = bar.value.trim() ? onBar(load, number(bar.value), weights) : neighbours(load, weights);
    return found.every(Number.isFinite) ? found.map((one) => `${told(one)} ${unit.value}`).join(" or ") : "";
  }

  function reckon() {
    const chosen = data.exercises[exercise.value], scale = unit.value === "lb" ? data.pound : 1;
    part("mass").hidden = chosen?.fraction === undefined;
    const moved = chosen?.fraction === undefined ? 0 : number(body.value) * scale * chosen.fraction;
    const sets = [number(done.value) + number(spare.value), number(want.value) + number(keep.value)];
    if (!chosen || ![number(weight.value), moved, ...sets].every(Number.isFinite)) return part("guesses").replaceChildren(make("p", {}, "Fill in a recent set."));
    const rows = guesses(data.equations, exercise.value, sets[0], number(weight.value) * scale + moved, sets[1]).map((guess) => {
      const { name, repetitions, error, memory } = data.equations[guess.equation];
      const shown = guess.load === null ? null : (guess.load - moved) / scale;
      const what = shown === null ? "says nothing here" : shown < 0 ? `help of ${told(-shown)} ${unit.value}` : `${told(shown)} ${unit.value}`;
      return [name, `${what}`, shown > 0 ? choices(shown) : "", guess.maximum === null ? "" : `${told((guess.maximum - moved) / scale)} ${unit.value}`,
        `${[...new Set(repetitions)].join(" to ")} repetitions. ${error}${memory ? " From memory, source not seen." : ""}`];
    });
    part("guesses").replaceChildren(table(["Equation", "Load", "At hand", "Once at most", "Holds for, and error"], rows));
  }

  return ({ days }) => {
    const ids = [...new Set(days.flat().map((entry) => entry.exercise))], before = exercise.value;
    exercise.replaceChildren(...ids.map((id) => make("option", { value: id }, data.exercises[id].name)));
    if (ids.includes(before)) exercise.value = before;
    reckon();
  };
}
