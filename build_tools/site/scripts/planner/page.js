// What the working pages share beside elements: links and files of the site, marks of the kinds of evidence, and how a page begins.

import { make, part } from "../dom.js";

export const root = new URL("../../", import.meta.url);

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
  const show = (name, shown) => { for (const each of document.querySelectorAll(`[data-part="${name}"]`)) each.hidden = !shown; };
  start().then(() => { show("plain", false); show("tool", true); })
    .catch((wrong) => { part("failed").hidden = false; console.error(wrong); });
}
