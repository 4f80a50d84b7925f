// A starting load from a recent set, and what the gym has next to it.
//
// A set of r repetitions with l left in hand is taken as r + l repetitions to failure. Each equation of the programme predicts the maximum
// from it; the load for another set comes from the same equation turned round. A load that can be lifted once is the maximum by definition,
// although several published equations do not return it at one repetition. Equations reckon in kilograms, all else in the coach's unit.
//
// `startingLoad` gives one answer. It asks {exercise, load, unit, mass, done, wanted}: an id; the load of the recent set as a row of the week
// holds it ("20 kg each", "red band", "10 kg help"; a bare number is in `unit`; "" for the body alone); "kg" or "lb"; the body's mass in `unit`
// or null; {repetitions, left} twice. The gym is {bar, weights, step} in `unit`: with a bar, one plate of each pair; without (null), the loads
// to choose from; with neither, everything in steps of `step`. The answer is {kind, unit, loads, texts, spread, guesses, total, said}:
// - ask: said.of is "set", "load" or "mass", which is missing.
// - same: the dose wanted is the dose done, so the load is that of the set, and no equation is asked.
// - reckoned: `loads` are the one or two that the gym has next to the middle (median) of the equations that speak; `spread` is
//   {low, high, middle, error}, error being the largest published standard error of those equations or null.
// - up, down: no equation holds for so many repetitions: one step from the load of the set; end: one step below what is reckoned for the most
//   repetitions that an equation holds for, said.end; none: the gym has nothing that way.
// - unweighed: said.sort is "band" or "body" (without a known share), said.way "same", "weaker" or "stronger", and there is no number.
// `texts` are `loads` as a row holds them. For a lift that moves a share of the body, loads are what is added, below 0: help; `total` is then
// {total, fraction, added}. `guesses` are {equation, maximum, load} in `unit` likewise, [] where no equation was asked.

import { weight } from "./progress.js";

const NOISE = 1e-6; // loads nearer than this to a step count as the step: what is left of binary fractions and of rounding
const rounded = (value) => Math.round(value * 1e6) / 1e6;
const covered = ({ repetitions: [low, high] }, repetitions) => repetitions === 1 || (low <= repetitions && repetitions <= high);
const factor = ({ form, coefficients: [a, b] }, r) => form === "inverse" ? a / (b - r) : r ** a;

function maximum(equation, load, repetitions) {
  const [slope, constant] = equation.coefficients;
  if (repetitions === 1) return load;
  return equation.form === "line" ? slope * load + constant : load * factor(equation, repetitions);
}

function loadFor(equation, most, repetitions) {
  const [slope, constant] = equation.coefficients;
  if (repetitions === 1) return most;
  if (equation.form === "line") return most > constant ? (most - constant) / slope : null;
  return most / factor(equation, repetitions);
}

const speaking = (equations, exercise) => Object.entries(equations).filter(([, { exercises }]) => !exercises.length || exercises.includes(exercise));

/** [{equation, maximum, load}] in kilograms, null where an equation says nothing; repetitions are those to failure. */
export function guesses(equations, exercise, done, load, planned) {
  const lifted = Number.isFinite(load) && load > 0;
  return speaking(equations, exercise).map(([id, equation]) => {
    const most = lifted && covered(equation, done) ? maximum(equation, load, done) : null;
    return { equation: id, maximum: most, load: most !== null && covered(equation, planned) ? loadFor(equation, most, planned) : null };
  });
}

/** Kilograms moved: the stated share of body mass, and what is added; below 0: help. */
export const totalLoad = (mass, fraction, added) => mass * fraction + added;

/** Loads next to the target: the heaviest not above it, and the lightest above it where the first is not the target itself. */
export function neighbours(load, choices) {
  const sorted = [...new Set(choices.map(rounded))].sort((a, b) => a - b);
  const below = sorted.filter((choice) => choice <= load + NOISE).slice(-1), above = sorted.filter((choice) => choice > load + NOISE).slice(0, 1);
  return below.length && Math.abs(below[0] - load) <= NOISE ? below : [...below, ...above];
}

/** What a bar can hold; `pairs` has the weight of one plate of each pair, one of which goes on either side. */
function onBar(bar, pairs) {
  const sums = pairs.reduce((found, plate) => new Set([...found, ...[...found].map((held) => rounded(held + plate))]), new Set([0]));
  return [...sums].map((side) => bar + 2 * side);
}

/** What the gym has around a load; `own`: what is hung on the body, nothing and help included. */
function choices({ bar, weights, step }, load, own) {
  const near = Math.round(Math.abs(load) / step), steps = [-2, -1, 0, 1, 2].map((n) => rounded((near + n) * step)).filter((one) => one > 0);
  if (own) return (weights.length ? weights : steps).flatMap((one) => [one, -one]).concat(0);
  return weights.length ? bar === null ? weights : onBar(bar, weights) : steps;
}

const middle = (loads) => {
  const sorted = [...loads].sort((a, b) => a - b), half = sorted.length / 2;
  return (sorted[Math.ceil(half) - 1] + sorted[Math.floor(half)]) / 2;
};

const HELP = /\b(?:help|assistance|support)\b(?: of)?/iu, BARE = /^\s*[0-9]+(?:[.,][0-9]+)?\s*$/;
/** {value, after} of a load as a row holds it, in `unit`; null where it is no weight. Help counts below 0. */
function amount(text, { unit, own, pound }) {
  if (own && /^\s*(?:0(?: *(?:kg|lb))?|body ?weight)?\s*$/iu.test(text)) return { value: 0, after: "" };
  const helped = HELP.test(text), found = weight((BARE.test(text) ? `${text} ${unit}` : text).replace(HELP, "").trim());
  if (!found || (helped && !own)) return null;
  const scale = found.unit === unit ? 1 : found.unit === "lb" ? pound : 1 / pound;
  return { value: found.value * scale * (helped ? -1 : 1), after: found.after.trimEnd() };
}

/** Weights as they stand on them: 61.25, not 61.3. */
const exact = (value) => String(Math.round(value * 1000) / 1000);
/** As a reckoned number is shown: to a tenth. */
export const told = (value) => String(Math.floor(value * 10 + 0.5 + NOISE) / 10);

function held(value, { unit, own, after }) {
  if (own && value === 0) return "body weight";
  return value < 0 ? `${exact(-value)} ${unit} help` : `${exact(value)} ${unit}${own ? " added" : after}`;
}

const sum = ({ repetitions, left }) => repetitions + left;
const counts = (set) => Number.isInteger(set.repetitions) && set.repetitions > 0 && Number.isInteger(set.left) && set.left >= 0;

/** The one answer; see above. `data` has exercises, equations and pound as planner.json does. */
export function startingLoad({ exercises, equations, pound }, asked, gym) {
  const { exercise, load: text, unit, mass, done, wanted } = asked, { fraction, load: sort } = exercises[exercise] ?? {};
  const own = fraction !== undefined, answer = (kind, loads = [], more = {}) => ({ kind, unit, loads, texts: loads.map((one) => held(one, how)), spread: null,
    guesses: [], total: null, said: {}, ...more });
  const given = amount(text, { unit, own, pound }), how = { unit, own, after: given?.after ?? "" };
  if (!counts(done) || !counts(wanted)) return answer("ask", [], { said: { of: "set" } });
  const [before, after] = [sum(done), sum(wanted)], way = Math.sign(before - after);
  if (!given) {
    return text.trim() || sort === "band" || sort === "body-weight" ? answer("unweighed", [], { said: { sort: text.trim() || sort === "band" ? "band" : "body", way: ["weaker", "same", "stronger"][way + 1] } })
      : answer("ask", [], { said: { of: "load" } });
  }
  if (way === 0) return { ...answer("same", [given.value]), ...(text.trim() && !BARE.test(text) ? { texts: [text.trim()] } : {}) };
  if (own && !(mass > 0)) return answer("ask", [], { said: { of: "mass" } });
  const scale = unit === "lb" ? pound : 1, total = own ? totalLoad(mass, fraction, given.value) : given.value, body = total - given.value;
  const moves = (one) => !own || one + body > NOISE; // help that lifts the whole body leaves nothing to move
  const shared = own ? { total: { total, fraction, added: given.value } } : {};
  // A harder dose never gets more than was lifted, an easier one never less, whatever the gym lacks.
  const allowed = (load) => {
    const all = choices(gym, load, own).filter(moves), fit = all.filter((one) => way < 0 ? one <= given.value + NOISE : one >= given.value - NOISE);
    return fit.length ? fit : all;
  };
  const reckoned = (planned) => {
    const every = guesses(equations, exercise, before, total * scale, planned), speak = every.filter((one) => one.load !== null);
    if (!speak.length) return null;
    const loads = speak.map((one) => one.load / scale - body), centre = middle(loads);
    const errors = speak.map(({ equation }) => equations[equation]).filter((one) => one.standard_error)
      .map((one) => one.standard_error / (planned === 1 ? 1 : one.coefficients[0]) / scale);
    const handled = (kilograms) => kilograms === null ? null : kilograms / scale - body;
    return { loads: neighbours(centre, allowed(centre)), guesses: every.map((one) => ({ ...one, maximum: handled(one.maximum), load: handled(one.load) })),
      spread: { low: Math.min(...loads), high: Math.max(...loads), middle: centre, error: errors.length ? Math.max(...errors) : null } };
  };
  const found = reckoned(after);
  if (found) return answer("reckoned", found.loads, { spread: found.spread, guesses: found.guesses, ...shared });
  const end = Math.max(...speaking(equations, exercise).map(([, { repetitions: [, high] }]) => high)), last = after > end && reckoned(end);
  const from = last ? last.loads[0] : given.value, sign = last ? -1 : way;
  const next = choices(gym, from, own).map(rounded).filter((one) => moves(one) && sign * (one - from) > NOISE).sort((a, b) => sign * (a - b))[0];
  const said = { end, from: held(from, how), repetitions: Math.max(before, after), way: sign < 0 ? "lighter" : "heavier" };
  if (next === undefined) return answer("none", [from], { said, ...shared });
  return answer(last ? "end" : sign < 0 ? "down" : "up", [next], { said, ...shared });
}
