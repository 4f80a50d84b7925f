// A box that knows names: an editable combobox with list autocomplete, as the ARIA Authoring Practices describe it.

import { make } from "../dom.js";

let boxes = 0;

/**
 * Works `input` with the list and the message beside it (`role="listbox"` and `role="status"`). `offered(text)` gives what to choose from,
 * [{id, title, note}], best first; `take(choice)` is called when one is chosen. What is typed and not chosen is left to the page.
 */
export function box(input, { offered, take, missing }) {
  const frame = input.closest(".hb-box"), list = frame.querySelector('[role="listbox"]'), told = frame.querySelector('[role="status"]');
  const number = boxes++;
  let shown = [], active = -1;

  function mark(at) {
    list.children[active]?.setAttribute("aria-selected", "false");
    active = shown.length && at >= -1 ? (at + shown.length) % shown.length : -1;
    const option = list.children[active];
    if (!option) return input.removeAttribute("aria-activedescendant");
    option.setAttribute("aria-selected", "true");
    option.scrollIntoView({ block: "nearest" });
    input.setAttribute("aria-activedescendant", option.id);
  }
  function close() {
    list.hidden = true;
    active = -1;
    input.setAttribute("aria-expanded", "false");
    input.removeAttribute("aria-activedescendant");
  }
  function open() {
    shown = offered(input.value.trim());
    active = -1;
    list.replaceChildren(...shown.map(({ title, note }, n) => make("li", { id: `${input.id}-${number}-${n}`, role: "option", ariaSelected: "false", onclick: () => choose(n) },
      title, ...note ? [" ", make("span", { className: "hb-quiet" }, note)] : [])));
    list.hidden = !shown.length;
    input.setAttribute("aria-expanded", String(shown.length > 0));
    input.removeAttribute("aria-activedescendant");
    told.textContent = shown.length || !input.value.trim() ? "" : missing;
  }
  function choose(n) {
    const choice = shown[n];
    close();
    take(choice);
  }
  const acts = {
    ArrowDown: () => { if (list.hidden) open(); mark(active + 1); },
    ArrowUp: () => { if (list.hidden) open(); mark(active < 0 ? shown.length - 1 : active - 1); },
    Escape: () => { if (list.hidden) { input.value = ""; input.dispatchEvent(new Event("input")); } close(); },
  };
  input.addEventListener("keydown", (event) => {
    if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Enter" && !list.hidden && (active >= 0 || input.value.trim())) {
      event.preventDefault();
      choose(Math.max(active, 0));
    } else if (acts[event.key]) {
      event.preventDefault();
      acts[event.key]();
    }
  });
  input.addEventListener("input", open);
  input.addEventListener("click", () => { if (list.hidden) open(); });
  input.addEventListener("blur", close);
  list.addEventListener("mousedown", (event) => event.preventDefault()); // the box keeps the focus
}
