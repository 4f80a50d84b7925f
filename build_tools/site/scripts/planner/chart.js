// Curves of several exercises in one drawing. Each has its own dashes and its own letter, so that none needs a colour.

const SVG = "http://www.w3.org/2000/svg", WIDTH = 560, HEIGHT = 220, LEFT = 44, RIGHT = 26, TOP = 14, BOTTOM = 34;
export const DASHES = ["none", "9 4", "2 4", "12 4 2 4"], LETTERS = ["A", "B", "C", "D"];

function draw(name, attributes, text) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (text !== undefined) element.textContent = text;
  return element;
}

/** A line of one exercise, as it stands beside its name. */
export function sample(n) {
  const svg = draw("svg", { class: "hb-plot hb-sample", viewBox: "0 0 40 10", width: 40, height: 10, "aria-hidden": "true" });
  svg.append(draw("path", { d: "M0 5H40", class: "hb-plot__curve", "stroke-dasharray": DASHES[n] }));
  return svg;
}

/** `curves`: [{n, values}], `n` the place of the exercise (0-3), values in per cent at even steps; `label` tells it all in words. */
export function chart(curves, label) {
  const low = Math.min(0, ...curves.flatMap(({ values }) => values)), high = Math.max(100, ...curves.flatMap(({ values }) => values));
  const x = (share) => LEFT + share * (WIDTH - LEFT - RIGHT), y = (value) => TOP + (high - value) / (high - low) * (HEIGHT - TOP - BOTTOM);
  const svg = draw("svg", { class: "hb-plot hb-overlay", viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: "img", "aria-label": label });
  for (const value of [...(low < 0 ? [Math.ceil(low / 50) * 50] : []), 0, 50, 100].filter((v, n, all) => all.indexOf(v) === n)) {
    svg.append(draw("path", { d: `M${LEFT} ${y(value)}H${WIDTH - RIGHT}`, class: "hb-overlay__grid" }),
      draw("text", { x: LEFT - 6, y: y(value) + 4, "text-anchor": "end", class: "hb-plot__tick" }, `${value}%`));
  }
  svg.append(draw("text", { x: LEFT, y: HEIGHT - 8, class: "hb-plot__tick" }, "Start"),
    draw("text", { x: WIDTH - RIGHT, y: HEIGHT - 8, "text-anchor": "end", class: "hb-plot__tick" }, "End"));
  for (const { n, values } of curves) {
    const points = values.map((value, at) => [x(at / (values.length - 1)), y(value)]);
    const at = points[Math.round((0.15 + 0.22 * n) * (values.length - 1))];
    svg.append(draw("path", { d: `M${points.map((point) => point.map((v) => v.toFixed(1)).join(" ")).join("L")}`, class: "hb-plot__curve",
      "stroke-dasharray": DASHES[n] }), draw("text", { x: at[0], y: at[1] - 5, "text-anchor": "middle", class: "hb-plot__label--strong" }, LETTERS[n]));
  }
  return svg;
}

const spoken = (values) => `${values[0]}% at the start, ${values[Math.floor(values.length / 2)]}% half-way, ${values.at(-1)}% at the end`;

/** The same curves in words, for whoever does not see them. */
export const told = (curves, names) => curves.map(({ n, values }) => `${LETTERS[n]}, ${names[n]}: ${spoken(values)}`).join(". ") + ".";
