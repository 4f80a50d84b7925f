// What the theme's header leaves out for keyboards and screen readers: which colours are chosen, and a button for the list of all pages
// in narrow windows, which else opens by a pointer alone.

import { make } from "./dom.js";

const radios = document.querySelectorAll('[name="__palette"]');
const chosen = radios[globalThis.__md_get?.("__palette")?.index ?? 0];
if (chosen) chosen.checked = true;

const label = document.querySelector('.md-header [for="__drawer"]'), toggle = document.getElementById("__drawer");
const drawer = document.querySelector(".hb-drawer");
if (label && toggle && drawer) {
  const opener = make("button", { type: "button", className: `${label.className} hb-drawer__open`, ariaLabel: "All pages", ariaExpanded: "false" }, ...label.childNodes);
  const close = () => { if (toggle.checked) toggle.click(); };
  for (const sign of opener.children) sign.setAttribute("aria-hidden", "true");
  label.replaceWith(opener);
  opener.onclick = () => toggle.click();
  toggle.addEventListener("change", () => {
    opener.ariaExpanded = String(toggle.checked);
    if (toggle.checked) drawer.querySelector("a").focus();
  });
  drawer.addEventListener("keydown", (event) => { if (event.key === "Escape") { close(); opener.focus(); } });
  // The page behind it is covered: who goes on to it leaves the list.
  drawer.addEventListener("focusout", ({ relatedTarget }) => { if (relatedTarget && !drawer.contains(relatedTarget)) close(); });
}
