// Files that a coach takes along: made in the browser, given to the device, never sent.

import { make, part } from "./dom.js";
import { calendar, csv, write } from "./plan_file.js";

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
  part("start").value = new Date().toISOString().slice(0, 10);
  part("dates").addEventListener("submit", (event) => {
    event.preventDefault();
    const start = new Date(`${part("start").value}T00:00:00Z`), weeks = Number(part("weeks").value);
    if (!Number.isNaN(start.getTime())) give("week.ics", "text/calendar", calendar(current(), data, start, weeks));
  });
}
