// One exercise of a day: its dose, and what can be done with it.

import { make } from "../dom.js";
import { holds } from "../rules/link.js";
import { isMain } from "../rules/plan.js";
import { filled } from "../rules/text.js";
import { link } from "../planner/page.js";

const FIELDS = [["sets", "Sets", "numeric"], ["repetitions", "Repetitions", "text"], ["load", "Load", "text"], ["left", "Left in reserve", "numeric"]];
const MORE = [["rest", "Rest, seconds", "numeric"], ["tempo", "Tempo", "text"], ["note", "Note", "text"]];
const NEEDED = ["sets", "repetitions"], LENGTHS = { note: 140, load: 20 }, HINTS = { load: "20 kg", tempo: "3-1-1" };
const TIDY = { repetitions: (text) => text.replace(/\s*[-–—]\s*/u, "-").replace(/\s*(s|sec|secs|seconds)$/iu, "s"), tempo: (text) => text.replace(/\s*[-–—./]\s*/gu, "-") };

/** The value of a field, null for an empty one, or undefined for what it cannot hold. */
export function valueOf(limit, name, text) {
  const said = text.replace(/\s+/gu, " ").trim();
  if (said === "") return NEEDED.includes(name) ? undefined : null;
  const value = "low" in limit ? (/^[0-9]{1,4}$/.test(said) ? Number(said) : undefined) : (TIDY[name] ?? ((same) => same))(said);
  return value !== undefined && holds(limit, value) ? value : undefined;
}

/** A list item for a row of the plan at {day, place}. `page` is {data, limits, say, edit, act}: `edit(change, said, key)` changes the plan without
    drawing the row anew, `act` holds what the buttons do. */
export function rowOf(plan, { day, place }, page) {
  const { data, limits } = page, row = plan.days[day][place], { name, address } = data.exercises[row.exercise];

  function field([key, label, inputMode]) {
    const input = make("input", { value: row[key] ?? "", inputMode, maxLength: LENGTHS[key] ?? 10, autocomplete: "off", placeholder: HINTS[key] ?? " " });
    input.setAttribute("aria-label", `${label}: ${name}`);
    input.defaultValue = input.value;
    input.dataset.field = key;
    input.addEventListener("input", () => {
      const limit = limits.get(key), value = valueOf(limit, key, input.value);
      input.setAttribute("aria-invalid", String(value === undefined));
      if (value === undefined) return page.say(filled(data.words[{ repetitions: "bad-repetitions", tempo: "bad-tempo", load: "bad-text", note: "bad-text" }[key] ?? "bad-number"], { field: label, ...limit }));
      page.say("");
      page.edit((next) => { next.days[day][place][key] = value; }, "", `${day}.${place}.${key}`);
    });
    input.addEventListener("change", () => { input.defaultValue = input.value; });
    return make("label", { className: `hb-field hb-field--${key}` }, make("span", {}, `${label} `), input);
  }
  function button(text, act, label = text) {
    const made = make("button", { type: "button", className: "hb-action", onclick: act, ariaLabel: `${label}: ${name}` }, text);
    made.dataset.act = label;
    return made;
  }
  const main = make("input", { type: "checkbox", checked: isMain(plan, data.exercises, row.exercise), onchange: ({ target }) => page.act.main(row.exercise, target.checked) });
  const to = make("select", { ariaLabel: `Move to another day: ${name}`, onchange: ({ target }) => target.value && page.act.move({ day, place }, Number(target.value)) },
    make("option", { value: "" }, "Move to…"), ...data.plan.days.flatMap((text, n) => n === day ? [] : [make("option", { value: n }, text)]));
  const up = button("Up", () => page.act.up({ day, place })), down = button("Down", () => page.act.down({ day, place }));
  [up.disabled, down.disabled] = [place === 0, place === plan.days[day].length - 1];
  const rarer = MORE.filter(([key]) => row[key] !== null).length;
  const made = make("li", { className: "hb-row" },
    make("p", { className: "hb-row__name" }, link(address, name), ...main.checked ? [make("span", { className: "hb-quiet" }, " main lift")] : []),
    ...FIELDS.map(field), button("Load?", () => page.act.load({ day, place }), "Reckon a load"),
    make("div", { className: "hb-row__rarer" }, ...MORE.map(field)),
    button("Replace", () => page.act.replace({ day, place }, made)), button("×", () => page.act.remove({ day, place }), "Remove"),
    make("details", { className: "hb-below hb-row__more" }, make("summary", {}, "More", make("span", { className: "hb-unseen" }, ` for ${name}`), ...rarer ? [make("span", { className: "hb-row__told" }, ` (${rarer})`)] : []),
      make("p", { className: "hb-actions" }, up, down, to, make("label", { className: "hb-tick" }, main, " A main lift"))));
  made.addEventListener("keydown", (event) => {
    const act = { ArrowUp: up, ArrowDown: down }[event.key];
    if (!event.altKey || !act || event.target.closest("select")) return;
    event.preventDefault();
    act.click();
  });
  Object.assign(made.dataset, { day, place });
  return made;
}
