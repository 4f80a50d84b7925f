// What a coach types to add an exercise: a name, and after it the dose if there is one, as in "back squat 4x6-8 60 kg".

const SETS = 3, REPETITIONS = "8-12";
const DOSE = /\s+([0-9]{1,2})\s*[x×*]\s*([0-9]{1,3}(?:\s*[-–—]\s*[0-9]{1,3})?s?)(?:[\s,@]+(.*\S))?\s*$/iu;

/** {name, sets, repetitions, load}; a name alone gets the usual dose and no load. */
export function typed(text) {
  const found = DOSE.exec(text);
  return { name: (found ? text.slice(0, found.index) : text).trim(), sets: found ? Number(found[1]) : SETS,
    repetitions: found ? found[2].replace(/\s*[-–—]\s*/u, "-").toLowerCase() : REPETITIONS, load: found?.[3] ?? null };
}
