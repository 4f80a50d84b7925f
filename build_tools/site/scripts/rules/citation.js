// A statement as it is passed on: the sentence, how sure it is, what it rests on, and where and when it stood there.

/** Keys of the sources that links lead to, each once: `../../sources/wick2030/#result-1` is of `wick2030`. */
export const keys = (hrefs) => [...new Set(hrefs.map((href) => href.match(/(?:^|\/)sources\/([^/#]+)\//)?.[1]).filter(Boolean))];

const one = (text) => text.replace(/\s+/g, " ").trim();
const ended = (text) => text && (/[.!?…]$/.test(text) ? text : `${text}.`);

/** Labels and what stands beside them as sentences: `Choose: Back squat. Why: ...`. */
export const sentences = (rows) => rows.map((row) => ended(row.map(one).join(": "))).join(" ");

/**
 * The lines to copy. `book` is what `data/citations.json` holds: title, owner, licence, reviewed (a day in words), and references: key ->
 * [reference, what was read of it]; null where it could not be had, and then `names` (key -> the short name on the page) stand for them.
 */
export function citation({ sentence, sure, cited, names, address, today, book }) {
  const lines = [`“${one(sentence)}”${sure ? ` ${ended(one(sure))}` : ""}`];
  for (const key of cited) {
    const [reference, read] = book?.references[key] ?? [names[key] ?? key, ""];
    lines.push(read ? `${reference} [${read}]` : reference);
  }
  const whose = book ? [`${book.title}, ${book.owner}.`, `Last reviewed ${book.reviewed}; copied ${today}.`, `Licence: ${book.licence}.`] : [`Copied ${today}.`];
  return [...lines, whose.join(" "), address].join("\n");
}
