// Copies and sends what a coach passes on, and starts the worker that keeps cue sheets. Without it the links still work.
"use strict";

/** Do `act`, and tell in words how it ended; `instead` is what the reader can copy by hand. */
async function tryTo(act, told, done, instead) {
  told.textContent = "";
  try {
    await act();
    told.textContent = done;
  } catch (error) {
    if (error.name !== "AbortError") told.textContent = `This browser does not allow it here. Copy by hand: ${instead}`;
  }
}

/** Show `button` and answer its clicks. `navigator.clipboard` is missing on pages that are not secure, so it may throw. */
function offer(button, text, told) {
  const { title } = button.dataset;
  const act = title ? () => navigator.share({ title, url: text }) : () => navigator.clipboard.writeText(text);
  button.hidden = false;
  button.addEventListener("click", () => tryTo(act, told, button.dataset.told ?? "", text));
}

for (const row of document.querySelectorAll(".hb-actions")) {
  const told = document.createElement("p");
  told.className = "hb-told";
  told.setAttribute("role", "status");
  row.append(told);
  const absolute = (address) => new URL(address, location.href).href;
  for (const button of row.querySelectorAll("[data-copy]")) offer(button, button.dataset.copy, told);
  for (const button of row.querySelectorAll("[data-copy-address]")) offer(button, absolute(button.dataset.copyAddress), told);
  if (!navigator.share) continue;
  for (const button of row.querySelectorAll("[data-send-address]")) offer(button, absolute(button.dataset.sendAddress), told);
}

const worker = document.querySelector("[data-worker]")?.dataset.worker;
// A browser that keeps nothing (a private window, say) shows the page all the same.
if (worker && "serviceWorker" in navigator) navigator.serviceWorker.register(new URL(worker, location.href)).catch(() => {});
