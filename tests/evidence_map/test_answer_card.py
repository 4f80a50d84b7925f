"""Cards say in about thirty words what the numbers say, and never more.

The verbs are those of GRADE's informative statements (doi:10.1016/j.jclinepi.2019.10.014), as in the table of sentences.
"""

from __future__ import annotations

from functools import cache
from statistics import mean

import pytest
import shipped_made

from build_tools.evidence_map.answer_card import AnswerCard, answer_card
from build_tools.evidence_map.best_answer import BestAnswer, BestAnswers
from build_tools.evidence_map.grid import EvidenceMap


@cache
def cards() -> dict[str, tuple[BestAnswer, AnswerCard]]:
    catalog, conclusions = shipped_made.catalog(), shipped_made.conclusions()
    map = EvidenceMap(catalog, conclusions, shipped_made.courses())
    found = BestAnswers(catalog, conclusions, map)
    made = {}
    for part in map.parts:
        answer = found.of(part)
        made[part] = (answer, answer_card(conclusions.names, answer))
    return made


def words(card: AnswerCard) -> int:
    names = shipped_made.conclusions().names
    said = [card.lead, *(names.exercise(id).removeprefix("the ") for id in card.chosen)]
    return len(" ".join([*said, *(" ".join(line) for line in card.lines)]).split())


def said(card: AnswerCard) -> str:
    return " ".join(" ".join(line) for line in card.lines)


def test_a_card_has_about_thirty_words() -> None:
    counts = [words(card) for _, card in cards().values()]
    assert max(counts) <= 52 and mean(counts) < 37


@pytest.mark.parametrize(
    ("part", "lines"),
    [
        (
            "elbow-extensors/triceps-brachii-long-head",
            {
                "Why": "May grow it more: 28% against 20% with the cable pushdown, 12 weeks.",
                "How sure": "Low: one study of 21 people.",
            },
        ),
        (
            "hamstrings/biceps-femoris-short-head",
            {
                "Why": "No clear difference in growth: 9% against 10%, 12 weeks.",
                "How sure": "Very low: one study of 20 people.",
            },
        ),
        (
            "quadriceps/rectus-femoris",
            {
                "Why": "May grow it more: 13% against 1% with the leg press, 12 weeks.",
                "Also": "The reclined leg extension leaned ahead of it.",
            },
        ),
    ],
)
def test_cards_tell_what_papers_print(part: str, lines: dict[str, str]) -> None:
    """Maeo 2023: 28.5% and 19.6%; Maeo 2021: 9% and 10%; 13.2% and 1.1% of the rectus femoris in 17 people."""
    told = dict(cards()[part][1].lines)
    assert {label: told[label] for label in lines} == lines


def test_no_card_says_more_than_its_comparison() -> None:
    for part, (answer, card) in cards().items():
        told, why = answer.comparison, card.why
        if told is None or not answer.more:
            assert "more" not in why.split(":")[0], part
            continue
        level = told.certainty.level if told.certainty else "very low"
        if told.finding == "hinted" or level == "low":
            assert "may" in why.lower(), part
        elif level == "very low":
            assert "stud" in why, part  # a study found it; nothing is said of the exercise as such
        elif level == "moderate":
            assert "probably" in why.lower(), part


def test_very_low_certainty_on_growth_is_not_to_be_leaned_on() -> None:
    for part, (answer, card) in cards().items():
        if answer.kind == "growth" and answer.more and card.sure.startswith("Very low"):
            assert card.sure.endswith("do not lean on it yet."), part


def test_activation_never_passes_for_growth() -> None:
    for part, (answer, card) in cards().items():
        if answer.kind == "activation":
            assert "activity does not show" in card.untested, part
            assert "grow" not in card.why.lower(), part
            assert "one session" in card.why, part


def test_what_was_measured_wider_says_so() -> None:
    for part, (answer, card) in cards().items():
        told = answer.comparison
        if told and (told.measured == "whole" or told.question.part != part):
            assert "whole" in card.why, part
        elif told and told.measured == "together":
            assert "together" in card.why or "measured with" in card.why, part


def test_where_nothing_was_tested_the_card_says_that_nobody_did() -> None:
    found = [card for answer, card in cards().values() if answer.kind == "none"]
    assert found and {card.why for card in found} == {"Nobody tested which exercise is best."}
    assert {card.lead for card in found} == {"These train it"}


def test_several_that_lead_are_said_to_be_level_or_untried() -> None:
    for part, (answer, card) in cards().items():
        if answer.more and len(answer.chosen) > 1 and answer.kind != "length":
            assert "Nobody compared" in said(card) or "Nothing clear between" in said(card), part
