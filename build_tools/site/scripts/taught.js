// The page Taught and tested: what is listed narrows to a state and a muscle; a fold opens when what it holds was asked for.

import { part } from "./dom.js";

const form = part("filter"), sections = [...document.querySelectorAll("[data-muscle]")];
const jump = document.querySelector(".hb-jump");

function narrow() {
  const state = form.elements.state.value, muscle = form.elements.muscle.value, asked = state || muscle;
  let count = 0;
  for (const section of sections) {
    let here = 0;
    for (const item of section.querySelectorAll("[data-state]")) {
      item.hidden = Boolean(state && item.dataset.state !== state) || Boolean(muscle && section.dataset.muscle !== muscle);
      if (!item.hidden) here += 1;
    }
    for (const fold of section.querySelectorAll("details")) {
      fold.hidden = !fold.querySelector("[data-state]:not([hidden])");
      fold.open = Boolean(state) && !fold.hidden;
    }
    section.hidden = document.getElementById(section.dataset.muscle).hidden = here === 0;
    count += here;
  }
  jump.hidden = Boolean(asked);
  part("count").textContent = asked ? (count === 1 ? "1 teaching." : `${count || "No"} teachings.`) : "";
}

form.hidden = false;
form.addEventListener("change", narrow);
form.addEventListener("submit", (event) => event.preventDefault());
narrow();
