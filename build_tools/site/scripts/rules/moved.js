// Addresses that name what has another id since.

/** Field of an address -> the kind of its ids. */
const FIELDS = { part: "parts", parts: "parts", exercises: "exercises" };

/** The text after `?` or `#` of an address with living ids; `moved` is {kind: {old id: living id}}. All else stays as it is spelled. */
export const renewed = (text, moved) => text.split("&").map((field) => {
  const [name, ...values] = field.split("="), ids = Object.hasOwn(FIELDS, name) ? moved[FIELDS[name]] ?? {} : {};
  const now = (value) => Object.hasOwn(ids, value.replaceAll("%2F", "/")) ? ids[value.replaceAll("%2F", "/")] : value;
  return values.length === 1 ? `${name}=${[...new Set(values[0].split(",").map(now))].join(",")}` : field;
}).join("&");
