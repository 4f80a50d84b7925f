// What a coach takes along: files made in the browser and given to the device, never sent, and links to handouts.

import { make, part } from "../dom.js";
import { encode } from "../rules/link.js";
import { calendar, csv, handout, write } from "../rules/plan.js";
import { filled } from "../rules/text.js";
import { root } from "../planner/page.js";

const DAY = 86_400_000, iso = (date) => date.toISOString().slice(0, 10);

function give(name, type, text) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  make("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}

/** The Monday of the week of a day, as YYYY-MM-DD; null for no day. */
function monday(text) {
  const day = new Date(`${text}T00:00:00Z`);
  return Number.isNaN(day.getTime()) ? null : iso(new Date(day.getTime() - (day.getUTCDay() + 6) % 7 * DAY));
}

function nextMonday() {
  const next = new Date();
  next.setUTCDate(next.getUTCDate() + (8 - next.getUTCDay()) % 7);
  return iso(next);
}

/** Sets the section up; answers what draws its links anew. */
export function taking({ data, rules }, { plan, wish, change }) {
  const file = (ending) => `week${plan().monday ? `-${plan().monday}` : ""}.${ending}`;
  part("save").addEventListener("click", () => give(file("json"), "application/json", write(plan(), data)));
  part("csv").addEventListener("click", () => give(file("csv"), "text/csv", csv(plan(), data)));
  part("print").addEventListener("click", () => print());
  part("start").value = plan().monday ?? nextMonday();
  part("start").addEventListener("change", () => { change({ ...plan(), monday: monday(part("start").value) }, "", "monday"); });
  part("dates").addEventListener("submit", (event) => {
    event.preventDefault();
    const begun = monday(part("start").value);
    if (begun) give(file("ics"), "text/calendar", calendar(plan(), data, new Date(`${begun}T00:00:00Z`), new Date(), String(Date.now())));
  });
  part("coach").addEventListener("input", draw);

  function linked(text, title, days) {
    if (wish.concerns.length > rules.concerns) return make("li", {}, filled(data.words["many-concerns"], { count: rules.concerns }));
    try {
      const coach = part("coach").value.replace(/\s+/gu, " ").trim() || null;
      const made = encode(handout(plan(), { title, coach, date: plan().monday, care: wish.concerns }, days), rules);
      return make("li", {}, make("a", { href: new URL(`handout/#${made}`, root).href }, text));
    } catch {
      return make("li", {}, filled(data.words["handout-full"], { title: text }));
    }
  }

  function draw() {
    const days = plan().days.flatMap((rows, n) => rows.length ? [n] : []);
    if (plan().monday && document.activeElement !== part("start")) part("start").value = plan().monday;
    part("handouts").replaceChildren(...(days.length > 1 ? [linked(data.words["handout-week"], data.words["handout-title"], days)] : []),
      ...days.map((n) => linked(filled(data.words["handout-day"], { day: data.plan.days[n] }), data.plan.days[n], [n])));
  }
  return draw;
}
