// The lines of care on top of a handout.

import { make } from "../dom.js";
import { careful } from "../rules/care.js";
import { said, words } from "./view.js";

/** The box's content; `asked` are the concerns, `exercises` the ids of the handout's, the others as in rules/care.js. */
export function told(asked, known, files, exercises, names) {
  return [make("h2", {}, words.care_heading), ...careful(asked, known, files, exercises).flatMap(one)];

  function one({ name, before, help, lines, silent }) {
    if (name === null) return [make("p", {}, make("b", {}, words.care_gone), ` ${words.care_ask}`)];
    const lead = [make("h3", {}, name)];
    if (before) lead.push(make("p", {}, before));
    if (help.length) lead.push(make("p", {}, make("b", {}, words.emergency), ` ${help.join(" ")}`));
    if (lines === null) return [...lead, make("p", {}, `${words.care_none} ${words.care_ask}`)];
    const byName = grouped(lines);
    lead.push(make("dl", {}, ...[...byName].map(([id, all]) => ofExercise(id, make("dt", {}, names.get(id)), ...all.flatMap(([, line]) => line.map(labelled))))));
    if (silent.length) lead.push(make("p", {}, said(silent.length > 1 ? "care_silent_all" : "care_silent", { names: silent.map((id) => names.get(id)).join(", ") })));
    return lead;
  }
}

function ofExercise(id, ...children) {
  const made = make("div", {}, ...children);
  made.dataset.id = id;
  return made;
}

const labelled = (text, n) => make("dd", {}, make("b", {}, `${words.care_lines[n]}: `), text);

function grouped(lines) {
  const made = new Map();
  for (const line of lines) made.set(line[0], [...made.get(line[0]) ?? [], line]);
  return made;
}
