// The QR code of a link, as an SVG element: black on white, with the white border of four modules that ISO/IEC 18004 asks for.

import { correction, generate } from "./lean-qr.js";

const SVG = "http://www.w3.org/2000/svg", QUIET = 4;
/** Longer links get less redundancy, so that the code stays coarse enough to be read. */
const LONG = 350;
/** Millimetres of a module on paper, and the least and most for the whole code. */
const MODULE = 0.4, LEAST = 30, MOST = 60;

export function code(text, label) {
  const bitmap = generate(text, { minCorrectionLevel: text.length > LONG ? correction.L : correction.M });
  const side = bitmap.size + 2 * QUIET, width = Math.min(MOST, Math.max(LEAST, side * MODULE));
  const svg = shape("svg", { viewBox: `0 0 ${side} ${side}`, width: `${width}mm`, height: `${width}mm`, role: "img", "aria-label": label });
  svg.append(shape("rect", { width: side, height: side, fill: "#fff" }), shape("path", { d: dark(bitmap), fill: "#000" }));
  return svg;
}

/** One rectangle for each run of dark modules. */
function dark(bitmap) {
  let path = "";
  for (let y = 0; y < bitmap.size; y += 1) {
    for (let x = 0, run = 0; x < bitmap.size; x += Math.max(run, 1)) {
      for (run = 0; bitmap.get(x + run, y); run += 1);
      if (run) path += `M${x + QUIET} ${y + QUIET}h${run}v1h-${run}z`;
    }
  }
  return path;
}

function shape(name, attributes) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}
