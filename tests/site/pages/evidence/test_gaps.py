"""What one more study would change, what disagrees, and what is missing."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from made import (
    POOLED,
    SHORT,
    a_book,
    compared,
    concluded,
    outlook,
    page,
    row,
    two_lists,
)

from build_tools.evidence.claims.conclusions import Comparison, PartEvidence
from build_tools.evidence.wording.sentences import ComposedAnswer
from build_tools.site.book import Book
from build_tools.site.pages.evidence import gaps

EXERCISES = ("crate-curl", "cable-curl", "lamp-raise", "wick-press", "flame-row", "oil-press")


def asked(made: Book) -> list[str]:
    return [question.asked.text for question in gaps.open_questions(made.shelf.at(gaps.URI))]


def pair(n: int, chance: float, outcome: str = "growth", **more: object) -> Comparison:
    """The nth pair of exercises, of which one more study would change the answer with this chance."""
    pairs = [(a, b) for i, a in enumerate(EXERCISES) for b in EXERCISES[i + 1 :]]
    first, second = pairs[n]
    given = compared(
        first, second, row(), estimate=(1.0, 0.9, 1.1), outcome=outcome, outlook=outlook(chance)
    )
    return replace(given, **more)


def field(*comparisons: Comparison) -> PartEvidence:
    first = comparisons[0].question
    return PartEvidence(first.part, first.outcome, None, (), comparisons)


def test_what_one_more_study_would_change_most_comes_first() -> None:
    made = a_book(fields=[field(pair(0, 0.2), pair(1, 0.9), pair(2, 0.5))])
    assert asked(made) == [
        "Crate curl against lamp raise, long head of the lantern muscle",
        "Crate curl against wick press, long head of the lantern muscle",
        "Crate curl against standing cable curl, long head of the lantern muscle",
    ]


def test_a_page_more_counts_as_much_as_a_chance_twice_as_high() -> None:
    """The claim stands on the pages of both exercises, and the pair on that of the part: three pages against one."""
    claimed = pair(0, 0.3)
    made = a_book([concluded(claimed)], fields=[field(claimed, pair(1, 0.8))])
    [first, second] = gaps.open_questions(made.shelf.at(gaps.URI))
    assert (first.pages, second.pages) == (3, 1)
    assert first.asked.href == "../exercises/crate-curl/#claim-1"
    assert second.asked.href == "../muscles/lantern/long-head/"


def test_a_question_is_asked_once_whichever_side_it_names_first() -> None:
    one = pair(0, 0.5)
    turned = replace(one, question=replace(one.question, first="cable-curl", second="crate-curl"))
    assert len(asked(a_book([concluded(turned)], fields=[field(one)]))) == 1


@pytest.mark.parametrize(("sized", "questions"), [(False, 1), (True, 2)])
def test_parts_of_which_the_same_study_says_the_same_are_one_question(
    sized: bool, questions: int
) -> None:
    """Unless each has a number of its own."""
    long = pair(0, 0.5, sized=sized)
    short = replace(long, question=replace(long.question, part=SHORT))
    found = asked(a_book(fields=[field(long), field(short)]))
    assert len(found) == questions
    assert questions == 2 or "long head of the lantern muscle, short head" in found[0]


def test_a_question_tells_what_is_known_in_one_sentence_and_what_would_settle_it() -> None:
    known = pair(0, 0.5, sentence="One study found it. Do not lean on it yet. As tested: lying.")
    text = page(a_book(fields=[field(known)]), "gaps.md")
    assert "One study found it. <span" in text and "Do not lean" not in text
    assert "A study of about 40 people would settle it." in text


def test_outcomes_have_lists_of_their_own_and_the_rest_is_folded() -> None:
    """At most 30 questions stand before the others, growth apart from activation."""
    assert sum(gaps.FIRST.values()) <= 30
    growth = [pair(n, 0.5) for n in range(15)]
    activation = [pair(n, 0.9, "activation") for n in range(15)]
    made = a_book(fields=[field(*growth), field(*activation)])
    before, _, folded = page(made, "gaps.md").partition("<aside data-search-exclude>")
    lists = re.split("<h3 class=.hb-kind.>", before)[1:]
    assert ["Growth after" in one for one in lists] == [True, False]
    assert [one.count("<li>") for one in lists] == [gaps.FIRST["growth"], gaps.FIRST["activation"]]
    opened = [one.partition("<details")[0].count("<li>") for one in lists]
    assert opened == [gaps.OPEN["growth"], gaps.OPEN["activation"]]
    rest = 30 - sum(one.count("<li>") for one in lists)
    assert f"<summary>Lantern muscle: {rest} questions</summary>" in folded


def test_studies_that_point_opposite_ways_are_told() -> None:
    clear = compared("crate-curl", "cable-curl", row(direction="more"), row(direction="less"))
    for conflict in (True, False):
        made = a_book(fields=[field(replace(clear, conflict=conflict))])
        told = page(made, "gaps.md").partition("## Disagreements")[2].partition("\n## ")[0]
        assert ("each by its own test" in told) == conflict
        assert (">Crate curl against standing cable curl, long head" in told) == conflict


def test_one_number_over_two_parts_is_one_disagreement() -> None:
    joint = row(cover="jointly", together=(SHORT,))
    long = compared("crate-curl", "cable-curl", joint, conflict=True, measured="together")
    short = replace(
        long,
        question=replace(long.question, part=SHORT),
        rows=(replace(joint, together=("lantern/long-head",)),),
    )
    made = a_book(fields=[field(long), field(short)])
    told = page(made, "gaps.md").partition("## Disagreements")[2].partition("\n## ")[0]
    assert told.count("Crate curl against") == 1
    assert "long head of the lantern muscle, short head of the lantern muscle" in told


def test_what_cites_without_numbers_stands_under_its_muscle() -> None:
    made = a_book(
        [
            concluded(
                compared("crate-curl", "cable-curl"),
                finding="not studied",
                basis="common practice",
                certainty=None,
            ),
            concluded(
                compared("crate-curl", "cable-curl"),
                index=1,
                finding="not studied",
                certainty=None,
                told=(ComposedAnswer("Cited only.", ()),),
            ),
        ]
    )
    text = page(made, "gaps.md")
    assert "<summary>Lantern muscle: 1 claim</summary>" in text
    assert (
        'href="../exercises/crate-curl/#claim-2">Crate curl</a>: Cited only.'
        in text.partition("## Cited without numbers")[2]
    )


def test_anchors_of_former_sections_lead_on() -> None:
    text = page(a_book([concluded(POOLED)], fields=[two_lists()]), "gaps.md")
    assert all(f'id="{anchor}"' in text for anchor in gaps.FORMER)
