// What is made of slides in the reader's own browser: pictures in frames, alt texts, notes, and all of it in one archive.

import { framed, SHAPES } from "../rules/frame.js";
import { archive } from "../rules/zip.js";

/** The text of slides as a page, its styles held as data: the policy of the page that reads it would refuse them as styles. */
export const parsed = (text) => new DOMParser().parseFromString(text.replace(/<style\b(.*?)>(.*?)<\/style>/gs, '<script type="text/css"$1>$2</script>'), "text/html");

/** Such a page as text, with its styles. */
export const written = (page) => `<!doctype html>\n${page.documentElement.outerHTML.replace(/<script type="text\/css"(.*?)>(.*?)<\/script>/gs, "<style$1>$2</style>")}\n`;

/** What the slides hold: pictures with their words, the drawings' stylesheet, colours of both schemes, notes, and the credit of it all. */
export function read(slides) {
  const credit = slides.querySelector('meta[name="credit"]').content, style = slides.querySelector('script[data-part="drawings"]').textContent;
  const [light, dark] = [...slides.querySelector('script[type="text/css"]').textContent.matchAll(/:root[^{]*\{([^}]*--hb-[^}]*)\}/g)]
    .map(([, all]) => Object.fromEntries([...all.matchAll(/--([\w-]+):\s*(#\w+)/g)].map(([, name, colour]) => [name, colour])));
  const pictures = [...slides.querySelectorAll("svg[data-picture]")].map((svg) => ({
    name: svg.dataset.picture, title: svg.closest(".slide").querySelector("h2").textContent.trim(), alt: svg.getAttribute("aria-label"), note: noted(svg.closest(".slide")),
    credit: [svg.dataset.credit, credit].filter(Boolean).join(" "), size: svg.getAttribute("viewBox").split(" ").slice(2).map(Number),
    drawing: [...svg.childNodes].map((node) => new XMLSerializer().serializeToString(node)).join(""),
  }));
  return { credit, style, colours: { light, dark }, pictures, notes: `${spoken(slides)}\n${credit}\n` };
}

const noted = (slide) => slide.matches(".slide--growth, .slide--activation") ? [".kind", ".bracket", ".sure"].map((part) => slide.querySelector(part)?.textContent.trim().replace(/\s+/g, " ")).filter(Boolean).map((text) => text.replace(/\.$/, "")).join(". ") : "";

/** A picture as SVG. */
export const drawn = (held, picture, shape, scheme) => framed(picture, shape, held.style, held.colours[scheme]);

/** An SVG as PNG, as large as its shape. */
export async function painted(svg, shape) {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })), image = new Image();
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = SHAPES[shape];
    canvas.getContext("2d").drawImage(image, 0, 0);
    return await new Promise((made, failed) => canvas.toBlob((png) => png ? made(png) : failed(new Error("no picture")), "image/png"));
  } finally { URL.revokeObjectURL(address); }
}

/** Every picture in every chosen shape and scheme, as SVG and PNG: [name, text or blob]; `say` hears how far it is. */
export async function framedAll(held, [shapes, schemes], say) {
  const files = [], count = held.pictures.length * shapes.length * schemes.length;
  for (const picture of held.pictures) for (const shape of shapes) for (const scheme of schemes) {
    const svg = drawn(held, picture, shape, scheme), name = `pictures/${picture.name}-${shape}-${scheme}`;
    say(`Picture ${files.length / 2 + 1} of ${count}.`);
    files.push([`${name}.svg`, svg], [`${name}.png`, await painted(svg, shape)]);
  }
  return files;
}

/** What is said to each slide, as one text. */
const spoken = (slides) => [...slides.querySelectorAll(".notes")].map((notes, n) => `${n + 1}. ${[...notes.children].map((one) => one.textContent.trim()).join("\n\n")}\n`).join("\n");

export const altTexts = ({ pictures, credit }) => `${pictures.map(({ name, alt }) => `${name}\n${alt}\n`).join("\n")}\n${credit}\n`;

/** Files as one archive; each is [name, text or blob]. */
export async function archived(files, at = new Date()) {
  const bytes = await Promise.all(files.map(async ([name, content]) => [name, new Uint8Array(await new Blob([content]).arrayBuffer())]));
  const moment = [at.getFullYear(), at.getMonth() + 1, at.getDate(), at.getHours(), at.getMinutes(), at.getSeconds()];
  return new Blob(archive(bytes, moment), { type: "application/zip" });
}

/** Gives a file to the reader. */
export function give(blob, name) {
  const href = URL.createObjectURL(blob);
  Object.assign(document.createElement("a"), { href, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(href), 1000);
}

/** The chosen shapes and schemes of a form; the first of each where none is. */
export function chosen(form) {
  const of = (name) => {
    const boxes = [...form.querySelectorAll(`[name="${name}"]`)], ticked = boxes.filter((box) => box.checked);
    return (ticked.length ? ticked : boxes.slice(0, 1)).map((box) => box.value);
  };
  return [of("shape"), of("scheme")];
}

export const licence = (credit, cite) => `${credit.trim()}\nhttps://creativecommons.org/licenses/by/4.0/\n\nCite as: ${cite.trim()}\n`;

/** Do it, and tell in `told` how it ended. */
export async function tell(button, told, act, done) {
  button.disabled = true;
  told.textContent = "One moment.";
  try {
    await act();
    told.textContent = done;
  } catch (wrong) {
    told.textContent = "This browser does not allow it here. Take the pieces one by one.";
    console.error(wrong);
  }
  button.disabled = false;
}
