// A drawing in a frame, as a file of its own: its title above, credit and licence below, wide or square, light or dark.
// Colours are written out, since slide programs know no names for them. What is XML comes in as XML, words come in as words.

/** Width and height in pixels. */
export const SHAPES = { wide: [1920, 1080], square: [1080, 1080] };
const EDGE = 70, TITLE = { wide: 48, square: 42 }, NOTE = 28, CREDIT = 21, LINE = 1.25;
const LETTER = 0.53, BOLD = 0.6; // a letter's mean width, as a share of its height, in wide typefaces
const FONT = "system-ui, 'Segoe UI', Roboto, 'Noto Sans', 'Liberation Sans', sans-serif";
const XML = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** A text as XML. */
export const escaped = (text) => text.replace(/[&<>"]/g, (letter) => XML[letter]);

/** A text in lines of at most so many letters; a longer word stands alone, cut where it must be. */
export function wrapped(text, most) {
  const lines = [];
  for (const word of text.split(/\s+/).filter(Boolean).flatMap((long) => long.match(new RegExp(`.{1,${most}}`, "gu")))) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A stylesheet with its `var(--name)` written out; `colours` by name. A name without a colour is an error. */
const coloured = (style, colours) => style.replace(/var\(--([\w-]+)\)/g, (_, name) => {
  if (!(name in colours)) throw new RangeError(`no colour ${name}`);
  return colours[name];
});

function block(lines, size, top, attributes) {
  return lines.map((line, n) => `<text x="${EDGE}" y="${Math.round(top + size + n * size * LINE)}" font-size="${size}" ${attributes}>${escaped(line)}</text>`).join("");
}

/**
 * The framed drawing as SVG. `picture` holds `title`, `note` (how sure), `alt`, `credit`, and `drawing`: XML of `size` [width, height] pixels.
 * `style` is the drawings' stylesheet, `colours` holds `hb-paper`, `hb-ink`, `hb-quiet` and whatever else it names.
 */
export function framed({ title, note, alt, credit, drawing, size }, shape, style, colours) {
  const [width, height] = SHAPES[shape], inner = width - 2 * EDGE, letters = (high, share = LETTER) => Math.floor(inner / (high * share));
  const head = wrapped(title, letters(TITLE[shape], BOLD)), told = wrapped(note, letters(NOTE)), foot = wrapped(credit, letters(CREDIT));
  const below = EDGE + head.length * TITLE[shape] * LINE, top = below + told.length * NOTE * LINE + 30, bottom = height - EDGE / 2 - foot.length * CREDIT * LINE;
  const scale = Math.min(inner / size[0], (bottom - 24 - top) / size[1]), [wide, high] = size.map((pixels) => Math.round(pixels * scale));
  const place = [(width - wide) / 2, top + (bottom - 24 - top - high) / 2].map(Math.round);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escaped(alt)}" font-family="${FONT}">`
    + `<title>${escaped(title)}</title><desc>${escaped(`${alt} ${credit}`)}</desc><style>${coloured(style, colours)}</style><rect width="${width}" height="${height}" fill="${colours["hb-paper"]}"/>`
    + block(head, TITLE[shape], EDGE, `font-weight="600" fill="${colours["hb-ink"]}"`) + block(told, NOTE, below + 10, `fill="${colours["hb-quiet"]}"`)
    + `<svg x="${place[0]}" y="${place[1]}" width="${wide}" height="${high}" viewBox="0 0 ${size.join(" ")}">${drawing}</svg>`
    + `${block(foot, CREDIT, bottom, `fill="${colours["hb-quiet"]}"`)}</svg>\n`;
}
