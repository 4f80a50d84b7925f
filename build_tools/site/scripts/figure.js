// A drawing of the page as a file: with its title, its words, its sources and the licence, on white whatever the page's colours.

import { give, painted } from "./lesson/pack.js";
import { beside } from "./rules/beside.js";
import { framed } from "./rules/frame.js";

const WIDE = 600, root = new URL("../", import.meta.url);
const text = (element) => element?.textContent.trim().replace(/\s+/g, " ") ?? "";

/** What stands inside a drawing, as XML, without its name and words: the file has those. */
function inside(drawn) {
  const copy = drawn.cloneNode(true);
  for (const told of copy.querySelectorAll("title, desc")) told.remove();
  return [...copy.childNodes].map((node) => new XMLSerializer().serializeToString(node)).join("");
}

/** A plot keeps its height, and the words of its caption. */
function plot(figure, button, held) {
  const drawn = figure.querySelector("svg.hb-plot"), height = Number(drawn.getAttribute("height")), basis = figure.matches(":has(.hb-plot__curve, .hb-plot__length)");
  const key = [...figure.querySelector("figcaption").childNodes].filter((node) => node.nodeType === Node.TEXT_NODE).map((node) => node.data.trim()).join(" ");
  return {
    title: text(figure.querySelector(".hb-figure__title")), note: "", alt: text(drawn.querySelector("desc")), size: [WIDE, height + 20],
    credit: [key, basis ? text(document.querySelector("[data-basis]")) : "", button.dataset.credit ?? held.curves, held.from].filter(Boolean).join(" "),
    drawing: `<svg class="hb-plot" width="${WIDE}" height="${height}" overflow="visible">${inside(drawn)}</svg>`,
  };
}

/** Postures side by side, small drawings below them. */
function postures(figure) {
  const read = (cell) => ({ drawing: inside(cell.querySelector("svg")), box: cell.querySelector("svg").getAttribute("viewBox").split(" ").map(Number), says: text(cell.querySelector("p")) });
  const cells = [...figure.querySelectorAll(".hb-posed__poses > div:has(> svg)")], told = cells.map((cell) => text(cell.querySelector("desc")));
  const laid = beside(cells.map(read), [...figure.querySelectorAll(".hb-posed__insets > div")].map(read));
  return { ...laid, title: text(document.querySelector("h1")), note: "", alt: told.join(" "), credit: [...told, figure.querySelector("[data-copy]").dataset.copy].join(" ") };
}

/** Save the drawing that `button` stands with, under the name that it gives. */
export async function save(button) {
  const figure = button.closest("figure"), name = button.dataset.figure, answer = await fetch(new URL("data/figure.json", root));
  if (!answer.ok) throw new Error(String(answer.status));
  const held = await answer.json(), picture = figure.matches(".hb-posed") ? postures(figure) : plot(figure, button, held);
  const shape = picture.size[1] > picture.size[0] ? "square" : "wide", svg = framed(picture, shape, held.style, held.colours);
  give(name.endsWith(".png") ? await painted(svg, shape) : new Blob([svg], { type: "image/svg+xml" }), name);
}
