"""What editors offer is what the catalog holds, with the words that people know it by.

Where a schema offers ids is judged by the `jsonschema` package (draft 2020-12) and by what `handbook check` calls unknown.
"""

import copy
import json
import re
from datetime import date

import pytest
from folders import DEMO
from jsonschema import Draft202012Validator
from schema_judging import (
    DEMO_FILES,
    accepted_by_loader,
    changed,
    offering,
    places,
    value_at,
    written,
)

from build_tools.catalog import entries
from build_tools.catalog.load import load
from build_tools.catalog.schema import json_schema
from build_tools.catalog.schema.known_words import known_words
from build_tools.checks.profile import load_profile
from build_tools.checks.runner import run


def test_each_word_is_told_by_its_names() -> None:
    known = known_words(load(DEMO))
    assert known["equipment"]["crate"].startswith("Wooden crate")
    assert known["parts"]["lantern"].startswith("Lantern")
    assert ": " in known["parts"]["lantern/long-head"]
    assert known["references"]["wick2030"].startswith("Wick")
    assert set(known["studies"]) <= set(known["references"])
    assert "% MVIC" in known["units"] and "surface-emg" in known["units"]["% MVIC"]


def test_a_catalog_that_cannot_be_read_offers_what_is_left(tmp_path) -> None:
    (tmp_path / "vocabulary.yaml").write_text("a: [", encoding="utf-8")
    assert known_words(load(tmp_path)) == {}


@pytest.mark.parametrize("kind", json_schema.KINDS)
@pytest.mark.parametrize("lists", ["", json_schema.LISTS])
def test_with_ids_it_is_still_a_schema(kind, lists):
    known = known_words(load(DEMO))
    for at in ("", "https://handbook.example/data/schema/"):
        made = json_schema.schema(kind, known, at, lists)
        Draft202012Validator.check_schema(made)
        assert made["$id"] == f"{at}{kind}.json"
        assert entries.NAMES not in json.dumps(made)
    Draft202012Validator.check_schema(json_schema.known_lists(known))


@pytest.mark.parametrize("kind, file", DEMO_FILES)
def test_with_ids_alone_or_beside_it_accepts_the_same(kind, file):
    data = json.loads(written(DEMO / file))
    alone = Draft202012Validator(json_schema.schema(kind, known_words(load(DEMO))))
    assert alone.is_valid(data) and offering(kind).is_valid(data)


def offered(made, *path):
    """The words that a schema offers for the values, or for the keys, at a path of properties."""
    options = [made]
    for step in path:
        within = [one["properties"][step] for one in options if step in one.get("properties", {})]
        options = [flat for one in within for flat in resolved(one, made["$defs"])]
        lists = [one["items"] for one in options if one.get("type") == "array"]
        options += [flat for one in lists for flat in resolved(one, made["$defs"])]
    return {word for one in options for word in (*one.get("enum", ()), *one.get("properties", ()))}


def test_offers_what_the_folders_hold():
    """Compared with the names of the files, and with the bibliography's lines."""
    known = known_words(load(DEMO))
    exercise = json_schema.schema("exercises", known)
    study = json_schema.schema("studies", known)
    exercises = {path.stem for path in DEMO.glob("exercises/*.yaml")}
    records = (DEMO / "references.bib").read_text(encoding="utf-8")
    keys = set(re.findall(r"^@\w+\{(\w+),", records, re.MULTILINE))
    assert offered(exercise, "swaps") == exercises
    assert offered(exercise, "emphasis", "more_than", "exercise") == exercises
    assert offered(exercise, "emphasis", "cites", "key") == keys
    assert "crate" in offered(exercise, "equipment")
    assert "seated" in offered(exercise, "movement", "position")
    assert {"hip", "knee"} <= offered(exercise, "movement", "from")
    assert "lantern/long-head" in offered(exercise, "set_credit")
    assert "lantern/long-head" in offered(exercise, "emphasis", "part")
    assert "knee" in offered(exercise, "cautions", "concerns")
    assert "surface-emg" in offered(study, "results", "measure")
    assert "% MVIC" in offered(study, "results", "unit")
    assert "within-participant" in offered(study, "design")


def marked(model, path) -> str | None:
    """The kind of thing that is named at a path of an entry, or of its key there."""
    node = model.model_json_schema(by_alias=True, schema_generator=json_schema._Generator)
    defs = node["$defs"]
    options = [node]
    for step in path:
        within = []
        for one in options:
            names = one.get("propertyNames", {})
            if isinstance(step, int):
                within.append(one.get("items", {}))
            elif step in one.get("properties", {}):
                within.append(one["properties"][step])
            else:
                within += [
                    {entries.NAMES: names.get(entries.NAMES)} | inner
                    for inner in one.get("patternProperties", {}).values()
                ]
        options = [flat for one in within for flat in resolved(one, defs)]
    return next((one[entries.NAMES] for one in options if one.get(entries.NAMES)), None)


def resolved(node, defs):
    if "$ref" in node:
        yield from resolved(defs[node["$ref"].rpartition("/")[2]], defs)
    elif "anyOf" in node and "properties" not in node:
        for one in node["anyOf"]:
            yield from resolved(one, defs)
    else:
        yield node


UNKNOWN_WORD = ("known-term", "known-part", "known-exercise", "known-reference", "unit-known")


@pytest.mark.parametrize("kind, file", DEMO_FILES)
def test_offers_ids_wherever_check_asks_for_one_that_is_known(demo, kind, file):
    """Each text of an entry is replaced by an id that nothing has: where `check` calls it unknown, the schema offers ids."""
    data = json.loads(written(DEMO / file))
    profile, asked = load_profile(), 0
    for path in places(data):
        if not isinstance(value_at(data, path), str) or " " in value_at(data, path):
            continue
        other = copy.deepcopy(data)
        changed(other, path, "zzz0")
        if not accepted_by_loader(kind, other):
            continue
        (demo / file).write_text(json.dumps(other))
        found = run(load(demo, "demo"), date(2031, 1, 1), profile)
        unknown = [
            it.finding
            for it in found
            if it.finding.rule in UNKNOWN_WORD and "zzz0" in it.finding.message
        ]
        if unknown:
            asked += 1
            assert marked(json_schema.KINDS[kind], path), path
    assert asked or kind in ("handbook", "muscles", "vocabulary")
