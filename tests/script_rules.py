"""Runs what the pages decide, ``build_tools/site/scripts/rules``, in an embedded engine (QuickJS), without a browser.

The modules there are pure: they import only each other and touch nothing of a page. ``TextEncoder`` and ``TextDecoder``, which the
engine lacks, are made of its own ``encodeURIComponent`` and ``decodeURIComponent``; tests/site/scripts/rules/test_link.py holds them against
a browser's.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

import quickjs

RULES = Path(__file__).parents[1] / "build_tools" / "site" / "scripts" / "rules"
_IMPORT = re.compile(r'^import \{ (.+?) \} from "\./(\w+)\.js";$', re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:const|function|class) )", re.MULTILINE)
_NAME = re.compile(r"^export (?:function|class) (\w+)|^export const (.+)$", re.MULTILINE)
_TEXT = r"""
globalThis.TextEncoder = class { encode(text) {
  return Uint8Array.from(unescape(encodeURIComponent(text.toWellFormed())), (letter) => letter.charCodeAt(0)); } };
globalThis.TextDecoder = class {
  constructor(name, { ignoreBOM = false }) { this.ignoreBOM = ignoreBOM; }
  decode(bytes) {
    const text = decodeURIComponent(escape(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")));
    return this.ignoreBOM ? text : text.replace(/^\ufeff/, ""); } };
globalThis.modules = {}; globalThis.kept = [];
globalThis.answer = (act) => { try { return JSON.stringify({ value: act() ?? null }); } catch (bad) {
  if (!/^Bad[A-Z]/.test(bad.constructor.name)) throw bad;
  return JSON.stringify({ refused: [bad.kind ?? "", bad.message] }); } };
"""


class Refused(ValueError):
    """What a script refused with a reason of its own (``BadPlan``, ``BadFragment``): ``kind`` if it has one, and the message."""

    def __init__(self, kind: str, message: str) -> None:
        super().__init__(message)
        self.kind = kind


class Map(dict[str, str]):
    """An argument that the script takes as a ``Map``."""


class Kept:
    """An argument that the engine keeps: written out and read once, not at every call. It must hold plain JSON."""

    def __init__(self, value: object) -> None:
        self.name = f"kept[{_CONTEXT.eval(f'kept.push({json.dumps(value)})')} - 1]"


class Module:
    """One module; its functions are called by their names."""

    def __init__(self, context: quickjs.Context, name: str) -> None:
        self._context, self._name = context, name

    def __getattr__(self, function: str) -> Any:
        def call(*arguments: object) -> Any:
            asked = f"answer(() => modules.{self._name}.{function}({', '.join(map(_literal, arguments))}))"
            told = json.loads(self._context.eval(asked))
            if "refused" in told:
                raise Refused(*told["refused"])
            return told["value"]

        return call


def _literal(value: object) -> str:
    """A Python value as an expression; NaN and infinity, which JSON lacks, are names that scripts know."""
    if isinstance(value, Kept):
        return value.name
    if isinstance(value, Map):
        return f"new Map({json.dumps(list(value.items()))})"
    if isinstance(value, datetime):
        return f"new Date('{value.isoformat()}Z')"
    if isinstance(value, Mapping) and "__proto__" in value:
        raise ValueError("a literal would set the prototype")
    return json.dumps(value)


def load(context: quickjs.Context, name: str) -> None:
    """The module and those it imports, each as a function's body that answers what it exports."""
    if context.eval(f"{json.dumps(name)} in modules"):
        return
    text = (RULES / f"{name}.js").read_text(encoding="utf-8")
    for _, other in _IMPORT.findall(text):
        load(context, other)
    exported = [
        one
        for function, constants in _NAME.findall(text)
        for one in ([function] if function else _constants(constants))
    ]
    body = _EXPORT.sub(
        "", _IMPORT.sub(lambda found: f"const {{ {found[1]} }} = modules.{found[2]};", text)
    )
    assert not re.search(r"^(import|export)\b", body, re.MULTILINE), name
    context.eval(
        f'modules.{name} = (() => {{ "use strict";\n{body}\nreturn {{ {", ".join(exported)} }}; }})()'
    )


def _constants(declared: str) -> list[str]:
    return (
        re.findall(r"(?:^|, )([A-Za-z]\w*) = ", declared)
        if "=>" not in declared
        else [declared.split(" ")[0]]
    )


def _engine() -> quickjs.Context:
    context = quickjs.Context()
    context.eval(_TEXT)
    for path in sorted(RULES.glob("*.js")):
        load(context, path.stem)
    return context


_CONTEXT = _engine()
(
    beside,
    care,
    citation,
    curves,
    days,
    doses,
    evidence_map,
    finder,
    first_dose,
    frame,
    grid,
    link,
    loads,
    moved,
    names,
    nearest,
    narrow,
    plan,
    progress,
    query,
    questions,
    ranking,
    records,
    shortlist,
    table,
    text,
    ticks,
    typed,
    week,
    words,
    zip_,
) = (
    Module(_CONTEXT, name)
    for name in (
        "beside",
        "care",
        "citation",
        "curves",
        "days",
        "doses",
        "evidence_map",
        "finder",
        "first_dose",
        "frame",
        "grid",
        "link",
        "loads",
        "moved",
        "names",
        "nearest",
        "narrow",
        "plan",
        "progress",
        "query",
        "questions",
        "ranking",
        "records",
        "shortlist",
        "table",
        "text",
        "ticks",
        "typed",
        "week",
        "words",
        "zip",
    )
)
