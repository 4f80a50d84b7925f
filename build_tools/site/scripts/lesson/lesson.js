// The page of a lesson: previews and pictures in the chosen shapes, and all of it in one archive. Without it each piece is a link.

import { make, part } from "../dom.js";
import { altTexts, archived, chosen, drawn, framedAll, give, painted, read } from "./pack.js";

const lesson = document.querySelector(".hb-lesson"), form = part("shape"), told = part("told"), all = part("all"), { name } = lesson.dataset;

async function text(address) {
  const answer = await fetch(new URL(address, location.href));
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.text();
}

/** Do it, and tell how it ended. */
async function tell(button, act, done) {
  button.disabled = true;
  told.textContent = "One moment.";
  try {
    await act();
    told.textContent = done;
  } catch (wrong) {
    told.textContent = "That did not work here. Take the links below, piece by piece.";
    console.error(wrong);
  }
  button.disabled = false;
}

async function everything(slides, held) {
  const links = [...lesson.querySelectorAll("a[data-file]")];
  return archived([
    ["slides.html", slides],
    ...await framedAll(held, ...chosen(form)),
    ...await Promise.all(links.map(async (link) => [link.dataset.file, await text(link.href)])),
    ["alt.txt", altTexts(held)],
    ["LICENCE.txt", `${part("licence").textContent.trim()}\nhttps://creativecommons.org/licenses/by/4.0/\n\nCite as: ${part("cite").textContent.trim()}\n`],
  ]);
}

/** A picture's preview and buttons, in the first chosen shape and scheme. */
function row(held, picture) {
  const item = lesson.querySelector(`li[data-name="${picture.name}"]`), preview = make("img", { alt: "", width: 320, loading: "lazy" });
  const first = () => chosen(form).map((of) => of[0]), file = (ending) => `${picture.name}-${first().join("-")}.${ending}`;
  const button = (ending, blob) => make("button", { type: "button", className: "hb-action", ariaLabel: `${ending.toUpperCase()}: ${picture.title}`,
    onclick: (event) => tell(event.currentTarget, async () => give(await blob(), file(ending)), `Saved: ${file(ending)}.`) }, ending.toUpperCase());
  const svg = () => drawn(held, picture, ...first());
  item.prepend(preview);
  item.querySelector(".hb-actions").append(button("svg", async () => new Blob([svg()], { type: "image/svg+xml" })), button("png", () => painted(svg(), first()[0])));
  const show = () => {
    URL.revokeObjectURL(preview.src);
    preview.src = URL.createObjectURL(new Blob([svg()], { type: "image/svg+xml" }));
  };
  form.addEventListener("change", show);
  show();
}

const slides = await text(lesson.dataset.slides), held = read(new DOMParser().parseFromString(slides, "text/html"));
for (const picture of held.pictures) row(held, picture);
form.hidden = !held.pictures.length;
all.hidden = false;
all.addEventListener("click", () => tell(all, async () => give(await everything(slides, held), `${name}-lesson.zip`), `Saved: ${name}-lesson.zip.`));
