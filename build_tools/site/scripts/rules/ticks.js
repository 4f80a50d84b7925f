// What a client has ticked off: a mark for each set of each exercise, as text such as `110.0` for two of three sets of the first and none
// of the second. It stays on the client's device, under a name that tells nothing of the handout.

const BASIS = 0xcbf29ce484222325n, PRIME = 0x100000001b3n, BITS = 64;

/** A number that stands for a text of ASCII, in hexadecimal: FNV-1a, 64 bits (IETF draft-eastlake-fnv). */
export function hashed(text) {
  let hash = BASIS;
  for (const letter of text) hash = BigInt.asUintN(BITS, (hash ^ BigInt(letter.charCodeAt(0))) * PRIME);
  return hash.toString(16).padStart(BITS / 4, "0");
}

/** Nothing ticked yet; `sizes` counts the marks of each exercise. */
export const blank = (sizes) => sizes.map((size) => Array(size).fill(false));

/** The ticks that a text holds; none when it is another handout's, or damaged. */
export function read(text, sizes) {
  const found = /^[01]+(\.[01]+)*$/.test(text ?? "") ? text.split(".") : [];
  const fits = found.length === sizes.length && found.every((marks, n) => marks.length === sizes[n]);
  return fits ? found.map((marks) => Array.from(marks, (mark) => mark === "1")) : blank(sizes);
}

/** The text of some ticks; null when there is none to keep. */
export function write(ticks) {
  return ticks.some((marks) => marks.some(Boolean)) ? ticks.map((marks) => marks.map(Number).join("")).join(".") : null;
}
