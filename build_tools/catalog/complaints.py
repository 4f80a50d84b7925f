"""Validation errors of the typed entries, in an author's words and at the right line."""

from __future__ import annotations

import difflib
import re
import types
import typing
from collections.abc import Callable, Iterator
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from ..english import lower_first
from .entries import COLOUR_PATTERN, ID_PATTERN, KEY_PATTERN, LEAST, TODO, Unfit
from .finding import Finding, Spot
from .misread import as_id, cut_by_a_comma, interval, number_help, odd_character
from .yaml_file import SourceFile

#: The author has still to write here; in entries that can be typed the rule of this id finds it.
DRAFT = "draft-finished"


def did_you_mean(word: str, known: list[str]) -> str | None:
    """``did you mean ...?`` for the nearest known word, or ``None`` when nothing is near."""
    near = difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    return f"did you mean `{near[0]}`?" if near else None


def keys(model: type[BaseModel]) -> list[str]:
    """The keys an author may write for ``model``."""
    return [field.alias or name for name, field in model.model_fields.items()]


def findings(
    error: ValidationError, src: SourceFile, model: type[BaseModel], data: Any
) -> list[Finding]:
    """One finding for each text that is still to be written, and for each other thing the validator complains of."""
    drafts = [unfinished(src, model, *place) for place in _drafts(data, ())]
    told = {finding.spot for finding in drafts}
    complaints = (_finding(details, src, model) for details in error.errors(include_url=False))
    return drafts + [complaint for complaint in complaints if complaint.spot not in told]


def unfinished(
    src: SourceFile, model: type[BaseModel], path: tuple[str | int, ...], text: str, key: bool
) -> Finding:
    """What is said of a text, or of a key, that a draft leaves to its author; the help tells what belongs there."""
    asked = text.removeprefix(TODO).lstrip(": ") or _described(model, path) or ""
    if key:
        name = f"a key of {_name(path[:-1])}"
    elif str(path[-1]).startswith(TODO):
        name = f"a value of {_name(path[:-1])}"
    else:
        name = _name(path)
    told = f" ({lower_first(asked.removesuffix('.'))})" if asked else ""
    return Finding(
        DRAFT,
        Spot(src.label, *src.position(path, key)),
        f"{name} is still to be written",
        f"write it{told}, or take the line out",
    )


def _drafts(value: Any, path: tuple[str | int, ...]) -> Iterator[tuple[Any, str, bool]]:
    """Path of every text and key that begins with the mark of a draft, the text, and whether it is a key."""
    if isinstance(value, str):
        if value.startswith(TODO):
            yield path, value, False
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _drafts(item, (*path, index))
    elif isinstance(value, dict):
        for key, item in value.items():
            if key.startswith(TODO):
                yield (*path, key), key, True
            yield from _drafts(item, (*path, key))


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
    return _WORDS.get(said.kind, _wrong_type)(said)


def _unknown_key(said: _Complaint) -> Finding:
    before = said.src.text.split("\n")[said.here.line - 1][: said.here.column - 1]
    if said.value is None and (number := cut_by_a_comma(before, said.key)):
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
        did_you_mean(said.key.lower(), known) or f"known here: {', '.join(known)}",
    )


def _missing_key(said: _Complaint) -> Finding:
    described = _described(said.model, said.loc)
    help = f"add `{said.key}:`" + (f" ({described})" if described else "")
    return Finding("missing-key", said.here, f"the key {said.name} is missing", help)


def _unfit(said: _Complaint) -> Finding:
    """An entry whose keys do not go together; the complaint is its own."""
    error, here = said.context["error"], said.here
    assert isinstance(error, Unfit)
    if error.key:
        here = Spot(said.src.label, *said.src.position((*said.loc, error.key), key=True))
    return Finding("wrong-value", here, str(error), error.help)


def _wrong_form(said: _Complaint) -> Finding:
    return said.wrong(*_pattern(said.context["pattern"], said.value))


def _wrong_word(said: _Complaint) -> Finding:
    expected = said.context["expected"].replace("'", "`")
    if isinstance(said.value, str) and (odd := odd_character(said.value)):
        return said.wrong(f"has a character that only looks right ({odd})", _ANEW)
    return said.wrong(f"cannot be {_shown(said.value)}", f"write one of: {expected}")


def _out_of_bounds(said: _Complaint) -> Finding:
    bound = next(iter(said.context[key] for key in ("gt", "ge", "lt", "le") if key in said.context))
    if "ge" in said.context and said.value <= 0 < bound <= LEAST:
        return said.wrong(f"cannot be {_shown(said.value)}", "write a number above 0")
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
        _keys_help(said) or _write_instead(said.kind, said.value, said.key),
    )


def _keys_help(said: _Complaint) -> str | None:
    """What to write for a plain value where a mapping with known keys belongs."""
    inner = _model_at(said.model, said.loc) if said.kind.startswith("model") else None
    if inner is None or isinstance(said.value, list | dict):
        return None
    asked = [f.alias or name for name, f in inner.model_fields.items() if f.is_required()]
    if said.value is not None and len(asked) in (1, 2):
        more = f", {asked[1]}: ..." if len(asked) > 1 else ""
        return f"write it under its key: {{{asked[0]}: {said.value}{more}}}"
    return f"write it under one of its keys: {', '.join(keys(inner))}"


def _entries(value: Any) -> str:
    return f"{len(value)} {'entry' if len(value) == 1 else 'entries'}"


def _name(loc: tuple[int | str, ...]) -> str:
    """``hip``, or ``entry 2 of equipment``, between backquotes as they are written in the file."""
    if not loc:
        return "the file"
    return (
        f"entry {loc[-1] + 1} of {_name(loc[:-1])}" if isinstance(loc[-1], int) else f"`{loc[-1]}`"
    )


def _described(model: type[BaseModel], path: tuple[int | str, ...]) -> str | None:
    """What the field is for that a path leads to or into, as its model says."""
    for end in range(len(path), 0, -1):
        inner = _model_at(model, path[: end - 1])
        for name, field in inner.model_fields.items() if inner else ():
            if (field.alias or name) == path[end - 1]:
                return field.description
    return None


def _model_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> type[BaseModel] | None:
    """The model that validates the value at ``loc``, found through the field annotations."""
    annotation: Any = model
    for step in loc:
        annotation = bare(annotation)
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            annotation = next(
                (f.annotation for n, f in annotation.model_fields.items() if step in (n, f.alias)),
                None,
            )
        else:
            args = typing.get_args(annotation)
            annotation = args[-1] if args else None
    annotation = bare(annotation)
    return (
        annotation if isinstance(annotation, type) and issubclass(annotation, BaseModel) else None
    )


def bare(annotation: Any) -> Any:
    """A field's type without ``Annotated`` and ``| None``; of several types the first."""
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


def _write_instead(kind: str, value: Any, key: str) -> str:
    if kind.startswith("date"):
        return "write it as year-month-day, e.g. 2026-11-20"
    if kind.startswith("bool"):
        return "write true or false (yes, no, on and off are plain text in YAML 1.2)"
    if kind.startswith("list"):
        if isinstance(value, dict):
            return "start its first line with `- `, or put brackets around it: [{key: value}]"
        if isinstance(value, str) and (ends := interval(value)):
            return f"put it in brackets: {ends}"
        return (
            f"put it in brackets: [{value}]"
            if isinstance(value, str | int) and len(str(value)) <= 60
            else "put it in brackets: [first, second], or start each line with `- `"
        )
    if kind.startswith("string"):
        return (
            'put it in quotes: "..."'
            if not isinstance(value, (dict, list)) and value is not None
            else "write one line of text"
        )
    if kind.startswith(("int", "float")):
        return number_help(value if isinstance(value, str) else "", key)
    return "indent its `key: value` lines below it"


def _pattern(pattern: str, value: str) -> tuple[str, str]:
    """Why text fails the pattern of its field, and what to write."""
    shown = _shown(value)
    if pattern.startswith("^https?"):
        return f"cannot be {shown}", "write a full address that starts with https://"
    plain = re.fullmatch(r"\^(\[\^.+\])\{1,([0-9]+)\}\$", pattern, re.DOTALL)
    if not plain:
        return _not_an_id(pattern, value)
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
    return f"has an invisible character (U+{ord(refused):04X})", _ANEW


#: Pattern of ids -> what one is made of, and what stands between its words.
_ID_FORMS = {
    ID_PATTERN: ("small letters, digits and single hyphens, a letter first", "-", "seated-row"),
    KEY_PATTERN: ("small letters and digits, a letter first", "", "smith2024"),
}
_ANEW = "type the text anew here"


def _not_an_id(pattern: str, value: str) -> tuple[str, str]:
    shown = _shown(value)
    if pattern == COLOUR_PATTERN:
        form = '# and six small digits, red, green and blue: "#155e5b"'
        return f"cannot be {shown}", f"use {form}"
    if glued := re.fullmatch(r"([a-z-]+):([-+.0-9]+)", value):
        return f"cannot be {shown}", f"write a space after the colon: {glued[1]}: {glued[2]}"
    form, gap, example = _ID_FORMS.get(
        pattern, ("muscle or muscle/part", "-", "hamstrings/biceps-femoris-long-head")
    )
    if odd := odd_character(value):
        return f"has a character that no id has ({odd}), as in {shown}", f"type it anew: {form}"
    if pattern == KEY_PATTERN and re.search(r"[/.]", value):
        return f"cannot be {shown}", f"write the key of its record in references.bib: {example}"
    if (made := as_id(value, gap)) and made != value:
        return f"cannot be {shown}", f"use {form}: {made}"
    return f"cannot be {shown}", f"use {form}: {example}"
