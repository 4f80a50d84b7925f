// The page of a lesson: previews and pictures in the chosen shapes, and all of it in one archive. Without it each piece is a link.

import { make, part } from "../dom.js";
import { records } from "../rules/records.js";
import { altTexts, archived, chosen, drawn, framedAll, give, licence, painted, parsed, read, tell } from "./pack.js";

const lesson = document.querySelector(".hb-lesson"), form = part("shape"), told = part("told"), all = part("all"), { name, keys } = lesson.dataset;
const references = [...lesson.querySelectorAll("[data-references]")];

async function text(address) {
  const answer = await fetch(new URL(address, location.href));
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.text();
}

const recordsOf = async ({ href, dataset: { references: form } }) => records(await text(href), form, keys.split(" "));

const everything = async (slides, held) => archived([
  ["slides.html", slides], ["notes.txt", held.notes], ["alt.txt", altTexts(held)],
  ["statements.csv", await text(part("table").href)],
  ...await Promise.all(references.map(async (link) => [`references.${link.dataset.references}`, await recordsOf(link)])),
  ["LICENCE.txt", licence(part("licence").textContent, part("cite").textContent)],
  ...await framedAll(held, chosen(form), (text) => { told.textContent = text; }),
]);

/** A picture's preview and buttons, in the first chosen shape and scheme. */
function row(held, picture) {
  const item = lesson.querySelector(`li[data-name="${picture.name}"]`), preview = make("img", { alt: "", width: 320 });
  const first = () => chosen(form).map((of) => of[0]), file = (ending) => `${picture.name}-${first().join("-")}.${ending}`, svg = () => drawn(held, picture, ...first());
  const button = (name, label, act, done) => make("button", { type: "button", className: "hb-action", ariaLabel: `${label}: ${picture.title}`,
    onclick: (event) => tell(event.currentTarget, told, act, done()) }, name);
  const saved = (ending, blob) => button(ending.toUpperCase(), ending.toUpperCase(), async () => give(await blob(), file(ending)), () => `Saved: ${file(ending)}.`);
  item.prepend(preview);
  item.querySelector(".hb-actions").append(saved("svg", async () => new Blob([svg()], { type: "image/svg+xml" })), saved("png", () => painted(svg(), first()[0])),
    button("Copy alt text", "Copy alt text", () => navigator.clipboard.writeText(picture.alt), () => "Copied."));
  const show = () => {
    URL.revokeObjectURL(preview.src);
    preview.src = URL.createObjectURL(new Blob([svg()], { type: "image/svg+xml" }));
  };
  form.addEventListener("change", show);
  show();
}

/** A link that gives what a script makes, rather than where it leads. */
function makes(link, file, of) {
  link.addEventListener("click", (event) => {
    event.preventDefault();
    tell(link, told, async () => give(new Blob([await of()], { type: "text/plain" }), file), `Saved: ${file}.`);
  });
}

const slides = await text(lesson.dataset.slides), held = read(parsed(slides));
for (const picture of held.pictures) row(held, picture);
for (const link of references) makes(link, `${name}.${link.dataset.references}`, () => recordsOf(link));
if (part("every")) part("every").hidden = true;
makes(part("notes"), `${name}-notes.txt`, () => held.notes);
part("notes").parentElement.replaceChildren(part("notes"), ", also in the slides");
part("notes").textContent = "What to say to each slide (text)";
form.hidden = !held.pictures.length;
all.hidden = false;
all.addEventListener("click", () => tell(all, told, async () => give(await everything(slides, held), `${name}-lesson.zip`), `Saved: ${name}-lesson.zip.`));
