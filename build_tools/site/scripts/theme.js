// What the theme's own script needs before it runs, in the place of what would stand inline on every page: what a reader chose, the
// choice of colours, and both put to use before anything is painted. Loaded where the choice stands in the header, not as a module.

{
  // What is chosen holds for this site, or for what `extra.scope` in mkdocs.yml names, as with the theme's own script.
  const { dataset, src } = document.currentScript;
  const root = dataset.scope ? new URL(dataset.scope, location) : new URL("..", src);
  const key = (name, scope) => `${scope.pathname}.${name}`;
  Object.assign(window, {
    __md_scope: root,
    __md_hash: (text) => [...text].reduce((all, letter) => (all << 5) - all + letter.charCodeAt(0), 0),
    __md_get: (name, store = localStorage, scope = root) => JSON.parse(store.getItem(key(name, scope))),
    __md_set: (name, value, store = localStorage, scope = root) => {
      try { store.setItem(key(name, scope), JSON.stringify(value)); } catch { /* a device that keeps nothing */ }
    },
  });

  // Its signs are of few strokes. The theme goes by the inputs, and shows the label of the one that is chosen: it leads to the next, and is
  // named for that, while an input is named for what it chooses itself.
  const ways = [
    ["", "default", "Use the light colours", "M12 3a9 9 0 1 0 .1 0ZM13 4v16m2-15v14m2-13v12m2-10v8"],
    [": light", "default", "Use the dark colours", "M12 7a5 5 0 1 0 .1 0ZM12 1v2m0 18v2M1 12h2m18 0h2M4.2 4.2l1.4 1.4m12.8 12.8 1.4 1.4m0-15.6-1.4 1.4M5.6 18.4l-1.4 1.4"],
    [": dark", "slate", "Follow the system's colours", "M20 14A8.5 8.5 0 1 1 10 4a7 7 0 0 0 10 10Z"],
  ];
  const colours = (media, scheme) => ({ "color-media": `(prefers-color-scheme${media})`, "color-scheme": scheme, "color-primary": "custom", "color-accent": "custom" });
  const element = (name, attributes, ...children) => {
    const made = document.createElementNS(["svg", "path"].includes(name) ? "http://www.w3.org/2000/svg" : document.body.namespaceURI, name);
    for (const [what, value] of Object.entries(attributes)) made.setAttribute(what, value);
    made.append(...children);
    return made;
  };
  const choice = ([media, scheme, name, sign], n) => [
    element("input", { class: "md-option", ...Object.fromEntries(Object.entries(colours(media, scheme)).map(([what, value]) => [`data-md-${what}`, value])),
      "aria-label": ways.at(n - 1)[2], type: "radio", name: "__palette", id: `__palette_${n}` }),
    element("label", { class: "md-header__button md-icon hb-scheme", title: name, for: `__palette_${(n + 1) % ways.length}`, hidden: "" },
      element("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, element("path", { d: sign }))),
  ];
  document.currentScript.before(element("div", { class: "md-header__option", "data-md-component": "palette", role: "radiogroup", "aria-label": "Colours" }, ...ways.flatMap(choice)));

  const chosen = window.__md_get("__palette")?.color;
  if (chosen) {
    const [systems, lights, darks] = ways;
    const dark = chosen.media === colours(...systems)["color-media"] ? !matchMedia("(prefers-color-scheme: light)").matches : chosen.scheme === darks[1];
    for (const [what, value] of Object.entries(colours(...(dark ? darks : lights)))) document.body.setAttribute(`data-md-${what}`, value);
  }

  // Of tabs in a page: the one that the address names, and those of the same name as one that was chosen elsewhere.
  document.addEventListener("DOMContentLoaded", () => {
    const names = window.__md_get("__tabs") ?? [], open = (input) => { if (input?.name?.startsWith("__tabbed_")) input.checked = true; };
    for (const set of document.querySelectorAll(".tabbed-set")) {
      open(document.getElementById([...set.querySelectorAll("label")].find((label) => names.includes(label.innerText.trim()))?.htmlFor));
    }
    open(document.getElementById(location.hash.slice(1)));
  });
}
