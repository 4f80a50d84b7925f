// A week as a file on the coach's own device, in an address, as a table and as a calendar.
//
// The file is JSON with a version, read back with limits, so that a file from elsewhere does no harm:
//
//     {"version": 1, "goal": "growth" or "strength",
//      "days": seven lists, from Monday on, of {"exercise", "sets", "repetitions", "left" or null, "rest" or null}}
//
// The limits of a field are those of a handout. Nothing about a person belongs in it: no name, no age, no body weight. What a file holds
// besides is dropped. The table is CSV (RFC 4180: CR LF ends each line), the calendar iCalendar (RFC 5545: lines of at most 75 octets,
// folded between letters, section 3.1; text escaped, section 3.3.11) with a whole-day event for each training day: the hour is the coach's.

import { holds } from "./link.js";

const FIELDS = ["exercise", "sets", "repetitions", "left", "rest"], NEEDED = FIELDS.slice(0, 3), LINE = 75, DAY = 86_400_000;

/** A plan that is not opened; the message tells the coach why. */
export class BadPlan extends Error {}

/** The file's text of a plan {goal, days}. */
export function write({ goal, days }, { plan }) {
  const kept = plan.days.map((_, n) => (days[n] ?? []).map((entry) => Object.fromEntries(FIELDS.map((key) => [key, entry[key] ?? null]))));
  return `${JSON.stringify({ version: plan.version, goal, days: kept }, null, 1)}\n`;
}

/** The plan of a file; `rules` are those of handouts. Raises BadPlan. */
export function read(text, { plan, exercises }, rules) {
  if ([...text].length > plan.characters) throw new BadPlan("This file is too large to be a week.");
  let data;
  try {
    data = JSON.parse(text);
  } catch {
    throw new BadPlan("This is not a file of this page, or it is cut off.");
  }
  if (data?.version !== plan.version) throw new BadPlan(`This file is not of version ${plan.version}. Save the week anew on the page that made it.`);
  const { goal, days } = data;
  if (!plan.goals.includes(goal)) throw new BadPlan("The file names no goal: growth or strength.");
  if (!Array.isArray(days) || days.length !== plan.days.length || !days.every(Array.isArray)) throw new BadPlan("The file does not hold seven days.");
  return { goal, days: days.map((rows, n) => dayOf(rows, plan.days[n], plan.exercises, new Map(rules.fields), exercises)) };
}

function dayOf(rows, name, most, limits, exercises) {
  if (rows.length > most) throw new BadPlan(`${name} holds more than ${most} exercises.`);
  return rows.map((row, n) => entryOf(row, `${name}, exercise ${n + 1}`, limits, exercises));
}

function entryOf(row, where, limits, exercises) {
  if (typeof row?.exercise !== "string" || !Object.hasOwn(exercises, row.exercise)) throw new BadPlan(`${where}: this handbook does not have it.`);
  return Object.fromEntries(FIELDS.map((field) => {
    const value = row[field] ?? null;
    const sound = value === null ? !NEEDED.includes(field) : field === "exercise" || fits(limits.get(field), value);
    if (!sound) throw new BadPlan(`${where}: ${field} cannot be read.`);
    return [field, value];
  }));
}

const fits = (limit, value) => ("low" in limit ? Number.isInteger(value) : typeof value === "string") && holds(limit, value);

/** The plan as it stands after `#`, which no server sees: base64url of the file. */
export function packed(plan, data) {
  const bytes = new TextEncoder().encode(JSON.stringify(JSON.parse(write(plan, data))));
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

export function unpacked(text, data, rules) {
  let file = "";
  try {
    const bytes = Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    file = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new BadPlan("The address of this week is damaged or cut off.");
  }
  return read(file, data, rules);
}

/** The handout of one day, as it goes into a link. */
export const handout = (title, entries) => ({ title, items: entries.map(({ exercise: id, ...dose }) => ({ id, ...dose })) });

const cell = (text) => /[,"\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;

/** The week as a table (CSV). */
export function csv({ days }, { exercises, plan }) {
  const rows = days.flatMap((day, n) => day.map((entry) =>
    [plan.days[n], exercises[entry.exercise].name, ...FIELDS.slice(1).map((name) => String(entry[name] ?? ""))]));
  return [["day", "exercise", "sets", "repetitions", "repetitions left", "rest in seconds"], ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

/** The week as a calendar; `monday` and `stamp` are dates in UTC, `id` keeps the events of two weeks apart. */
export function calendar({ days }, { exercises }, monday, stamp, id) {
  const events = days.flatMap((day, n) => {
    if (!day.length) return [];
    const [start, end] = [n, n + 1].map((after) => compact(new Date(monday.getTime() + after * DAY)));
    const told = day.map((entry) => `${exercises[entry.exercise].name}: ${entry.sets} x ${entry.repetitions}`).join("\n");
    return ["BEGIN:VEVENT", `UID:${id}-${n}`, `DTSTAMP:${stamp.toISOString().slice(0, 19).replace(/[-:]/g, "")}Z`,
      `DTSTART;VALUE=DATE:${start}`, `DTEND;VALUE=DATE:${end}`, "SUMMARY:Strength training", `DESCRIPTION:${escaped(told)}`, "END:VEVENT"];
  });
  const lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Evidence handbook//Week//EN", ...events, "END:VCALENDAR"];
  return lines.map((line) => `${foldedLine(line)}\r\n`).join("");
}

const compact = (date) => date.toISOString().slice(0, 10).replaceAll("-", "");
const escaped = (text) => text.replace(/[\\;,]/g, "\\$&").replaceAll("\n", "\\n");

function foldedLine(text) {
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
