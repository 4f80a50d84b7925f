// Files that a coach takes along: made in the browser, given to the device, never sent.

import { make, part } from "../dom.js";
import { calendar, csv, write } from "../rules/plan.js";

function give(name, type, text) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  make("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}

/** Sets the buttons up; `current` gives the plan as it stands. */
export function exporting(data, current) {
  part("save").addEventListener("click", () => give("week.json", "application/json", write(current(), data)));
  part("csv").addEventListener("click", () => give("week.csv", "text/csv", csv(current(), data)));
  part("print").addEventListener("click", () => print());
  const next = new Date();
  next.setUTCDate(next.getUTCDate() + (8 - next.getUTCDay()) % 7);
  part("start").value = next.toISOString().slice(0, 10);
  part("dates").addEventListener("submit", (event) => {
    event.preventDefault();
    const day = new Date(`${part("start").value}T00:00:00Z`);
    if (Number.isNaN(day.getTime())) return;
    const monday = new Date(day.getTime() - (day.getUTCDay() + 6) % 7 * 86_400_000);
    give("week.ics", "text/calendar", calendar(current(), data, monday, new Date(), crypto.randomUUID()));
  });
}
