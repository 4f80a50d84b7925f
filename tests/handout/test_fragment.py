"""The fragment of a handout.

Outside sources: the test vectors of RFC 4648, section 10, for its encoding; RFC 8259 for what is JSON (both from
memory). The page's script ``rules/link.js`` runs in an embedded engine; that a browser's answers are the same is tested in
tests/site/test_handout_fragment.py.
"""

from __future__ import annotations

import json
from base64 import urlsafe_b64encode

import pytest
from handouts import KNOWN, Handout, Item, decode, encode, handouts
from hypothesis import given
from hypothesis import strategies as st
from script_rules import Refused

from build_tools.handout import limits
from build_tools.handout.successors import shown

TWO = Handout(
    "Week 1",
    (Item("crate-curl", 3, "8-12", "20 kg", 2, 120, "3-1-1", "Slowly"), Item("cable-curl")),
)


def fragment(data: object, version: str = "1") -> str:
    text = (
        data
        if isinstance(data, str)
        else json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    )
    return f"{version}.{urlsafe_b64encode(text.encode()).rstrip(b'=').decode()}"


def test_a_handout_as_documented() -> None:
    wanted = '["Week 1",[["crate-curl",3,"8-12","20 kg",2,120,"3-1-1","Slowly"],["cable-curl"]]]'
    assert encode(TWO) == fragment(wanted)
    assert decode(fragment(wanted), KNOWN) == TWO


@given(handouts())
def test_what_was_written_is_read(handout: Handout) -> None:
    try:
        text = encode(handout)
    except Refused as bad:
        assert bad.kind == "too-long"
        return
    assert len(text) <= limits.MOST_CHARACTERS and text.isascii() and "=" not in text
    assert decode(text, KNOWN) == handout


@given(handouts(), st.data())
def test_a_link_that_was_cut_off_is_never_another_handout(
    handout: Handout, data: st.DataObject
) -> None:
    try:
        text = encode(handout)
    except Refused:
        return
    with pytest.raises(Refused):
        decode(text[: data.draw(st.integers(0, len(text) - 1))], KNOWN)


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        ("too-long", "1." + "A" * limits.MOST_CHARACTERS),
        ("not-ours", ""),
        ("not-ours", "how-to-do-it"),
        ("not-ours", "<script>alert(1)</script>"),
        ("version", fragment([None, [["crate-curl"]]], version="2")),
        ("version", fragment([None, [["crate-curl"]]], version="01")),
        ("damaged", "1."),
        ("damaged", "1.W*"),
        ("damaged", encode(TWO) + "="),
        ("damaged", encode(TWO) + ")."),
        ("damaged", fragment([])),
        ("damaged", fragment({"title": None})),
        ("damaged", fragment([None, [[]]])),
        ("damaged", fragment([None, [["crate-curl", None]]])),
        ("damaged", fragment([None, [["crate-curl", True]]])),
        ("damaged", fragment([None, [["crate-curl", "3"]]])),
        ("damaged", fragment([None, [["crate-curl", 3, 8]]])),
        ("damaged", fragment([None, [["crate-curl", 3.0]]])),
        ("damaged", fragment([None, [["crate-curl", 3, None, None, None, None, None, "x", "y"]]])),
        ("damaged", fragment('[null, [["crate-curl"]]]')),
        ("damaged", fragment('[null,[["crate\\u002dcurl"]]]')),
        ("damaged", fragment('["\\ud800",[["crate-curl"]]]')),
        ("damaged", fragment('[null,[["crate-curl",1e0]]]')),
        ("damaged", fragment("[" * 500)),
        ("limits", fragment([None, []])),
        ("limits", fragment([None, [["crate-curl"]] * 13])),
        ("limits", fragment(["", [["crate-curl"]]])),
        ("limits", fragment(["T" * 61, [["crate-curl"]]])),
        ("limits", fragment(["a\u202eb", [["crate-curl"]]])),
        ("limits", fragment([None, [["crate-curl", 0]]])),
        ("limits", fragment([None, [["crate-curl", 21]]])),
        ("limits", fragment([None, [["crate-curl", None, "12-8"]]])),
        ("limits", fragment([None, [["crate-curl", None, "many"]]])),
        ("limits", fragment([None, [["crate-curl", None, None, None, None, None, "0-1-1"]]])),
        ("limits", fragment([None, [["../../evil"]]])),
        ("unknown", fragment([None, [["constructor"]]])),
        ("unknown", fragment([None, [["crate-curl"], ["no-such-exercise"]]])),
    ],
)
def test_each_fault_has_its_message(kind: str, text: str) -> None:
    with pytest.raises(Refused) as bad:
        decode(text, KNOWN)
    assert bad.value.kind == kind
    assert kind in limits.MESSAGES


def test_a_handout_beyond_the_limits_gets_no_link() -> None:
    for handout, kind in (
        (Handout(None, (Item("crate-curl", sets=99),)), "limits"),
        (Handout("T" * 61, TWO.items), "limits"),
        (Handout(None, (Item("crate-curl", note="é" * 140),) * 12), "too-long"),
    ):
        with pytest.raises(Refused) as bad:
            encode(handout)
        assert bad.value.kind == kind


def test_retired_exercises_lead_to_their_successors() -> None:
    exercises, moved = (
        {"new": 1, "kept": 1},
        {"old": "older", "older": "new", "kept": "new", "lost": "gone", "a": "b", "b": "a"},
    )
    assert shown(exercises, moved) == {"new": "new", "kept": "kept", "old": "new", "older": "new"}
    assert decode(fragment([None, [["old", 3]]]), shown(exercises, moved)) == Handout(
        None, (Item("new", 3),)
    )
