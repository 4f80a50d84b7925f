// Copies, sends and saves what a coach passes on, and starts the worker that keeps cue sheets. Without it the links still work.
"use strict";

/** Times the size of the drawing that a picture of it has. */
const SCALE = 2;

/** Do `act`, and tell in words how it ended; `instead` is what the reader can do by hand. */
async function tryTo(act, told, done, instead) {
  told.textContent = "";
  try {
    await act();
    told.textContent = done;
  } catch (error) {
    if (error.name !== "AbortError") told.textContent = `This browser does not allow it here. ${instead}`;
  }
}

/** Show `button` and answer its clicks. `navigator.clipboard` is missing on pages that are not secure, so it may throw. */
function offer(button, text, told) {
  const { title } = button.dataset;
  const act = title ? () => navigator.share({ title, url: text }) : () => navigator.clipboard.writeText(text);
  button.hidden = false;
  button.addEventListener("click", () => tryTo(act, told, button.dataset.told ?? "", `Copy by hand: ${text}`));
}

/** The drawing at `address` as a PNG; it stands on white in every scheme, as its file does. */
async function picture(address) {
  const drawing = new Image();
  drawing.src = address;
  await drawing.decode();
  const canvas = document.createElement("canvas");
  canvas.width = SCALE * drawing.naturalWidth;
  canvas.height = SCALE * drawing.naturalHeight;
  canvas.getContext("2d").drawImage(drawing, 0, 0, canvas.width, canvas.height);
  return new Promise((made, failed) => canvas.toBlob((png) => (png ? made(png) : failed(new Error("no picture"))), "image/png"));
}

async function save(address, name) {
  const href = URL.createObjectURL(await picture(address));
  Object.assign(document.createElement("a"), { href, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(href), 1000);
}

/** Show `button` and answer its clicks with a picture of the drawing that it names. */
function offerPicture(button, told) {
  const { picture: address, name } = button.dataset;
  button.hidden = false;
  button.addEventListener("click", () => tryTo(() => save(new URL(address, location.href), name), told, button.dataset.told, "Take the SVG."));
}

for (const row of document.querySelectorAll(".hb-actions")) {
  const told = document.createElement("p");
  told.className = "hb-told";
  told.setAttribute("role", "status");
  row.append(told);
  const absolute = (address) => new URL(address, location.href).href;
  for (const button of row.querySelectorAll("[data-copy]")) offer(button, button.dataset.copy, told);
  for (const button of row.querySelectorAll("[data-copy-address]")) offer(button, absolute(button.dataset.copyAddress), told);
  for (const button of row.querySelectorAll("[data-picture]")) offerPicture(button, told);
  if (!navigator.share) continue;
  for (const button of row.querySelectorAll("[data-send-address]")) offer(button, absolute(button.dataset.sendAddress), told);
}

const worker = document.querySelector("[data-worker]")?.dataset.worker;
// A browser that keeps nothing (a private window, say) shows the page all the same.
if (worker && "serviceWorker" in navigator) navigator.serviceWorker.register(new URL(worker, location.href)).catch(() => {});
