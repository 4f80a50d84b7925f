// The builder: pick exercises for one day or several, say how much, get the link.

import { make, part } from "../dom.js";
import { encode } from "../rules/link.js";
import { code } from "./code.js";
import { days } from "./days.js";
import { say } from "./say.js";
import { searching } from "./search.js";
import { said, words } from "./view.js";

const LOOPBACK = /^(localhost|127\.|\[::1\])/;
const typed = (input) => input.value.replace(/\s+/gu, " ").trim() || null;

/** Sets the builder up; answers {fill, link}: fill it with a handout, and its link as it stands (null while there is none). */
export function builder(data, names) {
  const head = data.rules.head.map(([name]) => [name, part(name)]), week = days(data, names, update), care = cares(data, update);
  const clear = searching(data.exercises, (id) => {
    if (!week.add(id)) return say(said(week.several() ? "most_exercises_day" : "most_exercises", { n: data.rules.exercises }));
    clear();
    update();
    say(said(week.several() ? "added_on" : "added", { name: names.get(id), n: week.size(), day: week.into() }));
  });
  let link = null;

  function fill(handout) {
    for (const [name, input] of head) input.value = handout[name] ?? "";
    care.fill(handout.care);
    week.fill(handout.days);
    update();
  }

  function update() {
    const found = week.read(), items = found.flatMap((day) => day.items);
    const why = !items.length ? words.no_exercise : found.some((day) => !day.items.length) ? words.no_exercise_day
      : items.includes(null) ? words.mend : "";
    link = null;
    try {
      const handout = { ...Object.fromEntries(head.map(([name, input]) => [name, typed(input)])), care: care.read(), days: found };
      if (!why) link = `${new URL("./", location.href)}#${encode(handout, data.rules)}`;
      show(why);
    } catch (bad) {
      show(bad.kind === "too-long" ? words.too_long : words.head_wrong);
    }
  }

  function show(why) {
    part("waiting").textContent = why;
    part("ready").hidden = link === null;
    if (link === null) return;
    part("address").value = link;
    const scanned = link.length - link.indexOf("#") - 1 <= data.rules.scanned;
    part("scan").replaceChildren(scanned ? code(link, words.code_of_link) : make("p", { className: "hint" }, words.too_long_scan));
    part("preview").hidden = !LOOPBACK.test(location.host);
  }

  for (const [, input] of head) input.addEventListener("input", update);
  part("copy").addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(link);
      say(words.copied);
    } catch {
      part("address").select();
      say(words.marked);
    }
  });
  update();
  return { fill, link: () => link };
}

/** The concerns whose lines stand on top, as ticks; calls `changed`; answers {fill, read}. What a link holds that the handbook no longer names stays in it until it is unticked. */
function cares({ concerns, rules }, changed) {
  const named = Object.keys(concerns).sort((a, b) => concerns[a][0].localeCompare(concerns[b][0]));
  const list = part("concerns"), now = () => [...list.querySelectorAll(":checked")].map(({ value }) => value);

  function tick(id, checked) {
    const name = Object.hasOwn(concerns, id) ? concerns[id][0] : words.concern_gone;
    return make("li", {}, make("label", { className: "tick" }, make("input", { type: "checkbox", value: id, checked, autocomplete: "off" }), ` ${name}`));
  }

  function count() {
    const many = now().length;
    part("many").textContent = many ? ` (${many})` : "";
    for (const box of list.querySelectorAll("input")) box.disabled = !box.checked && many >= rules.concerns;
  }

  function fill(ids = []) {
    const all = [...ids, ...named.filter((id) => !ids.includes(id))];
    list.replaceChildren(...all.map((id) => tick(id, ids.includes(id))));
    count();
  }

  list.addEventListener("change", () => {
    count();
    if (now().length >= rules.concerns) say(said("most_concerns", { n: rules.concerns }));
    changed();
  });
  fill();
  return { fill, read: now };
}
