"""The fragment of a handout.

Outside sources: the test vectors of RFC 4648, section 10, for its encoding; RFC 8259 for what is JSON (both from
memory). The page's script ``rules/link.js`` runs in an embedded engine; at the end a browser reads and writes as that engine does,
also hostile fragments: base64, UTF-8 and JSON are the browser's own there.
"""

from __future__ import annotations

import json
from base64 import urlsafe_b64encode
from collections.abc import Iterator
from dataclasses import asdict, astuple
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from handout_site import WEEK, handout_site, visit
from handouts import KNOWN, Handout, Item, decode, encode, handouts
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from script_rules import Refused

from build_tools.catalog.load import load
from build_tools.handout import limits
from build_tools.handout.successors import shown

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

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


# --- in a browser -----------------------------------------------------------

#: Runs a function of the page's script over all inputs: its answer, or the kind of fault.
IN_PAGE = """async ([name, inputs]) => {
    const { BadFragment, decode, encode } = await import(new URL('../scripts/rules/link.js', location.href));
    const { rules, exercises, moved } = await (await fetch('data.json')).json();
    const known = new Map([...Object.entries(moved), ...Object.keys(exercises).map((id) => [id, id])]);
    const run = { decode: (text) => decode(text, rules, known), encode: (handout) => encode(handout, rules) }[name];
    return inputs.map((input) => {
        try { return run(input); } catch (bad) { if (bad instanceof BadFragment) return { bad: bad.kind }; throw bad; }
    });
}"""


def drawn(strategy: st.SearchStrategy[Any], count: int) -> list[Any]:
    """That many examples of a strategy."""
    found: list[Any] = []

    @settings(
        max_examples=count,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(strategy)
    def collect(example: Any) -> None:
        found.append(example)

    collect()
    return found


def written(handout: Handout) -> str:
    try:
        return encode(handout)
    except Refused:
        return encode(WEEK)


def of_json(data: object, spaced: bool = False) -> str:
    """The fragment of anything, a text included, as JSON."""
    return fragment(json.dumps(data, ensure_ascii=False, separators=None if spaced else (",", ":")))


SCALARS = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.integers(-1, 1000)
    | st.floats()
    | st.text(max_size=8)
)
ANY_JSON = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=3), inner, max_size=2)
    ),
)
#: Rows that are nearly right: one value of a sound row is exchanged for anything.
NEARLY = st.builds(
    lambda handout, n, value, title: of_json(
        [
            title,
            [
                [value if i == n else kept for i, kept in enumerate(astuple(item))]
                for item in handout.items
            ],
        ]
    ),
    handouts(),
    st.integers(0, 8),
    ANY_JSON,
    st.none() | st.text(max_size=70),
)
CUT = st.builds(
    lambda handout, n, piece: (
        lambda text: text[: n % len(text)] + piece + text[n % len(text) + len(piece) :]
    )(written(handout)),
    handouts(),
    st.integers(0, 3000),
    st.text("Aa0-_.=%<\u00e9", max_size=2),
)
HOSTILE = (
    st.text()
    | CUT
    | NEARLY
    | st.builds(of_json, ANY_JSON | st.lists(ANY_JSON, min_size=2, max_size=2), st.booleans())
)
BY_HAND = [
    "",
    "1.",
    "1.IA",
    "2.W10",
    "01.W10",
    "<script>alert(1)</script>",
    "javascript:alert(1)",
    "1." + "A" * 1499,
    "é" * 1501,
    "1.\n",
    "1\u0660.x",
    of_json([None, [["constructor"]]]),
    of_json([None, [["__proto__"]]]),
    of_json([None, [["crate-curl"], ["gone"]]]),
    of_json([None, [["lamp-curl", 3]]]),
    of_json(["\u2028", [["crate-curl"]]]),
    of_json(["😀" * 60, [["crate-curl"]]]),
    of_json(["😀" * 61, [["crate-curl"]]]),
    of_json([None, [["crate-curl\n"]]]),
    of_json([None, [["crate-curl"]] * 13]),
    *(
        f"1.{urlsafe_b64encode(raw).rstrip(b'=').decode()}"
        for raw in (
            b'[null,[["crate-curl",1e0]]]',
            b'[null,[["crate-curl",-0]]]',
            b'["\\ud800",[["crate-curl"]]]',
            b'[null,[["crate-curl",NaN]]]',
            b'\xef\xbb\xbf[null,[["crate-curl"]]]',
            b'["\xff",[["crate-curl"]]]',
            b'[null,[["crate-curl",9007199254740993]]]',
            b'["\\u0007",[["crate-curl"]]]',
            b'["\x7f",[["crate-curl"]]]',
            b"[" * 1000,
            b'{"a":1,"a":2}',
        )
    ),
]


@pytest.fixture(scope="module")
def page(
    browser: Browser, moved_folder: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Page]:
    with (
        handout_site(tmp_path_factory.mktemp("fragments"), load(moved_folder)) as address,
        visit(browser) as page,
    ):
        page.goto(address)
        yield page


@pytest.mark.browser
def test_both_write_the_same(page: Page) -> None:
    made = drawn(handouts(), 300)

    def outcome(handout: Handout) -> object:
        try:
            return encode(handout)
        except Refused as bad:
            return {"bad": bad.kind}

    wanted = [outcome(handout) for handout in made]
    assert sum(isinstance(text, str) for text in wanted) > 100
    assert page.evaluate(IN_PAGE, ["encode", [asdict(handout) for handout in made]]) == wanted


@pytest.mark.browser
def test_both_read_the_same_and_refuse_the_same(page: Page) -> None:
    known = shown(KNOWN, {"lamp-curl": "crate-curl"})
    texts = [*BY_HAND, *map(written, drawn(handouts(), 150)), *drawn(HOSTILE, 500)]

    def outcome(text: str) -> object:
        try:
            return json.loads(json.dumps(asdict(decode(text, known))))
        except Refused as bad:
            return {"bad": bad.kind}

    wanted = [outcome(text) for text in texts]
    assert {w["bad"] for w in wanted if "bad" in w} == {
        "not-ours",
        "version",
        "too-long",
        "damaged",
        "limits",
        "unknown",
    }
    found = page.evaluate(IN_PAGE, ["decode", texts])
    assert [t for t in zip(texts, found, wanted, strict=True) if t[1] != t[2]] == []
