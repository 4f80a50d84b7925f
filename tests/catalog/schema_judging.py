"""Judges entries by the schemas for editors, with an outside validator (the `jsonschema` package, draft 2020-12, formats on), and by the loader."""

import json
from collections.abc import Iterator
from functools import cache

from folders import DEMO, SHIPPED
from jsonschema import Draft202012Validator
from pydantic import ValidationError

from build_tools.catalog.load import load
from build_tools.catalog.schema import json_schema
from build_tools.catalog.schema.known_words import known_words
from build_tools.catalog.yaml_file import read

DEMO_FILES = [
    ("handbook", "handbook.yaml"),
    ("vocabulary", "vocabulary.yaml"),
    ("muscles", "muscles/lantern.yaml"),
    ("exercises", "exercises/crate-curl.yaml"),
    ("exercises", "exercises/cable-curl.yaml"),
    ("studies", "studies/wick2030.yaml"),
    ("studies", "studies/glow2031.yaml"),
]


def data_of(path):
    _, data, findings = read(path, path.name)
    assert not findings
    return data


@cache
def validator(kind):
    return Draft202012Validator(
        json_schema.schema(kind), format_checker=Draft202012Validator.FORMAT_CHECKER
    )


def accepted_by_schema(kind, data):
    return validator(kind).is_valid(data)


def accepted_by_loader(kind, data):
    try:
        json_schema.KINDS[kind].model_validate_json(json.dumps(data))
    except ValidationError:
        return False
    return True


def changed(data, path, value):
    *way, last = path
    for step in way:
        data = data[step]
    if value is ...:
        del data[last]
    else:
        data[last] = value


#: One file of each kind, and entries that hold much.
WRITTEN = [
    *((kind, DEMO / file) for kind, file in DEMO_FILES),
    *(
        (kind, SHIPPED / json_schema.files(kind))
        for kind in ("programme", "example", "model", "vocabulary", "handbook")
    ),
    ("exercises", SHIPPED / "exercises/nordic-curl.yaml"),
    ("studies", SHIPPED / "studies/maeo2021.yaml"),
]


@cache
def written(file) -> str:
    return json.dumps(data_of(file))


def places(value, path=()) -> Iterator[tuple]:
    """The way to every value below, keys and indices."""
    for step, inner in value.items() if isinstance(value, dict) else enumerate(value):
        yield (*path, step)
        if isinstance(inner, dict | list):
            yield from places(inner, (*path, step))


def value_at(data, path):
    for step in path:
        data = data[step]
    return data


@cache
def offering(kind):
    """A schema with the ids of the demo catalog, its lists in a file beside it (bundled, section 9.3.1 of the draft)."""
    known = known_words(load(DEMO))
    made = json_schema.schema(kind, known, lists=json_schema.LISTS)
    made["$defs"]["beside"] = json_schema.known_lists(known)
    return Draft202012Validator(made, format_checker=Draft202012Validator.FORMAT_CHECKER)
