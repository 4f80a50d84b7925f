// The builder: pick exercises, say how much, get the link.

import { code } from "./code.js";
import { part } from "../dom.js";
import { encode } from "../rules/link.js";
import { chosen, read } from "./exercise.js";
import { say } from "./say.js";
import { searching } from "./search.js";

const TOO_LONG = "This is more than a link can hold. Shorten the notes, or make two handouts.";
const LOOPBACK = /^(localhost|127\.|\[::1\])/;

/** Sets the builder up; answers {fill, link}: fill it with a handout, and its link as it stands (null while there is none). */
export function builder(data, names) {
  const list = part("chosen"), title = part("title"), clear = searching(data.exercises, add);
  let link = null;

  function add(id) {
    if (list.children.length >= data.rules.exercises) return say(`A handout holds at most ${data.rules.exercises} exercises.`);
    list.append(chosen(names.get(id), { id }));
    clear();
    update();
    say(`${names.get(id)} added as number ${list.children.length}.`);
  }

  function fill(handout) {
    title.value = handout.title ?? "";
    list.replaceChildren(...handout.days[0].items.map((item) => chosen(names.get(item.id), item)));
    update();
  }

  function update() {
    [...list.children].forEach((item, n, { length }) => {
      part("number", item).textContent = `${n + 1}. `;
      part("up", item).disabled = n === 0;
      part("down", item).disabled = n === length - 1;
    });
    const items = [...list.children].map((item) => read(item, data));
    const why = items.length === 0 ? "Add an exercise to get a link." : items.includes(null) ? "Mend the marked fields to get a link." : "";
    link = null;
    try {
      if (!why) link = `${new URL("./", location.href)}#${encode({ title: title.value.replace(/\s+/gu, " ").trim() || null, days: [{ items }] }, data.rules)}`;
      show(why);
    } catch (bad) {
      show(bad.kind === "too-long" ? TOO_LONG : "The title is too long, or holds a character that cannot be shown.");
    }
  }

  function show(why) {
    part("waiting").textContent = why;
    part("ready").hidden = link === null;
    if (link === null) return;
    part("address").value = link;
    part("scan").replaceChildren(code(link, "QR code of the link"));
    part("preview").hidden = !LOOPBACK.test(location.host);
  }

  list.addEventListener("click", ({ target }) => {
    const item = target.closest("li"), name = target.closest("button")?.dataset.part;
    if (!name) return;
    const beside = name === "up" ? item.previousElementSibling : item.nextElementSibling;
    if (name === "remove") {
      const neighbour = beside ?? item.previousElementSibling;
      (neighbour ? part("remove", neighbour) : part("search")).focus();
      item.remove();
      say(`${names.get(item.dataset.id)} removed.`);
    } else if (name === "up") beside.before(item);
    else beside.after(item);
    update();
    if (name === "remove") return;
    (target.disabled ? part(name === "up" ? "down" : "up", item) : target).focus();
    say(`${names.get(item.dataset.id)} is now number ${[...list.children].indexOf(item) + 1}.`);
  });
  for (const field of [list, title]) field.addEventListener("input", update);
  part("copy").addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(link);
      say("Link copied.");
    } catch {
      part("address").select();
      say("The link is marked. Copy it with the keyboard or the menu.");
    }
  });
  update();
  return { fill, link: () => link };
}
