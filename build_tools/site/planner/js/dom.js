// Elements made from data: text always enters as text, never as markup.

export const root = new URL("../", import.meta.url);

/** A new element; `properties` are its DOM properties, `children` elements and plain text. */
export function make(name, properties = {}, ...children) {
  const element = Object.assign(document.createElement(name), properties);
  element.append(...children);
  return element;
}

/** The element with a `data-part` of this name. */
export const part = (name) => document.querySelector(`[data-part="${name}"]`);

/** A link to an address of the site's own data. */
export const link = (address, text) => make("a", { href: new URL(address, root).href }, text);

/** The way to the numbers and reasons of a statement, told apart from others for whoever hears the links alone. */
export const grounds = (statement, { name }) => {
  const made = link(statement.address, "Numbers and reasons");
  made.append(make("span", { className: "hb-unseen" }, ` for ${statement.kind}, ${name}`));
  return made;
};

export const mark = (kind) => {
  const made = make("span", { className: `hb-mark hb-mark--${kind}` });
  made.setAttribute("aria-hidden", "true");
  return made;
};

/** A file of the site's data. */
export const fetched = (address) =>
  fetch(new URL(address, root)).then((answer) => answer.ok ? answer.json() : Promise.reject(new Error(String(answer.status))));

/** The page's own parts in place of what stands there without scripts; a message where the data cannot be had. */
export function begin(start) {
  start().then(() => { part("plain").hidden = true; part("tool").hidden = false; })
    .catch((wrong) => { part("failed").hidden = false; console.error(wrong); });
}
