// After the week, on the page Week: what was done, what follows for the next week and why, and what was done so far.

import { make, part } from "../dom.js";
import { holds } from "../rules/link.js";
import { asPlanned, history, nextWeek, sinceEasy } from "../rules/progress.js";
import { filled } from "../rules/text.js";
import { link } from "../planner/page.js";

const FIELDS = [["sets", "Sets done", "numeric"], ["repetitions", "Fewest repetitions", "numeric"], ["load", "Load lifted", "text"], ["left", "Left then", "numeric"]];
/** The advice that each kind of answer rests on. */
const GROUNDS = { up: "add-load", more: "add-repetitions", "more-words": "add-repetitions", stuck: "add-load", harder: "add-load", stay: "add-load", short: "hold",
  again: "step-back", down: "step-back", "down-words": "step-back", missed: "hold", away: "away", "away-words": "away", easy: "easy-week" };

/** Sets the section up; `current` gives the plan, `copy` one to change, `change` takes another one with what to say of it and, for typing in one
    field, a key. Answers what draws it anew. */
export function progressing({ data }, { current, copy, change }) {
  const limits = new Map(data.plan.done), advice = Object.fromEntries(data.progression.filter(({ id }) => id).map((rule) => [rule.id, rule]));
  const name = (id) => data.exercises[id].name, when = (week) => week.monday ? `week of ${week.monday}` : "this week";
  let asked = null; // whether the week that is shown next is an easy one; null: none is shown

  const rules = () => ({ advice, most: data.goals[current().goal].repetitions.high ?? Infinity,
    steps: Object.fromEntries(["kg", "lb"].map((unit) => [unit, step(unit)])) });
  function step(unit) {
    const typed = Number(part(`step-${unit}`).value.trim().replace(",", "."));
    return typed > 0 && typed < 100 ? typed : Number(part(`step-${unit}`).defaultValue);
  }

  function wrote({ day, place }, field, text, input) {
    const next = copy(), row = next.days[day][place], said = text.trim(), limit = limits.get(field), value = said === "" ? null : "low" in limit ? (/^[0-9]{1,3}$/.test(said) ? Number(said) : undefined) : said;
    const sound = value === null ? field !== "sets" || !row.done : value !== undefined && holds(limit, value);
    input.setAttribute("aria-invalid", String(!sound));
    if (!sound) return;
    row.done = { sets: row.sets, repetitions: null, load: row.load, left: row.left, ...row.done, [field]: value };
    change(next, "", `${day}.${place}.done.${field}`);
  }

  function fieldOf(row, at, [field, label, inputMode]) {
    const input = make("input", { value: row.done?.[field] ?? "", inputMode, maxLength: 20, autocomplete: "off", placeholder: String({ repetitions: row.repetitions }[field] ?? row[field] ?? "") });
    input.setAttribute("aria-label", `${label}: ${name(row.exercise)}`);
    input.addEventListener("change", () => wrote(at, field, input.value, input));
    return make("label", { className: "hb-field" }, `${label} `, input);
  }

  function button(text, of, act) {
    const made = make("button", { type: "button", className: "hb-action", onclick: act }, text);
    made.setAttribute("aria-label", `${text}: ${of}`);
    return made;
  }
  /** Writes down what was done of the rows at these places of a day. */
  const write = (day, places, done) => {
    const next = copy();
    for (const place of places) next.days[day][place].done = done(next.days[day][place]);
    change(next, "");
  };
  const missed = () => ({ sets: 0, repetitions: null, load: null, left: null });

  function dayOf(rows, n) {
    const all = [...rows.keys()], day = data.plan.days[n], list = make("ol", { className: "hb-done" }, ...rows.map((row, place) => make("li", {},
      make("p", {}, make("b", {}, name(row.exercise)), ` ${row.sets} × ${row.repetitions}${row.load ? `, ${row.load}` : ""}`),
      make("p", { className: "hb-fields" }, ...FIELDS.map((field) => fieldOf(row, { day: n, place }, field))),
      make("p", { className: "hb-actions" }, button("As planned", name(row.exercise), () => write(n, [place], asPlanned)),
        button("Missed", name(row.exercise), () => write(n, [place], missed)), button("Clear", name(row.exercise), () => write(n, [place], () => null))))));
    return make("section", {}, make("h3", {}, day), make("p", { className: "hb-actions" }, button("All as planned", day, () => write(n, all, asPlanned)),
      button("Day missed", day, () => write(n, all, missed))), list);
  }

  const grounds = (kind) => GROUNDS[kind] ? [" ", make("details", { className: "hb-why" }, make("summary", {}, "Why"),
    make("p", {}, make("b", {}, advice[GROUNDS[kind]].do), ` ${advice[GROUNDS[kind]].because} `, link("programme/#topic-progression", "What the programme says")))] : [];

  /** What the next week would be, line by line. */
  function foretell() {
    part("next").hidden = asked === null;
    if (asked === null) return;
    const { plan, lines, notes } = nextWeek(current(), rules(), asked, data.plan.weeks);
    const days = [...new Set(lines.map(({ day }) => day))];
    part("next-lines").replaceChildren(...notes.map((kind) => make("p", {}, data.progress[kind])), ...days.map((day) => make("section", {}, make("h3", {}, data.plan.days[day]),
      make("ul", {}, ...lines.filter((line) => line.day === day).map(({ place, exercise, kind, said }) => {
        const row = plan.days[day][place];
        return make("li", {}, make("b", {}, `${name(exercise)}: ${row.sets} × ${row.repetitions}${row.load ? `, ${row.load}` : ""}.`), ` ${filled(data.progress[kind], said)}`, ...grounds(kind));
      })))));
  }

  function past() {
    const weeks = [...current().before, current()], ids = [...new Set(weeks.flatMap(({ days }) => days.flat()).filter(({ done }) => done).map(({ exercise }) => exercise))];
    part("past").hidden = !ids.length;
    part("history").replaceChildren(...ids.flatMap((id) => [make("h3", {}, name(id)), make("ul", {}, ...history(current(), id).map(({ monday, day, row: { done } }) => make("li", {},
      `${data.plan.days[day]}, ${when({ monday })}: ${done.sets === 0 ? "missed" : [`${done.sets} × ${done.repetitions ?? "?"}`, done.load, done.left === null ? null : `${done.left} left`].filter(Boolean).join(", ")}`)))]));
  }

  function draw() {
    const { days } = current(), filledIn = days.some((day) => day.length), weeks = sinceEasy(current()), [, due] = advice["easy-week"].numbers["every-weeks"];
    part("progress").hidden = !filledIn;
    // While somebody writes there, its fields stay: what they hold is what was typed.
    if (!part("doing").contains(document.activeElement) || document.activeElement.tagName !== "INPUT") part("doing").replaceChildren(...days.flatMap((rows, n) => rows.length ? [dayOf(rows, n)] : []));
    part("easy-due").textContent = weeks > due ? filled(data.progress["easy-due"], { weeks }) : "";
    past();
    foretell();
  }

  const show = (easy) => { asked = easy; foretell(); part("next").scrollIntoView({ block: "nearest" }); };
  part("make-next").addEventListener("click", () => show(false));
  part("make-easy").addEventListener("click", () => show(true));
  part("take-next").addEventListener("click", () => {
    const { plan } = nextWeek(current(), rules(), asked, data.plan.weeks);
    asked = null;
    change(plan, plan.monday ? `This is now the week of ${plan.monday}. The last one is kept in the file.` : "This is now the next week. The last one is kept in the file.");
  });
  for (const unit of ["kg", "lb"]) part(`step-${unit}`).addEventListener("input", foretell);
  return draw;
}
