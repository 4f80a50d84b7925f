// The page Compare: two to four exercises of the address side by side. What is said of them, and each drawing, was made by the build.

import { make, part } from "../dom.js";
import { offer, withdraw } from "../lesson/comparison.js";
import { alike, together } from "../rules/curves.js";
import { chosen } from "../rules/finder.js";
import { FINDINGS, grid, uncompared } from "../rules/grid.js";
import { named } from "../rules/names.js";
import { filled, listed, upper } from "../rules/text.js";
import { box } from "./box.js";
import { chart } from "./chart.js";
import { begin, drawing, fetched, grounds, link, sign } from "./page.js";
import { inStep } from "./step.js";

const FEWEST = 2, MOST = 4, OFFERED = 10, AT_ONCE = 4, GROUPS = { set_up: "Set up", move: "Move", check: "Check" };
const CAUTION = { who: "Who takes care", instead: "Instead", stop_if: "Stop if", afterwards: "Afterwards", ask: "Whom to ask" };
const COUNTS = { direct: "a set", indirect: "half a set" };
const UNCOMPARED = ["No study here compares these exercises with each other.", "No study here compares {a} with the others.", "No study here compares {a} with {b}."];
let data, stop = () => {};

const title = (id) => data.exercises[id][0];
const place = (ref) => data.places[ref][0];
const cell = (name, role, properties, ...children) => make(name, { role, ...properties }, ...children); // roles hold when a phone lays out rows anew

/** What was found of each two, growth first, and which two nobody compared; so many lines at once, the others in a fold. */
function answer(ids, details, pairs) {
  const lines = pairs.flatMap(({ answer }) => answer).sort((a, b) => a.rank - b.rank), rest = lines.slice(AT_ONCE);
  const left = uncompared(ids, pairs.filter((pair) => pair.answer.length).map((pair) => pair.ids)), name = (id) => details[ids.indexOf(id)].inside;
  const list = (some, ...more) => make("ul", { className: "hb-answer" }, ...some.map((line) => make("li", {}, sign(line), ` ${ids.length === FEWEST ? line.brief : line.sentence}`)), ...more);
  return [list(lines.slice(0, AT_ONCE), ...left.map(([a, b]) => make("li", { className: "hb-quiet" }, filled(UNCOMPARED[a ? b ? 2 : 1 : 0], { a: a && name(a), b: b && name(b) })))),
    ...rest.length ? [make("details", { className: "hb-below" }, make("summary", {}, `${rest.length} more`), list(rest))] : []];
}

function head(ids, details) {
  return cell("thead", "rowgroup", {}, cell("tr", "row", {}, cell("td", "cell", {}, part("aside").content.cloneNode(true)),
    ...ids.map((id, n) => cell("th", "columnheader", { scope: "col" }, make("div", { className: "hb-grid__name" }, link(`exercises/${id}/`, title(id)),
      make("button", { type: "button", className: "hb-grid__out", ariaLabel: `Remove ${title(id)}`,
        onclick: async () => { await go(chosen(data, location.search).filter((other) => other !== id)); part("add").focus(); } }, "×")),
    drawing(details[n].drawing), make("p", { className: "hb-quiet" }, details[n].needs)))));
}

/** The mark of one exercise on one part, against what, and what a set counts. */
function mark(one, id, ref) {
  const below = [one?.against && `against ${one.against}`, COUNTS[one?.counts]].filter(Boolean).join(" · ");
  const said = one?.sign ? make("a", { href: link(one.address, "").href }, sign(one), " ", one.says, make("span", { className: "hb-unseen" }, `: ${title(id)}, ${place(ref)}`))
    : make("span", { className: "hb-unseen" }, one?.counts ? "untested" : "no set counts, untested");
  return cell("td", "cell", { className: one?.counts ? "on" : "" }, said, ...below ? [" ", make("span", { className: "hb-grid__set" }, below)] : []);
}

const said = (told, ref) => make("ul", {}, ...told.map((one) => make("li", {}, ...one.sign ? [sign(one), " "] : [], `${one.sentence} `, grounds(one.address, `${one.outcome}, ${place(ref)}`))));

/** What was found of two exercises, its bars, and one step below the sentence; the first holds what else is said of the part. */
function finding(one, ref, rest) {
  const below = make("details", { className: "hb-below" }, make("summary", {}, ...one.sign ? [sign(one), " "] : [], one.heading),
    make("div", {}, make("p", {}, `${one.sentence} `, grounds(one.address, `${one.outcome}, ${place(ref)}`)), ...rest.length ? [make("p", {}, "Also said:"), said(rest, ref)] : []));
  return make("div", { className: one.bars ? "" : "hb-grid__wide" }, below, ...one.bars ? [drawing(one.bars)] : []);
}

/** What compares two of the exercises on a part: growth first, then activation. */
function direct(told, ref) {
  const found = told.filter(({ rank }) => rank < FINDINGS), rest = told.filter(({ rank }) => rank >= FINDINGS);
  return found.length ? make("div", { className: "hb-grid__findings" }, ...found.map((one, n) => finding(one, ref, n ? [] : rest)))
    : make("details", { className: "hb-below" }, make("summary", {}, `Said, not found (${rest.length})`), said(rest, ref));
}

const across = (told, ref, span) => cell("td", "cell", { colSpan: span, className: "hb-grid__direct" }, direct(told, ref));

/** A part: its marks, and below them what compares two of the exercises there. */
function row(ids, cells, { part: ref, told, aside: hidden }) {
  return [cell("tr", "row", { hidden }, cell("th", "rowheader", { scope: "row", rowSpan: told.length ? 2 : 1 }, link(data.addresses[ref], place(ref))),
    ...ids.map((id, n) => mark(cells[n][ref], id, ref))),
  ...told.length ? [cell("tr", "row", {}, across(told, ref, ids.length))] : []];
}

function table(ids, details, told) {
  const cells = details.map((one) => one.cells);
  const muscles = grid(Object.keys(data.places), cells, told), aside = muscles.flatMap(({ parts }) => parts).filter((one) => one.aside).length;
  const rows = muscles.map(({ muscle, told: whole, parts, aside: hidden }) => cell("tbody", "rowgroup", { hidden },
    cell("tr", "row", { className: "hb-grid__muscle" }, cell("th", "rowheader", { scope: "rowgroup", colSpan: ids.length + 1 }, link(data.addresses[muscle], place(muscle)))),
    ...parts.flatMap((one) => row(ids, cells, one)),
    ...whole.length ? [cell("tr", "row", {}, cell("th", "rowheader", { scope: "row" }, "As a whole"), across(whole, muscle, ids.length))] : []));
  const all = make("button", { type: "button", className: "hb-action", onclick: () => {
    for (const one of part("results").querySelectorAll("table [hidden]")) one.hidden = false;
    all.closest("tbody").remove();
  } }, `Show ${aside} more ${aside === 1 ? "part" : "parts"} that no set trains directly`);
  if (aside) rows.push(cell("tbody", "rowgroup", {}, cell("tr", "row", {}, cell("td", "cell", { colSpan: ids.length + 1 }, all))));
  return cell("table", "table", { className: `hb-grid hb-grid--${ids.length}`, ariaLabel: "Parts by exercises" }, head(ids, details), ...rows);
}

const NOTE = "Load: each as a share of its own peak; the peaks are not compared. Length: by the model, as a share of the part’s own range; it does not show growth.";
const ALIKE = 5; // per cent below which lengths of two parts are one drawing; in words they are told to 10

/** Loads about one joint in one drawing, and lengths of each part that two of the exercises know. */
function curves(ids, details) {
  const curve = (n, values) => ({ n, name: title(ids[n]), values });
  const loads = together(details.map(({ load, joint }) => load && joint)).map((some) =>
    chart(`Load about the ${details[some[0]].joint}`, some.map((n) => curve(n, details[n].load)), ["peak", "none"]));
  const refs = Object.keys(data.places).filter((ref) => details.filter(({ lengths }) => ref in lengths).length >= FEWEST);
  const lengths = alike(refs.map((ref) => details.map((one) => one.lengths[ref] ?? null)), ALIKE).map((some) => {
    const known = details.map((one, n) => [n, one.lengths[refs[some[0]]]]).filter(([, values]) => values);
    return chart(`Length: ${listed(some.map((n) => place(refs[n])))}`, known.map(([n, values]) => curve(n, values)), ["long", "short"]);
  });
  const none = details.map(({ no_load: why }, n) => why && `${title(ids[n])} has no load curve: ${why}.`).filter(Boolean);
  return [make("h2", {}, "Load and length"), make("div", { className: "hb-overlays" }, ...loads, ...lengths),
    make("p", { className: "hb-quiet" }, [...none, ...loads.length + lengths.length ? [NOTE] : []].join(" "))];
}

const columns = (ids, of) => make("div", { className: "hb-columns" }, ...ids.map((id, n) => make("section", {}, make("h3", {}, title(id)), ...of(n))));
const fold = (name, content) => make("details", { className: "hb-fold" }, make("summary", {}, name), content);

const folds = (ids, details) => [
  fold("Cautions", columns(ids, (n) => [
    ...details[n].care.map(([heading, lines]) => make("div", { className: "hb-caution" }, make("p", { className: "hb-subhead" }, heading),
      make("ul", {}, ...lines.map((line) => make("li", {}, line))))),
    ...details[n].cautions.map((caution) => make("dl", { className: "hb-caution" }, ...Object.keys(CAUTION).filter((key) => caution[key]).map((key) =>
      make("div", {}, make("dt", {}, CAUTION[key]), " ", make("dd", {}, caution[key])))))])),
  fold("Cues", columns(ids, (n) => Object.entries(GROUPS).flatMap(([key, name]) => [
    make("p", { className: "hb-subhead" }, name), make("ul", {}, ...details[n].cues[key].map((text) => make("li", {}, text)))]))),
];

/** Each pair that anything compares, with what it says. */
function paired(ids, details) {
  const pairs = ids.flatMap((one, n) => ids.slice(n + 1).filter((two) => details[n].pairs.includes(two)).map((two) => [one, two]));
  return Promise.all(pairs.map(async (pair) => ({ ids: pair, ...await fetched(`data/compare/pairs/${[...pair].sort().join("--")}.json`) })));
}

function go(ids) {
  history.pushState(null, "", location.pathname + (ids.length ? `?exercises=${ids.join(",")}` : ""));
  return show();
}

async function show() {
  const before = location.search, ids = chosen(data, before);
  const details = await Promise.all(ids.map((id) => fetched(`data/compare/${id}.json`))), pairs = await paired(ids, details);
  if (before !== location.search) return;
  stop();
  part("adding").hidden = ids.length === MOST;
  part("count").textContent = ids.length < FEWEST ? `${ids.length ? "One exercise is" : "No exercise is"} chosen. Choose ${ids.length ? "one more" : "two"} to compare.`
    : ids.length === MOST ? "Four are compared, as many as fit; remove one to add another." : "";
  part("answer").replaceChildren(...ids.length < FEWEST ? [] : answer(ids, details, pairs));
  const told = pairs.flatMap((pair) => pair.told).sort((a, b) => a.rank - b.rank);
  part("results").replaceChildren(...ids.length ? [table(ids, details, told)] : [], ...ids.length < FEWEST ? [] : [...curves(ids, details), ...folds(ids, details)]);
  if (ids.length < FEWEST) withdraw();
  else offer({ ids, details, pairs, told, data }, UNCOMPARED);
  stop = ids.length ? inStep(part("step"), part("results").querySelectorAll("thead .hb-pose")) : () => {};
}

begin(async () => {
  data = await fetched("data/names.json");
  const add = part("add"), all = Object.entries(data.exercises);
  box(add, {
    offered: (text) => text ? named(all, text).filter(({ id }) => !chosen(data, location.search).includes(id)).slice(0, OFFERED)
      .map(({ id, name }) => ({ id, title: title(id), note: name === title(id) ? "" : upper(name) })) : [],
    missing: "No exercise has this name.",
    take: async ({ id }) => { add.value = ""; await go([...chosen(data, location.search), id]); add.focus(); },
  });
  addEventListener("popstate", () => show().catch(() => { part("failed").hidden = false; }));
  await show();
});
