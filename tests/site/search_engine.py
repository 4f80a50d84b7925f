"""The search as a page runs it, in the embedded engine: its index comes from the files of a book, what it fetches is counted."""

from __future__ import annotations

import gzip
import json
import re
from collections.abc import Mapping
from typing import Any, NamedTuple

import quickjs
from script_rules import RULES, load

_FOLDER = RULES.parent / "search"
_EXPORT = re.compile(r"^export (?=(?:const|function|class) )", re.MULTILINE)
_IMPORT = re.compile(r"^import (.+?) from \"\.\.?/(?:rules/)?([\w-]+)\.js\";$", re.MULTILINE)


class Answer(NamedTuple):
    """What a query finds."""

    named: bool
    """Whether something is called so."""
    places: list[dict[str, Any]]
    """kind, title, address and rank of each, best first."""
    fetched: list[str]
    """The files that the first answer took, in order."""


class Search:
    """The search over the files of a book, by their uris."""

    def __init__(self, files: Mapping[str, bytes]) -> None:
        self._files = files
        self._context = quickjs.Context()
        self._context.eval("globalThis.modules = {};")
        for name in ("query", "ranking"):
            load(self._context, name)
        library = (_FOLDER / "searchable-map.js").read_text(encoding="utf-8")
        library = library.replace(
            "export { SearchableMap as default };", "return SearchableMap;"
        ).replace("//# sourceMappingURL=SearchableMap.js.map", "")
        self._context.eval(f"const SearchableMap = (() => {{ 'use strict'; {library}\n }})();")
        engine = _EXPORT.sub("", (_FOLDER / "engine.js").read_text(encoding="utf-8"))
        engine = _IMPORT.sub(
            lambda found: f"const {found[1]} = modules.{found[2]};" if "{" in found[1] else "",
            engine,
        )
        self._context.eval(
            f"const {{ Names, Texts }} = (() => {{ 'use strict'; {engine}\nreturn {{ Names, Texts }}; }})();"
        )

        self._context.eval(
            f"""const index = {files["search/names.json"].decode()}, whole = new Names(index), held = {{}};
            const written = new Texts({files["search/texts.json"].decode()}, index.same);
            function begin() {{  // the words are read once, the places anew: nothing was fetched yet
              globalThis.names = Object.assign(Object.create(Names.prototype), whole, {{ places: new Map() }});
              globalThis.texts = Object.assign(Object.create(Texts.prototype), written, {{ held: new Map() }});
            }}"""
        )

    def _add(self, kind: str, numbers: list[int]) -> list[str]:
        uris = [f"search/{kind}-{number}.json" for number in numbers]
        for uri in uris:
            if not self._context.eval(f"'{uri}' in held"):
                self._context.eval(f"held['{uri}'] = {self._files[uri].decode()}; undefined")
            self._context.eval(f"{kind}.add(held['{uri}'])")
        return uris

    def _ask(self, expression: str) -> Any:
        return json.loads(self._context.eval(f"JSON.stringify({expression})"))

    def answer(self, query: str) -> Answer:
        """The names that a page shows when this is typed into it first."""
        self._context.eval("begin()")
        read = self._ask(f"globalThis.asked = names.read({json.dumps(query)})")
        fetched = self._add("names", read["files"])
        shown = """(({ found, named }) => ({ named, found: found.slice(0, 12).map(({ place, rank }) =>
            ({ kind: names.kinds[place.kind], title: place.title, address: place.address, rank })) }))(names.find(asked))"""
        found = self._ask(shown)
        if not found["named"]:
            fetched += self._add("names", [n for n in read["more"] if n not in read["files"]])
            found = self._ask(shown)
        return Answer(found["named"], found["found"], ["search/names.json", *fetched])

    def sections(self, query: str) -> list[dict[str, Any]]:
        """title, heading and address of the sections that a page shows below the names."""
        self._context.eval("begin()")
        self._add(
            "texts", self._ask(f"globalThis.asked = texts.read({json.dumps(query)})")["files"]
        )
        found = self._ask("globalThis.found = texts.find(asked).slice(0, 8)")
        files = ",".join(
            f"[{n},{self._files[f'search/sections-{n}.json'].decode()}]"
            for n in self._ask("texts.told(found)")
        )
        return self._ask(f"texts.called(found, new Map([{files}]))") if found else []

    def sent(self, uris: list[str]) -> tuple[int, int]:
        """Bytes of these files as they are and as a host sends them."""
        return sum(len(self._files[uri]) for uri in uris), sum(
            len(gzip.compress(self._files[uri], 9)) for uri in uris
        )
