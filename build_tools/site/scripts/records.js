// Links to the records of all sources give those that the page names. Without it, or without a network, they lead to all.

async function take(link) {
  const [{ give }, { records }, answer] = await Promise.all([import("./lesson/pack.js"), import("./rules/records.js"), fetch(link.href)]);
  const form = link.href.split(".").at(-1);
  if (!answer.ok) throw new Error(String(answer.status));
  give(new Blob([records(await answer.text(), form, link.dataset.records.split(" "))], { type: "text/plain" }), link.download);
}

for (const link of document.querySelectorAll("[data-records]")) {
  link.addEventListener("click", (event) => {
    event.preventDefault();
    take(link).catch(() => location.assign(link.href));
  });
}
for (const every of document.querySelectorAll("[data-every]")) every.hidden = true;
