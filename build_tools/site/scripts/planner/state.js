// What the pages What lags and Week pass on in the fragment of the address, which no server sees: the week, and what is asked for.
//
// Past weeks are too long for an address. They stay with the tab (sessionStorage), each list under a mark that the address carries as `past`,
// so that another client's week that is opened in the same tab never gets them.

import { BadPlan, blank, fileOf, packed, read, takenOut, unpacked, write } from "../rules/plan.js";
import { answerable, musclesOf } from "../rules/questions.js";
import { filled } from "../rules/text.js";
import { fetched } from "./page.js";

const PAST = "handbook week: past weeks", MOST = 4; // so many lists, of the weeks opened last
let mark = "", kept = null;

/** The data of the working pages, with the rules of handouts. */
export async function loaded() {
  const data = await fetched("data/planner.json");
  return { data, rules: data.handout };
}

/** The data with all that an answer on these parts needs. */
export async function asked(data, parts) {
  return answerable(data, await Promise.all(musclesOf(parts).map((muscle) => fetched(`data/planner/${muscle}.json`))));
}

/** {plan, wish, wrong}: an address that cannot be read gives an empty week and says why. */
export function arrived({ data, rules }) {
  const given = new URLSearchParams(location.hash.slice(1));
  const list = (name, known) => (given.get(name) ?? "").split(",").filter((id) => known.includes(id)), things = Object.keys(data.equipment);
  const wish = { parts: list("parts", data.trained), equipment: given.has("equipment") ? list("equipment", things) : things, concerns: list("avoid", Object.keys(data.concerns)) };
  let plan = blank(), wrong = "";
  try {
    if (given.has("week")) {
      plan = unpacked(given.get("week"), data, rules);
      wrong = lost(fileOf(given.get("week")), data);
    }
    mark = given.get("past") ?? "";
    plan.before = kept = past(data, rules);
  } catch (bad) {
    if (!(bad instanceof BadPlan)) throw bad;
    wrong = bad.message;
  }
  return { plan, wish, wrong };
}

/** What a file names that was taken out of the handbook, as a sentence; empty where it names none. */
export function lost(text, data) {
  const names = takenOut(text, data);
  return names.length ? filled(data.words["taken-out"], { exercises: names.join(", ") }) : "";
}

/** `#parts=...&equipment=...&avoid=...&week=...`; `equipment=none` is the body alone, an address without equipment means all of it. */
export function fragment(plan, wish, data) {
  const all = wish.equipment.length === Object.keys(data.equipment).length;
  const said = [["parts", wish.parts], ["equipment", all ? [] : wish.equipment.length ? wish.equipment : ["none"]], ["avoid", wish.concerns]].filter(([, ids]) => ids.length)
    .map(([name, ids]) => `${name}=${ids.join(",")}`);
  if (plan.days.some((day) => day.length)) said.push(`week=${packed(plan, data)}`);
  if (plan.before?.length && mark) said.push(`past=${mark}`);
  return said.length ? `#${said.join("&")}` : "";
}

/** Keeps what there is in the address, and the past weeks with the tab. */
export function keep(plan, wish, data) {
  keepPast(plan.before, data);
  history.replaceState(null, "", location.pathname + location.search + fragment(plan, wish, data));
}

/** Keeps a list of past weeks once, not at every letter that is typed. */
function keepPast(before, data) {
  if (before === kept) return;
  kept = before;
  if (before.length) mark ||= `w${Date.now().toString(36)}`;
  try {
    const others = Object.entries(held()).filter(([one]) => one !== mark);
    sessionStorage.setItem(PAST, JSON.stringify(Object.fromEntries([...others, ...before.length ? [[mark, write({ ...blank(), before }, data)]] : []].slice(-MOST))));
  } catch { /* a browser that keeps nothing: the file does */ }
}

const held = () => JSON.parse(sessionStorage.getItem(PAST) ?? "{}");

/** The past weeks that this tab keeps for this week. */
function past(data, rules) {
  try {
    return read(held()[mark] ?? write(blank(), data), data, rules).before;
  } catch {
    return [];
  }
}
