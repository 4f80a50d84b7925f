// The week on one sheet of paper: each day with its loads, and room for what was done. Only print shows it.

import { make, part } from "../dom.js";

const MOST_SETS = 5, ROOM = 218, HEAD = 8; // millimetres of a Letter sheet for rows, and of a day's head

/** A dose in short. */
const dose = ({ sets, repetitions, load }) => [`${sets} × ${repetitions.replace("-", "–")}`, load].filter(Boolean).join(", ");
const more = ({ left, rest, tempo }) => [left === null ? null : `${left} left`, rest === null ? null : `rest ${rest} s`, tempo].filter(Boolean).join(", ");

function dayOf(data, rows, day, columns) {
  const cell = (name, text, properties = {}) => make(name, properties, text);
  const head = make("tr", {}, ...[data.plan.days[day], "Planned", ...Array.from({ length: columns }, (_, n) => `Set ${n + 1}`)].map((text) => cell("th", text, { scope: "col" })));
  return make("table", {}, make("thead", {}, head), make("tbody", {}, ...rows.map((row) => make("tr", {},
    make("th", { scope: "row" }, data.exercises[row.exercise].name, ...row.note ? [make("span", {}, row.note)] : []),
    make("td", {}, dose(row), ...more(row) ? [make("span", {}, more(row))] : []),
    ...Array.from({ length: columns }, (_, n) => cell("td", n < row.sets ? "" : "–", { className: n < row.sets ? "" : "off" }))))));
}

/** What is printed of a plan; the page's own h1 is not. */
export function paper(data, { days, monday }) {
  const all = days.flat(), held = [...days.keys()].filter((n) => days[n].length), columns = Math.min(MOST_SETS, Math.max(1, ...all.map(({ sets }) => sets)));
  const made = make("div", {}, make("div", { role: "heading", ariaLevel: "1" }, monday ? `Week of ${monday}` : "Week of ____________"), make("p", {}, "Write load × repetitions."),
    ...held.map((day) => dayOf(data, days[day], day, columns)));
  // The fewer rows, the more room to write.
  made.style.setProperty("--hb-row", `${Math.max(5, Math.min(10, (ROOM - HEAD * held.length) / all.length))}mm`);
  return [made];
}
