// A handout and the fragment that carries it.
//
// A browser never sends the fragment (RFC 3986, section 3.5), so no server and no log sees what a coach wrote. It is `1.` (the version) and
// the base64url form without padding (RFC 4648, section 5) of compact JSON in UTF-8:
//
//     [title or null, [[id, sets, repetitions, load, left, rest, tempo, note], ...]]
//
// with nulls at a row's end left out. The same handout always gives the same fragment, and any other spelling of it is refused: what one
// coach sends can be compared with what another opened. Limits, patterns and messages stand in build_tools/handout/limits.py and come
// with the page's data.

const SAFE = Number.MAX_SAFE_INTEGER;
const HALF = /[\ud800-\udfff]/u;

/** A fragment that is not shown; `kind` is a key of the rules' messages. */
export class BadFragment extends Error {
  constructor(kind) {
    super(kind);
    this.kind = kind;
  }
}

/** The fragment of a handout {title, items: [{id, sets, ...}]}, without `#`. */
export function encode({ title, items }, rules) {
  const rows = items.map((item) => withoutTrailingNulls(rules.fields.map(([name]) => item[name] ?? null)));
  const text = `${rules.version}.${base64(compact([title, rows]))}`;
  checkLimits(title, rows, rules);
  if (text.length > rules.characters) throw new BadFragment("too-long");
  return text;
}

/** The handout of a fragment without `#`; `known` is a Map from each id that may stand in it to the id to show.
    Fails with the first of: too-long, not-ours, version, damaged, limits, unknown. */
export function decode(text, rules, known) {
  if ([...text].length > rules.characters) throw new BadFragment("too-long");
  const form = /^([0-9]+)\.(.*)$/su.exec(text);
  if (form === null) throw new BadFragment("not-ours");
  if (form[1] !== String(rules.version)) throw new BadFragment("version");
  const [title, rows] = parsed(form[2], rules);
  checkLimits(title, rows, rules);
  if (!rows.every(([id]) => known.has(id))) throw new BadFragment("unknown");
  const items = rows.map((row) => Object.fromEntries(rules.fields.map(([name], n) => [name, row[n] ?? null])));
  return { title, items: items.map((item) => ({ ...item, id: known.get(item.id) })) };
}

/** Whether one value keeps within its limit: {low, high} for whole numbers, {pattern, rises} for text. */
export function holds(limit, value) {
  if ("low" in limit) return limit.low <= value && value <= limit.high;
  const numbers = limit.rises ? (value.match(/[0-9]+/g) ?? []).map(Number) : [];
  return new RegExp(`^(?:${limit.pattern})$`, "u").test(value) && numbers.every((n, i) => i === 0 || numbers[i - 1] < n);
}

function parsed(encoded, rules) {
  try {
    const raw = Uint8Array.from(atob(encoded.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    const data = JSON.parse(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(raw));
    // One spelling for one handout: whatever is written otherwise was changed on the way.
    if (base64(compact(data)) === encoded && isPlain(data) && hasTheShape(data, rules)) return data;
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
  if (!Array.isArray(data) || data.length !== 2 || !Array.isArray(data[1])) return false;
  return (data[0] === null || typeof data[0] === "string") && data[1].every((row) =>
    Array.isArray(row) && row.length > 0 && row.length <= rules.fields.length && row.at(-1) !== null && row[0] !== null
    && row.every((value, n) => value === null || typeof value === ("low" in rules.fields[n][1] ? "number" : "string")));
}

function checkLimits(title, rows, rules) {
  const sound = rows.length >= 1 && rows.length <= rules.exercises && (title === null || holds(rules.title, title))
    && rows.every((row) => row.every((value, n) => value === null || holds(rules.fields[n][1], value)));
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
