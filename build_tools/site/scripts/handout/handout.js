// Starts the page: no fragment, the builder; add=<id>, the builder with that exercise; a handout's fragment, the client's view; anything else,
// a message and nothing more. The page itself holds what the view needs; what the builder needs is fetched once it is asked for.

import { make, part } from "../dom.js";
import { BadFragment, decode, going, told } from "../rules/link.js";
import { data, draw, said, sheetOf, stored, words } from "./view.js";

const PARTS = ["builder", "view", "problem"];
const here = new URL("./", location.href).href, title = document.title;
const names = listed();
const known = new Map([...Object.entries(data.moved), ...[...names.keys()].map((id) => [id, id])]), gone = Object.keys(data.retired);
/** What the client reads: an exercise that was taken out says so in its row, and its cue sheet says the rest. */
const labels = new Map([...names, ...Object.entries(data.retired).map(([id, name]) => [id, said("taken_out", { name })])]);
let handout = null, made = null, paper = null, running = null;

/** Ids and names of all exercises, from the list for browsers without scripts. */
function listed() {
  const list = new DOMParser().parseFromString(part("sheets").textContent, "text/html");
  return new Map(Array.from(list.querySelectorAll("li"), (item) => [item.id.slice("add=".length), item.textContent.trim()]));
}

function reveal(name) {
  for (const each of PARTS) part(each).hidden = each !== name;
}

function complain(message) {
  document.title = title;
  part("message").textContent = message;
  reveal("problem");
}

const cut = () => complain(words.not_whole);

/** Takes a stylesheet in that the list does not wait for. */
function styled(href, media) {
  return new Promise((done, fail) => { document.head.append(make("link", { rel: "stylesheet", href, media, onload: done, onerror: fail })); });
}

async function build() {
  const [{ builder }, answer] = await Promise.all([import("./builder.js"), fetch(new URL("data.json", here)), styled("builder.css", "all")]);
  if (!answer.ok) throw new Error(String(answer.status));
  const more = await answer.json();
  Object.assign(words, more.words); // what only a coach is told
  return builder({ ...more, concerns: data.concerns }, names);
}

/** The builder, made once: {fill, link}. */
function built() {
  made ??= build().catch((bad) => {
    made = null;
    throw bad;
  });
  return made;
}

async function route() {
  part("status").textContent = "";
  const fragment = location.hash.slice(1);
  if (!fragment) {
    await built();
    document.title = title;
    return reveal("builder");
  }
  const begun = fragment.startsWith("add=") && known.get(fragment.slice(4));
  if (begun) {
    (await built()).fill({ care: [], days: [{ day: null, items: [{ id: begun }] }] });
    history.replaceState(null, "", here);
    return route();
  }
  try {
    handout = decode(fragment, data.rules, new Map([...known, ...gone.map((id) => [id, id])]));
  } catch (bad) {
    if (!(bad instanceof BadFragment)) throw bad;
    return complain(words.problems[bad.kind]);
  }
  const seen = told(handout, data.retired);
  await draw(seen, labels, data.concerns);
  if (location.hash.slice(1) !== fragment) return;
  reveal("view");
  await follow(seen);
}

/** What the list does not wait for. Without the buttons, all exercises stand one below the other. */
async function follow(shown) {
  const items = shown.days.flatMap(({ items: all }) => all), sheets = import("./sheets.js");
  const buttons = Promise.all([import("./device.js"), import("./steps.js"), import("./say.js"), import("../rules/ticks.js")]).then(([{ remember }, { begin }]) => {
    remember(location.hash.slice(1), items);
    begin();
  }).catch(() => { delete part("view").dataset.step; });
  const texts = new Map(items.map(({ id }) => [id, fetch(sheetOf(id)).then((answer) => answer.ok ? answer.text() : null).catch(() => null)]));
  paper ??= styled("paper.css", "print").catch(() => { paper = null; });
  await Promise.all([buttons, sheets.then(({ complete }) => complete(shown, texts, data, paper)).catch(() => {})]);
  for (const sheet of document.querySelectorAll(".sheet[data-wait]")) {
    sheet.textContent = words.no_sheet;
    delete sheet.dataset.wait;
  }
}

const start = () => running = route().catch(cut);

if (stored("handout type") === "large") {
  document.documentElement.dataset.type = "large";
  part("larger").setAttribute("aria-pressed", "true");
}
addEventListener("hashchange", start);
part("edit").addEventListener("click", async () => {
  try {
    (await built()).fill(going(handout, data.retired));
  } catch {
    part("status").textContent = words.no_form;
    return;
  }
  history.pushState(null, "", here);
  await start();
  scrollTo(0, 0);
});
part("open").addEventListener("click", async () => {
  location.href = (await built()).link();
  scrollTo(0, 0);
});
part("print").addEventListener("click", async () => {
  history.pushState(null, "", (await built()).link());
  await start();
  print();
});
part("print-view").addEventListener("click", () => running.then(() => print()));
start();
