// What follows the list: figures and cues, taken over from the exercises' cue sheets, the code on paper, and all of it kept. A sheet is parsed
// without running or loading anything, and only elements and attributes that are listed here are made anew.

import { part } from "../dom.js";
import { careOf, sheetOf, words } from "./view.js";

const view = part("view");
/** What two exercises may have to say, in characters with their figures' descriptions, beside the list on the first page and on the next ones:
    more is printed smaller, much more on the first smaller still, a single exercise larger. Measured over the shipped catalog on A4 and Letter. */
const FIRST = 3400, FULL = 3700, NEXT = 5400;

const HTML = "http://www.w3.org/1999/xhtml", SVG = "http://www.w3.org/2000/svg";
/** Element -> what it becomes here, one heading level further down. */
const ELEMENTS = new Map([
  ...["section", "figure", "div", "p", "ul", "ol", "li", "dl", "dt", "dd", "b", "strong", "em", "i", "q", "span", "br"].map((name) => [name, name]),
  ["h2", "h3"], ["h3", "h4"],
]);
const SHAPES = new Set(["svg", "g", "path", "title", "desc"]);
const ATTRIBUTES = { [HTML]: ["class", "aria-hidden"], [SVG]: ["class", "viewBox", "d", "role", "aria-hidden"] };

/** Completes a handout; resolves when all stands, and then has it kept. `texts` maps ids to promises of their sheets' text, null for what could not be
    had; `rules` are the link's, `files` what the page keeps, `paper` the promise of its printed style. */
export async function complete(handout, texts, { rules, files }, paper) {
  delete document.documentElement.dataset.print;
  const shown = location.href, scanned = codeOf(location.hash.slice(1), rules), articles = [...view.querySelectorAll("article")];
  const items = handout.days.flatMap(({ items: all }) => all);
  await Promise.all(items.map(async ({ id }, n) => {
    const found = taken(await texts.get(id)), sheet = part("sheet", articles[n]);
    if (!found) return;
    sheet.replaceChildren(found);
    delete sheet.dataset.wait;
  }));
  await Promise.all([scanned, paper]);
  document.documentElement.dataset.print = sizeOf(articles.map((each) => each.textContent.length));
  if (location.href === shown) keepAll(handout, texts, files);
}

async function keepAll({ care }, texts, files) {
  const shown = location.href, { keep } = await import("./kept.js");
  const done = await keep([...files.map((file) => new URL(file, shown).href), ...[...texts.keys()].map(sheetOf), ...care.map(careOf)]);
  if (done && location.href === shown) part("kept", view).hidden = false;
}

/** Puts the link's code on the paper, if it is not too long for one. */
async function codeOf(fragment, rules) {
  const place = part("code", view), scanned = fragment.length <= rules.scanned;
  part("link", view).textContent = scanned ? words.scan_it : words.too_long_code;
  part("link", view).href = location.href;
  place.replaceChildren();
  if (!scanned) return;
  try {
    const [{ code }] = await Promise.all([import("./code.js"), import("./lean-qr.js")]);
    place.replaceChildren(code(location.href, words.code));
  } catch { /* no network */ }
}

/** How large it is printed, from the characters of each exercise. */
function sizeOf(words) {
  const pairs = words.flatMap((each, n) => n % 2 ? [] : [each + (words[n + 1] ?? 0)]);
  if (words.length === 1) return "large";
  if (pairs[0] > FULL) return "smallest";
  return pairs[0] > FIRST || Math.max(...pairs) > NEXT ? "small" : "";
}

/** Figure and cues out of the text of an exercise's sheet; null where there is none. */
function taken(page) {
  // Only the main part is parsed: the sheet's own styles may not stand here.
  const [text] = /<main>.*<\/main>/s.exec(page ?? "") ?? [];
  if (!text) return null;
  const main = new DOMParser().parseFromString(text, "text/html").querySelector("main"), made = document.createDocumentFragment();
  made.append(...Array.from(main.childNodes, adopted));
  return made;
}

function adopted(node) {
  if (node.nodeType === Node.TEXT_NODE) return document.createTextNode(node.data);
  if (node.nodeType !== Node.ELEMENT_NODE) return "";
  const name = node.namespaceURI === SVG ? SHAPES.has(node.localName) && node.localName
    : node.namespaceURI === HTML && ELEMENTS.get(node.localName);
  if (!name) return "";
  const element = document.createElementNS(node.namespaceURI, name);
  for (const attribute of ATTRIBUTES[node.namespaceURI]) {
    if (node.hasAttribute(attribute)) element.setAttribute(attribute, node.getAttribute(attribute));
  }
  element.append(...Array.from(node.childNodes, adopted));
  // Ids stay behind, so what the sheet's drawing says of itself is said here in one.
  if (name === "svg" && element.querySelector("desc")) element.setAttribute("aria-label", ["title", "desc"].map((one) => element.querySelector(one).textContent).join(". "));
  return element;
}
