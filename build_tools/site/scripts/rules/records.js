// The records of some sources out of a file of many, in each form that the handbook writes them (catalog/bibliography).

const KEYS = { bib: /^@\w+\{([^,]+),/, ris: /^ID {2}- (.+?)\r?$/m };
const SPLIT = { bib: /^(?=@)/m, ris: /^(?=TY {2}- )/m };

/** The records of `keys`, in the order of the file. */
export function records(text, form, keys) {
  if (form === "json") return `${JSON.stringify(JSON.parse(text).filter(({ id }) => keys.includes(id)), null, 1)}\n`;
  return text.split(SPLIT[form]).filter((record) => keys.includes(KEYS[form].exec(record)?.[1])).join("");
}
