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
from typing import TYPE_CHECKING, Any

import pytest
import script_rules
from handout_site import WEEK, visit
from handouts import KNOWN, Day, Handout, Item, decode, encode, handouts, single
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from script_rules import Refused

from build_tools.catalog.fixed_words import fixed_words
from build_tools.handout import limits
from build_tools.handout.successors import shown

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

TWO = single(
    "Week 1",
    (Item("crate-curl", 3, "8-12", "20 kg", 2, 120, "3-1-1", "Slowly"), Item("cable-curl")),
)


WEEK_OF_TWO = Handout(
    "Week 1",
    "A. Coach",
    "2026-12-07",
    ("shoulder",),
    (Day(0, (Item("crate-curl", 3),)), Day(4, (Item("cable-curl"), Item("crate-curl")))),
)


def day(*rows: object) -> list[object]:
    """What a fragment holds of one day."""
    return [None, None, None, [], [[None, list(rows)]]]


def days(*held: object) -> list[object]:
    return [None, None, None, [], list(held)]


def fragment(data: object, version: str = "2") -> str:
    text = (
        data
        if isinstance(data, str)
        else json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    )
    return f"{version}.{urlsafe_b64encode(text.encode()).rstrip(b'=').decode()}"


def test_a_handout_as_documented() -> None:
    rows = '[["crate-curl",3,"8-12","20 kg",2,120,"3-1-1","Slowly"],["cable-curl"]]'
    wanted = f'["Week 1",null,null,[],[[null,{rows}]]]'
    assert encode(TWO) == fragment(wanted)
    assert decode(fragment(wanted), KNOWN) == TWO
    assert decode(fragment(f'["Week 1",{rows}]', "1"), KNOWN) == TWO  # as version 1 wrote it


def test_a_week_as_documented() -> None:
    wanted = (
        '["Week 1","A. Coach","2026-12-07",["shoulder"],'
        '[[0,[["crate-curl",3]]],[4,[["cable-curl"],["crate-curl"]]]]]'
    )
    assert encode(WEEK_OF_TWO) == fragment(wanted)
    assert decode(fragment(wanted), KNOWN) == WEEK_OF_TWO


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
        ("too-long", "2." + "A" * limits.MOST_CHARACTERS),
        ("not-ours", ""),
        ("not-ours", "how-to-do-it"),
        ("not-ours", "<script>alert(1)</script>"),
        ("version", fragment(day(["crate-curl"]), version="3")),
        ("version", fragment(day(["crate-curl"]), version="02")),
        ("damaged", "1."),
        ("damaged", "2."),
        ("damaged", "2.W*"),
        ("damaged", fragment(day(["crate-curl"]), version="1")),
        ("damaged", fragment([None, [["crate-curl"]]])),
        ("damaged", fragment([None, None, None, ["knee", 1], [[None, [["crate-curl"]]]]])),
        ("damaged", fragment([None, None, None, None, [[None, [["crate-curl"]]]]])),
        ("damaged", fragment([None, 7, None, [], [[None, [["crate-curl"]]]]])),
        ("damaged", fragment(days(["Monday", [["crate-curl"]]]))),
        ("damaged", fragment(days([0]))),
        ("damaged", encode(TWO) + "="),
        ("damaged", encode(TWO) + ")."),
        ("damaged", fragment([])),
        ("damaged", fragment({"title": None})),
        ("damaged", fragment(day([]))),
        ("damaged", fragment(day(["crate-curl", None]))),
        ("damaged", fragment(day(["crate-curl", True]))),
        ("damaged", fragment(day(["crate-curl", "3"]))),
        ("damaged", fragment(day(["crate-curl", 3, 8]))),
        ("damaged", fragment(day(["crate-curl", 3.0]))),
        ("damaged", fragment(day(["crate-curl", 3, None, None, None, None, None, "x", "y"]))),
        ("damaged", fragment('[null,null,null,[],[[null, [["crate-curl"]]]]]')),
        ("damaged", fragment('[null,null,null,[],[[null,[["crate\\u002dcurl"]]]]]')),
        ("damaged", fragment('["\\ud800",null,null,[],[[null,[["crate-curl"]]]]]')),
        ("damaged", fragment('[null,null,null,[],[[null,[["crate-curl",1e0]]]]]')),
        ("damaged", fragment("[" * 500)),
        ("limits", fragment(days())),
        ("limits", fragment(days([0, []]))),
        ("limits", fragment(days([7, [["crate-curl"]]]))),
        ("limits", fragment(days([-1, [["crate-curl"]]]))),
        ("limits", fragment(days([1, [["crate-curl"]]], [1, [["crate-curl"]]]))),
        ("limits", fragment(days([1, [["crate-curl"]]], [0, [["crate-curl"]]]))),
        ("limits", fragment(days([None, [["crate-curl"]]], [0, [["crate-curl"]]]))),
        ("limits", fragment([None, None, "2026-13-01", [], [[None, [["crate-curl"]]]]])),
        ("limits", fragment([None, None, None, ["knee", "knee"], [[None, [["crate-curl"]]]]])),
        ("limits", fragment([None, None, None, ["no knee"], [[None, [["crate-curl"]]]]])),
        ("limits", fragment([None, None, None, [*"abcdefg"], [[None, [["crate-curl"]]]]])),
        ("limits", fragment(day())),
        ("limits", fragment(day(*[["crate-curl"]] * 13))),
        ("limits", fragment(["", *day(["crate-curl"])[1:]])),
        ("limits", fragment(["T" * 61, *day(["crate-curl"])[1:]])),
        ("limits", fragment(["a\u202eb", *day(["crate-curl"])[1:]])),
        ("limits", fragment(day(["crate-curl", 0]))),
        ("limits", fragment(day(["crate-curl", 21]))),
        ("limits", fragment(day(["crate-curl", None, "12-8"]))),
        ("limits", fragment(day(["crate-curl", None, "many"]))),
        ("limits", fragment(day(["crate-curl", None, None, None, None, None, "0-1-1"]))),
        ("limits", fragment(day(["../../evil"]))),
        ("unknown", fragment(day(["constructor"]))),
        ("unknown", fragment(day(["crate-curl"], ["no-such-exercise"]))),
    ],
)
def test_each_fault_has_its_message(kind: str, text: str) -> None:
    with pytest.raises(Refused) as bad:
        decode(text, KNOWN)
    assert bad.value.kind == kind
    assert kind in fixed_words("handout")["script"]["problems"]


def test_a_handout_beyond_the_limits_gets_no_link() -> None:
    for handout, kind in (
        (single(None, (Item("crate-curl", sets=99),)), "limits"),
        (single("T" * 61, TWO.items), "limits"),
        (single(None, (Item("crate-curl", note="é" * 140),) * 12), "too-long"),
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
    assert decode(fragment(day(["old", 3])), shown(exercises, moved)) == single(
        None, (Item("new", 3),)
    )


@given(handouts())
def test_what_was_taken_out_is_named_without_a_dose(handout: Handout) -> None:
    """For the client the row stays, so that nothing is missed, and asks for nothing; for the coach it goes."""
    gone, given = {"crate-curl": "Crate curl"}, asdict(handout)
    told = script_rules.link.told(given, gone)
    for before, after in zip(given["days"], told["days"], strict=True):
        assert [item["id"] for item in after["items"]] == [item["id"] for item in before["items"]]
        for was, item in zip(before["items"], after["items"], strict=True):
            asked = {value for field, value in item.items() if field != "id"}
            assert asked == {None} if item["id"] in gone else item == was
    kept = [
        item["id"] for day in script_rules.link.going(given, gone)["days"] for item in day["items"]
    ]
    assert kept == [item.id for item in handout.items if item.id not in gone]


# --- in a browser -----------------------------------------------------------

#: Runs a function of the page's script over all inputs: its answer, or the kind of fault.
IN_PAGE = """async ([name, inputs, retired]) => {
    const { BadFragment, decode, encode } = await import(new URL('../scripts/rules/link.js', location.href));
    const { rules, exercises } = await (await fetch('data.json')).json();
    const known = new Map([...Object.entries(retired), ...Object.keys(exercises).map((id) => [id, id])]);
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
            handout.coach,
            handout.date,
            handout.care,
            [
                [
                    day.day,
                    [
                        [value if i == n else kept for i, kept in enumerate(astuple(item))]
                        for item in day.items
                    ],
                ]
                for day in handout.days
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
    "3.W10",
    of_json([None, [["crate-curl"]]]),
    f"1.{of_json([None, [['crate-curl']]])[2:]}",
    "01.W10",
    "<script>alert(1)</script>",
    "javascript:alert(1)",
    "2." + "A" * 3998,
    "é" * 4001,
    "1.\n",
    "1\u0660.x",
    of_json(day(["constructor"])),
    of_json(day(["__proto__"])),
    of_json(day(["crate-curl"], ["gone"])),
    of_json(day(["lamp-curl", 3])),
    of_json(["\u2028", *day(["crate-curl"])[1:]]),
    of_json(["😀" * 60, *day(["crate-curl"])[1:]]),
    of_json(["😀" * 61, *day(["crate-curl"])[1:]]),
    of_json(day(["crate-curl\n"])),
    of_json(day(*[["crate-curl"]] * 13)),
    *(
        f"2.{urlsafe_b64encode(raw).rstrip(b'=').decode()}"
        for raw in (
            b'[null,null,null,[],[[null,[["crate-curl",1e0]]]]]',
            b'[null,null,null,[],[[null,[["crate-curl",-0]]]]]',
            b'["\\ud800",null,null,[],[[null,[["crate-curl"]]]]]',
            b'[null,null,null,[],[[null,[["crate-curl",NaN]]]]]',
            b'\xef\xbb\xbf[null,null,null,[],[[null,[["crate-curl"]]]]]',
            b'["\xff",null,null,[],[[null,[["crate-curl"]]]]]',
            b'[null,null,null,[],[[null,[["crate-curl",9007199254740993]]]]]',
            b'["\\u0007",null,null,[],[[null,[["crate-curl"]]]]]',
            b'["\x7f",null,null,[],[[null,[["crate-curl"]]]]]',
            b"[" * 1000,
            b'{"a":1,"a":2}',
        )
    ),
]


@pytest.fixture(scope="module")
def page(browser: Browser, handout_address: str) -> Iterator[Page]:
    with visit(browser) as page:
        page.goto(handout_address)
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
    assert page.evaluate(IN_PAGE, ["encode", [asdict(handout) for handout in made], {}]) == wanted


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
    found = page.evaluate(IN_PAGE, ["decode", texts, {"lamp-curl": "crate-curl"}])
    assert [t for t in zip(texts, found, wanted, strict=True) if t[1] != t[2]] == []
