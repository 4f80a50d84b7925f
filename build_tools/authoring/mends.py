"""What a machine can mend: for each rule whose finding has one right answer, how its lines are written then.

A mend looks at one finding and gives back the file's new text, together with what its data must be afterwards. It gives
back nothing where more than one answer is possible: that is the author's.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any, NamedTuple

import yaml

from ..catalog import entries, yaml_file
from ..catalog.finding import Finding
from ..checks.names import plain
from ..checks.rules.reference_identifier import FORMS
from .skeleton import fields_of, model_in, shape_of, written
from .yaml_edit import TextPlace, YamlText, replaced, without

#: Characters that nobody sees: zero-width ones, marks of text direction, a byte order mark.
_INVISIBLE = re.compile("[\u200b-\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff]")
#: What only looks like a space (Unicode category Zs without U+0020).
_ODD_SPACE = "\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000"
#: Such spaces where YAML needs plain ones: at the head of a line, after a dash and after a key.
_ODD_AT_HEAD = re.compile(
    rf"^[ {_ODD_SPACE}]*(?:-[ {_ODD_SPACE}]+)?(?:[a-z_-]+:[ {_ODD_SPACE}]+)?", re.MULTILINE
)
_ISO, _SLASHED = (
    re.compile(r"(\d{4})[/.](\d{1,2})[/.](\d{1,2})"),
    re.compile(r"(\d{1,2})[/.](\d{1,2})[/.](\d{4})"),
)
_BOUND = re.compile(r"(<|>|&lt;|&gt;)\s*0?[.,](\d+)")
_NUMBER = re.compile(r"-?(?:0|[1-9]\d{0,17})(?:\.\d+)?")
#: Addresses that hold nothing but an identifier, which is then known exactly.
_ADDRESSES: dict[str, re.Pattern[str]] = {
    "doi": re.compile(
        r"(?:https?://(?:dx\.|www\.)?doi\.org/|doi:\s*)(10\.[^\s}\"]+)", re.IGNORECASE
    ),
    "pmid": re.compile(r"https?://pubmed\.ncbi\.nlm\.nih\.gov/([0-9]+)/?", re.IGNORECASE),
    "pmcid": re.compile(
        r"https?://(?:pmc\.ncbi\.nlm\.nih\.gov|www\.ncbi\.nlm\.nih\.gov/pmc)/articles/(PMC[0-9]+)/?",
        re.IGNORECASE,
    ),
}
#: Keys of lists whose items are entries themselves, so that a word in brackets would be no item of them.
_OF_ENTRIES = {
    key
    for model in vars(entries).values()
    if isinstance(model, type) and issubclass(model, entries.Entry)
    for key, info in fields_of(model)
    if shape_of(info.annotation) == "list" and model_in(info.annotation)
}


class Letters(NamedTuple):
    """Instead of data: the text may differ by spaces and invisible characters only."""


class Mended(NamedTuple):
    """A file's text after one mend."""

    text: str
    data: Any
    """What its plain data must be: of a bibliography key -> field -> value. ``Letters`` where it could not be read before."""
    what: str
    """What was done, in the past tense."""


Mend = Callable[[str, Finding], Mended | None]


def _repeated_item(text: str, finding: Finding) -> Mended | None:
    """An entry of a list that stands before it already."""
    found = _item(text, finding)
    if found is None:
        return None
    edit, place = found
    items = _list_at(edit, place)
    index = place.path[-1]
    if items[index] not in items[:index]:
        return None
    return _dropped(edit, place, f"took out the second {_shown(items[index])}")


def _repeated_name(text: str, finding: Finding) -> Mended | None:
    """Another name that is the entry's name, or stands in the list before."""
    found = _item(text, finding)
    if found is None or found[1].path[0] != "also_called":
        return None
    edit, place = found
    names, index = edit.data["also_called"], place.path[-1]
    before = [edit.data.get("name", ""), *names[:index]]
    if plain(names[index]) not in map(plain, before):
        return None
    return _dropped(edit, place, f"took out the second `{names[index]}`")


def _needless_exception(text: str, finding: Finding) -> Mended | None:
    found = _item(text, finding)
    if found is None:
        return None
    edit, place = found
    exception = _list_at(edit, place)[place.path[-1]]
    told = f"took out the exception from `{exception['rule']}` for {exception['file']}"
    return _dropped(edit, place, told)


def _repeated_key(text: str, finding: Finding) -> Mended | None:
    """A key that stands twice with one value."""
    edit = YamlText(text)
    places = [p for p in edit.at(*finding.spot[1:]) if isinstance(p.parent, yaml.MappingNode)]
    place = places[-1] if places else None
    if place is None or place.key is None or not isinstance(place.parent, yaml.MappingNode):
        return None
    pairs = place.parent.value
    same = [
        YamlText(edit.source(value)).data for key, value in pairs if key.value == place.path[-1]
    ]
    if len(same) != 2 or same[0] != same[1] or isinstance(same[0], (dict, list)):
        return None
    made = edit.without_pair(place.key, place.node, bool(place.parent.flow_style))
    told = f"took out the second `{place.path[-1]}:`"
    return Mended(made, edit.data, told) if made else None


def _curly_quotes(text: str, finding: Finding) -> Mended | None:
    """Typographic marks around a text, which YAML takes for part of it."""
    found = _scalar(text, finding)
    if found is None:
        return None
    edit, place = found
    value = str(_value_of(place))
    inner, source = value.strip()[1:-1].strip(), edit.source(place.node)
    if "\n" in source or not inner or source.strip("\"'") != value:
        return None
    made = edit.with_source(place.node, written(inner))
    return Mended(made, replaced(edit.data, place.path, inner), "took the curly marks away")


def _unseen_in_value(text: str, finding: Finding) -> Mended | None:
    """Characters that nobody sees, in one value."""
    if finding.spot.file.endswith(".bib"):
        return _unseen_in_record(text, finding)
    found = _scalar(text, finding)
    if found is None or not _INVISIBLE.search(found[0].source(found[1].node)):
        return None
    edit, place = found
    made = edit.with_source(place.node, _INVISIBLE.sub("", edit.source(place.node)))
    value = _INVISIBLE.sub("", str(_value_of(place)))
    return Mended(made, replaced(edit.data, place.path, value), "took out an invisible character")


def _unseen_in_record(text: str, finding: Finding) -> Mended | None:
    made = _on_line(text, finding, lambda line: _INVISIBLE.sub("", line))
    return Mended(made, Letters(), "took out an invisible character") if made else None


def _unseen_anywhere(text: str, finding: Finding) -> Mended | None:
    """Characters that nobody sees, wherever they stand in a file that cannot be read for them."""
    made = _INVISIBLE.sub("", text)
    return Mended(made, Letters(), "took out invisible characters") if made != text else None


def _odd_spaces(text: str, finding: Finding) -> Mended | None:
    """Spaces that are none to YAML, where it needs plain ones."""
    made = _ODD_AT_HEAD.sub(lambda found: re.sub(f"[{_ODD_SPACE}]", " ", found[0]), text)
    return Mended(made, Letters(), "wrote plain spaces") if made != text else None


def _wrong_type(text: str, finding: Finding) -> Mended | None:
    """A value of the wrong type that says what it means all the same."""
    found = _scalar(text, finding)
    if found is None or not isinstance(_value_of(found[1]), str):
        return None
    for mend in (_date, _bound_of_p, _quoted_number, _one_of_a_list):
        if made := mend(*found, finding.message):
            return made
    return None


def _date(edit: YamlText, place: TextPlace, message: str) -> Mended | None:
    """A date that can be read in one way only, as year-month-day."""
    value = str(_value_of(place))
    if "should be a date" not in message:
        return None
    if found := _ISO.fullmatch(value):
        readings = {_day(found[1], found[2], found[3])}
    elif found := _SLASHED.fullmatch(value):
        readings = {_day(found[3], found[2], found[1]), _day(found[3], found[1], found[2])}
    else:
        return None
    readings.discard(None)
    if len(readings) != 1:
        return None
    day = str(readings.pop())
    made = edit.with_source(place.node, day)
    return Mended(made, replaced(edit.data, place.path, day), f"wrote `{value}` as {day}")


def _bound_of_p(edit: YamlText, place: TextPlace, message: str) -> Mended | None:
    """``p: <0.05`` as ``p_below: 0.05``."""
    found = _BOUND.fullmatch(str(_value_of(place)).strip())
    if found is None or place.path[-1] != "p" or place.key is None:
        return None
    key = "p_below" if found[1] in ("<", "&lt;") else "p_above"
    number = f"0.{found[2]}"
    if key in _list_at(edit, place):
        return None
    text = edit.with_source(place.node, number)
    begin, end = place.key.start_mark.index, place.key.end_mark.index
    data = replaced(edit.data, place.path, float(number), key)
    return Mended(text[:begin] + key + text[end:], data, f"wrote the bound as `{key}: {number}`")


def _quoted_number(edit: YamlText, place: TextPlace, message: str) -> Mended | None:
    """A number in quotes."""
    value = str(_value_of(place))
    if " number, not" not in message or not _NUMBER.fullmatch(value):
        return None
    made = edit.with_source(place.node, value)
    number = float(value) if "." in value else int(value)
    return Mended(made, replaced(edit.data, place.path, number), f"took the quotes from {value}")


def _one_of_a_list(edit: YamlText, place: TextPlace, message: str) -> Mended | None:
    """One id where a list of ids belongs."""
    value = str(_value_of(place))
    is_one = re.fullmatch(r"[a-z][a-z0-9/-]*", value) and place.path[-1] not in _OF_ENTRIES
    if "should be a list" not in message or not is_one:
        return None
    made = edit.with_source(place.node, f"[{edit.source(place.node)}]")
    return Mended(made, replaced(edit.data, place.path, [value]), f"put `{value}` in brackets")


def _identifier(text: str, finding: Finding) -> Mended | None:
    """An identifier that was given as a web address."""
    line = text.split("\n")[finding.spot.line - 1]
    found = re.match(r"\s*(doi|pmid|pmcid)\s*=\s*[{\"](.*)[}\"],?\s*$", line, re.IGNORECASE)
    if found is None:
        return None
    name = found[1].lower()
    bare = _ADDRESSES[name].fullmatch(found[2].strip())
    if bare is None or not FORMS[name][0].fullmatch(bare[1]):
        return None
    made = _on_line(text, finding, lambda line: line.replace(found[2], bare[1], 1))
    if made is None:
        return None
    data = records(text)
    key = next(key for key, fields in data.items() if fields.get(name) == found[2])
    return Mended(made, replaced(data, (key, name), bare[1]), f"wrote {bare[1]} alone")


#: Rule -> how its finding is mended, where it can be. This is the one place that says so.
MENDS: dict[str, Mend] = {
    "citation-once": _repeated_item,
    "duplicate-key": _repeated_key,
    "file-encoding": _unseen_anywhere,
    "listed-once": _repeated_item,
    "name-once": _repeated_name,
    "needless-exception": _needless_exception,
    "quoted-value": _curly_quotes,
    "reference-identifier": _identifier,
    "swap-once": _repeated_item,
    "wrong-type": _wrong_type,
    "wrong-value": _unseen_in_value,
    "yaml-syntax": _odd_spaces,
}


def records(text: str) -> dict[str, dict[str, str]]:
    """Key -> field -> value of a bibliography's text."""
    from ..catalog.bibliography.bibtex import parse

    found, _ = parse(text)
    return {record.key: {field.name: field.value for field in record.fields} for record in found}


def letters(text: str) -> str:
    """A text without spaces and invisible characters."""
    return re.sub(rf"[ {_ODD_SPACE}]", "", _INVISIBLE.sub("", text))


def _item(text: str, finding: Finding) -> tuple[YamlText, TextPlace] | None:
    """The entry of a list that begins at the finding's place."""
    edit = YamlText(text)
    found = (p for p in edit.at(*finding.spot[1:]) if p.path and isinstance(p.path[-1], int))
    place = next(found, None)
    return (edit, place) if place else None


def _scalar(text: str, finding: Finding) -> tuple[YamlText, TextPlace] | None:
    """The scalar that begins at the finding's place."""
    edit = YamlText(text)
    found = [p for p in edit.at(*finding.spot[1:]) if isinstance(p.node, yaml.ScalarNode)]
    here = finding.spot.line - 1, finding.spot.column - 1
    starts = [p for p in found if (p.node.start_mark.line, p.node.start_mark.column) == here]
    place = next(iter(starts or found), None)
    return (edit, place) if place else None


def _dropped(edit: YamlText, place: TextPlace, what: str) -> Mended | None:
    made = edit.without_item(place)
    return None if made is None else Mended(made, without(edit.data, place.path), what)


def _list_at(edit: YamlText, place: TextPlace) -> Any:
    """What an item or a key stands in."""
    data = edit.data
    for step in place.path[:-1]:
        data = data[step]
    return data


def _value_of(place: TextPlace) -> Any:
    """A scalar as plain data."""
    assert isinstance(place.node, yaml.ScalarNode)
    return yaml_file.scalar(place.node)


def _on_line(text: str, finding: Finding, change: Callable[[str], str]) -> str | None:
    """The text with the finding's line changed; ``None`` when nothing changes."""
    lines = text.split("\n")
    before = lines[finding.spot.line - 1]
    lines[finding.spot.line - 1] = change(before)
    return "\n".join(lines) if lines[finding.spot.line - 1] != before else None


def _shown(item: Any) -> str:
    return f"`{item['key']}`" if isinstance(item, dict) and "key" in item else f"`{item}`"


def _day(year: str, month: str, day: str) -> date | None:
    try:
        return date(int(year), int(month), int(day))
    except ValueError:
        return None
