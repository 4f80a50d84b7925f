// Takes over figure and cues from an exercise's cue sheet. The sheet is parsed without running or loading anything,
// and only elements and attributes that are listed here are made anew.

const HTML = "http://www.w3.org/1999/xhtml", SVG = "http://www.w3.org/2000/svg";
/** Element -> what it becomes here, one heading level further down. */
const ELEMENTS = new Map([
  ...["section", "figure", "div", "p", "ul", "ol", "li", "dl", "dt", "dd", "b", "strong", "em", "i", "q", "span", "br"].map((name) => [name, name]),
  ["h2", "h3"], ["h3", "h4"],
]);
const SHAPES = new Set(["svg", "g", "path", "title", "desc"]);
const ATTRIBUTES = { [HTML]: ["class", "aria-hidden"], [SVG]: ["class", "viewBox", "d", "role", "aria-hidden"] };

/** Where an exercise's cue sheet is. */
export const address = (id) => new URL(`../cues/${id}/`, location.href).href;

/** Figure and cues of an exercise; null when its sheet cannot be had just now. */
export async function sheet(id) {
  try {
    const answer = await fetch(address(id));
    // Only the main part is parsed: the sheet's own styles may not stand here.
    const [text] = (answer.ok && /<main>.*<\/main>/s.exec(await answer.text())) || [];
    if (!text) return null;
    const main = new DOMParser().parseFromString(text, "text/html").querySelector("main");
    const taken = document.createDocumentFragment();
    taken.append(...Array.from(main.childNodes, adopted));
    return taken;
  } catch {
    return null; // no network
  }
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
  return element;
}
