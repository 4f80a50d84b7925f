// Postures of an exercise in one drawing, for a file: side by side with their words below, small drawings in a row under them.

import { escaped, wrapped } from "./frame.js";

const EDGE = 20, GAP = 24, LEAST = 640, WIDTH = 300, TALLEST = 320, INSET = 110, LINE = 17, LETTER = 7.4; // pixels

/**
 * `poses` share one box and `insets` have one each: [{drawing: XML, box: [x, y, width, height], says}]. Returns `drawing` as XML and its
 * `size` [width, height] in pixels.
 */
export function beside(poses, insets) {
  const [, , wide, high] = poses[0].box, height = Math.round(Math.min(TALLEST, WIDTH * high / wide)), below = height + 36;
  const width = Math.max(LEAST, 2 * EDGE + poses.length * (WIDTH + GAP) - GAP), each = (width - 2 * EDGE) / Math.max(1, insets.length);
  const put = ({ drawing, box }, x, y, w, h) => `<svg x="${Math.round(x)}" y="${y}" width="${w}" height="${h}" viewBox="${box.join(" ")}">${drawing}</svg>`;
  const left = (width - poses.length * (WIDTH + GAP) + GAP) / 2, at = (n) => left + n * (WIDTH + GAP), lines = (says) => wrapped(says, Math.max(8, Math.floor((each - INSET - 16) / LETTER)));
  const drawn = poses.map((pose, n) => `${put(pose, at(n), 0, WIDTH, height)}<text class="label" x="${Math.round(at(n) + WIDTH / 2)}" y="${height + 18}">${escaped(pose.says)}</text>`);
  const small = insets.map((inset, n) => put(inset, EDGE + n * each, below, INSET, INSET) + lines(inset.says)
    .map((line, k) => `<text class="credit" x="${Math.round(EDGE + n * each + INSET + 8)}" y="${below + 20 + k * LINE}">${escaped(line)}</text>`).join(""));
  const rows = Math.max(0, ...insets.map(({ says }) => 20 + lines(says).length * LINE));
  return { drawing: `<g class="hb-both">${drawn.join("")}${small.join("")}</g>`, size: [width, insets.length ? below + Math.max(INSET, rows) : height + 28] };
}
