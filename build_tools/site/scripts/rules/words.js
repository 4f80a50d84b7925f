// The answers in words: reason, difference and cost of an accessory, a range, and what a week goes against. Every sentence comes with the
// data (build_tools/planning/words.py); here its places are filled.

import { best } from "./finder.js";
import { told } from "./loads.js";
import { filled, listed, upper } from "./text.js";

/** A part by its everyday name, with the anatomical one. */
export const named = (data, ref) => `${upper(data.parts[ref].everyday)} (${data.parts[ref].name})`;
/** A range of weekly sets in words. */
export const span = (data, { low = 0, high }) => filled(data.words[high === undefined ? "range-open" : "range"], { low, high });

/** {kind, name, sentence, sure, address}: for what an exercise stands where it stands, how sure it is, and where the numbers are, if any. */
export function reason(data, id, ref, kind) {
  const told = best(data, data.exercises[id], ref, kind), { name, means } = data.kinds[kind], { inside } = data.parts[ref];
  const percent = data.exercises[id].lengths[ref]?.percent;
  const sentence = told?.sentence ?? filled(data.words[`${kind}-reason`], { part: inside, Part: upper(inside), percent });
  const sure = told ? [`Finding: ${told.finding}.`, told.certainty && `Certainty: ${told.certainty}.`].filter(Boolean).join(" ") : means;
  return { kind, name, sentence, sure, address: told?.address };
}

/** How an accessory differs from an exercise of the week. */
export function difference(data, id, ref, { other, ways }) {
  const [a, b] = [data.exercises[id], data.exercises[other]], { inside } = data.parts[ref];
  if (!ways.length) return filled(data.words["differs-unknown"], { other: b.inside });
  const [one, two] = [a.lengths[ref], b.lengths[ref]];
  return ways.map((way) => filled(data.words[`differs-${way}`], {
    Part: upper(inside), part: inside, other: b.inside, word: one?.word, percent: one?.percent, other_word: two?.word,
    other_percent: two?.percent, load: a.load, other_load: b.load, joint: data.joints[a.joints[ref]] ?? a.joints[ref],
    other_joint: data.joints[b.joints[ref]] ?? b.joints[ref],
  })).join(" ");
}

/** What its sets count for other parts, the most first. */
export function costs(data, found) {
  const counted = {};
  for (const [ref, more] of Object.entries(found)) (counted[more] ??= []).push(data.parts[ref].inside);
  const told = Object.entries(counted).sort(([a], [b]) => b - a).map(([more, parts]) => filled(data.words["costs-one"], { counted: more, part: listed(parts) }));
  return told.length ? filled(data.words.costs, { costs: told.join("; ") }) : data.words["costs-nothing"];
}

const NAMED = 4; // so many muscles stand in a sentence, the others as a number
const few = (names) => listed(names.length > NAMED + 1 ? [...names.slice(0, NAMED), `${names.length - NAMED} more`] : names);

/** {sentence, address}: what a week goes against, and the passage of the programme that says so, if it has one. */
export function warning(data, goal, found) {
  const [day, next] = found.days.map((n) => data.plan.days[n]), [first, main] = found.exercises.map((id) => data.exercises[id].inside);
  const muscles = few(found.muscles.map((muscle) => data.muscles[muscle].everyday.toLowerCase())), anchor = data.warnings[found.kind];
  const sentence = filled(data.words[found.kind], {
    Muscles: upper(muscles), bound: found.bound, day, next_day: next, Day: day, exercise: first, main });
  return { sentence, address: anchor && `programme/#${anchor.replace("{goal}", goal)}` };
}

/** Loads in a row of words, the unit once: "18 or 20 kg each". */
function either(texts) {
  const [one, two] = texts.map((text) => /^([0-9.]+)( .+)$/.exec(text));
  return one && two && one[2] === two[2] ? `${one[1]} or ${two[1]}${two[2]}` : texts.join(" or ");
}
/** A reckoned amount, to a tenth; below 0 it is help. */
const reckoned = (value, unit, more = "") => value < 0 ? `${told(-value)} ${unit} help` : `${told(value)} ${unit}${more}`;

/** {line, behind: [sentence, ...]}: a starting load in one line, and what stands behind it; `answer` is that of startingLoad in loads.js. */
export function start(data, { kind, unit, texts, spread, total, said }) {
  const { means, beyond, band } = data.prediction, say = (key, values) => filled(data.words[key], { load: upper(either(texts)), ...said, ...values });
  const moved = total ? [say("load-total", { total: reckoned(total.total, unit), fraction: total.fraction, added: reckoned(total.added, unit, " added") })] : [];
  if (kind === "ask") return { line: data.words[`load-ask-${said.of}`], behind: [] };
  if (kind === "same") return { line: say("start-same"), behind: [] };
  if (kind === "unweighed") return { line: data.words[`start-${said.sort}-${said.way}`], behind: said.way === "same" ? [] : [band.do, band.because, data.words["start-practice"]] };
  if (kind !== "reckoned") return { line: say(`start-${kind}`), behind: [...moved, beyond.do, beyond.because, data.words["start-practice"]] };
  const shown = Object.fromEntries(Object.entries(spread).map(([name, value]) => [name, value === null ? "" : reckoned(value, unit)]));
  return { line: say("start"), behind: [...moved, say("start-spread", shown), ...(spread.error === null ? [] : [say("start-error", shown)]), means] };
}
