// The days of the builder, each with its exercises. One day alone needs no name; several are told apart by the day of the week.

import { make, part } from "../dom.js";
import { free } from "../rules/days.js";
import { chosen, read } from "./exercise.js";
import { say } from "./say.js";
import { dayName, said, words } from "./view.js";

const WEEK = [0, 1, 2, 3, 4, 5, 6];

/** Sets the days up and calls `changed` after each change; answers {fill, read, add, several, into, size}. */
export function days(data, names, changed) {
  const box = part("week"), into = part("into"), more = part("more");
  const blocks = () => [...box.children], listOf = (block) => part("chosen", block), dayOf = (block) => part("weekday", block).value;
  const current = () => blocks().find((block) => dayOf(block) === into.value) ?? blocks().at(-1);

  function block(day) {
    const made = part("day").content.cloneNode(true).firstElementChild, choice = part("weekday", made);
    choice.append(make("option", { value: "" }, words.any_day), ...WEEK.map((n) => make("option", { value: String(n) }, dayName(n))));
    choice.value = day === null ? "" : String(day);
    return made;
  }

  /** Days in the order of the week, each day once, and what can be done with each. */
  function arrange() {
    const all = blocks().sort((a, b) => dayOf(a) - dayOf(b)), several = all.length > 1, taken = all.map(dayOf), focus = document.activeElement;
    if (all.some((each, n) => each !== box.children[n])) {
      box.append(...all);
      focus.focus();
    }
    for (const each of all) {
      for (const option of part("weekday", each).options) option.disabled = several && (option.value === "" || (taken.includes(option.value) && option.value !== dayOf(each)));
      part("remove-day", each).hidden = !several;
      const list = [...listOf(each).children];
      list.forEach((item, n) => {
        part("number", item).textContent = `${n + 1}. `;
        part("up", item).disabled = n === 0;
        part("down", item).disabled = n === list.length - 1;
      });
    }
    const kept = into.value;
    into.replaceChildren(...all.map((each) => make("option", { value: dayOf(each) }, dayOf(each) ? dayName(Number(dayOf(each))) : words.any_day)));
    into.value = taken.includes(kept) ? kept : taken.at(-1);
    into.closest(".field").hidden = !several;
    more.hidden = all.length >= data.rules.days;
  }

  function fill(given) {
    box.replaceChildren(...given.map(({ day, items }) => {
      const made = block(day);
      listOf(made).append(...items.map((item) => chosen(names.get(item.id), item)));
      return made;
    }));
    arrange();
  }

  function add(id) {
    const list = listOf(current());
    if (list.children.length >= data.rules.exercises) return false;
    list.append(chosen(names.get(id), { id }));
    arrange();
    return true;
  }

  function edit(item, name, target) {
    const list = item.parentElement, beside = name === "up" ? item.previousElementSibling : item.nextElementSibling;
    if (name === "remove") {
      const neighbour = beside ?? item.previousElementSibling;
      (neighbour ? part("remove", neighbour) : part("search")).focus();
      item.remove();
      say(said("removed", { name: names.get(item.dataset.id) }));
    } else if (name === "up") beside.before(item);
    else beside.after(item);
    arrange();
    changed();
    if (name === "remove") return;
    (target.disabled ? part(name === "up" ? "down" : "up", item) : target).focus();
    say(said("now_number", { name: names.get(item.dataset.id), n: [...list.children].indexOf(item) + 1 }));
  }

  box.addEventListener("click", ({ target }) => {
    const name = target.closest("button")?.dataset.part, item = target.closest("li");
    if (!name) return;
    if (item) return edit(item, name, target);
    const gone = target.closest(".day");
    say(said("removed", { name: dayName(Number(dayOf(gone))) }));
    gone.remove();
    arrange();
    changed();
    more.focus();
  });
  box.addEventListener("input", () => {
    arrange();
    changed();
  });
  more.addEventListener("click", () => {
    const [first] = blocks();
    if (dayOf(first) === "") part("weekday", first).value = "0";
    const day = free(blocks().map((each) => Number(dayOf(each))));
    box.append(block(day));
    arrange();
    into.value = String(day);
    part("search").focus();
    say(said("day_added", { day: dayName(day) }));
    changed();
  });
  fill([{ day: null, items: [] }]);
  return {
    fill, add, several: () => blocks().length > 1, into: () => dayName(Number(into.value)), size: () => listOf(current()).children.length,
    read: () => blocks().map((each) => ({ day: dayOf(each) === "" ? null : Number(dayOf(each)), items: [...listOf(each).children].map((item) => read(item, data)) })),
  };
}
