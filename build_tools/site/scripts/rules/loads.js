// A starting load from a recent set, and what can be put on the bar for it.
//
// A set of r repetitions with l left in hand is taken as r + l repetitions to failure. Each equation of the programme predicts the maximum
// from it; the load for another set comes from the same equation turned round. Several equations stand side by side, each with its error:
// no mean is taken of them. A load that can be lifted once is the maximum by definition, although several published equations do not
// return it at one repetition. Loads are in kilograms (every form but `line` keeps whatever unit it is given).

const NOISE = 1e-9; // loads nearer than this to a step count as the step: what is left of binary fractions
const rounded = (value) => Math.round(value * 1e6) / 1e6;
const covered = ({ repetitions: [low, high] }, repetitions) => repetitions === 1 || (low <= repetitions && repetitions <= high);

function factor({ form, coefficients: [a, b, c] }, r) {
  return { linear: 1 + a * r, inverse: a / (b - r), power: r ** a, exponential: 100 / (a + b * Math.exp(-c * r)) }[form];
}

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

/** [{equation, maximum, load}] in kilograms, null where an equation says nothing; repetitions are those to failure. */
export function guesses(equations, exercise, done, load, planned) {
  const lifted = Number.isFinite(load) && load > 0;
  return Object.entries(equations).filter(([, { exercises }]) => !exercises.length || exercises.includes(exercise)).map(([id, equation]) => {
    const most = lifted && covered(equation, done) ? maximum(equation, load, done) : null;
    return { equation: id, maximum: most, load: most !== null && covered(equation, planned) ? loadFor(equation, most, planned) : null };
  });
}

/** Kilograms moved: the stated share of body mass, and what is added; below 0: help. */
export const totalLoad = (mass, fraction, added) => mass * fraction + added;
/** Kilograms to hang on a body-weight movement so that it moves `load`; below 0: help of that much. */
export const toHang = (load, mass, fraction) => load - mass * fraction;

/** Loads next to the target: the heaviest not above it, and the lightest above it where the first is not the target itself. */
export function neighbours(load, choices) {
  const sorted = [...new Set(choices.map(rounded))].sort((a, b) => a - b);
  const below = sorted.filter((choice) => choice <= load + NOISE).slice(-1), above = sorted.filter((choice) => choice > load + NOISE).slice(0, 1);
  return below.length && Math.abs(below[0] - load) <= NOISE ? below : [...below, ...above];
}

/** The same on a bar; `pairs` holds the weight of one plate of each pair, one of which goes on either side. An empty bar may be too heavy already. */
export function onBar(load, bar, pairs) {
  const sums = pairs.reduce((found, plate) => new Set([...found, ...[...found].map((held) => rounded(held + plate))]), new Set([0]));
  return neighbours(load, [...sums].map((side) => bar + 2 * side));
}

/** As it is shown: to a tenth. */
export const told = (value) => String(Math.floor(value * 10 + 0.5 + NOISE) / 10);
