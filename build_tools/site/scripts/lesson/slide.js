// Slides of a comparison, as the build writes those of a muscle (templates/lessons/slides.html.jinja): the same elements and classes.

import { make } from "../dom.js";

const XMLNS = "http://www.w3.org/2000/svg", BARS = 420;

function svg(attributes, ...children) {
  const element = document.createElementNS(XMLNS, "svg");
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

const picture = (name, alt, credit, [width, height], ...drawn) =>
  svg({ role: "img", "aria-label": alt, viewBox: `0 0 ${width} ${height}`, "data-picture": name, "data-credit": credit }, ...drawn);

/** A slide and its notes; `before` stands in the heading before its words, `content` between heading and foot. */
export function slide(name, kind, above, heading, content, foot, notes, before = []) {
  const made = make("section", { className: `slide slide--${kind}`, id: name },
    ...above ? [make("p", { className: "kind" }, above)] : [], make("h2", {}, ...before, heading), ...content,
    ...foot.length ? [make("p", { className: "foot" }, ...foot.flatMap((line, n) => n ? [make("br"), line] : [line]))] : []);
  const said = make("aside", { className: "notes", ariaLabel: `Notes: ${heading}` }, make("h3", {}, heading), ...notes.map((note) => make("p", {}, note)));
  return notes.length ? [made, said] : [made];
}

export const body = (...content) => make("div", { className: "body" }, ...content);
export const points = (texts) => make("ul", {}, ...texts.map((text) => make("li", {}, text)));
export const sure = (text) => make("p", { className: "sure" }, text);

/** Lines of a list: [term, text, small]. */
export const rows = (lines) => make("dl", { className: "rows" }, ...lines.map(([term, text, small]) =>
  make("div", {}, make("dt", {}, term), make("dd", {}, text, ...small ? [make("small", {}, small)] : []))));

/** The two bars of a statement, as the page has them. */
export function bars(drawn, name, credit) {
  const alt = [...drawn.querySelectorAll("title, desc")].map((one) => one.textContent.trim()).join(". "), height = Number(drawn.getAttribute("height")) + 4;
  for (const one of drawn.querySelectorAll("title, desc")) one.remove();
  for (const attribute of ["role", "aria-labelledby"]) drawn.removeAttribute(attribute);
  return picture(name, alt, credit, [BARS, height], svg({ width: BARS, height }, drawn));
}

/** Start and finish of an exercise side by side, of its moving drawing. */
export function poses(drawn, name, credit) {
  const box = drawn.getAttribute("viewBox"), [, , width, height] = box.split(" ").map(Number), gap = width / 10, both = document.createElementNS(XMLNS, "g");
  both.setAttribute("class", "hb-both");
  both.append(...[".start", ".finish"].map((which, n) => svg({ x: n * (width + gap), width, height, viewBox: box }, ...drawn.querySelector(which).childNodes)));
  return picture(name, drawn.querySelector("title").textContent.trim(), credit, [2 * width + gap, height], both);
}
