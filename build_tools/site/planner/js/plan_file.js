// A week as a file, in an address, as a table and as a calendar: as build_tools/planning/plan_file.py and plan_export.py, which explain it.

import { holds } from "../handout/fragment.js";
import { duration } from "./count.js";

const ROW = ["exercise", "sets", "repetitions", "left", "rest"], LINE = 75, DAY = 86_400_000;

/** A plan that is not opened; the message tells the coach why. */
export class BadPlan extends Error {}

/** The file's text of a plan {title, goal, days}. */
export function write({ title, goal, days }, { plan }) {
  const kept = days.map((day) => day.map((entry) => Object.fromEntries(ROW.filter((key) => entry[key] !== null).map((key) => [key, entry[key]]))));
  return `${JSON.stringify({ format: plan.format, version: plan.version, title, goal, days: kept }, null, 1)}\n`;
}

/** The plan of a file; `rules` are those of handouts, `known` maps each id that may stand in it to the id to show. */
export function read(text, { plan }, rules, known) {
  if ([...text].length > plan.characters) throw new BadPlan(`This file is too long to be a plan: more than ${plan.characters} characters.`);
  let data;
  try {
    data = JSON.parse(text);
  } catch {
    throw new BadPlan("This file is damaged, or it is no plan: it cannot be read as JSON.");
  }
  if (data?.format !== plan.format) throw new BadPlan("This file does not hold a plan of this handbook.");
  if (data.version !== plan.version) throw new BadPlan("This plan was saved with another version of this page.");
  only(data, ["format", "version", "title", "goal", "days"], "The plan");
  const { title = null, goal, days } = data;
  if (title !== null && !(typeof title === "string" && holds(rules.title, title))) {
    throw new BadPlan("The title is too long or holds a character that cannot be shown; at most 60 characters.");
  }
  if (!plan.goals.includes(goal)) throw new BadPlan("The goal is neither growth nor strength.");
  if (!Array.isArray(days) || days.length > plan.days.length) throw new BadPlan("A plan has a list of up to seven days.");
  return { title, goal, days: days.map((day, n) => dayOf(day, plan.days[n], plan, new Map(rules.fields), known)) };
}

function dayOf(rows, name, plan, limits, known) {
  if (!Array.isArray(rows) || rows.length > plan.exercises) throw new BadPlan(`${name} is not a list of up to ${plan.exercises} exercises.`);
  return rows.map((row, n) => entryOf(row, `${name}, exercise ${n + 1}`, limits, known));
}

function entryOf(row, where, limits, known) {
  if (row === null || typeof row !== "object" || Array.isArray(row)) throw new BadPlan(`${where} is not an exercise.`);
  only(row, ROW, where);
  if (typeof row.exercise !== "string" || !known.has(row.exercise)) throw new BadPlan(`${where} is not in this handbook.`);
  for (const field of ["sets", "left", "rest"]) {
    const limit = limits.get(field), value = row[field] ?? null;
    if ((value !== null || field === "sets") && !(Number.isInteger(value) && holds(limit, value))) {
      throw new BadPlan(`${where}: ${field} must be a whole number from ${limit.low} to ${limit.high}.`);
    }
  }
  if (typeof row.repetitions !== "string" || !holds(limits.get("repetitions"), row.repetitions)) {
    throw new BadPlan(`${where}: write the repetitions as 8, 8-12, or 30s for a hold.`);
  }
  return { exercise: known.get(row.exercise), sets: row.sets, repetitions: row.repetitions, left: row.left ?? null, rest: row.rest ?? null };
}

function only(data, keys, where) {
  if (Object.keys(data).some((key) => !keys.includes(key))) throw new BadPlan(`${where} holds something that a plan does not have.`);
}

/** The plan as it stands after `#`, which no server sees: base64url of the file. */
export function packed(plan, data) {
  const bytes = new TextEncoder().encode(JSON.stringify(JSON.parse(write(plan, data))));
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

export function unpacked(text, data, rules, known) {
  let file = "";
  try {
    const bytes = Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    file = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new BadPlan("The address of this week is damaged or cut off.");
  }
  return read(file, data, rules, known);
}

function cell(text) {
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[,"\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** The week as a table (CSV). */
export function csv({ days }, { exercises, plan }) {
  const rows = days.flatMap((day, n) => day.map((entry) => [plan.days[n], exercises[entry.exercise].name, `${entry.sets}`, entry.repetitions,
    `${entry.left ?? ""}`, `${entry.rest ?? ""}`]));
  return [["Day", "Exercise", "Sets", "Repetitions", "Repetitions left", "Rest (seconds)"], ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

/** One exercise in words. */
export const line = (entry, exercises) => `${exercises[entry.exercise].name}: ${entry.sets} ${entry.sets === 1 ? "set" : "sets"} of ${
  entry.repetitions}${entry.left === null ? "" : `, ${entry.left} left`}`;

/** The week as a calendar; `start` is a date at midnight UTC, `weeks` from 1 to 52. */
export function calendar(plan, data, start, weeks) {
  const stamp = compact(start), events = plan.days.flatMap((day, n) => {
    if (!day.length) return [];
    const on = compact(new Date(start.getTime() + (n - (start.getUTCDay() + 6) % 7 + 7) % 7 * DAY));
    const minutes = Math.ceil(duration(day, data.exercises, data.seconds[plan.goal]) / 60);
    const told = [...day.map((entry) => line(entry, data.exercises)), `About ${minutes} minutes.`].join("\n");
    return ["BEGIN:VEVENT", `UID:${on}-${n}-plan@evidence-handbook.invalid`, `DTSTAMP:${stamp}T000000Z`, `DTSTART;VALUE=DATE:${on}`,
      `RRULE:FREQ=WEEKLY;COUNT=${weeks}`, `SUMMARY:${escaped(plan.title ?? "Training")}`, `DESCRIPTION:${escaped(told)}`, "TRANSP:TRANSPARENT", "END:VEVENT"];
  });
  const lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//evidence-handbook//plan 1//EN", ...events, "END:VCALENDAR"];
  return lines.map((text) => `${folded(text)}\r\n`).join("");
}

const compact = (date) => date.toISOString().slice(0, 10).replaceAll("-", "");
const escaped = (text) => text.replace(/[\\;,]/g, "\\$&").replaceAll("\n", "\\n");

function folded(text) {
  const pieces = [""];
  let octets = 0;
  for (const letter of text) {
    const size = new TextEncoder().encode(letter).length;
    if (octets + size > LINE) octets = pieces.push(" ") && 1;
    pieces[pieces.length - 1] += letter;
    octets += size;
  }
  return pieces.join("\r\n");
}
