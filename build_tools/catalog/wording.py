"""Validation errors of the typed entries, in an author's words and at the right line."""

from __future__ import annotations

import difflib
import types
import typing
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from .finding import Finding, Spot
from .source import Source


def did_you_mean(word: str, known: list[str]) -> str | None:
    """``did you mean ...?`` for the nearest known word, or ``None`` when nothing is near."""
    near = difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    return f"did you mean `{near[0]}`?" if near else None


def keys(model: type[BaseModel]) -> list[str]:
    """The keys an author may write for ``model``."""
    return [field.alias or name for name, field in model.model_fields.items()]


def findings(error: ValidationError, src: Source, model: type[BaseModel], data: Any) -> list[Finding]:
    """One finding for each thing the validator complains of."""
    return [_finding(details, src, model, data) for details in error.errors(include_url=False)]


def _finding(details: ErrorDetails, src: Source, model: type[BaseModel], data: Any) -> Finding:
    kind, loc = details["type"], tuple(step for step in details["loc"] if step != "[key]")
    name = str(loc[-1]) if loc else "file"
    here = Spot(src.label, *src.position(loc, key=kind == "extra_forbidden" or "[key]" in details["loc"]))
    context = details.get("ctx") or {}
    if kind == "extra_forbidden":
        known = keys(_model_at(model, loc[:-1]) or model)
        suggestion = did_you_mean(name, known)
        return Finding("unknown-key", here, f"unknown key `{name}`",
                       suggestion or f"known here: {', '.join(known)}")
    if kind == "missing":
        inner = _model_at(model, loc[:-1])
        described = inner and next((f.description for n, f in inner.model_fields.items() if (f.alias or n) == name), None)
        return Finding("missing-key", here, f"the key `{name}` is missing", f"add `{name}:`" + (f" ({described})" if described else ""))
    if kind == "value_error":
        return Finding("wrong-value", here, str(context.get("error", details["msg"])), "see the entry's outline in DEVELOPERS.md")
    if kind == "string_pattern_mismatch":
        return Finding("wrong-value", here, f"`{name}`: {_shown(details['input'])} {_pattern(str(context.get('pattern', '')))[0]}",
                       _pattern(str(context.get("pattern", "")))[1])
    if kind == "literal_error":
        expected = str(context.get("expected", "")).replace("'", "`")
        return Finding("wrong-value", here, f"`{name}` cannot be {_shown(details['input'])}", f"write one of: {expected}")
    if kind.endswith("_type") or kind.endswith("_parsing") or "date" in kind:
        return Finding("wrong-type", here, f"`{name}` should be {_wanted(kind)}, not {_shown(details['input'])}",
                       _write_instead(kind, details["input"]))
    return Finding("wrong-value", here, f"`{name}`: {details['msg'][0].lower()}{details['msg'][1:]}", "change the value to fit")


def _model_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> type[BaseModel] | None:
    """The model that validates the value at ``loc``, found through the field annotations."""
    annotation: Any = model
    for step in loc:
        annotation = _bare(annotation)
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            annotation = next((f.annotation for n, f in annotation.model_fields.items() if step in (n, f.alias)), None)
        else:
            args = typing.get_args(annotation)
            annotation = args[-1] if args else None
    annotation = _bare(annotation)
    return annotation if isinstance(annotation, type) and issubclass(annotation, BaseModel) else None


def _bare(annotation: Any) -> Any:
    """Strip ``Annotated`` and ``| None``."""
    while True:
        origin = typing.get_origin(annotation)
        if origin is typing.Annotated:
            annotation = typing.get_args(annotation)[0]
        elif origin in (typing.Union, types.UnionType):
            annotation = next(a for a in typing.get_args(annotation) if a is not type(None))
        else:
            return annotation


def _shown(value: Any) -> str:
    if value is None:
        return "empty"
    if isinstance(value, dict):
        return "a mapping (`key: value` lines)"
    if isinstance(value, list):
        return "a list"
    text = str(value).lower() if isinstance(value, bool) else str(value)
    return "`" + (text if len(text) <= 60 else text[:57] + "...").replace("\n", " ") + "`"


_WANTED = {
    "string": "text", "int": "a whole number", "float": "a number", "bool": "true or false",
    "list": "a list", "dict": "a mapping (`key: value` lines)", "model": "a mapping (`key: value` lines)",
    "date": "a date",
}


def _wanted(kind: str) -> str:
    return next((words for start, words in _WANTED.items() if kind.startswith(start)), "something else")


def _write_instead(kind: str, value: Any) -> str:
    if kind.startswith("date"):
        return "write it as year-month-day, e.g. 2026-11-20"
    if kind.startswith("bool"):
        return "write true or false (yes, no, on and off are plain text in YAML 1.2)"
    if kind.startswith("list"):
        return "put it in brackets: [first, second], or start each line with `- `"
    if kind.startswith("string"):
        return 'put it in quotes: "..."' if not isinstance(value, (dict, list)) and value is not None else "write one line of text"
    if kind.startswith(("int", "float")):
        return "write plain digits, without quotes, unit or leading zero"
    return "indent its `key: value` lines below it"


def _pattern(pattern: str) -> tuple[str, str]:
    """What a failed pattern means, and what to write."""
    if pattern.startswith("^[a-z]"):
        return ("is not an id", "use small letters, digits and single hyphens, e.g. seated-row; parts as muscle/part")
    if pattern.startswith("^https?"):
        return ("is not a web address", "write a full address that starts with https://")
    return ("has characters that catalog text may not hold",
            "write one line of plain text without < > (in names also without * _ ` # | [ ] { } & or double quotes), line breaks or markup")
