// What stands in the header's place for the search: made here, so that no page carries it.

import { make } from "../dom.js";

/** `make` with attributes, some of which are no properties in every browser. */
function marked(name, attributes, ...children) {
  const element = make(name, {}, ...children);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

/** Fill `box`, which holds the sign alone: a field, its list, and a button in their place on narrow screens. */
export function fill(box) {
  const [sign] = box.children, opens = { "aria-expanded": "false" };
  const field = marked("input", { ...opens, class: "hb-search__field", id: "hb-search-field", type: "text", role: "combobox", "aria-label": "Search exercises, parts, cautions and sources",
    "aria-autocomplete": "list", "aria-controls": "hb-search-list", placeholder: "Exercise, part or study", autocomplete: "off", autocapitalize: "off",
    autocorrect: "off", spellcheck: "false", enterkeyhint: "go", maxlength: "200" });
  const list = marked("div", { class: "hb-search__list", id: "hb-search-list", role: "listbox", "aria-label": "Search results" });
  const told = marked("p", { class: "hb-search__told", role: "status" });
  const panel = marked("div", { class: "hb-search__panel", hidden: "" }, told, list);
  const opener = marked("button", { ...opens, type: "button", class: "hb-search__open", "aria-label": "Search", "aria-controls": "hb-search-box" }, sign.cloneNode(true));
  const closer = marked("button", { type: "button", class: "hb-search__close" }, "Close");
  const key = marked("kbd", { class: "hb-search__key", "aria-hidden": "true" }, "/");
  box.append(opener, marked("div", { class: "hb-search__box", id: "hb-search-box" }, sign, field, key, closer, panel));
  return { field, list, panel, told, opener, closer };
}
