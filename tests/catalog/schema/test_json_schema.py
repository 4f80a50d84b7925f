"""Schemas for editors, judged by an outside validator: the `jsonschema` package (draft 2020-12, formats on).

Whatever the loader accepts and `statement-basis` lets pass, a schema accepts, and nothing else. All other rules look
beyond one entry, at words, numbers or bodies, and are not in it.
"""

import copy
import json
import re
from collections.abc import Iterator
from datetime import date
from functools import cache

import pytest
from folders import DEMO, SHIPPED
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import BaseModel, ValidationError

from build_tools.catalog import entries
from build_tools.catalog.load import load
from build_tools.catalog.schema import json_schema
from build_tools.catalog.schema.known_words import known_words
from build_tools.catalog.yaml_file import read
from build_tools.checks.profile import load_profile
from build_tools.checks.runner import run

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


def bases(value) -> Iterator[entries.Basis]:
    """Every statement of a typed entry whose basis is left to the rule `statement-basis`."""
    if isinstance(value, BaseModel):
        if isinstance(value, entries.Basis) and not isinstance(value, entries.AuthoredCertainty):
            yield value
        value = [getattr(value, name) for name in type(value).model_fields]
    for inner in value.values() if isinstance(value, dict) else value:
        if isinstance(inner, BaseModel | dict | list):
            yield from bases(inner)


def has_one_basis_everywhere(kind, data):
    typed = json_schema.KINDS[kind].model_validate_json(json.dumps(data))
    return all(bool(it.cites) != (it.common_practice is not None) for it in bases(typed))


def models(model, seen=None):
    """``model`` and every model in its fields."""
    for name in model.model_json_schema().get("$defs", {}):
        yield getattr(entries, name)
    yield model


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_is_a_schema_of_draft_2020_12(kind):
    schema = json_schema.schema(kind)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("kind, file", DEMO_FILES)
def test_accepts_the_demo_catalog(demo, kind, file):
    assert load(demo).findings == []
    assert accepted_by_schema(kind, data_of(demo / file))


#: Path to a value of the demo file, and what replaces it (`...` removes the key).
BROKEN = {
    "shown from the front, told from the side": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["movement", "shown"],
        "front",
    ),
    "unknown key": ("exercises", "exercises/crate-curl.yaml", ["tempo"], "slow"),
    "unknown key deep inside": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "cites", 0, "page"],
        "3",
    ),
    "missing key": ("exercises", "exercises/crate-curl.yaml", ["cues"], ...),
    "text for a list": ("exercises", "exercises/crate-curl.yaml", ["equipment"], "crate"),
    "text for a number": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["movement", "from", "hip"],
        "90",
    ),
    "true for a number": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["movement", "from", "hip"],
        True,
    ),
    "number for text": ("exercises", "exercises/crate-curl.yaml", ["name"], 5),
    "number for true": ("studies", "studies/wick2030.yaml", ["same_people"], 1),
    "empty list": ("exercises", "exercises/crate-curl.yaml", ["faults"], []),
    "value outside a closed list": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "outcome"],
        "architecture",
    ),
    "field name instead of its key": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["movement", "start"],
        {"hip": 90},
    ),
    "not a date": ("exercises", "exercises/crate-curl.yaml", ["reviewed"], "01.11.2026"),
    "no such day": ("exercises", "exercises/crate-curl.yaml", ["reviewed"], "2026-02-30"),
    "markup in text": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "because"],
        "<script>",
    ),
    "markup in a name": ("exercises", "exercises/crate-curl.yaml", ["name"], "*Crate* curl"),
    "path as an id": ("exercises", "exercises/crate-curl.yaml", ["swaps", 0], "../handbook"),
    "id too long": ("exercises", "exercises/crate-curl.yaml", ["swaps", 0], "a" * 65),
    "bad id as a key": ("muscles", "muscles/lantern.yaml", ["parts", "Long Head"], None),
    "two comparators": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "more_than", "part"],
        "lantern/short-head",
    ),
    "no comparator": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "more_than", "exercise"],
        None,
    ),
    "two directions": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "less_than"],
        {"exercise": "cable-curl"},
    ),
    "no direction": ("exercises", "exercises/crate-curl.yaml", ["emphasis", 0, "more_than"], ...),
    "two kinds of number": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated", "change"],
        3,
    ),
    "no number": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated", "mean"],
        ...,
    ),
    "before without after": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4}},
    ),
    "after without before": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {"post": {"mean": 4}, "change": 1},
    ),
    "a level beside a change": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4}, "mean": 5},
    ),
    "a spread of no change": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4}, "post": {"mean": 5}, "sd": 1},
    ),
    "a correlation of nothing": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated", "correlation"],
        0.9,
    ),
    "a version of nothing": (
        "studies",
        "studies/glow2031.yaml",
        ["arms", "seated"],
        {"called": "it", "version": "lower-half"},
    ),
    "a site from no end": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "site"],
        {"percent": 30},
    ),
    "a site nowhere": ("studies", "studies/glow2031.yaml", ["results", 0, "site"], {}),
    "a silent paper that says something": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "contrasts", 0, "test"],
        "not reported",
    ),
    "a contrast without its test": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "contrasts", 0, "test"],
        ...,
    ),
    "a number from two places": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "via"],
        {"key": "wick2030", "file": "its data"},
    ),
    "a number from nowhere": ("studies", "studies/glow2031.yaml", ["results", 0, "at"], ...),
    "a number without a unit": ("studies", "studies/glow2031.yaml", ["results", 0, "unit"], ...),
    "a correlation above one": (
        "handbook",
        "handbook.yaml",
        ["conventions", "correlations", "arms", 0, "value"],
        1.1,
    ),
    "no correlation for an outcome": (
        "handbook",
        "handbook.yaml",
        ["conventions", "correlations", "arms", 0, "outcome"],
        "strength",
    ),
    "two spreads": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated", "se"],
        3,
    ),
    "p of zero": ("studies", "studies/glow2031.yaml", ["results", 0, "contrasts", 0, "p"], 0),
    "second leg in two ways": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "other", "toes"],
        [-0.8, 0],
    ),
    "second leg with a start only": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "other", "to"],
        ...,
    ),
    "second leg nowhere": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "other"],
        {"pitch": -60},
    ),
    "three coordinates": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "other"],
        {"toes": [-0.8, 0, 0]},
    ),
    "unknown part that rests": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "support"],
        {"nose": 1},
    ),
    "one rest and no fixed segment": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated", "fixes"],
        ...,
    ),
    "two rests and a fixed segment": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated", "rests_on"],
        {"seat": 0.4, "feet": 0},
    ),
    "two rests and no face": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated"],
        {"name": "X", "rests_on": {"hips": 0, "feet": 0}},
    ),
    "two rests, a face and the side": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated"],
        {"name": "X", "rests_on": {"hips": 0, "feet": 0}, "faces": "up", "sideways": True},
    ),
    "one rest and a face": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated", "faces"],
        "up",
    ),
    "two rests, neither face nor side": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated"],
        {"name": "X", "rests_on": {"hips": 0, "feet": 0}, "sideways": False},
    ),
    "nothing rests": ("vocabulary", "vocabulary.yaml", ["positions", "seated", "rests_on"], {}),
    "pulley at no known height": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "load", "from"],
        {"x": 1, "height": "top"},
    ),
    "an answer without a reason": (
        "studies",
        "studies/wick2030.yaml",
        ["appraisal", "fair-lamp", "because"],
        ...,
    ),
    "an answer from nowhere": (
        "studies",
        "studies/wick2030.yaml",
        ["appraisal", "told-all", "at"],
        ...,
    ),
    "an answer that is none": (
        "studies",
        "studies/wick2030.yaml",
        ["appraisal", "told-all", "answer"],
        "perhaps",
    ),
    "a range beyond the end": (
        "vocabulary",
        "vocabulary.yaml",
        ["versions", "lower-half", "range"],
        [0, 1.5],
    ),
    "a range with a turn": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["version_ranges"],
        {"lower-half": [0, 0.5, 1]},
    ),
    "a size of no dimension": (
        "vocabulary",
        "vocabulary.yaml",
        ["measures", "mri-volume", "dimension"],
        ...,
    ),
    "a dimension of a signal": (
        "vocabulary",
        "vocabulary.yaml",
        ["measures", "surface-emg", "dimension"],
        "area",
    ),
    "a dimension that is none": (
        "vocabulary",
        "vocabulary.yaml",
        ["measures", "mri-volume", "dimension"],
        "length",
    ),
    "a spread of nothing": (
        "handbook",
        "handbook.yaml",
        ["conventions", "spread_growth", "value"],
        0,
    ),
    "nobody took part": ("studies", "studies/glow2031.yaml", ["people", "n"], 0),
    "unsafe address": ("handbook", "handbook.yaml", ["owner", "url"], "javascript:alert(1)"),
}
#: Unusual, but what the loader accepts the schema must not underline.
UNUSUAL = {
    "empty optional key": ("exercises", "exercises/crate-curl.yaml", ["sides"], "one"),
    "null for an optional key": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "disputed"],
        None,
    ),
    "null beside a comparator": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["emphasis", 0, "more_than", "part"],
        None,
    ),
    "whole number for an angle": (
        "exercises",
        "exercises/crate-curl.yaml",
        ["movement", "to", "knee"],
        100,
    ),
    "null for no dimension": (
        "vocabulary",
        "vocabulary.yaml",
        ["measures", "surface-emg", "dimension"],
        None,
    ),
    "before and after": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4, "sd": 1}, "post": {"mean": 5, "sd": 1}},
    ),
    "before, after and change": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {
            "pre": {"mean": 4, "sd": 1},
            "post": {"mean": 5, "sd": 1},
            "change": 1,
            "sd": 0.4,
            "correlation": 0.9,
        },
    ),
    "a change with its start": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {"pre": {"mean": 4}, "change": 1, "se": 0.1},
    ),
    "a second-hand number": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0],
        {
            "parts": ["lantern"],
            "measure": "surface-emg",
            "via": {"key": "wick2030", "file": "its data", "rows": "3"},
            "unit": "mV",
            "values": {"seated": {"mean": 3}},
            "site": {"percent": 30, "from": "distal"},
        },
    ),
    "a direction has no unit": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0],
        {
            "parts": ["lantern"],
            "measure": "surface-emg",
            "at": "abstract",
            "contrasts": [{"of": "seated", "against": "standing", "test": "not reported"}],
        },
    ),
    "spread as an interval": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "values", "seated"],
        {"mean": 4, "ci95": [3, 5]},
    ),
    "second leg whose toes stay": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "other"],
        {"toes": [-0.8, 0.4], "pitch": -60},
    ),
    "pulley by name": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "load", "from"],
        {"x": 1.5, "height": "low"},
    ),
    "pulley by metres": (
        "exercises",
        "exercises/cable-curl.yaml",
        ["movement", "load", "from"],
        {"x": 1.5, "height": 0.6},
    ),
    "body on two points": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated"],
        {"name": "X", "rests_on": {"shoulders": 0, "feet": 0}, "faces": "up"},
    ),
    "body on its side on two points": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated"],
        {"name": "X", "rests_on": {"elbows": 0, "feet": 0}, "sideways": True},
    ),
    "body on its side on one point": (
        "vocabulary",
        "vocabulary.yaml",
        ["positions", "seated", "sideways"],
        True,
    ),
    "values without contrasts": (
        "studies",
        "studies/glow2031.yaml",
        ["results", 0, "contrasts"],
        ...,
    ),
}


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_accepts_the_shipped_catalog(kind):
    """The schema and the check agree on every file that is published."""
    for path in sorted(SHIPPED.glob(json_schema.files(kind).replace("<id>", "*"))):
        assert accepted_by_schema(kind, data_of(path)), path.name


def changed(data, path, value):
    *way, last = path
    for step in way:
        data = data[step]
    if value is ...:
        del data[last]
    else:
        data[last] = value


@pytest.mark.parametrize("kind, file, path, value", BROKEN.values(), ids=BROKEN)
def test_refuses_what_the_loader_refuses(demo, kind, file, path, value):
    data = data_of(demo / file)
    changed(data, path, value)
    assert not accepted_by_loader(kind, data)
    assert not accepted_by_schema(kind, data)


@pytest.mark.parametrize("kind, file, path, value", UNUSUAL.values(), ids=UNUSUAL)
def test_accepts_what_the_loader_accepts(demo, kind, file, path, value):
    data = data_of(demo / file)
    changed(data, path, value)
    assert accepted_by_loader(kind, data)
    assert accepted_by_schema(kind, data)


def test_a_result_without_values_and_contrasts_is_refused(demo):
    data = data_of(demo / "studies/glow2031.yaml")
    del data["results"][0]["values"], data["results"][0]["contrasts"]
    assert not accepted_by_loader("studies", data) and not accepted_by_schema("studies", data)
    data["results"][0] |= {"values": {}, "contrasts": []}
    assert not accepted_by_loader("studies", data) and not accepted_by_schema("studies", data)


def test_every_model_that_checks_in_code_says_it_in_its_schema():
    in_code = {
        model
        for kind in json_schema.KINDS.values()
        for model in models(kind)
        if model.__pydantic_decorators__.model_validators
    }
    assert in_code == set(json_schema.IN_CODE)


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_every_key_is_described(kind):
    schema = json_schema.schema(kind)
    bare = [
        f"{name}.{key}"
        for name, model in {kind: schema, **schema.get("$defs", {})}.items()
        for key, value in model["properties"].items()
        if "description" not in value
    ]
    assert not bare


# --- whatever an author writes -----------------------------------------------

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


@settings(derandomize=True, max_examples=600, deadline=None)
@given(st.data())
def test_accepts_exactly_what_the_loader_and_the_rule_of_one_basis_accept(drawn):
    """One to three changes anywhere in an entry: a key gone, added or renamed, a value emptied, of another type or from elsewhere."""
    kind, file = drawn.draw(st.sampled_from(WRITTEN))
    data = json.loads(written(file))
    for _ in range(drawn.draw(st.integers(1, 3))):
        ways = list(places(data))
        path = drawn.draw(st.sampled_from(ways))
        inside = value_at(data, path[:-1])
        what = drawn.draw(
            st.sampled_from(["gone", "other", "elsewhere", "key", "twice", "no basis"])
        )
        if what == "gone":
            del inside[path[-1]]
        elif what == "other":
            inside[path[-1]] = drawn.draw(
                st.sampled_from(
                    [
                        None,
                        "",
                        " ",
                        "brand-new",
                        "A word.",
                        "Folded.\n",
                        " a" * 201,
                        "<b>",
                        0,
                        -1,
                        1,
                        0.5,
                        500,
                        1.5,
                        True,
                    ]
                    + [[], {}, [1, 2], ["a"], {"key": "a"}, "2026-02-28", "TODO"]
                )
            )
        elif what == "elsewhere":
            other = drawn.draw(st.sampled_from(ways))
            inside[path[-1]] = copy.deepcopy(value_at(data, other))
        elif what == "key" and isinstance(inside, dict):
            inside[drawn.draw(st.sampled_from(["knee", "kne", "Knee", "sd", "note"]))] = inside.pop(
                path[-1]
            )
        elif what == "twice" and isinstance(inside, list):
            inside.append(copy.deepcopy(inside[path[-1]]))
        elif isinstance(inside, dict):
            inside["cites"] = drawn.draw(st.sampled_from([[], [{"key": "a1", "at": "abstract"}]]))
        if not data:
            return
    sound = accepted_by_loader(kind, data) and has_one_basis_everywhere(kind, data)
    assert accepted_by_schema(kind, data) == sound
    if sound:
        assert offering(kind).is_valid(data), "an id that is not offered is let through"


# --- ids ---------------------------------------------------------------------


@cache
def offering(kind):
    """A schema with the ids of the demo catalog, its lists in a file beside it (bundled, section 9.3.1 of the draft)."""
    known = known_words(load(DEMO))
    made = json_schema.schema(kind, known, lists=json_schema.LISTS)
    made["$defs"]["beside"] = json_schema.known_lists(known)
    return Draft202012Validator(made, format_checker=Draft202012Validator.FORMAT_CHECKER)


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


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_every_example_is_one(kind):
    """What an editor offers as an example is accepted where it is offered."""
    made = json_schema.schema(kind)
    for model in (made, *made.get("$defs", {}).values()):
        for key, field in model.get("properties", {}).items():
            one = Draft202012Validator({**field, "$defs": made.get("$defs", {})})
            assert all(map(one.is_valid, field.get("examples", []))), key


def test_what_a_client_reads_and_a_study_says_of_its_words_has_an_example():
    exercise, study = json_schema.schema("exercises")["$defs"], json_schema.schema("studies")
    for name, keys in {
        "Cue": ["do", "why"],
        "Fault": ["see", "say"],
        "Caution": ["who", "instead", "stop_if", "afterwards", "ask"],
        "Claim": ["because"],
    }.items():
        assert all("examples" in exercise[name]["properties"][key] for key in keys), name
    assert "examples" in study["$defs"]["Result"]["properties"]["at"]
    # A number, an age or a finding is never offered: it would stand there unread.
    for name in ("Value", "Contrast", "People", "Moment"):
        assert not any("examples" in it for it in study["$defs"][name]["properties"].values())
