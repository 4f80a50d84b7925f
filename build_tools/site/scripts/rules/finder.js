// Finding exercises by the published data, and the query as it stands in the address.
//
// A query asks for: part (or a whole muscle: any of its parts); kind, the evidence that puts the exercise ahead on the part, or on any
// part where none is given; has, the equipment at hand ("none" alone for the body alone); position; sides; avoid, concerns that no caution
// may speak of; name, words that begin words of the name or of another name. A field left empty asks nothing.

import { fit } from "./names.js";
import { order } from "./text.js";

const KINDS = ["growth", "activation", "length", "taught"], NOTHING = "none";
const LISTS = ["has", "avoid"];

const empty = () => ({ part: "", kind: "", has: [], position: "", sides: "", avoid: [], name: "" });
export const asked = (query) => Object.keys(empty()).filter((field) => query[field].length);
export const partsOf = (data, ref) => Object.hasOwn(data.muscles, ref) ? data.muscles[ref].parts : [ref];

/** The statement that puts the exercise ahead on a part, of one kind; undefined where there is none. Asks data/planner.json. */
export const best = (data, exercise, part, kind) => data.statements[exercise.best[part]?.[kind]];

/** The parts in question that a set of the exercise counts for. */
const credited = (data, exercise, query) => query.part ? partsOf(data, query.part).filter((part) => part in exercise.credits) : Object.keys(exercise.credits);

function fits(data, exercise, query) {
  const parts = credited(data, exercise, query);
  return (parts.length || !query.part)
    && (!query.kind || parts.some((part) => exercise.marks[part]?.includes(query.kind)))
    && (!query.has.length || exercise.equipment.every((id) => query.has.includes(id)))
    && (!query.position || query.position === exercise.position)
    && (!query.sides || query.sides === exercise.sides)
    && !exercise.concerns.some((id) => query.avoid.includes(id))
    && fit([exercise.name, ...exercise.also], query.name).rank < Infinity;
}

/** Ids of the exercises that fit: with one part in its order, then those of half a set by name; else all by name. */
export function find(data, query) {
  const found = Object.keys(data.exercises).filter((id) => fits(data, data.exercises[id], query))
    .sort((a, b) => order(data.exercises[a].name, data.exercises[b].name) || order(a, b));
  const ordered = (data.orders[query.part] ?? []).filter((id) => found.includes(id));
  return [...ordered, ...found.filter((id) => !ordered.includes(id))];
}

/** Ids of those that fit but for the care they ask for. */
export function withCare(data, query) {
  const found = find(data, query);
  return query.avoid.length ? find(data, { ...query, avoid: [] }).filter((id) => !found.includes(id)) : [];
}

/** The best mark of the exercise on the parts in question, as {sign, part}; of two as good the first part. Sign -1: nobody tested it. */
export function marked(data, id, query) {
  const exercise = data.exercises[id], parts = credited(data, exercise, query);
  const signs = parts.map((part) => exercise.marks[part]?.[0] ?? Infinity), sign = Math.min(...signs);
  return sign < Infinity ? { sign, part: parts[signs.indexOf(sign)] } : { sign: -1, part: parts[0] };
}

/** The found exercises by their marks, as [{sign, ids}]: in the order of the legend, what nobody tested last. */
export function grouped(data, ids, query) {
  const found = new Map();
  for (const id of ids) {
    const { sign } = marked(data, id, query);
    found.set(sign, [...found.get(sign) ?? [], id]);
  }
  const place = (sign) => sign < 0 ? Infinity : sign;
  return [...found].map(([sign, some]) => ({ sign, ids: some })).sort((a, b) => place(a.sign) - place(b.sign));
}

/** [field, number of exercises that fit once it alone asks nothing], of the fields that help. */
export function relaxed(data, query) {
  return asked(query).map((field) => [field, find(data, { ...query, [field]: empty()[field] }).length]).filter(([, count]) => count);
}

/** The query of an address; what the data does not know is left out. */
export function read(data, search) {
  const given = new URLSearchParams(search), query = empty();
  const known = {
    part: (value) => Object.hasOwn(data.parts, value) || Object.hasOwn(data.muscles, value), kind: (value) => KINDS.includes(value),
    has: (value) => value === NOTHING || Object.hasOwn(data.equipment, value), position: (value) => Object.hasOwn(data.positions, value),
    sides: (value) => ["both", "one"].includes(value), avoid: (value) => Object.hasOwn(data.concerns, value), name: () => true,
  };
  for (const field of Object.keys(query)) {
    const values = (given.get(field) ?? "").split(LISTS.includes(field) ? "," : /$^/).filter((value) => value && known[field](value));
    query[field] = LISTS.includes(field) ? [...new Set(values)].sort() : (values[0] ?? "").slice(0, 80);
  }
  return query;
}

/** The query as the part of the address after its path; empty where nothing is asked. */
export function write(query) {
  const text = asked(query).map((field) => `${field}=${[query[field]].flat().map(encodeURIComponent).join(",")}`).join("&");
  return text && `?${text.replaceAll("%2F", "/")}`;
}

/** The two to four exercises of an address, each once, without unknown ones. */
export function chosen(data, search) {
  const ids = (new URLSearchParams(search).get("exercises") ?? "").split(",");
  return [...new Set(ids)].filter((id) => Object.hasOwn(data.exercises, id)).slice(0, 4);
}
