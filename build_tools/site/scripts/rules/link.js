// A handout and the fragment that carries it.
//
// A browser never sends the fragment (RFC 3986, section 3.5), so no server and no log sees what a coach wrote. It is `2.` (the version) and
// the base64url form without padding (RFC 4648, section 5) of compact JSON in UTF-8:
//
//     [title, coach, date, [concern, ...], [[day, [[id, sets, repetitions, load, left, rest, tempo, note], ...]], ...]]
//
// with null for what is not given, and nulls at a row's end left out. A day is 0 (Monday) to 6; one that stands alone may be null. The
// concerns are those whose lines stand on top. Version 1 was `[title, [row, ...]]`, a day without a name; its links still open. The same
// handout always gives the same fragment, and any other spelling of it is refused: what one coach sends can be compared with what another
// opened. Limits, patterns and messages stand in build_tools/handout/limits.py and come with the page's data.

const SAFE = Number.MAX_SAFE_INTEGER;
const HALF = /[\ud800-\udfff]/u;

/** A fragment that is not shown; `kind` is a key of the rules' messages. */
export class BadFragment extends Error {
  constructor(kind) {
    super(kind);
    this.kind = kind;
  }
}

/** The fragment of a handout {title, coach, date, care: [concern], days: [{day, items: [{id, sets, ...}]}]}, without `#`. */
export function encode(handout, rules) {
  const head = rules.head.map(([name]) => handout[name] ?? null);
  const days = handout.days.map(({ day, items }) =>
    [day ?? null, items.map((item) => withoutTrailingNulls(rules.fields.map(([name]) => item[name] ?? null)))]);
  const data = [...head, handout.care ?? [], days], text = `${rules.version}.${base64(compact(data))}`;
  checkLimits(data, rules);
  if (text.length > rules.characters) throw new BadFragment("too-long");
  return text;
}

/** The handout of a fragment without `#`; `known` is a Map from each id that may stand in it to the id to show.
    Fails with the first of: too-long, not-ours, version, damaged, limits, unknown. */
export function decode(text, rules, known) {
  if ([...text].length > rules.characters) throw new BadFragment("too-long");
  const form = /^([0-9]+)\.(.*)$/su.exec(text);
  if (form === null) throw new BadFragment("not-ours");
  if (!["1", String(rules.version)].includes(form[1])) throw new BadFragment("version");
  const data = parsed(form[2], rules, form[1] === "1");
  checkLimits(data, rules);
  const days = data.at(-1);
  if (!days.every(([, rows]) => rows.every(([id]) => known.has(id)))) throw new BadFragment("unknown");
  const item = (row) => ({ ...Object.fromEntries(rules.fields.map(([name], n) => [name, row[n] ?? null])), id: known.get(row[0]) });
  return {
    ...Object.fromEntries(rules.head.map(([name], n) => [name, data[n]])), care: data.at(-2),
    days: days.map(([day, rows]) => ({ day, items: rows.map(item) })),
  };
}

/** The handout for its client, with no dose of what was taken out of the handbook (`gone`: id -> name): that is not to be done. */
export const told = (handout, gone) => ({ ...handout, days: handout.days.map(({ day, items }) => ({ day,
  items: items.map((item) => Object.hasOwn(gone, item.id) ? { ...Object.fromEntries(Object.keys(item).map((field) => [field, null])), id: item.id } : item) })) });

/** The handout for its coach, without what was taken out, and without days that held nothing else. */
export const going = (handout, gone) => ({ ...handout, days: handout.days.map(({ day, items }) => ({ day, items: items.filter(({ id }) => !Object.hasOwn(gone, id)) }))
  .filter(({ items }) => items.length) });

/** Whether one value keeps within its limit: {low, high} for whole numbers, {pattern, rises} for text. */
export function holds(limit, value) {
  if ("low" in limit) return limit.low <= value && value <= limit.high;
  const numbers = limit.rises ? (value.match(/[0-9]+/g) ?? []).map(Number) : [];
  return new RegExp(`^(?:${limit.pattern})$`, "u").test(value) && numbers.every((n, i) => i === 0 || numbers[i - 1] < n);
}

/** What a fragment holds, in the form of this version; `first` says that it is of the first. */
function parsed(encoded, rules, first) {
  try {
    const raw = Uint8Array.from(atob(encoded.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    const data = JSON.parse(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(raw));
    // One spelling for one handout: whatever is written otherwise was changed on the way.
    const now = first && Array.isArray(data) && data.length === 2 ? [data[0], null, null, [], [[null, data[1]]]] : data;
    if (base64(compact(data)) === encoded && isPlain(data) && hasTheShape(now, rules) && first === (now !== data)) return now;
  } catch { /* not base64, not UTF-8 or not JSON */ }
  throw new BadFragment("damaged");
}

/** Only lists, whole texts, exact whole numbers, true, false and null. */
function isPlain(data) {
  if (Array.isArray(data)) return data.every(isPlain);
  if (typeof data === "string") return !HALF.test(data);
  return typeof data === "number" ? Number.isInteger(data) && Math.abs(data) <= SAFE : data === null || typeof data === "boolean";
}

function hasTheShape(data, rules) {
  if (!Array.isArray(data) || data.length !== rules.head.length + 2) return false;
  const [care, days] = data.slice(-2), text = (value) => typeof value === "string";
  return data.slice(0, -2).every((value) => value === null || text(value)) && Array.isArray(care) && care.every(text)
    && Array.isArray(days) && days.every((day) => Array.isArray(day) && day.length === 2
      && (day[0] === null || typeof day[0] === "number") && Array.isArray(day[1]) && day[1].every((row) => isRow(row, rules)));
}

const isRow = (row, { fields }) => Array.isArray(row) && row.length > 0 && row.length <= fields.length && row.at(-1) !== null && row[0] !== null
  && row.every((value, n) => value === null || typeof value === ("low" in fields[n][1] ? "number" : "string"));

function checkLimits(data, rules) {
  const [care, days] = data.slice(-2), fits = (limit, value) => value === null || holds(limit, value);
  const sound = data.slice(0, -2).every((value, n) => fits(rules.head[n][1], value))
    && care.length <= rules.concerns && new Set(care).size === care.length && care.every((id) => holds(rules.concern, id))
    && days.length >= 1 && days.every(([day, rows], n) => (day === null ? days.length === 1 : day >= 0 && day < rules.days && (n === 0 || days[n - 1][0] < day))
      && rows.length >= 1 && rows.length <= rules.exercises && rows.every((row) => row.every((value, i) => fits(rules.fields[i][1], value))));
  if (!sound) throw new BadFragment("limits");
}

function withoutTrailingNulls(row) {
  while (row.at(-1) === null) row.pop();
  return row;
}

const compact = (data) => new TextEncoder().encode(JSON.stringify(data));

function base64(raw) {
  const letters = Array.from(raw, (byte) => String.fromCharCode(byte)).join("");
  return btoa(letters).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}
