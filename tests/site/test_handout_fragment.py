"""A browser reads and writes fragments as the embedded engine does, also hostile ones: base64, UTF-8 and JSON are the browser's own there.

The script itself is held against RFC 4648 and RFC 8259 in tests/handout, in that engine.
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
from handouts import KNOWN, Handout, decode, encode, handouts
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from script_rules import Refused

from build_tools.catalog.load import load
from build_tools.handout.successors import shown

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

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


def fragment(data: object, spaced: bool = False) -> str:
    text = json.dumps(data, ensure_ascii=False, separators=None if spaced else (",", ":"))
    return "1." + urlsafe_b64encode(text.encode()).rstrip(b"=").decode()


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
    lambda handout, n, value, title: fragment(
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
    | st.builds(fragment, ANY_JSON | st.lists(ANY_JSON, min_size=2, max_size=2), st.booleans())
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
    fragment([None, [["constructor"]]]),
    fragment([None, [["__proto__"]]]),
    fragment([None, [["crate-curl"], ["gone"]]]),
    fragment([None, [["lamp-curl", 3]]]),
    fragment(["\u2028", [["crate-curl"]]]),
    fragment(["😀" * 60, [["crate-curl"]]]),
    fragment(["😀" * 61, [["crate-curl"]]]),
    fragment([None, [["crate-curl\n"]]]),
    fragment([None, [["crate-curl"]] * 13]),
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
