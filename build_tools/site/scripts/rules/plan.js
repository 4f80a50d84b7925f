// A week as a file on the coach's own device, in an address, as a table and as a calendar.
//
// The file is JSON with a version, read back with limits, so that a file from elsewhere does no harm:
//
//     {"version": 2, "goal": "growth" or "strength", "monday": "2026-12-07", "easy": true, "main": {exercise: true or false},
//      "days": seven lists, from Monday on, of {"exercise", "sets", "repetitions", "load", "left", "rest", "tempo", "note", "done"},
//      "before": [{"monday", "easy", "days"}, ...]}
//
// What is not given is left out; only goal, days, exercise, sets and repetitions must be there. A row is one of a handout, with the same
// limits, and what was done of it: {"sets", "repetitions", "load", "left"}, where 0 sets say that it was missed and the repetitions are
// the fewest of its sets. `main` is the coach's own word on what is a main lift; an easy week says so; `before` holds the past weeks, the
// oldest first. Version 1 had no load, tempo, note, done, monday, easy, main and before; its files and addresses still open. Nothing about a person belongs in it: no
// name, no age, no body weight. What a file holds besides is dropped. The table is CSV (RFC 4180: CR LF ends each line; what a spreadsheet
// would reckon as a formula gets an apostrophe), the calendar iCalendar (RFC 5545: lines of at most 75 octets, folded between letters,
// section 3.1; text escaped, section 3.3.11) with a whole-day event for each training day: the hour is the coach's.

import { holds } from "./link.js";
import { table } from "./table.js";

const FIELDS = ["exercise", "sets", "repetitions", "load", "left", "rest", "tempo", "note"], NEEDED = FIELDS.slice(0, 3), LINE = 75, DAY = 86_400_000;

/** A plan that is not opened; the message tells the coach why. */
export class BadPlan extends Error {}

/** A week with nothing in it. */
export const blank = () => ({ goal: "growth", monday: null, easy: false, main: {}, days: Array.from({ length: 7 }, () => []), before: [] });

/** A row as it begins: what is given of it, and null for the rest. */
export const rowOf = (given) => ({ ...Object.fromEntries(FIELDS.map((field) => [field, given[field] ?? null])), done: given.done ?? null });

/** Whether an exercise is a main lift: the coach's word, or else the catalog's. */
export const isMain = ({ main }, exercises, id) => Object.hasOwn(main, id) ? main[id] : exercises[id].main;

/** The exercises as this coach's plan sees them, for rules that ask which are main lifts. */
export const seen = (plan, exercises) => ({ ...exercises,
  ...Object.fromEntries(Object.keys(plan.main).map((id) => [id, { ...exercises[id], main: plan.main[id] }])) });

const given = (values) => Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null));
const daysOf = (days, { plan }) => plan.days.map((_, n) => (days[n] ?? []).map((row) => given({ ...rowOf(row), done: row.done ? given(row.done) : null })));

function told({ goal, monday = null, easy = false, main = {}, days, before = [] }, data) {
  const past = before.map((week) => given({ monday: week.monday, easy: week.easy || null, days: daysOf(week.days, data) }));
  return { version: data.plan.version, goal, ...given({ monday, easy: easy || null }), ...(Object.keys(main).length ? { main } : {}),
    days: daysOf(days, data), ...(past.length ? { before: past } : {}) };
}

/** The file's text of a plan. */
export const write = (plan, data) => `${JSON.stringify(told(plan, data), null, 1)}\n`;

/** The plan of a file; `rules` are those of handouts. Raises BadPlan. */
export function read(text, { plan, exercises, moved = {}, retired = {} }, rules) {
  if ([...text].length > plan.characters) throw new BadPlan("This file is too large to be a week.");
  let data;
  try {
    data = JSON.parse(text);
  } catch {
    throw new BadPlan("This is not a file of this page, or it is cut off.");
  }
  if (![1, plan.version].includes(data?.version)) throw new BadPlan(`This file is not of version 1 or ${plan.version}. Save the week anew on the page that made it.`);
  data = renewed(data, moved, retired);
  const { goal, main = {}, before = [] } = data, limits = { row: new Map(rules.fields), done: plan.done, most: plan.exercises, names: plan.days };
  if (!plan.goals.includes(goal)) throw new BadPlan("The file names no goal: growth or strength.");
  if (!isObject(main) || !Object.entries(main).every(([id, said]) => Object.hasOwn(exercises, id) && typeof said === "boolean")) {
    throw new BadPlan("The file's main lifts cannot be read.");
  }
  if (!Array.isArray(before) || !before.every(isObject)) throw new BadPlan("The file's past weeks cannot be read.");
  if (before.length > plan.weeks) throw new BadPlan(`The file holds more than ${plan.weeks} past weeks.`);
  return {
    goal, monday: mondayOf(data.monday), easy: easyOf(data.easy), main: { ...main }, days: weekOf(data.days, "", limits, exercises),
    before: before.map((week, n) => ({ monday: mondayOf(week.monday), easy: easyOf(week.easy), days: weekOf(week.days, `Past week ${n + 1}, `, limits, exercises) })),
  };
}

/** The file with the successors of what moved, and without the rows of what was taken out. */
function renewed(file, moved, retired) {
  const has = (ids, id) => typeof id === "string" && Object.hasOwn(ids, id);
  const days = (given) => Array.isArray(given) ? given.map((rows) => Array.isArray(rows) ? rows.filter((row) => !has(retired, row?.exercise))
    .map((row) => has(moved, row?.exercise) ? { ...row, exercise: moved[row.exercise] } : row) : rows) : given;
  const week = (one) => isObject(one) && "days" in one ? { ...one, days: days(one.days) } : one;
  const made = week(file);
  if (isObject(file.main)) made.main = Object.fromEntries(Object.entries(file.main).filter(([id]) => !has(retired, id)).map(([id, said]) => [has(moved, id) ? moved[id] : id, said]));
  if (Array.isArray(file.before)) made.before = file.before.map(week);
  return made;
}

/** The names of exercises in a file that were taken out of the handbook. */
export function takenOut(text, { retired = {} }) {
  const found = new Set();
  try {
    JSON.parse(text, (key, value) => {
      if (key === "exercise" && typeof value === "string" && Object.hasOwn(retired, value)) found.add(retired[value]);
      return value;
    });
  } catch { /* no file of ours, as `read` says */ }
  return [...found];
}

const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

function mondayOf(value = null) {
  const day = typeof value === "string" && /^20[0-9]{2}-[0-9]{2}-[0-9]{2}$/.test(value) ? new Date(`${value}T00:00:00Z`) : null;
  if (value !== null && (!day || Number.isNaN(day.getTime()) || day.toISOString().slice(0, 10) !== value || day.getUTCDay() !== 1)) {
    throw new BadPlan("The file's week does not begin with a Monday.");
  }
  return value;
}

function easyOf(value = false) {
  if (typeof value !== "boolean") throw new BadPlan("Whether the file's week is an easy one cannot be read.");
  return value;
}

function weekOf(days, where, limits, exercises) {
  if (!Array.isArray(days) || days.length !== limits.names.length || !days.every(Array.isArray)) throw new BadPlan("The file does not hold seven days.");
  return days.map((rows, n) => {
    const name = `${where}${limits.names[n]}`;
    if (rows.length > limits.most) throw new BadPlan(`${name} holds more than ${limits.most} exercises.`);
    return rows.map((row, place) => entryOf(row, `${name}, exercise ${place + 1}`, limits, exercises));
  });
}

function entryOf(row, where, limits, exercises) {
  if (typeof row?.exercise !== "string" || !Object.hasOwn(exercises, row.exercise)) throw new BadPlan(`${where}: this handbook does not have it.`);
  const sound = (limit, value, needed) => value === null ? !needed : fits(limit, value);
  const read = Object.fromEntries(FIELDS.map((field) => {
    const value = row[field] ?? null;
    if (field !== "exercise" && !sound(limits.row.get(field), value, NEEDED.includes(field))) throw new BadPlan(`${where}: ${field} cannot be read.`);
    return [field, value];
  }));
  const { done = null } = row;
  if (done === null) return { ...read, done };
  if (!isObject(done) || !limits.done.every(([field, limit]) => sound(limit, done[field] ?? null, field === "sets"))) throw new BadPlan(`${where}: what was done cannot be read.`);
  return { ...read, done: Object.fromEntries(limits.done.map(([field]) => [field, done[field] ?? null])) };
}

const fits = (limit, value) => ("low" in limit ? Number.isInteger(value) : typeof value === "string") && holds(limit, value);

/** The plan as it stands after `#`, which no server sees: base64url of the file, without the past weeks. */
export function packed(plan, data) {
  const bytes = new TextEncoder().encode(JSON.stringify(told({ ...plan, before: [] }, data)));
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

export const unpacked = (text, data, rules) => read(fileOf(text), data, rules);

/** The file's text in an address. Raises BadPlan. */
export function fileOf(text) {
  try {
    const bytes = Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new BadPlan("The address of this week is damaged or cut off.");
  }
}

/** The handout of these days of a plan (all that hold anything, unless they are named); `head` may hold title, coach, date and care. */
export const handout = ({ days }, head, which = days.keys()) => ({ title: null, coach: null, date: null, care: [], ...head,
  days: [...which].filter((n) => days[n].length).map((n) => ({ day: n, items: days[n].map(({ exercise: id, done, ...dose }) => ({ id, ...dose })) })) });

const COLUMNS = ["week", "day", "exercise", "sets", "repetitions", "load", "repetitions left", "rest in seconds", "tempo", "note",
  "sets done", "fewest repetitions done", "load done", "repetitions left after"];

/** Past weeks and this one as a table (CSV). */
export function csv({ monday = null, days, before = [] }, { exercises, plan }) {
  const rows = [...before, { monday, days }].flatMap((week) => week.days.flatMap((day, n) => day.map((row) =>
    [week.monday, plan.days[n], exercises[row.exercise].name, ...FIELDS.slice(1).map((field) => row[field]), ...plan.done.map(([field]) => row.done?.[field])])));
  return table([COLUMNS, ...rows]);
}

/** The week as a calendar; `monday` and `stamp` are dates in UTC, `id` keeps the events of two weeks apart. */
export function calendar({ days }, { exercises }, monday, stamp, id) {
  const events = days.flatMap((day, n) => {
    if (!day.length) return [];
    const [start, end] = [n, n + 1].map((after) => compact(new Date(monday.getTime() + after * DAY)));
    const lines = day.map((row) => `${exercises[row.exercise].name}: ${row.sets} x ${row.repetitions}${row.load ? `, ${row.load}` : ""}`).join("\n");
    return ["BEGIN:VEVENT", `UID:${id}-${n}`, `DTSTAMP:${stamp.toISOString().slice(0, 19).replace(/[-:]/g, "")}Z`,
      `DTSTART;VALUE=DATE:${start}`, `DTEND;VALUE=DATE:${end}`, "SUMMARY:Strength training", `DESCRIPTION:${escaped(lines)}`, "END:VEVENT"];
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
