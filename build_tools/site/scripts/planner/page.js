// What the working pages share beside elements: links and files of the site, marks of the evidence, and how a page begins.

import { make, part } from "../dom.js";
import { renewed } from "../rules/moved.js";

export const root = new URL("../../", import.meta.url);

/** A link to an address of the site's own data. */
export const link = (address, text) => make("a", { href: new URL(address, root).href }, text);

/** The way to the numbers and reasons of a statement, told apart from others for whoever hears the links alone. */
export const grounds = (address, of) => {
  const made = link(address, "Numbers and reasons");
  made.append(make("span", { className: "hb-unseen" }, ` for ${of}`));
  return made;
};

/** A mark of the evidence map, drawn as the symbol that the page holds. */
export function sign({ sign: symbol, kind }) {
  const held = document.getElementById(symbol), drawn = document.createElementNS(held.namespaceURI, "svg");
  for (const [name, value] of [["class", `hb-sign hb-sign--${kind}`], ["viewBox", held.getAttribute("viewBox")], ["aria-hidden", "true"]]) drawn.setAttribute(name, value);
  drawn.append(...held.cloneNode(true).childNodes);
  return drawn;
}

const CARE = ["Who takes care", "Instead", "Stop if", "Ask", "Afterwards"];

/** Cautions of one exercise, each with its lines; `cautions` are the files data/care/<concern>.json. One that speaks of two concerns stands once. */
export function careOf(cautions, id) {
  const each = new Map(cautions.flatMap((of) => of[id] ?? []).map((lines) => [lines.join("\n"), lines]));
  return [...each.values()].map((lines) => make("dl", { className: "hb-caution" },
    ...lines.map((line, n) => make("div", {}, make("dt", {}, CARE[n]), " ", make("dd", {}, line)))));
}

/** A drawing that the build made, as an element: XML of its own, in which nothing runs. */
export const drawing = (text) => document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);

const had = new Map();
/** A file of the site's data, each once. */
export function fetched(address) {
  if (!had.has(address)) {
    had.set(address, fetch(new URL(address, root)).then((answer) => answer.ok ? answer.json() : Promise.reject(new Error(String(answer.status)))));
    had.get(address).catch(() => had.delete(address));
  }
  return had.get(address);
}

/** An old address becomes the one that is meant now, before anything reads it. */
function follow() {
  const moved = document.querySelector("script[data-moved]")?.dataset.moved;
  if (!moved) return;
  const [search, hash] = [location.search, location.hash].map((text) => text && text[0] + renewed(text.slice(1), JSON.parse(moved)));
  if (search !== location.search || hash !== location.hash) history.replaceState(null, "", location.pathname + search + hash);
}

/** The page's own parts in place of what stands there without scripts; a message where the data cannot be had. */
export function begin(start) {
  const show = (name, shown) => { for (const each of document.querySelectorAll(`[data-part="${name}"]`)) each.hidden = !shown; };
  follow();
  start().then(() => { show("plain", false); show("tool", true); })
    .catch((wrong) => { part("failed").hidden = false; console.error(wrong); });
}
