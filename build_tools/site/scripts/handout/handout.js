// Starts the page: no fragment, the builder; add=<id>, the builder with that exercise; a handout's fragment, the client's view; anything else, a message and nothing more.

import { part } from "../dom.js";
import { BadFragment, decode } from "../rules/link.js";
import { builder } from "./builder.js";
import { say } from "./say.js";
import { show } from "./view.js";

const PARTS = ["builder", "view", "problem"];
const here = new URL("./", location.href).href, title = document.title;
let handout = null;

function reveal(name) {
  for (const each of PARTS) part(each).hidden = each !== name;
}

function complain(message) {
  document.title = title;
  part("message").textContent = message;
  reveal("problem");
}

function fetched() {
  return fetch(new URL("data.json", here)).then((answer) => answer.ok ? answer.json() : Promise.reject(new Error(String(answer.status))));
}

async function start() {
  const data = await fetched();
  const names = new Map(Object.entries(data.exercises).map(([id, [name]]) => [id, name]));
  const known = new Map([...Object.entries(data.moved), ...[...names.keys()].map((id) => [id, id])]);
  const { fill, link } = builder(data, names);

  async function route() {
    say("");
    const fragment = location.hash.slice(1);
    if (!fragment) {
      document.title = title;
      return reveal("builder");
    }
    const begun = fragment.startsWith("add=") && known.get(fragment.slice(4));
    if (begun) {
      fill({ days: [{ items: [{ id: begun }] }] });
      history.replaceState(null, "", here);
      return route();
    }
    try {
      handout = decode(fragment, data.rules, known);
    } catch (bad) {
      if (!(bad instanceof BadFragment)) throw bad;
      return complain(data.rules.messages[bad.kind]);
    }
    reveal("view");
    await show(handout, names);
  }

  addEventListener("hashchange", route);
  part("edit").addEventListener("click", () => {
    fill(handout);
    history.pushState(null, "", here);
    route();
    scrollTo(0, 0);
  });
  part("open").addEventListener("click", () => {
    location.href = link();
    scrollTo(0, 0);
  });
  part("print").addEventListener("click", async () => {
    history.pushState(null, "", link());
    await route();
    print();
  });
  part("print-view").addEventListener("click", () => print());
  await route();
}

start().catch(() => complain("This page could not be loaded whole. Open it again where there is a signal."));
