// Narrowing a list that stands whole on its page: what fits a query, and the query as it stands in the address behind the #.
//
// A query gives some of the fields that the page offers one value each, and may give words that all stand in an entry's text. An entry
// is { text, values }: its text as `folded` gives it, and for each field the values that it has.

import { folded } from "./text.js";

export const WORDS = "words";
const LONGEST = 80; // characters of words

function decoded(text) {
  try { return decodeURIComponent(text); } catch { return ""; }
}

/** The query of a fragment; what the page does not offer (field -> its values) is left out, and so is a mere anchor. */
export function read(offered, fragment) {
  const query = {};
  for (const pair of fragment.replace(/^#/, "").split("&")) {
    const [field, ...rest] = pair.split("="), value = decoded(rest.join("=")).slice(0, LONGEST).trim();
    if (value && (field === WORDS || (Object.hasOwn(offered, field) && offered[field].includes(value)))) query[field] = value;
  }
  return query;
}

/** The query as a fragment without its #; empty where nothing is asked. */
export const write = (query) => Object.keys(query).filter((field) => query[field])
  .map((field) => `${field}=${encodeURIComponent(query[field])}`).join("&");

/** Of each entry whether it fits. */
export function fitting(entries, query) {
  const words = folded(query[WORDS] ?? "").split(/\s+/).filter(Boolean);
  const asked = Object.keys(query).filter((field) => field !== WORDS && query[field]);
  return entries.map(({ text, values }) => words.every((word) => text.includes(word))
    && asked.every((field) => values[field]?.includes(query[field]) ?? false));
}
