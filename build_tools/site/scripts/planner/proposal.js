// One proposal on the page What lags, and how much of it the coach takes: days, sets, repetitions, repetitions in reserve.

import { make, part } from "../dom.js";
import { filled } from "../rules/text.js";
import { valueOf } from "../week/row.js";
import { costing, proposed } from "./answers.js";

const FIELDS = [["sets", "Sets a day"], ["repetitions", "Repetitions"], ["left", "In reserve"]];

/** Whether the coach takes anything of it. */
export const isTaken = ({ days, instead }) => days.length > 0 || instead !== null;

/** The card of a proposal. `dose` is {days, sets, repetitions, left, instead}, changed in place (what cannot be is undefined; `touched` says so)
    before `changed` is called; `full` are the days that have no room for it. */
export function card({ data, rules }, found, dose, { parts, full, care, changed }) {
  const { exercise: id, beside } = found, { name } = data.exercises[id], limits = new Map(rules.fields);
  const weekly = () => (dose.sets ?? 1) * Math.max(1, dose.days.length);
  const tell = () => { dose.touched = true; part("cost", made).textContent = costing(data, found, parts, weekly()); changed(); };
  const tick = (label, hears, properties, act) => {
    const input = make("input", { type: "checkbox", ...properties, onchange: () => { act(input.checked); tell(); } });
    input.setAttribute("aria-label", `${hears}: ${name}`);
    return make("label", { className: "hb-tick" }, input, make("span", {}, label));
  };
  const field = ([key, label]) => {
    const input = make("input", { value: dose[key] ?? "", maxLength: 10, autocomplete: "off", inputMode: key === "repetitions" ? "text" : "numeric", oninput: () => {
      dose[key] = valueOf(limits.get(key), key, input.value);
      input.setAttribute("aria-invalid", String(dose[key] === undefined));
      tell();
    } });
    input.setAttribute("aria-label", `${label}: ${name}`);
    return make("label", { className: "hb-field" }, `${label} `, input);
  };
  const days = data.plan.days.map((day, n) => tick(day.slice(0, 3), day, { checked: dose.days.includes(n), disabled: full.includes(n) },
    (on) => { dose.days = on ? [...dose.days, n].sort((a, b) => a - b) : dose.days.filter((other) => other !== n); }));
  const made = proposed(data, found, parts, weekly(), "h3", care,
    make("div", { className: "hb-dose" },
      ...(beside ? [make("p", {}, tick(filled(data.words["instead-of"], { other: data.exercises[beside].inside }), "In its place", { checked: dose.instead !== null }, (on) => { dose.instead = on ? beside : null; }))] : []),
      make("fieldset", { className: "hb-days" }, make("legend", {}, beside ? "Beside it, on" : "Days"), ...days),
      make("p", { className: "hb-fields" }, ...FIELDS.map(field))));
  return made;
}
