// Copies, sends and saves what a coach passes on, and starts the worker that keeps cue sheets. Without it the links still work.

import { make } from "./dom.js";
import { citation, keys, sentences } from "./rules/citation.js";

/** How long a button and its message tell that something is done, milliseconds. */
const TOLD = 3000;
/** What buttons are called, whatever they tell just now. */
const names = new Map();

/** Do `act`, and tell in words how it ended, for a while also on the button itself; `instead` is what the reader can do by hand. */
async function tryTo(act, button, told, done, instead) {
  told.textContent = "";
  try {
    await act();
  } catch (error) {
    if (error.name !== "AbortError") told.textContent = `This browser does not allow it here. ${instead}`;
    return;
  }
  const name = names.get(button) ?? names.set(button, button.textContent).get(button);
  told.textContent = done;
  if (!done) return;
  button.textContent = button.dataset.figure ? "Saved" : "Copied";
  setTimeout(() => {
    button.textContent = name;
    if (told.textContent === done) told.textContent = "";
  }, TOLD);
}

/** Show `button` and answer its clicks. `navigator.clipboard` is missing on pages that are not secure, so it may throw. */
function offer(button, text, told) {
  const { title } = button.dataset;
  const act = title ? () => navigator.share({ title, url: text }) : () => navigator.clipboard.writeText(text);
  button.hidden = false;
  button.addEventListener("click", () => tryTo(act, button, told, button.dataset.told ?? "", `Copy by hand: ${text}`));
}

/** Show `button` and answer its clicks with a file of the drawing beside it. What makes it is had when it is first asked for. */
function offerFigure(button, told) {
  const act = async () => (await import("./figure.js")).save(button);
  button.hidden = false;
  button.addEventListener("click", () => tryTo(act, button, told, "The picture is in your downloads.", "Is there a network?"));
}

for (const row of document.querySelectorAll(".hb-actions")) {
  const told = document.createElement("p");
  told.className = "hb-told";
  told.setAttribute("role", "status");
  row.append(told);
  const absolute = (address) => new URL(address, location.href).href;
  for (const button of row.querySelectorAll("[data-copy]")) offer(button, button.dataset.copy, told);
  for (const button of row.querySelectorAll("[data-copy-address]")) offer(button, absolute(button.dataset.copyAddress), told);
  for (const button of row.querySelectorAll("[data-figure]")) offerFigure(button, told);
  if (!navigator.share) continue;
  for (const button of row.querySelectorAll("[data-send-address]")) offer(button, absolute(button.dataset.sendAddress), told);
}

for (const caption of document.querySelectorAll("figcaption:has(> [data-figure])")) {
  const told = make("p", { className: "hb-told" });
  told.setAttribute("role", "status");
  caption.append(told);
  offerFigure(caption.querySelector("[data-figure]"), told);
}

/** What every citation needs, had when a reader first comes near a button; null where it cannot be had. */
let asked;
const book = () => asked ??= fetch(new URL("../data/citations.json", import.meta.url)).then((answer) => answer.ok ? answer.json() : null).catch(() => null);

/** A statement of the page, with all that is passed on with it; `href` is its permalink as the page has it. */
async function cited(statement, href) {
  const text = (found) => [...found].map((element) => element.textContent).join(" ");
  const rows = [...statement.querySelectorAll("dl > div")], about = statement.closest("[data-about]")?.dataset.about, sources = [...statement.querySelectorAll('a[href*="sources/"]')];
  return citation({
    sentence: [...about ? [`${about}:`] : [], rows.length ? sentences(rows.map((row) => [...row.children].map((cell) => cell.textContent))) : text(statement.querySelectorAll("[data-said]"))].join(" "),
    sure: statement.querySelector("[data-sure]")?.textContent ?? "",
    cited: keys(sources.map((source) => source.getAttribute("href"))),
    names: Object.fromEntries(sources.map((source) => [keys([source.getAttribute("href")])[0], source.textContent])),
    address: new URL(href, document.querySelector('link[rel="canonical"]')?.href ?? location.href).href,
    today: new Date().toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" }),
    book: await book(),
  });
}

/** A button for the statement that `link` leads to: in its place, or after it where the link has words of its own. */
function offerCitation(link, told) {
  const button = make("button", { type: "button", className: "hb-cite" }, "Copy with citation");
  const statement = link.closest("[data-statement]"), href = link.getAttribute("href");
  for (const near of ["pointerenter", "focus"]) button.addEventListener(near, book);
  button.addEventListener("click", async () => {
    const text = cited(statement, href), failed = make("p", { className: "hb-told" });
    button.parentElement.querySelector(".hb-told")?.remove();
    // The text is handed over as a promise: some browsers allow no copying once the click is past.
    const act = async () => self.ClipboardItem ? navigator.clipboard.write([new ClipboardItem({ "text/plain": text.then((copied) => new Blob([copied], { type: "text/plain" })) })])
      : navigator.clipboard.writeText(await text);
    await tryTo(act, button, told, "Copied, with citation and link.", `Copy by hand:\n${await text}`);
    if (told.textContent.includes("by hand")) button.after(Object.assign(failed, { textContent: told.textContent }));
  });
  if (link.classList.contains("hb-cite")) link.replaceWith(button);
  else link.closest("p").append(" ", button);
}

const statements = document.querySelectorAll("[data-cite]");
if (statements.length) {
  const told = make("p", { className: "hb-unseen" });
  told.setAttribute("role", "status");
  document.querySelector("article, main").append(told);
  for (const link of statements) offerCitation(link, told);
}

const worker = document.querySelector("[data-worker]")?.dataset.worker;
// A browser that keeps nothing (a private window, say) shows the page all the same.
if (worker && "serviceWorker" in navigator) navigator.serviceWorker.register(new URL(worker, location.href)).catch(() => {});
