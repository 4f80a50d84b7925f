// What a typed query can mean: how words are spelled, which are one word, and what a word with a slip of the finger may stand for.
//
// A word of the names is found by its stem; a slot is one word of the query with every stem that it can mean and what each costs (0: just
// that word). A query is read in several ways, since names are written joined, apart or with a hyphen.

import { folded } from "./text.js";

const SMALL = new Set(["a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "or", "the", "to", "with", "my", "is"]);
const COST = { same: 0.15, begun: 0.3, slip: 0.5 };
const LONGEST = 200, MOST_WORDS = 24;

/** The words of a text: small letters and digits without accents; an apostrophe joins, anything else divides. */
export const spelled = (text) => folded(text).replace(/['’]/g, "").split(/[^\p{L}\p{N}]+/u).filter(Boolean);

/** The words of a query that say something; all of them where none does. */
export function asked(text) {
  const words = spelled(text.slice(0, LONGEST)).slice(0, MOST_WORDS), telling = words.filter((word) => !SMALL.has(word));
  return telling.length ? telling : words;
}

/** A word without what a coach adds or drops: plural, -er and -ing, a last e. "thrusters", "thrusting" and "thrust" have one stem. */
export function stem(word) {
  let left = word;
  if (/.ies$/.test(left) && left.length > 4) left = `${left.slice(0, -3)}y`;
  else if (/..ves$/.test(left)) left = `${left.slice(0, -3)}f`;
  else if (/..s$/.test(left) && !/(ss|us|is)$/.test(left)) left = left.slice(0, -1);
  const cut = left.replace(/(er|ing)$/, "");
  if (cut !== left && cut.length >= (left.endsWith("er") ? 4 : 3) && /[aeiouy]/.test(cut)) left = cut.replace(/([bdgmnprt])\1$/, "$1");
  return left.length > 3 ? left.replace(/e$/, "") : left;
}

/** Words run together, so that "pull-ups", "pull up" and "pullup" are one. */
export const joined = (words) => words.map(stem).join("");

/** How many slips a word may hold: short words have too many true neighbours (row and bow, hip and dip). */
export const slips = (word) => word.length < 4 ? 0 : word.length < 8 ? 1 : 2;

/** The word with two neighbouring letters changed about, the commonest slip, in every way. */
export const swapped = (word) => word.length < 4 ? [] : Array.from({ length: word.length - 1 },
  (_, at) => word.slice(0, at) + word[at + 1] + word[at] + word.slice(at + 2)).filter((other) => other !== word);

/**
 * Stem -> cost of what a word can mean. `found` holds words of the names: `exact` (its own stem), `same` (another word for it), `begun`
 * (it is their beginning) and `near` ([word, number of slips]); slips count only where the word itself is unknown.
 */
export function meanings(word, { exact, same, begun, near }) {
  const costs = {}, take = (other, cost) => { const key = stem(other); costs[key] = Math.min(costs[key] ?? 9, cost); };
  for (const other of exact) take(other, 0);
  for (const other of same) take(other, COST.same);
  for (const other of begun) take(other, COST.begun);
  if (!exact.length) for (const [other, count] of near) take(other, COST.slip * count);
  return costs;
}

/** The ways to read words: as typed, two that the names join, one that the names divide. `knows` and `nearly` ask the words of the names. */
export function readings(words, knows, nearly) {
  const found = [words];
  const pairs = words.slice(1).map((word, at) => words[at] + word);
  for (const [at, pair] of pairs.entries()) if (knows(pair)) found.push([...words.slice(0, at), pair, ...words.slice(at + 2)]);
  const apart = words.flatMap((word) => knows(word) ? [word] : divided(word, knows, nearly));
  if (apart.length > words.length) found.push(apart);
  return found;
}

function divided(word, knows, nearly) {
  const ways = Array.from({ length: Math.max(0, word.length - 3) }, (_, at) => [word.slice(0, at + 2), word.slice(at + 2)]);
  const evenly = (way) => Math.min(way[0].length, way[1].length);
  const best = (fit) => ways.filter(fit).sort((a, b) => evenly(b) - evenly(a))[0];
  return best(([one, two]) => knows(one) && knows(two))
    ?? best(([one, two]) => one.length > 3 && two.length > 3 && (knows(one) && nearly(two) || nearly(one) && knows(two))) ?? [word];
}
