"""A skeleton is YAML to an independent reader and holds what the model's own schema asks for."""

from __future__ import annotations

import re
import string

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from build_tools.authoring.skeleton import Skeleton, written
from build_tools.catalog import entries
from build_tools.catalog.schema.json_schema import KINDS, schema

TEXTS = st.text(string.printable.replace("\x0b", "").replace("\x0c", "") + "éß–’“😀", max_size=12)
SCALARS = st.one_of(
    TEXTS,
    st.sampled_from(["yes", "No", "null", "TODO", "a-b/c", "12:30", "0x1F", "1e3", "- a", "a: b"]),
    st.integers(-(10**6), 10**6),
    st.floats(-1e6, 1e6, allow_nan=False).map(lambda x: round(x, 3)),
    st.booleans(),
)
DATA = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
    max_leaves=8,
)


@given(DATA)
def test_data_on_one_line_reads_as_it_was(data: object) -> None:
    line = written(data)
    assert "\n" not in line
    assert yaml.safe_load(f"key: {line}\n") == {"key": data}


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_of_the_schema_stands_in_the_draft(kind: str) -> None:
    text = Skeleton(KINDS[kind], {}).text()
    data = yaml.safe_load(text) or {}
    made = schema(kind)
    keys = re.findall(r"^(?:# )?([a-z_]+):(?:\s|$)", text, re.MULTILINE)
    assert keys == sorted(made["properties"], key=keys.index)
    assert data.keys() >= set(made.get("required", ()))
    for key in keys:
        told = " ".join(made["properties"][key]["description"].split())
        assert told in " ".join(re.sub(r"\n# +", " ", text).split())


def test_what_is_given_stands_there_and_only_the_rest_is_asked() -> None:
    text = Skeleton(
        entries.Study,
        {"design": "parallel", "arms": {"a": {"called": "one: two"}, "b": {"called": "TODO"}}},
        notes={("design",): ["A note."]},
        unasked=[("weeks",)],
    ).text()
    data = yaml.safe_load(text)
    assert data["design"] == "parallel" and "weeks" not in data and "# weeks:" in text
    assert data["arms"] == {"a": {"called": "one: two"}, "b": {"called": "TODO"}}
    assert "# A note.\ndesign: parallel\n" in text
    # Help on an arm is given once.
    assert text.count("# What the paper calls it") == 1


def test_lines_of_prose_are_wrapped_and_each_optional_key_has_one() -> None:
    text = Skeleton(entries.Exercise, {}, shown=[("emphasis",)]).text()
    for line in text.split("\n"):
        is_key = re.match(r"[# ]*[-# ]*[a-z_]+:", line)
        assert is_key or len(line) <= 120, line
    claim = re.search(r"^# emphasis:\n(# .*\n)+", text, re.MULTILINE)
    assert claim
    shown = yaml.safe_load(re.sub(r"^# ", "", claim[0], flags=re.MULTILINE))
    assert shown["emphasis"][0].keys() == {"part", "outcome", "because", "common_practice"}
