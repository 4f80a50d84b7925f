// Arrow keys go from slide to slide, N shows the notes, D turns light and dark. Without it the slides scroll.
"use strict";
const slides = [...document.querySelectorAll(".slide")], notes = document.getElementById("with-notes"), dark = document.getElementById("dark");
const STEPS = { ArrowRight: 1, ArrowDown: 1, PageDown: 1, " ": 1, Enter: 1, ArrowLeft: -1, ArrowUp: -1, PageUp: -1, Home: -Infinity, End: Infinity };
const turned = () => document.documentElement.dataset.scheme || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
const current = () => slides.reduce((best, slide, n) => Math.abs(slide.getBoundingClientRect().top) < Math.abs(slides[best].getBoundingClientRect().top) ? n : best, 0);

dark.parentElement.hidden = false;
dark.checked = turned() === "dark";
dark.addEventListener("change", () => { document.documentElement.dataset.scheme = dark.checked ? "dark" : "light"; });
addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.target.matches("a, input, summary") && [" ", "Enter"].includes(event.key)) return;
  if (event.key in STEPS) {
    event.preventDefault();
    slides[Math.max(0, Math.min(slides.length - 1, current() + STEPS[event.key]))].scrollIntoView();
  } else if (/^n$/i.test(event.key)) notes.click();
  else if (/^d$/i.test(event.key)) dark.click();
});
