// The lines of care on top of a handout.

import { make } from "../dom.js";
import { careful } from "../rules/care.js";

const ASK = "Ask your coach before you begin.", LABELS = ["For", "Instead", "Stop if", "Ask", "Afterwards"];

/** The box's content; `asked` are the concerns, `exercises` the ids of the handout's, the others as in rules/care.js. */
export function told(asked, known, files, exercises, names) {
  return [make("h2", {}, "Take care first"), ...careful(asked, known, files, exercises).flatMap(one)];

  function one({ name, before, help, lines, silent }) {
    if (name === null) return [make("p", {}, make("b", {}, "Your coach asks for care with something that this handbook no longer names. "), ASK)];
    const said = [make("h3", {}, name)];
    if (before) said.push(make("p", {}, before));
    if (help.length) said.push(make("p", {}, make("b", {}, "Call for emergency help if: "), help.join(" ")));
    if (lines === null) return [...said, make("p", {}, "What to do instead could not be loaded. ", ASK)];
    const byName = grouped(lines);
    said.push(make("dl", {}, ...[...byName].map(([id, all]) => ofExercise(id, make("dt", {}, names.get(id)), ...all.flatMap(([, line]) => line.map(labelled))))));
    if (silent.length) said.push(make("p", {}, `The handbook has no line on this for ${silent.map((id) => names.get(id)).join(", ")}. That does not make ${silent.length > 1 ? "them" : "it"} safe for you: ask your coach.`));
    return said;
  }
}

function ofExercise(id, ...children) {
  const made = make("div", {}, ...children);
  made.dataset.id = id;
  return made;
}

const labelled = (text, n) => make("dd", {}, make("b", {}, `${LABELS[n]}: `), text);

function grouped(lines) {
  const made = new Map();
  for (const line of lines) made.set(line[0], [...made.get(line[0]) ?? [], line]);
  return made;
}
