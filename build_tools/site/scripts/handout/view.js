// The handout as the client sees it.

import { make, part } from "../dom.js";
import { code } from "./code.js";
import { keep } from "./kept.js";
import { address, sheet } from "./sheet.js";
import { dose } from "./words.js";

const view = part("view");
/** What two exercises on a page may have to say, in characters with their figures' descriptions, and how wide the code may be,
    in millimetres: more than both is printed smaller, less than both larger. MOST is what a page without the code may say.
    Measured over the shipped catalog on A4 and Letter. */
const WORDS = 3400, CODE = 34, MOST = 5400;

/** Show a handout; resolves when figures and cues stand on the page. `names` maps ids to names. */
export async function show({ title, days }, names) {
  const items = days.flatMap((day) => day.items);
  part("heading", view).textContent = title ?? "Your exercises";
  document.title = title ?? "Your exercises";
  const scanned = code(location.href, "QR code of this handout");
  part("code", view).replaceChildren(scanned);
  part("link", view).href = location.href;
  part("kept", view).hidden = true;
  const list = part("exercises", view), articles = items.map((item, n) => article(item, n + 1, names.get(item.id)));
  list.replaceChildren(...articles);
  await Promise.all(items.map(async ({ id }, n) => {
    const cues = part("sheet", articles[n]);
    cues.replaceChildren(await sheet(id) ?? make("p", {}, "Its pictures and cues could not be loaded just now. Try again where there is a signal."));
  }));
  const sizes = { "true true": "small", "false false": "large" }, words = fullest(articles), wide = parseFloat(scanned.getAttribute("width")) > CODE;
  document.documentElement.dataset.print = words > MOST ? "small" : sizes[`${words > WORDS} ${wide}`] ?? "";
  const shown = location.href;
  keep(items.map(({ id }) => address(id))).then((done) => {
    if (done && location.href === shown) part("kept", view).hidden = false;
  });
}

/** The most that stands on a printed page of two exercises, in characters. */
function fullest(articles) {
  const words = articles.map((each) => each.textContent.length);
  return Math.max(...words.map((each, n) => n % 2 ? 0 : each + (words[n + 1] ?? 0)));
}

function article(item, number, name) {
  const [work, ...sentences] = dose(item);
  const made = make("article", {}, make("h2", {}, `${number}. ${name}`));
  if (work) made.append(make("p", { className: "dose" }, work));
  if (sentences.length) made.append(make("p", {}, sentences.join(" ")));
  if (item.note) made.append(make("p", { className: "note" }, item.note));
  const cues = make("div", { className: "sheet" });
  cues.dataset.part = "sheet";
  made.append(cues, make("a", { className: "button", href: address(item.id) }, `Cue sheet: ${name}`));
  return made;
}
