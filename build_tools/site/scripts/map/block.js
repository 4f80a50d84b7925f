// Tables of the evidence map on any page: arrow keys lead through one, and a mark opens a panel with its statements. Without this script,
// or where the panel's words cannot be had, each mark is a link to its place.

import { make } from "../dom.js";
import { led } from "../rules/evidence_map.js";

const root = new URL("../../", import.meta.url), loaded = new Map(), SVG = "http://www.w3.org/2000/svg";
let panel;

/** A file of the site's data, asked for once. */
export function fetched(address) {
  if (!loaded.has(address)) {
    loaded.set(address, fetch(new URL(address, root)).then((answer) => answer.ok ? answer.json() : Promise.reject(new Error(String(answer.status)))));
    loaded.get(address).catch(() => loaded.delete(address));
  }
  return loaded.get(address);
}

/** What can be reached in each row that is shown: the link of each cell, or null. */
const links = (table) => [...table.rows].filter((row) => !row.hidden).map((row) => [...row.cells].map((cell) => cell.querySelector("a")));

function place(table, link) {
  const rows = links(table), row = rows.findIndex((cells) => cells.includes(link));
  return { rows, at: [row, rows[row]?.indexOf(link)] };
}

/** One way in by Tab: the link that was reached last, else the first mark. */
export function settle(table) {
  const all = links(table).flat().filter(Boolean), marks = all.filter((link) => link.closest("td"));
  const held = table.querySelector('a[tabindex="0"]');
  const kept = all.includes(held) ? held : marks[0] ?? all[0];
  for (const link of table.querySelectorAll("a")) link.tabIndex = link === kept ? 0 : -1;
}

function move(event) {
  if (event.altKey || event.metaKey || !/^(Arrow|Home$|End$)/.test(event.key)) return;
  const table = event.currentTarget, { rows, at } = place(table, event.target.closest("a"));
  const to = at[0] < 0 ? null : led(rows.map((row) => row.map(Boolean)), at, event.key, event.ctrlKey);
  if (!to) return;
  event.preventDefault();
  rows[to[0]][to[1]].focus();
}

function reached({ target, currentTarget }) {
  const link = target.closest("a");
  for (const other of currentTarget.querySelectorAll('a[tabindex="0"]')) other.tabIndex = -1;
  if (link) link.tabIndex = 0;
}

function sign(symbol, kind) {
  const drawn = document.createElementNS(SVG, "svg"), use = document.createElementNS(SVG, "use");
  drawn.setAttribute("class", `hb-sign hb-sign--${kind}`);
  drawn.setAttribute("aria-hidden", "true");
  use.setAttribute("href", `#${symbol}`);
  drawn.append(use);
  return drawn;
}

/** One statement: its mark in words, the sentence, how sure, and the way to its place. */
function statement(reason, { marks, sentences }, name) {
  const [kind, says] = marks[reason.mark];
  const way = make("a", { href: new URL(reason.address, root).href }, "To its place", make("span", { className: "hb-unseen" }, `: ${says}, ${name}`));
  return make("li", {}, make("p", { className: "hb-panel__mark" }, sign(reason.mark, kind), ` ${says}`),
    make("p", {}, sentences[reason.sentence]), make("p", { className: "hb-quiet" }, reason.sure ? `${reason.sure} ` : "", way));
}

function filled(data, id, column, name) {
  const [part, other] = data.parts[column], [best, ...more] = data.exercises[id][column];
  const list = (reasons) => make("ul", {}, ...reasons.map((reason) => statement(reason, data, name)));
  return [make("p", { id: "hb-panel-name", className: "hb-panel__name" }, `${name}: ${part}`), make("p", { className: "hb-quiet" }, other), list([best]),
    ...more.length ? [make("details", { className: "hb-below" }, make("summary", {}, `${more.length} more`), list(more))] : [],
    make("p", { className: "hb-actions" }, make("button", { type: "button", className: "hb-action", onclick: () => panel.hidePopover() }, "Close"))];
}

/** Beside the mark where there is room; where there is none, the styles set it at the lower edge. */
function beside(mark) {
  const at = mark.getBoundingClientRect(), { offsetWidth: width, offsetHeight: height } = panel;
  const right = document.documentElement.clientWidth - width - 16;
  const top = at.bottom + height + 8 < innerHeight || at.top < height + 64 ? at.bottom + 4 : at.top - height - 4;
  panel.style.setProperty("--left", `${Math.max(16, Math.min(at.left, right)) + scrollX}px`);
  panel.style.setProperty("--top", `${top + scrollY}px`);
}

async function open(event) {
  const mark = event.target.closest("td a");
  if (!mark || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  const row = mark.closest("tr"), { muscle } = event.currentTarget.dataset;
  let data;
  try { data = await fetched(`data/map/${muscle}.json`); } catch { location.assign(mark.href); return; }
  if (!panel) {
    panel = make("div", { popover: "auto", className: "hb-panel md-typeset", tabIndex: -1 });
    panel.setAttribute("role", "dialog");
    panel.setAttribute("aria-labelledby", "hb-panel-name");
    document.body.append(panel);
  }
  panel.replaceChildren(...filled(data, row.dataset.exercise, mark.closest("td").cellIndex - 1, row.cells[0].textContent));
  mark.focus({ preventScroll: true }); // where Escape leads back to
  panel.showPopover();
  panel.scrollTop = 0;
  beside(mark);
  panel.focus({ preventScroll: true });
}

for (const table of document.querySelectorAll(".hb-map__table")) {
  settle(table);
  table.addEventListener("keydown", move);
  table.addEventListener("focusin", reached);
  if (!("popover" in table)) continue;
  for (const mark of table.querySelectorAll("td a")) {
    mark.setAttribute("role", "button");
    mark.setAttribute("aria-haspopup", "dialog");
  }
  table.addEventListener("click", open);
  table.addEventListener("keydown", (event) => {
    const mark = event.key === " " && event.target.closest("td a");
    if (mark) { event.preventDefault(); mark.click(); }
  });
  table.addEventListener("pointerover", ({ target }) => {
    const mark = target.closest("td a");
    if (mark) mark.title = mark.getAttribute("aria-label");
  });
}
