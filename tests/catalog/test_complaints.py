"""What authors read when a value does not fit: one case for each way the validator can refuse."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated, Literal

import pytest
from pydantic import Field

from build_tools.catalog import entries, load
from build_tools.catalog.yaml_file import read


class Inner(entries.Entry):
    word: entries.Line = Field(description="One word.")


class Outline(entries.Entry):
    """Every kind of field the catalog uses."""

    day: date | None = None
    count: Annotated[int, Field(gt=0)] | None = None
    share: Annotated[float, Field(ge=0, le=1)] | None = None
    yes: bool = False
    pick: Literal["first", "second", "third"] = "first"
    id: entries.Id | None = None
    key: entries.Key | None = None
    part: entries.PartRef | None = None
    name: entries.Name | None = None
    line: entries.Line | None = None
    url: entries.Owner | None = None
    items: list[entries.Id] = Field(default=["x"], min_length=1)
    pair: Annotated[list[float], Field(min_length=2, max_length=2)] | None = None
    table: dict[entries.Id, Inner] = {}
    inner: Inner | None = None
    inners: list[Inner] = []
    claim: entries.Claim | None = None
    start: Inner | None = Field(None, alias="from")


def findings(tmp_path: Path, text: str) -> list[tuple[str, int, int, str, str]]:
    file = tmp_path / "entry.yaml"
    file.write_text(text, encoding="utf-8")
    src, data, wrong = read(file, "entry.yaml")
    assert not wrong
    typed, wrong = load._typed(src, data, Outline)
    assert (typed is None) == bool(wrong)
    return [(f.rule, f.spot.line, f.spot.column, f.message, f.help) for f in wrong]


DATE = "write it as year-month-day, e.g. 2026-11-20"
NUMBER = "write plain digits, without quotes, unit or leading zero"


def id_form(example: str) -> str:
    return f"use small letters, digits and single hyphens, a letter first: {example}"


ID = id_form("seated-row")
MAPPING = "a mapping (`key: value` lines)"
INDENT = "indent its `key: value` lines below it"
UNDER = "write it under its key: {word: x}"
TRUE_FALSE = "write true or false (yes, no, on and off are plain text in YAML 1.2)"


@pytest.mark.parametrize(
    ("text", "rule", "column", "message", "help"),
    [
        # dates: YAML 1.2 has none, so they come as text
        ("day: 20261120", "wrong-type", 6, "`day` should be a date, not `20261120`", DATE),
        (
            "day: 2026-13-40",
            "wrong-type",
            6,
            "`day` should be a date, not the text `2026-13-40`",
            DATE,
        ),
        (
            "day: 2026-11-20T10:00:00",
            "wrong-type",
            6,
            "`day` should be a date, not the text `2026-11-20T10:00:00`",
            DATE,
        ),
        ("day: [1]", "wrong-type", 6, "`day` should be a date, not a list", DATE),
        # numbers are never converted from text, nor whole ones from fractions
        ("count: 1.5", "wrong-type", 8, "`count` should be a whole number, not `1.5`", NUMBER),
        (
            "count: '3'",
            "wrong-type",
            8,
            "`count` should be a whole number, not the text `3`",
            "write plain digits, without quotes: 3",
        ),
        (
            "count: 010",
            "wrong-type",
            8,
            "`count` should be a whole number, not the text `010`",
            "write plain digits, without quotes: 10",
        ),
        ("count: true", "wrong-type", 8, "`count` should be a whole number, not `true`", NUMBER),
        ("count: 0", "wrong-value", 8, "`count` cannot be `0`", "write a number above 0"),
        ("share: x", "wrong-type", 8, "`share` should be a number, not the text `x`", NUMBER),
        ("share: 1:30", "wrong-type", 8, "`share` should be a number, not the text `1:30`", NUMBER),
        ("share: 2", "wrong-value", 8, "`share` cannot be `2`", "write a number of at most 1"),
        ("share: -1", "wrong-value", 8, "`share` cannot be `-1`", "write a number of at least 0"),
        (
            "share: 1e999",
            "wrong-value",
            8,
            "`share` is larger than any number",
            "write it with fewer digits",
        ),
        # true and false
        (
            "yes: no",
            "wrong-type",
            6,
            "`yes` should be true or false, not the text `no`",
            TRUE_FALSE,
        ),
        ("yes:", "wrong-type", 1, "`yes` should be true or false, not empty", TRUE_FALSE),
        # closed lists and ids
        (
            "pick: fist",
            "wrong-value",
            7,
            "`pick` cannot be `fist`",
            "write one of: `first`, `second` or `third`",
        ),
        ("id: ../x", "wrong-value", 5, "`id` cannot be `../x`", ID),
        ("id: <script>", "wrong-value", 5, "`id` cannot be `<script>`", ID),
        ("id: Row", "wrong-value", 5, "`id` cannot be `Row`", id_form("row")),
        ("id: Seated row", "wrong-value", 5, "`id` cannot be `Seated row`", id_form("seated-row")),
        ("id: " + "a" * 65, "wrong-value", 5, "`id` has 65 characters", "write at most 64"),
        ("id: 5", "wrong-type", 5, "`id` should be text, not `5`", 'put it in quotes: "..."'),
        (
            "key: a-b",
            "wrong-value",
            6,
            "`key` cannot be `a-b`",
            "use small letters and digits, a letter first: ab",
        ),
        (
            "part: a/b/c",
            "wrong-value",
            7,
            "`part` cannot be `a/b/c`",
            "use muscle or muscle/part: hamstrings/biceps-femoris-long-head",
        ),
        # text
        (
            "name: a *b*",
            "wrong-value",
            7,
            "`name` has a `*`, as in `a *b*`",
            "say it in words: catalog text holds no markup",
        ),
        (
            "line: a <b>",
            "wrong-value",
            7,
            "`line` has a `<`, as in `a <b>`",
            "say it in words: catalog text holds no markup",
        ),
        ("name: ''", "wrong-value", 7, "`name` is empty", "write some text, or remove the key"),
        ("name: '  '", "wrong-value", 7, "`name` is empty", "write some text, or remove the key"),
        (
            "name: " + "x" * 81,
            "wrong-value",
            7,
            "`name` has 81 characters",
            "write at most 80; say one thing",
        ),
        (
            "line: " + "x" * 401,
            "wrong-value",
            7,
            "`line` has 401 characters",
            "write at most 400; say one thing",
        ),
        (
            'line: "a\\nb"',
            "wrong-value",
            7,
            "`line` has a line break",
            "write it as one line, or with `>-`",
        ),
        (
            "line: a\u202eb",
            "wrong-value",
            7,
            "`line` has an invisible character (U+202E)",
            "type the text anew here",
        ),
        (
            "line: {a: b}",
            "wrong-type",
            7,
            f"`line` should be text, not {MAPPING}",
            "write one line of text",
        ),
        (
            "line:\n  - a",
            "wrong-type",
            3,
            "`line` should be text, not a list",
            "write one line of text",
        ),
        (
            "url: {name: x, url: 'javascript:x'}",
            "wrong-value",
            21,
            "`url` cannot be `javascript:x`",
            "write a full address that starts with https://",
        ),
        # lists
        ("items: []", "wrong-value", 8, "`items` has 0 entries", "write at least 1"),
        (
            "items: x",
            "wrong-type",
            8,
            "`items` should be a list, not the text `x`",
            "put it in brackets: [x]",
        ),
        ("items: [x, A]", "wrong-value", 12, "entry 2 of `items` cannot be `A`", id_form("a")),
        ("pair: [1]", "wrong-value", 7, "`pair` has 1 entry", "write at least 2"),
        ("pair: [1, 2, 3]", "wrong-value", 7, "`pair` has 3 entries", "write at most 2"),
        (
            "pair: [1, x]",
            "wrong-type",
            11,
            "entry 2 of `pair` should be a number, not the text `x`",
            NUMBER,
        ),
        # mappings
        ("table: {A: {word: x}}", "wrong-value", 9, "the key cannot be `A`", id_form("a")),
        ("table: {'[key]': {word: x}}", "wrong-value", 9, "the key cannot be `[key]`", ID),
        ("table: {a: x}", "wrong-type", 12, f"`a` should be {MAPPING}, not the text `x`", UNDER),
        ("table: []", "wrong-type", 8, f"`table` should be {MAPPING}, not a list", INDENT),
        ("inner: x", "wrong-type", 8, f"`inner` should be {MAPPING}, not the text `x`", UNDER),
        (
            "inners: [x]",
            "wrong-type",
            10,
            f"entry 1 of `inners` should be {MAPPING}, not the text `x`",
            UNDER,
        ),
        # keys
        ("inners: [{}]", "missing-key", 10, "the key `word` is missing", "add `word:` (One word.)"),
        ("from: {}", "missing-key", 7, "the key `word` is missing", "add `word:` (One word.)"),
        (
            "table: {a: {}}",
            "missing-key",
            12,
            "the key `word` is missing",
            "add `word:` (One word.)",
        ),
        ("dya: 1", "unknown-key", 1, "unknown key `dya`", "did you mean `day`?"),
        ("form: 1", "unknown-key", 1, "unknown key `form`", "did you mean `from`?"),
        (
            "inner: {word: x, wrod: x}",
            "unknown-key",
            18,
            "unknown key `wrod`",
            "did you mean `word`?",
        ),
        ("inner: {word: x, zzz: x}", "unknown-key", 18, "unknown key `zzz`", "known here: word"),
        # rules of an entry as a whole
        (
            "claim: {part: [a], outcome: growth, because: x}",
            "wrong-value",
            8,
            "this claim has no direction",
            "add one of `more_than:`, `less_than:`, `similar_to:` with what it is compared with",
        ),
        (
            "claim: {part: [a], outcome: growth, because: x, more_than: {part: a}, less_than: {part: b}}",
            "wrong-value",
            71,
            "this claim says `more_than:` and `less_than:` at once",
            "keep the one direction that is meant; two comparisons are two claims",
        ),
        (
            "claim: {part: [a], outcome: growth, because: x, more_than: {part: a}, common_practice: y, taught: {says: less, common_practice: z}}",
            "wrong-value",
            91,
            "this claim is common practice already, so it is itself what is taught",
            "remove `taught:`, or cite what was found and leave `common_practice:` to `taught:`",
        ),
        # numbers with something else in them
        ("inner: {word: x, 5: }", "unknown-key", 18, "unknown key `5`", "known here: word"),
        (
            "pair: [1,2, 3,4]",
            "wrong-value",
            7,
            "`pair` has 4 entries",
            "write at most 2; a decimal is written with a point: [1.2, 3.4]",
        ),
        (
            "share: 0,5",
            "wrong-type",
            8,
            "`share` should be a number, not the text `0,5`",
            "write a decimal point: 0.5",
        ),
        (
            "share: 33 ± 12,5",
            "wrong-type",
            8,
            "`share` should be a number, not the text `33 ± 12,5`",
            "write the number alone: share: 33",
        ),
        (
            "share: ±12",
            "wrong-type",
            8,
            "`share` should be a number, not the text `±12`",
            "write the number alone: share: 12",
        ),
        (
            "claim: {part: [a], outcome: growth, because: x, more_than: {}}",
            "wrong-value",
            60,
            "this comparison names nothing",
            "give `exercise:` (the same part there) or `part:` (another part here), one of the two",
        ),
    ],
)
def test_each_refusal(
    tmp_path: Path, text: str, rule: str, column: int, message: str, help: str
) -> None:
    line = text.count("\n") + 1
    assert findings(tmp_path, text + "\n") == [(rule, line, column, message, help)]


def test_values_that_fit(tmp_path: Path) -> None:
    text = (
        "day: 2026-11-20\ncount: 3\nshare: 1\nyes: true\npick: second\nid: a-b1\nkey: smith2024\npart: a/b\nname: Röw (seated)\n"
        "line: >-\n  Two lines\n  fold to one & stay.\nitems: [a]\npair: [1, -2.5]\ntable: {a: {word: x}}\nfrom: {word: y}\n"
    )
    assert findings(tmp_path, text) == []


def test_everything_wrong_in_a_file_at_its_line(tmp_path: Path) -> None:
    text = "dya: 1\ncount: x\ninners:\n  - word: a\n  - wrod: b\n"
    assert [(rule, line, column) for rule, line, column, *_ in findings(tmp_path, text)] == [
        ("wrong-type", 2, 8),
        ("missing-key", 5, 5),
        ("unknown-key", 5, 5),
        ("unknown-key", 1, 1),
    ]


@pytest.mark.parametrize("text", ["", "- a\n", "just text\n", "5\n", "null\n"])
def test_a_file_that_is_no_mapping(tmp_path: Path, text: str) -> None:
    (finding,) = findings(tmp_path, text)
    assert finding[:3] == ("wrong-type", 1, 1) and finding[4].startswith(
        "start with one of: day, count, "
    )
