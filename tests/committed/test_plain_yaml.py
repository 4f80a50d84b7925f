"""The plain YAML of committed files, read back by an independent reader (PyYAML, YAML 1.1)."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import yaml
from hypothesis import given
from hypothesis import strategies as st

from build_tools.committed.plain_yaml import dump

# What catalog text may hold: no control characters, which the reader of the catalog refuses.
TEXT = st.text(
    st.characters(
        exclude_categories=["Cc", "Cs"], exclude_characters="\ufeff\ufffe\uffff\u2028\u2029"
    ),
    max_size=30,
)
NUMBER = st.decimals(-1000, 1000, places=3).map(lambda d: abs(d) if not d else d)
SCALAR = (
    TEXT
    | st.integers(-(10**6), 10**6)
    | NUMBER
    | st.sampled_from(["no", "null", "1e3", "2026-01-01", "- a", "a: b", "1 2", "~"])
)
TYPED = {"on", "no", "off", "yes", "true", "false", "null"}
KEY = st.from_regex(r"[a-z][a-z0-9]{0,5}", fullmatch=True).filter(lambda key: key not in TYPED)
DATA = st.recursive(
    SCALAR | st.tuples(NUMBER, NUMBER),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEY, inner, max_size=3),
    max_leaves=12,
)


def plain(value: Any) -> Any:
    """What a reader makes of it: numbers as floats or whole numbers, tuples as lists."""
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    return float(value) if isinstance(value, Decimal) else value


@given(st.dictionaries(KEY, DATA, min_size=1, max_size=4))
def test_everything_reads_back_as_it_was(data: dict) -> None:
    assert yaml.safe_load(dump(data)) == plain(data)


def test_layout() -> None:
    assert (
        dump(
            {
                "id": "crate-curl",
                "stated": "1 more, 0 less",
                "empty": [],
                "claims": [
                    {
                        "says": "more than cable-curl",
                        "interval": (Decimal("1.05"), Decimal("1.10")),
                        "parts": ["a", {"b": 1, "c": 2}],
                    }
                ],
            }
        )
        == """\
id: crate-curl
stated: 1 more, 0 less
empty: []
claims:
  - says: more than cable-curl
    interval: [1.05, 1.10]
    parts:
      - a
      - b: 1
        c: 2
"""
    )


@given(TEXT.filter(lambda text: text.isprintable()))
def test_a_text_stands_on_one_line(text: str) -> None:
    assert dump({"sentence": text}).count("\n") == 1
