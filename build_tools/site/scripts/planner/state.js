// What the pages Lagging part and Week pass on in the fragment of the address, which no server sees: the week, and what is asked for.

import { BadPlan, blank, packed, read, unpacked, write } from "../rules/plan.js";
import { fetched } from "./page.js";

const PAST = "handbook week: past weeks"; // in this tab alone, as an address has no room for them

/** The data of the working pages, with the rules of handouts. */
export async function loaded() {
  const [data, { rules }] = await Promise.all([fetched("data/planner.json"), fetched("handout/data.json")]);
  return { data, rules };
}

/** {plan, wish, wrong}: an address that cannot be read gives an empty week and says why. */
export function arrived({ data, rules }) {
  const given = new URLSearchParams(location.hash.slice(1));
  const list = (name, from) => (given.get(name) ?? "").split(",").filter((id) => Object.hasOwn(from, id));
  const wish = { parts: list("parts", data.orders), equipment: given.has("equipment") ? list("equipment", data.equipment) : Object.keys(data.equipment), concerns: list("avoid", data.concerns) };
  let plan = blank(), wrong = "";
  try {
    if (given.has("week")) plan = { ...unpacked(given.get("week"), data, rules), before: past(data, rules) };
  } catch (bad) {
    if (!(bad instanceof BadPlan)) throw bad;
    wrong = bad.message;
  }
  return { plan, wish, wrong };
}

/** `#parts=...&equipment=...&avoid=...&week=...`; `equipment=none` is the body alone, an address without equipment means all of it. */
export function fragment(plan, wish, data) {
  const all = wish.equipment.length === Object.keys(data.equipment).length;
  const said = [["parts", wish.parts], ["equipment", all ? [] : wish.equipment.length ? wish.equipment : ["none"]], ["avoid", wish.concerns]].filter(([, ids]) => ids.length)
    .map(([name, ids]) => `${name}=${ids.join(",")}`);
  if (plan.days.some((day) => day.length)) said.push(`week=${packed(plan, data)}`);
  return said.length ? `#${said.join("&")}` : "";
}

export function keep(plan, wish, data) {
  history.replaceState(null, "", location.pathname + location.search + fragment(plan, wish, data));
  try {
    if (plan.before.length) sessionStorage.setItem(PAST, write({ ...blank(), before: plan.before }, data));
    else sessionStorage.removeItem(PAST);
  } catch { /* a browser that keeps nothing: the file does */ }
}

/** The past weeks that this tab keeps. */
function past(data, rules) {
  try {
    return read(sessionStorage.getItem(PAST) ?? write(blank(), data), data, rules).before;
  } catch {
    return [];
  }
}
