// Words and names: how they are ordered, compared without accents, listed and put into a sentence.

export const order = (a, b) => a < b ? -1 : a > b ? 1 : 0;
/** Text without accents and capitals. */
export const folded = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
/** A sentence with its {places} filled. */
export const filled = (sentence, values) => sentence.replace(/\{(\w+)\}/g, (_, name) => String(values[name]));
export const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);
export const listed = (words) => words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
