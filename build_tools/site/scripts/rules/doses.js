// A dose in plain words, and what stands outside the handbook's ranges.

import { filled } from "./text.js";

/** A number of things; of their two words the first is for 1. */
const counted = (n, [one, many]) => filled(String(n) === "1" ? one : many, { n });

/** `8-12` as `8 to 12 repetitions`, `30s` as `30 seconds`. */
function amount(repetitions, words) {
  const [low, high] = repetitions.replace("s", "").split("-");
  return counted(high ? filled(words.span, { low, high }) : low, repetitions.endsWith("s") ? words.second : words.repetition);
}

function time(seconds, words) {
  if (seconds < 120) return counted(seconds, words.second);
  const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
  return counted(minutes, words.minute) + (rest ? ` ${counted(rest, words.second)}` : "");
}

function pace(tempo, words) {
  const [down, low, up, high] = tempo.split("-");
  const hold = (seconds) => (seconds && seconds !== "0" ? [filled(words.hold, { n: seconds })] : []);
  return filled(words.pace, { parts: [counted(down, words.second), ...hold(low), filled(words.lift, { n: up }), ...hold(high)].join(", ") });
}

/** What and how much, in one short line; empty when nothing is given. */
export function work({ sets, repetitions, load }, words) {
  const parts = [sets && counted(sets, words.set), repetitions && amount(repetitions, words)].filter(Boolean);
  return [parts.length === 2 ? filled(words.of, { sets: parts[0], amount: parts[1] }) : parts.join(""), load?.replaceAll(" ", "\u00a0")].filter(Boolean).join(", ");
}

function effort(left, words) {
  return left === 0 ? words.failure : filled(words.left, { n: left });
}

/** What to do, as [what and how much, ...sentences]; the first may be empty. `words` are those of a dose. */
export function dose(item, words) {
  const said = [work(item, words)];
  if (item.left !== null) said.push(effort(item.left, words));
  if (item.rest !== null) said.push(item.rest === 0 ? words.no_rest : filled(words.rest, { time: time(item.rest, words) }));
  if (item.tempo !== null) said.push(pace(item.tempo, words));
  return said;
}

/** The numbers of a field that have a range: lowest and highest, or null. */
function span(field, value) {
  if (field === "load") {
    const percent = /^([0-9]+(?:\.[0-9]+)?) ?%/.exec(value);
    return percent && [Number(percent[1]), Number(percent[1])];
  }
  if (field === "tempo") {
    const [down, , up] = value.split("-").map(Number);
    return [down + up, down + up];
  }
  if (field === "repetitions" && value.endsWith("s")) return null;
  const numbers = String(value).split("-").map(Number);
  return [numbers[0], numbers.at(-1)];
}

/** What to say on a value outside the handbook's ranges; empty when it is within, or when there is no range for it. */
export function outside(field, value, doses) {
  const range = doses[field], numbers = range && value !== null ? span(field, value) : null;
  if (!numbers) return "";
  const within = (range.low === null || numbers[0] >= range.low) && (range.high === null || numbers[1] <= range.high);
  return within ? "" : range.says;
}
