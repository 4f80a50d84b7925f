"""Which statements moved: another finding, side or certainty is one move, anything else none."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from folders import SHIPPED
from hypothesis import given, settings
from hypothesis import strategies as st

from build_tools.committed import files as committed
from build_tools.committed.moves import (
    NO_SIDE,
    NOT_RATED,
    Answered,
    Move,
    Saying,
    differing,
)
from build_tools.revisions.statements import compare

TEXTS = {path: text or "" for path, text in committed.stored_texts(SHIPPED).items()}


def answers(data: dict[str, Any]) -> list[dict[str, Any]]:
    """Every answer of a file with a sentence: a claim's parts, and pairs that are told."""
    found = [part for claim in data.get("claims", ()) for part in claim["parts"]]
    pairs = (pair for field in data.get("fields", ()) for pair in field["comparisons"])
    return found + [pair for pair in pairs if "sentence" in pair]


PATHS = sorted(path for path in TEXTS if answers(yaml.load(TEXTS[path], yaml.CSafeLoader)))
#: What an answer can hold beside what moves it; numbers and studies come and go with every build.
ELSE = st.sampled_from(
    [("ratio", 1.234), ("people", 999), ("chance of more", 0.5), ("studies", 7), ("dimension", "x")]
)


def changed(path: str, index: int, key: str, value: object) -> dict[str, str]:
    """The shipped conclusions with one field of one answer changed."""
    data = yaml.load(TEXTS[path], yaml.CSafeLoader)
    found = answers(data)
    found[index % len(found)][key] = value
    return {**TEXTS, path: yaml.safe_dump(data, sort_keys=False, allow_unicode=True)}


def test_the_same_conclusions_have_no_moves() -> None:
    assert compare(TEXTS, TEXTS) == ([], [], [])


def test_another_layout_of_the_same_has_none() -> None:
    """Read and written by PyYAML, whose quotes and line breaks are others."""
    again = {
        path: yaml.safe_dump(yaml.load(text, yaml.CSafeLoader), width=60)
        for path, text in TEXTS.items()
    }
    assert compare(TEXTS, again) == ([], [], [])


@settings(max_examples=60, deadline=None)
@given(path=st.sampled_from(PATHS), index=st.integers(0, 400), data=st.data())
def test_one_field_that_answers_is_one_move(path: str, index: int, data: st.DataObject) -> None:
    found = answers(yaml.load(TEXTS[path], yaml.CSafeLoader))
    old = found[index % len(found)]
    key, values = data.draw(
        st.sampled_from(
            [
                ("finding", ["found", "hinted", "unclear", "alike", "not studied"]),
                ("side", ["more", "less"]),
                ("certainty", ["very low", "low", "moderate", "high"]),
            ]
        )
    )
    value = data.draw(st.sampled_from([v for v in values if v != old.get(key)]))
    moves = compare(TEXTS, changed(path, index, key, value))
    assert [len(of) for of in moves] == [1, 0, 0]
    [move] = moves.moved
    differing = [
        (was, now)
        for was, now in zip(move.before.answers, move.now.answers, strict=True)
        if was != now
    ]
    assert len(differing) == 1 and getattr(differing[0][1], key) == value


@settings(max_examples=40, deadline=None)
@given(path=st.sampled_from(PATHS), index=st.integers(0, 400), other=ELSE)
def test_a_number_that_changes_no_answer_is_none(
    path: str, index: int, other: tuple[str, object]
) -> None:
    assert compare(TEXTS, changed(path, index, *other)) == ([], [], [])


def test_a_sentence_in_other_words_is_none() -> None:
    path = next(path for path in PATHS if "exercises/" in path)
    again = TEXTS[path].replace('sentence: "', 'sentence: "Said otherwise: ')
    assert again != TEXTS[path] and compare(TEXTS, {**TEXTS, path: again}) == ([], [], [])


CLAIM = """exercise: curl
claims:
  - claim: curl/{number}
    outcome: growth
    says: {says} press
    sentence: "A curl grows it {certainty}."
    parts:
      - {{part: arm/long, finding: hinted, side: more, certainty: {certainty}, rests on: [wick2030]}}
"""


def claim(number: int = 1, certainty: str = "low", says: str = "more than") -> dict[str, str]:
    text = CLAIM.format(number=number, certainty=certainty, says=says)
    return {"conclusions/exercises/curl.yaml": text}


def test_a_claim_with_another_number_or_direction_is_the_same() -> None:
    """The author put another claim before it, or turned it round: what was found is what it was."""
    assert compare(claim(1), claim(3, says="less than")) == ([], [], [])


def test_a_moved_claim_is_told_with_both_sentences_and_what_it_rests_on() -> None:
    [move] = compare(claim(1), claim(3, "moderate")).moved
    assert (move.at, move.way) == ("/exercises/curl/#claim-3", "firmer")
    assert (move.before.sentence, move.now.sentence) == (
        "A curl grows it low.",
        "A curl grows it moderate.",
    )
    assert move.now.rests_on == ["wick2030"]


PAIR = """muscle: arm
fields:
  - part: arm/long
    outcome: growth
    comparisons:
      - {{pair: curl against press, finding: hinted, side: more, certainty: {certainty}, sentence: "It may."}}
"""


def pair(certainty: str) -> dict[str, str]:
    return {"conclusions/muscles/arm.yaml": PAIR.format(certainty=certainty)}


def test_a_pair_that_a_moved_claim_tells_is_told_once() -> None:
    both = compare(claim() | pair("low"), claim(1, "high") | pair("high"))
    assert [move.at for move in both.moved] == ["/exercises/curl/#claim-1"]
    alone = compare(claim() | pair("low"), claim() | pair("high"))
    assert [move.at for move in alone.moved] == ["/muscles/arm/long/#growth-curl-press"]


def test_what_only_came_or_went_is_counted() -> None:
    assert compare({}, claim()).new == ["/exercises/curl/#claim-1"]
    assert compare(pair("low"), {}).gone == ["/muscles/arm/long/#growth-curl-press"]


def test_a_file_of_another_form_tells_nothing() -> None:
    """As before the findings had their names: no guess at what it would have said."""
    old = CLAIM.replace("finding: hinted", "shape: more").format(
        number=1, certainty="low", says="more than"
    )
    path = "conclusions/exercises/curl.yaml"
    assert compare({path: old}, claim()).moved == []
    assert compare({path: "[:"}, {path: None}) == ([], [], [])


def way(before: tuple[str, str, str], now: tuple[str, str, str]) -> str:
    [told] = compare(claim(), claim(1, "high")).moved
    saying = told.before.model_copy
    return Move.model_copy(
        told,
        update={
            "before": saying(update={"answers": [Answered("arm/long", *before)]}),
            "now": saying(update={"answers": [Answered("arm/long", *now)]}),
        },
    ).way


@pytest.mark.parametrize(
    ("before", "now", "expected"),
    [
        (("hinted", "more", "low"), ("found", "more", "low"), "firmer"),
        (("hinted", "more", "low"), ("hinted", "more", "moderate"), "firmer"),
        (("unclear", NO_SIDE, "low"), ("alike", NO_SIDE, "low"), "firmer"),
        (("found", "more", "low"), ("unclear", NO_SIDE, "low"), "weaker"),
        (("found", "more", "low"), ("not studied", NO_SIDE, NOT_RATED), "weaker"),
        (("found", "more", "low"), ("found", "less", "high"), "turned"),
        (("alike", NO_SIDE, "low"), ("found", "less", "low"), "turned"),
        (("not studied", NO_SIDE, NOT_RATED), ("unclear", NO_SIDE, "low"), "newly tested"),
        (("hinted", "more", "low"), ("found", "more", "very low"), "otherwise"),
    ],
)
def test_how_it_moved(
    before: tuple[str, str, str], now: tuple[str, str, str], expected: str
) -> None:
    """Certainty in GRADE's order; a finding says the more the less it leaves open."""
    assert way(before, now) == expected


def said(sentence: str) -> Saying:
    return Saying.model_validate(
        {"sentence": sentence, "answers": [("a/b", "found", "more", "low")]}
    )


@pytest.mark.parametrize(
    ("before", "now", "expected"),
    [
        ("One. Same.", "Two. Same.", ("One.", "Two.")),
        ("About 1.5 cm more. Same.", "About 2.5 cm more. Same.",
         ("About 1.5 cm more.", "About 2.5 cm more.")),
        ("Same.", "Same. And more.", ("Same.", "Same. And more.")),
    ],
)  # fmt: skip
def test_only_what_differs_is_told(before: str, now: str, expected: tuple[str, str]) -> None:
    assert differing(said(before), said(now)) == expected
