// Tells everybody, also those who do not see the page, what has just happened.

import { part } from "../dom.js";

const status = part("status"), SHOWN = 6_000; // milliseconds
let later = 0;

export function say(text) {
  status.textContent = text;
  clearTimeout(later);
  later = setTimeout(() => { status.textContent = ""; }, SHOWN);
}
