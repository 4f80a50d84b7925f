// "Take this comparison along": what the page Compare shows as slides, pictures, tables, references and notes, in one archive.

import { make, part } from "../dom.js";
import { drawing, root, sign } from "../planner/page.js";
import { FINDINGS, grid, uncompared } from "../rules/grid.js";
import { records } from "../rules/records.js";
import { table } from "../rules/table.js";
import { filled, listed, upper } from "../rules/text.js";
import { altTexts, archived, chosen, framedAll, give, licence, parsed, read, tell, written } from "./pack.js";
import { bars, body, points, poses, rows, slide, sure } from "./slide.js";

const MOST = 8, ROWS = 9, CUES = 3, FORMS = ["bib", "ris", "json"];
const KINDS = { growth: "Growth after weeks of training", activation: "Activation in one session. How strongly the muscle was driven. It does not show growth." };
const SILENCE = "Silence is not a null: where nobody tested, nothing is known.";
const COUNTS = { direct: "a set", indirect: "half a set" };

async function text(address) {
  const answer = await fetch(new URL(address, root));
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.text();
}

const at = (address) => new URL(address, root).href;
const chunks = (list, most) => Array.from({ length: Math.ceil(list.length / most) }, (_, n) => list.slice(n * most, (n + 1) * most));

/** The parts that the page's grid shows at once, each with the cells of all exercises. */
function parts({ data, details, told }) {
  const cells = details.map((one) => one.cells);
  return grid(Object.keys(data.places), cells, told).filter(({ aside }) => !aside).flatMap((muscle) => muscle.parts.filter(({ aside }) => !aside))
    .map(({ part: ref }) => [ref, cells.map((one) => one[ref])]);
}

const cell = (one) => make("td", { className: one?.counts ? "on" : "" }, ...one?.sign ? [sign(one), " ", one.says] : [one?.counts ? "untested" : ""]);

function gridSlides(shown, names, place, foot) {
  return chunks(parts(shown), ROWS).flatMap((some, n) => slide(`grid-${n + 1}`, "grid", "Tinted: a set counts for it", "Part by part", [
    make("table", { className: "grid" }, make("thead", {}, make("tr", {}, make("td"), ...names.map((name) => make("th", { scope: "col" }, name)))),
      make("tbody", {}, ...some.map(([ref, cells]) => make("tr", {}, make("th", { scope: "row" }, place(ref)), ...cells.map(cell))))),
  ], [foot], n ? [] : ["A mark tells the best evidence on whether an exercise does more for a part than another. Activity in one session is not growth."]));
}

function statement(one, n, place, records, page) {
  const kind = one.kind, cites = one.cites.map(([, told]) => told), links = one.cites.map(([key]) => [key, records.get(key)]);
  const credit = `Sources: ${one.cites.map(([key, told]) => [told, address(records.get(key))].filter(Boolean).join(" ")).join("; ")}.`;
  const drawn = one.bars && bars(drawing(one.bars), `${kind}-${n + 1}`, credit);
  const made = slide(`${kind}-${n + 1}`, `${kind}${drawn ? "" : " slide--plain"}`, KINDS[kind], one.headline,
    [...drawn ? [body(drawn)] : [], ...one.certainty ? [sure(`Certainty: ${one.certainty}.`)] : []],
    [cites.join("; "), filled(page.handbook, { address: at(one.address) })],
    [one.sentence, `Measured on: ${place(one.part)}.`, ...links.map(([, record]) => record ? cited(record) : "").filter(Boolean)], drawn ? [] : [sign(one), " "]);
  made[0].dataset.statement = one.address;
  return made;
}

const address = (record) => record?.DOI ? `https://doi.org/${record.DOI}` : record?.URL ?? "";
const cited = (record) => [(record.author ?? []).map((one) => one.literal ?? `${one.family} ${one.given}`).join(", "), `(${record.issued["date-parts"][0][0]})`,
  `${record.title}.`, record["container-title"] ?? "", address(record)].filter(Boolean).join(" ");

function how(id, detail, name, page) {
  return slide(`how-${id}`, "how", "How to do it", name, [body(poses(drawing(detail.drawing), id, detail.credit), points(detail.cues.move.slice(0, CUES))), sure(page.notice)],
    [filled(page.handbook, { address: at(`exercises/${id}/`) })],
    [...detail.cautions.map((one) => `Take care: ${one.who} Instead: ${one.instead} Stop if: ${one.stop_if} Ask: ${one.ask}${one.afterwards ? ` Afterwards: ${one.afterwards}` : ""}`),
      ...detail.care.map(([heading, lines]) => `${heading}: ${lines.join(" ")}`), `Cue sheet for clients: ${at(`cues/${id}/`)}`]);
}

/** The slides as a document of their own; `shown` is what the page shows: {ids, details, pairs, told, data}. */
function slides(empty, shown, records, page, missing) {
  const { ids, details, told, data } = shown, title = (id) => data.exercises[id][0], place = (ref) => data.places[ref][0], names = ids.map(title);
  const here = filled(page.handbook, { address: page.address }), found = told.filter((one) => one.cites && one.rank < FINDINGS), first = found.slice(0, MOST);
  const keys = [...new Set(found.flatMap((one) => one.cites.map(([key]) => key)))];
  const made = [
    ...slide("title", "title", "Side by side", listed(names), [], [here, `Licence: ${page.licence}`], ["Sentences are composed from what studies printed. Growth over weeks and activity in one session are different things."]),
    ...gridSlides(shown, names, place, here),
    ...first.flatMap((one, n) => statement(one, n, place, records, page)),
    ...missing.length ? slide("untested", "untested", "", "What nobody tested", [body(points(missing))], [here], [SILENCE]) : [],
    ...ids.flatMap((id, n) => how(id, details[n], title(id), page)),
    ...chunks(keys, 7).flatMap((some, n) => slide(`sources-${n + 1}`, "sources", "", "Sources", [rows(some.map((key) => {
      const of = found.flatMap((one) => one.cites).find(([other]) => other === key);
      return [of[1], records.get(key)?.title ?? key, address(records.get(key))];
    }))], [], n ? [] : keys.map((key) => records.get(key)).filter(Boolean).map(cited))),
    ...slide("end", "end", "", "Yours to use", [body(points([`Licence: ${page.licence}. Name the handbook, and what you changed.`, here, page.notice]))], [], []),
  ];
  empty.title = `${listed(names)}: slides`;
  empty.querySelector("h1").textContent = listed(names);
  empty.querySelector('meta[name="credit"]').content = page.credit;
  for (const gone of ["handbook", "licence", "notice"]) empty.querySelector(`meta[name="${gone}"]`).remove();
  empty.querySelector("main").replaceChildren(...made.map((one) => empty.importNode(one, true)));
  return empty;
}

function tables({ ids, told, data, details }, records) {
  const title = (id) => data.exercises[id][0], place = (ref) => data.places[ref][0];
  const marks = Object.keys(data.places).flatMap((ref) => ids.flatMap((id, n) => {
    const one = details[n].cells[ref];
    return one ? [[place(ref), title(id), one.says, one.against, COUNTS[one.counts], one.address && at(one.address)]] : [];
  }));
  const statements = told.map((one) => [place(one.part), one.outcome, one.sentence, one.certainty, (one.cites ?? []).map(([key]) => key).join("; "),
    (one.cites ?? []).map(([key]) => records.get(key)?.DOI).filter(Boolean).join("; "), (one.cites ?? []).map(([, cited]) => cited).join("; "), at(one.address)]);
  return [["grid.csv", table([["part", "exercise", "mark", "against", "a set counts", "address"], ...marks])],
    ["statements.csv", table([["part", "outcome", "statement", "certainty", "studies", "DOI", "place read", "address"], ...statements])]];
}

async function everything(shown, missing, form, say) {
  const [empty, ...texts] = await Promise.all(["data/slides.html", ...FORMS.map((name) => `data/references.${name}`)].map(text));
  const blank = parsed(empty), meta = (name) => blank.querySelector(`meta[name="${name}"]`).content;
  const address = location.href.replace(/#.*/, ""), page = { address, handbook: meta("handbook"), licence: meta("licence"), notice: meta("notice"), credit: filled(meta("credit"), { address }) };
  const all = new Map(JSON.parse(texts[2]).map((record) => [record.id, record])), keys = shown.told.flatMap((one) => (one.cites ?? []).map(([key]) => key));
  const made = slides(blank, shown, all, page, missing), held = read(made);
  return archived([
    ["slides.html", written(made)], ["notes.txt", held.notes], ["alt.txt", altTexts(held)], ...tables(shown, all),
    ...FORMS.map((form, n) => [`references.${form}`, records(texts[n], form, keys)]),
    ["LICENCE.txt", licence(page.credit, filled(page.handbook, { address }))], ...await framedAll(held, chosen(form), say),
  ]);
}

/** What was found of each two that nobody compared, in words. */
const sentences = ({ ids, pairs, details }, words) => {
  const name = (id) => details[ids.indexOf(id)].inside;
  return uncompared(ids, pairs.filter((pair) => pair.answer.length).map((pair) => pair.ids))
    .map(([a, b]) => filled(words[a ? b ? 2 : 1 : 0], { a: a && name(a), b: b && name(b) }));
};

/** Shows the offer for what is compared now, and answers it; `words` are the page's own for what nobody compared. */
export function offer(shown, words) {
  const place = part("take"), button = part("take-all", place);
  place.hidden = false;
  part("lessons", place).replaceChildren(...[...new Set(parts(shown).map(([ref]) => ref.split("/")[0]))].flatMap((muscle, n) =>
    [...n ? [", "] : [], make("a", { href: at(`lessons/${muscle}/`) }, upper(shown.data.places[muscle][0]))]));
  const told = part("take-told", place), say = (text) => { told.textContent = text; };
  button.onclick = () => tell(button, told, async () => give(await everything(shown, sentences(shown, words), part("shape", place), say), `${shown.ids.join("-and-")}.zip`),
    "Saved: slides, pictures, tables, references.");
}

export const withdraw = () => { part("take").hidden = true; };
