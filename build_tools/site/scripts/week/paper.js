// The week on one sheet of paper: each day a small table, with room to write down what was done.

import { make } from "../dom.js";

const HEADS = ["Exercise", "Sets", "Load", "Left", "Rest", "Done"];

function dayOf(data, rows, n) {
  const cells = (row) => [`${row.sets} × ${row.repetitions}`, row.load ?? "", row.left ?? "", row.rest === null ? "" : `${row.rest} s`, ""];
  const more = (row) => [row.tempo && `tempo ${row.tempo}`, row.note].filter(Boolean).join(", ");
  return make("table", { className: "hb-sheet" }, make("caption", {}, data.plan.days[n]), make("thead", {}, make("tr", {}, ...HEADS.map((text) => make("th", { scope: "col" }, text)))),
    make("tbody", {}, ...rows.map((row) => make("tr", {}, make("th", { scope: "row" }, data.exercises[row.exercise].name, ...more(row) ? [make("small", {}, ` ${more(row)}`)] : []),
      ...cells(row).map((text) => make("td", {}, String(text)))))));
}

/** What is printed of a plan. */
export const paper = (data, { days }) => days.flatMap((rows, n) => rows.length ? [dayOf(data, rows, n)] : []);
