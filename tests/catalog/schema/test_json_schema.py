"""Schemas for editors, judged by an outside validator: the `jsonschema` package (draft 2020-12, formats on).

Whatever the loader accepts and `statement-basis` lets pass, a schema accepts, and nothing else. All other rules look
beyond one entry, at words, numbers or bodies, and are not in it.
"""

import copy
import json
from collections.abc import Iterator

import pytest
from folders import SHIPPED
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import BaseModel
from schema_judging import (
    DEMO_FILES,
    WRITTEN,
    accepted_by_loader,
    accepted_by_schema,
    changed,
    data_of,
    offering,
    places,
    value_at,
    written,
)
from schema_slips import BROKEN, UNUSUAL

from build_tools.catalog import entries
from build_tools.catalog.load import load
from build_tools.catalog.schema import json_schema


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


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_accepts_the_shipped_catalog(kind):
    """The schema and the check agree on every file that is published."""
    for path in sorted(SHIPPED.glob(json_schema.files(kind).replace("<id>", "*"))):
        assert accepted_by_schema(kind, data_of(path)), path.name


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
