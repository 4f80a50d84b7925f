"""Narrowing a list: each field by a case made for it, and the query in an address's fragment.

Outside check: what the script writes is read as a form's data is (``urllib.parse.parse_qs``), and the other way round (``urlencode``).
"""

from __future__ import annotations

from typing import Any
from urllib.parse import parse_qs, quote, urlencode

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import narrow, text

ENTRIES = [
    {"text": "glow 2031 signals", "values": {"muscle": ["lantern", "wick"], "read": ["abstract"]}},
    {"text": "wick 2030 growth", "values": {"muscle": ["wick"], "read": ["full-text"]}},
    {"text": "snuff 2029 a review", "values": {"muscle": [""], "read": ["abstract"]}},
]
OFFERED = {"muscle": ["", "lantern", "wick"], "read": ["", "abstract", "full-text"]}


@pytest.mark.parametrize(
    ("query", "fits"),
    [
        ({}, [True, True, True]),
        ({"words": "", "muscle": ""}, [True, True, True]),
        ({"muscle": "wick"}, [True, True, False]),
        ({"muscle": "wick", "read": "abstract"}, [True, False, False]),
        ({"words": "20 GLÓW"}, [True, False, False]),
        ({"words": "wick 2029"}, [False, False, False]),
        ({"design": "none"}, [False, False, False]),
    ],
)
def test_each_field(query: dict[str, str], fits: list[bool]) -> None:
    assert narrow.fitting(ENTRIES, query) == fits


@pytest.mark.parametrize(
    ("fragment", "query"),
    [
        ("", {}),
        ("#letter-m", {}),
        ("#muscle=wick&read=abstract", {"muscle": "wick", "read": "abstract"}),
        ("#muscle=elbow&words=%20curl%20", {"words": "curl"}),
        ("#words=a=b", {"words": "a=b"}),
        ("#words=%E0%A4%A", {}),
        ("#constructor=name&__proto__=x&muscle=", {}),
        (f"#words={'x' * 200}", {"words": "x" * 80}),
    ],
)
def test_what_an_address_may_ask(fragment: str, query: dict[str, str]) -> None:
    assert narrow.read(OFFERED, fragment) == query


QUERIES = st.fixed_dictionaries(
    {},
    optional={
        "muscle": st.sampled_from(["lantern", "wick"]),
        "words": st.text(st.characters(codec="utf-8"), min_size=1, max_size=40)
        .map(lambda words: text.folded(words).strip())
        .filter(bool),
    },
)


@given(QUERIES)
def test_a_query_comes_back_from_its_address(query: dict[str, Any]) -> None:
    written = narrow.write(query)
    assert {name: of[0] for name, of in parse_qs(written).items()} == query
    for fragment in (written, urlencode(query, quote_via=quote)):
        # Python's strip knows more blanks than a script's trim, so words are compared without any.
        assert {n: v.split() for n, v in narrow.read(OFFERED, f"#{fragment}").items()} == {
            n: v.split() for n, v in query.items() if v.split()
        }
