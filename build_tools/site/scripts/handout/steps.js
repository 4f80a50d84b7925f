// One exercise at a time, where the window is narrow: next, back, and what to do when it hurts. The phone's own way back goes a step back.
// How narrow, and what is hidden then, stands in the stylesheet.

import { part } from "../dom.js";
import { words } from "./view.js";

const view = part("view"), bar = part("bar", view), next = part("next", bar), back = part("back", bar), pain = part("pain");
let at = 0; // 0: the list; n: the nth exercise of the day

const articles = () => [...view.querySelectorAll(".day[data-chosen] article")];
const single = () => getComputedStyle(next).display !== "none";

function put(step) {
  const all = articles();
  at = Math.max(0, Math.min(step, all.length));
  view.dataset.step = at;
  all.forEach((article, n) => article.toggleAttribute("data-now", n + 1 === at));
  back.disabled = at === 0;
  next.textContent = at === 0 ? words.start : at === all.length ? words.list : words.next;
}

function go(step) {
  put(step);
  if (single()) {
    history.pushState({ step: at }, "");
    scrollTo(0, 0);
  }
  const heading = at ? articles()[at - 1].querySelector("h2") : part("heading", view);
  heading.focus({ preventScroll: single() });
}

/** Begins with the list, or where the client was before the page was loaded anew. */
export const begin = () => put(history.state?.step ?? 0);

next.addEventListener("click", () => go(at === articles().length ? 0 : at + 1));
back.addEventListener("click", () => go(at - 1));
addEventListener("popstate", ({ state }) => {
  if (view.hidden) return;
  put(state?.step ?? 0);
  if (single()) scrollTo(0, 0);
});
part("days", view).addEventListener("click", () => {
  history.replaceState(null, "");
  put(0);
});
part("list", view).addEventListener("click", (event) => {
  const link = event.target.closest("a");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  go(1 + articles().findIndex((article) => article.dataset.n === link.dataset.n));
});
part("hurts", bar).addEventListener("click", () => {
  const own = at && single() ? [...articles()[at - 1].querySelectorAll(".stop")] : [];
  part("own", pain).replaceChildren(...own.map((section) => section.cloneNode(true)));
  part("help", pain).hidden = own.length > 0; // the exercise's own signs begin with everybody's
  pain.showModal();
});
part("close", pain).addEventListener("click", () => pain.close());
