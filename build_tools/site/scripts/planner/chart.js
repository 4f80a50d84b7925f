// Curves of several exercises in one drawing. Each has its own dashes and its name at its end, so that none needs a colour or a key.

import { make } from "../dom.js";
import { apart, lines } from "../rules/curves.js";

const SVG = "http://www.w3.org/2000/svg", HEIGHT = 110, EDGE = 10, FOOT = 20, LINE = 15, LETTERS = 19, LABELS = 150;
const DASHES = ["none", "9 4", "2 4", "12 4 2 4"];

export function draw(name, attributes, ...children) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}

/** `curves`: [{n, name, values}], `n` the place of the exercise (0-3), values in per cent at even steps; `ends` are words of the scale. */
export function chart(title, curves, ends, note) {
  const all = curves.flatMap(({ values }) => values), low = Math.min(0, ...all), high = Math.max(100, ...all);
  const y = (value) => EDGE + (high - value) / (high - low) * (HEIGHT - 2 * EDGE);
  const path = (values) => `M${values.map((value, at) => `${(100 * at / (values.length - 1)).toFixed(1)} ${y(value).toFixed(1)}`).join("L")}`;
  const plot = draw("svg", { class: "hb-plot", role: "img", "aria-label": `${title}. ${told(curves)}`, width: "100%", height: HEIGHT + FOOT },
    ...[0, 100].map((value) => draw("line", { class: "hb-overlay__grid", x1: 0, x2: "100%", y1: y(value), y2: y(value) })),
    draw("svg", { width: "100%", height: HEIGHT, viewBox: `0 0 100 ${HEIGHT}`, preserveAspectRatio: "none", overflow: "visible" },
      ...curves.map(({ n, values }) => draw("path", { class: "hb-plot__curve", d: path(values), "stroke-dasharray": DASHES[n], "vector-effect": "non-scaling-stroke" }))),
    draw("text", { class: "hb-plot__tick", x: 0, y: HEIGHT + 14 }, "Start"), draw("text", { class: "hb-plot__tick", x: "100%", y: HEIGHT + 14, "text-anchor": "end" }, "End"));
  const scale = draw("svg", { class: "hb-plot", width: 40, height: HEIGHT + FOOT, "aria-hidden": "true" },
    ...[[100, ends[0]], [0, ends[1]]].map(([value, word]) => draw("text", { class: "hb-plot__tick", x: 34, y: y(value) + 4, "text-anchor": "end" }, word)));
  return make("figure", { className: "hb-figure hb-overlay" }, make("p", { className: "hb-figure__title" }, title),
    make("div", { className: "hb-overlay__plot" }, scale, plot, labels(curves, y)), ...note ? [make("figcaption", {}, note)] : []);
}

/** The names at the ends of the curves, drawn apart, each with a line to its curve. */
function labels(curves, y) {
  const names = curves.map(({ name }) => lines(name, LETTERS)), ends = curves.map(({ values }) => y(values.at(-1)));
  const at = apart(ends, names.map((some) => some.length * LINE + 3), 0, HEIGHT + FOOT);
  return draw("svg", { class: "hb-plot", width: LABELS, height: HEIGHT + FOOT, "aria-hidden": "true" }, ...names.flatMap((some, n) => [
    draw("path", { class: "hb-overlay__lead", d: `M1 ${ends[n].toFixed(1)}L10 ${at[n].toFixed(1)}H14` }),
    ...some.map((line, row) => draw("text", { x: 18, y: at[n] + (row - (some.length - 1) / 2) * LINE + 4 }, line))]));
}

const spoken = (values) => `${values[0]}% at the start, ${values[Math.floor(values.length / 2)]}% half-way, ${values.at(-1)}% at the end`;

/** The same curves in words, for whoever does not see them. */
const told = (curves) => curves.map(({ name, values }) => `${name}: ${spoken(values)}`).join(". ") + ".";
