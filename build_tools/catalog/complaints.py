"""Validation errors of the typed entries, in an author's words and at the right line."""

from __future__ import annotations

import difflib
import re
import types
import typing
from collections.abc import Callable
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from .entries import COLOUR_PATTERN, ID_PATTERN, KEY_PATTERN, TODO, Unfit
from .finding import Finding, Spot
from .yaml_file import SourceFile


def did_you_mean(word: str, known: list[str]) -> str | None:
    """``did you mean ...?`` for the nearest known word, or ``None`` when nothing is near."""
    near = difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    return f"did you mean `{near[0]}`?" if near else None


def keys(model: type[BaseModel]) -> list[str]:
    """The keys an author may write for ``model``."""
    return [field.alias or name for name, field in model.model_fields.items()]


def findings(error: ValidationError, src: SourceFile, model: type[BaseModel]) -> list[Finding]:
    """One finding for each thing the validator complains of."""
    return [_finding(details, src, model) for details in error.errors(include_url=False)]


class _Complaint:
    """One thing that the validator complains of, with what its words are made of."""

    def __init__(self, details: ErrorDetails, src: SourceFile, model: type[BaseModel]):
        self.kind, self.value, self.context = (
            details["type"],
            details["input"],
            details.get("ctx") or {},
        )
        # The validator marks a complaint about a mapping's key by a last step of its own.
        of_key = bool(details["loc"]) and details["loc"][-1] == "[key]"
        self.loc = details["loc"][:-1] if of_key else details["loc"]
        self.name = "the key" if of_key else _name(self.loc)
        self.src, self.model = src, model
        self.here = Spot(
            src.label, *src.position(self.loc, key=of_key or self.kind == "extra_forbidden")
        )

    @property
    def key(self) -> str:
        """The last step to the value, empty for the whole file."""
        return str(self.loc[-1]) if self.loc else ""

    def wrong(self, message: str, help: str) -> Finding:
        """A value of the right type that cannot be."""
        return Finding("wrong-value", self.here, f"{self.name} {message}", help)


def _finding(details: ErrorDetails, src: SourceFile, model: type[BaseModel]) -> Finding:
    said = _Complaint(details, src, model)
    if isinstance(said.value, str) and said.value.startswith(TODO):
        # A draft of ours: what is missing matters, not that it has the wrong type.
        told = f"{said.name} is still to be written: `{said.value}`"
        return Finding("draft-finished", said.here, told, "write it, or take the line out")
    return _WORDS.get(said.kind, _wrong_type)(said)


def _unknown_key(said: _Complaint) -> Finding:
    if said.value is None and (number := _cut_by_a_comma(said.src, said.here, said.key)):
        return Finding(
            "unknown-key",
            said.here,
            f"unknown key {said.name}: a comma cannot stand in the number {number.replace('.', ',')}",
            f"write a decimal point: {number}",
        )
    known = keys(_model_at(said.model, said.loc[:-1]) or said.model)
    return Finding(
        "unknown-key",
        said.here,
        f"unknown key {said.name}",
        did_you_mean(said.key, known) or f"known here: {', '.join(known)}",
    )


def _missing_key(said: _Complaint) -> Finding:
    inner = _model_at(said.model, said.loc[:-1])
    described = inner and next(
        (f.description for n, f in inner.model_fields.items() if (f.alias or n) == said.loc[-1]),
        None,
    )
    help = f"add `{said.key}:`" + (f" ({described})" if described else "")
    return Finding("missing-key", said.here, f"the key {said.name} is missing", help)


def _unfit(said: _Complaint) -> Finding:
    """An entry whose keys do not go together; the complaint is its own."""
    error, here = said.context["error"], said.here
    if isinstance(error, Unfit) and error.key:
        here = Spot(said.src.label, *said.src.position((*said.loc, error.key), key=True))
    return Finding(
        "wrong-value",
        here,
        str(error),
        error.help if isinstance(error, Unfit) else "change the keys of this entry to fit",
    )


def _wrong_form(said: _Complaint) -> Finding:
    return said.wrong(*_pattern(said.context["pattern"], said.value))


def _wrong_word(said: _Complaint) -> Finding:
    expected = said.context["expected"].replace("'", "`")
    return said.wrong(f"cannot be {_shown(said.value)}", f"write one of: {expected}")


def _out_of_bounds(said: _Complaint) -> Finding:
    bound = next(iter(said.context[key] for key in ("gt", "ge", "lt", "le") if key in said.context))
    return said.wrong(
        f"cannot be {_shown(said.value)}", f"write a number {_BOUNDS[said.kind]} {bound:g}"
    )


def _too_few(said: _Complaint) -> Finding:
    return said.wrong(f"has {_entries(said.value)}", f"write at least {said.context['min_length']}")


def _too_many(said: _Complaint) -> Finding:
    """Twice as many whole numbers as may stand there are numbers with a decimal comma."""
    value, bound = said.value, said.context["max_length"]
    commas = (
        isinstance(value, list)
        and len(value) == 2 * bound
        and all(re.fullmatch("-?[0-9]+", str(x)) for x in value)
    )
    pointed = (
        ", ".join(f"{a}.{b}" for a, b in zip(value[::2], value[1::2], strict=True))
        if commas
        else ""
    )
    return said.wrong(
        f"has {_entries(value)}",
        f"write at most {bound}"
        + (f"; a decimal is written with a point: [{pointed}]" if commas else ""),
    )


def _too_long(said: _Complaint) -> Finding:
    return said.wrong(
        f"has {len(said.value)} characters", f"write at most {said.context['max_length']}"
    )


def _endless(said: _Complaint) -> Finding:
    return said.wrong("is larger than any number", "write it with fewer digits")


def _wrong_type(said: _Complaint) -> Finding:
    return Finding(
        "wrong-type",
        said.here,
        f"{said.name} should be {_wanted(said.kind)}, not {_given(said.value)}",
        _write_instead(said.kind, said.value, said.key),
    )


def _entries(value: Any) -> str:
    return f"{len(value)} {'entry' if len(value) == 1 else 'entries'}"


def _name(loc: tuple[int | str, ...]) -> str:
    """``hip``, or ``entry 2 of equipment``, between backquotes as they are written in the file."""
    if not loc:
        return "the file"
    return (
        f"entry {loc[-1] + 1} of {_name(loc[:-1])}" if isinstance(loc[-1], int) else f"`{loc[-1]}`"
    )


def _model_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> type[BaseModel] | None:
    """The model that validates the value at ``loc``, found through the field annotations."""
    annotation: Any = model
    for step in loc:
        annotation = _bare(annotation)
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            annotation = next(
                (f.annotation for n, f in annotation.model_fields.items() if step in (n, f.alias)),
                None,
            )
        else:
            args = typing.get_args(annotation)
            annotation = args[-1] if args else None
    annotation = _bare(annotation)
    return (
        annotation if isinstance(annotation, type) and issubclass(annotation, BaseModel) else None
    )


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


def _given(value: Any) -> str:
    """A value of the wrong type; text in quotes that looks like a number is told from the number."""
    return f"the text {_shown(value)}" if isinstance(value, str) else _shown(value)


_BOUNDS = {
    "greater_than": "above",
    "greater_than_equal": "of at least",
    "less_than": "below",
    "less_than_equal": "of at most",
}

#: The validator's kind of complaint -> what words it; a kind that is not here is a wrong type.
_WORDS: dict[str, Callable[[_Complaint], Finding]] = {
    "extra_forbidden": _unknown_key,
    "missing": _missing_key,
    "value_error": _unfit,
    "string_pattern_mismatch": _wrong_form,
    "literal_error": _wrong_word,
    "too_short": _too_few,
    "too_long": _too_many,
    "string_too_long": _too_long,
    "finite_number": _endless,
    **dict.fromkeys(_BOUNDS, _out_of_bounds),
}

_WANTED = {
    "string": "text",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "list": "a list",
    "dict": "a mapping (`key: value` lines)",
    "model": "a mapping (`key: value` lines)",
    "date": "a date",
}


def _wanted(kind: str) -> str:
    return next(
        (words for start, words in _WANTED.items() if kind.startswith(start)), "something else"
    )


def _cut_by_a_comma(src: SourceFile, here: Spot, rest: str) -> str | None:
    """``33.3`` where ``{mean: 33,3}`` made a key of the ``3``, else ``None``."""
    before = re.search(r"(-?[0-9]+),$", src.text.split("\n")[here.line - 1][: here.column - 1])
    return f"{before[1]}.{rest}" if before and rest.isascii() and rest.isdigit() else None


def _number_within(text: str, key: str) -> str | None:
    """What to write for text that holds a number among other things, else ``None``."""
    number = r"[-+]?[0-9]+(?:[.,][0-9]+)?"
    if spread := re.fullmatch(rf"({number})\s*(?:±|\+/?-)\s*({number})", text.strip()):
        return f"write the spread apart: mean: {spread[1].replace(',', '.')}, sd: {spread[2].replace(',', '.')} (or se:, as the paper says)"
    if spread := re.fullmatch(rf"(?:±|\+/?-)\s*({number})", text.strip()):
        return f"write the number alone: {key}: {spread[1].replace(',', '.')}"
    if (bound := re.fullmatch(r"([<>≤≥])\s*=?\s*(0?[.,][0-9]+)", text.strip())) and key == "p":
        side = "p_below" if bound[1] in "<≤" else "p_above"
        return f"write the bound as `{side}: 0.{bound[2].replace(',', '.').partition('.')[2]}` in place of `p:`"
    if re.fullmatch(r"[-+]?[0-9]+,[0-9]+", text.strip()):
        return f"write a decimal point: {text.strip().replace(',', '.')}"
    return None


def _write_instead(kind: str, value: Any, key: str) -> str:
    if kind.startswith("date"):
        return "write it as year-month-day, e.g. 2026-11-20"
    if kind.startswith("bool"):
        return "write true or false (yes, no, on and off are plain text in YAML 1.2)"
    if kind.startswith("list"):
        return "put it in brackets: [first, second], or start each line with `- `"
    if kind.startswith("string"):
        return (
            'put it in quotes: "..."'
            if not isinstance(value, (dict, list)) and value is not None
            else "write one line of text"
        )
    if kind.startswith(("int", "float")):
        return (
            isinstance(value, str) and _number_within(value, key)
        ) or "write plain digits, without quotes, unit or leading zero"
    return "indent its `key: value` lines below it"


def _pattern(pattern: str, value: str) -> tuple[str, str]:
    """Why text fails the pattern of its field, and what to write."""
    shown = _shown(value)
    if pattern.startswith("^https?"):
        return f"cannot be {shown}", "write a full address that starts with https://"
    plain = re.fullmatch(r"\^(\[\^.+\])\{1,([0-9]+)\}\$", pattern, re.DOTALL)
    if not plain:
        form = {
            ID_PATTERN: "small letters, digits and single hyphens, a letter first: seated-row",
            COLOUR_PATTERN: '# and six small digits, red, green and blue: "#155e5b"',
            KEY_PATTERN: "small letters and digits, a letter first: smith2024",
        }
        return (
            f"cannot be {shown}",
            f"use {form.get(pattern, 'muscle or muscle/part: hamstrings/biceps-femoris-long-head')}",
        )
    allowed, most = plain.groups()
    if not value.strip():
        return "is empty", "write some text, or remove the key"
    refused = next((c for c in value.strip() if not re.fullmatch(allowed, c)), None)
    if refused is None:
        return f"has {len(value.strip())} characters", f"write at most {most}; say one thing"
    if refused == "\n":
        return "has a line break", "write it as one line, or with `>-`"
    if refused.isprintable():
        return (
            f"has a `{refused}`, as in {_shown(value)}",
            "say it in words: catalog text holds no markup",
        )
    return f"has an invisible character (U+{ord(refused):04X})", "type the text anew here"
