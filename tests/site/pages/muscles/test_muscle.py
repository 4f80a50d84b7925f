"""Lists on the page of a muscle, from conclusions that the demo catalog does not have."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from made import SHORT, a_book, compared, page, row, two_lists

from build_tools.evidence.model.slope import LengthSlope


def test_exercises_that_no_study_connects_stand_in_separate_lists() -> None:
    text = page(a_book(fields=[two_lists()]), "muscles/lantern.md")
    assert text.count('<ol class="hb-standing">') == 2
    assert "No study connects these lists" in text
    first, second = re.findall(r'<ol class="hb-standing">(.*?)</ol>', text, re.DOTALL)
    assert "Crate curl" in first and "Lamp raise" in second and "Lamp raise" not in first
    # the interval 0.97 to 1.14 holds 1, the interval 1.1 to 1.5 does not
    assert (
        "No clear difference from the next." in first
        and "No clear difference from the next." not in second
    )
    assert "5% more (from 3% less to 14% more), certainty low." in first
    assert "Measured: thickness." in text and "Measured: together with other parts." in text


def test_one_list_is_not_said_to_be_apart() -> None:
    known = two_lists()
    text = page(
        a_book(fields=[replace(known, components=known.components[:1])]), "muscles/lantern.md"
    )
    assert "No study connects" not in text


@pytest.mark.parametrize(("exercises", "samples"), [(2, 5), (3, 1)])
def test_too_little_makes_no_order(exercises: int, samples: int) -> None:
    """Three exercises and two samples are asked for; with less each pair is told by itself."""
    known = two_lists()
    [component, _] = known.components
    small = replace(component, order=component.order[:exercises], samples=samples)
    text = page(a_book(fields=[replace(known, components=(small,))]), "muscles/lantern.md")
    assert "hb-standing" not in text and "Composed on crate-curl and cable-curl." in text


def test_pairs_are_listed_by_what_was_found_and_never_ranked() -> None:
    text = page(a_book(fields=[two_lists()]), "muscles/lantern.md")
    lean = text.partition('<p class="hb-subhead">A lean</p>')[2].partition("hb-subhead")[0]
    found = text.partition('<p class="hb-subhead">A difference</p>')[2].partition("hb-subhead")[0]
    assert "Composed on crate-curl and lamp-raise." in lean  # by direction only
    assert "Composed on lamp-raise and wick-press." in found
    assert "No study compares the two itself." in found  # oil-press, through another exercise
    assert all(
        "Composed on" not in ordered for ordered in re.findall(r"<ol.*?</ol>", text, re.DOTALL)
    )


def test_pairs_that_nobody_tested_are_folded() -> None:
    untested = compared("crate-curl", "cable-curl", row(), finding="not studied", certainty=None)
    known = replace(two_lists(), components=(), comparisons=(untested,))
    text = page(a_book(fields=[known]), "muscles/lantern.md")
    fold = text.partition("<summary>Printed side by side, never tested (1)</summary>")[2]
    assert "Composed on crate-curl and cable-curl." in fold
    assert "Composed on" not in text.partition("<summary>Printed side by side")[0]


SLOPE = LengthSlope(
    mean=0.09,
    low=0.01,
    high=0.17,
    more=0.99,
    studies=("wick2030", "glow2031"),
    people=30,
    prior=(0.05, 0.05),
    differences=(0.1, 0.4),
)


def test_length_is_told_as_a_rule_of_thumb_for_the_muscle() -> None:
    """By hand: exp(0.09 / 5) = 1.0182, exp(0.01 / 5) = 1.0020, exp(0.17 / 5) = 1.0346; exp(0.05 / 5) = 1.0101."""
    text = page(a_book(slopes={"lantern": SLOPE}), "muscles/lantern.md")
    whole = text.partition("{#muscle-as-a-whole}")[2].partition("\n## ")[0]
    assert (
        "Longer by a fifth of its range: about 1.8% more growth (could be 0.2% to 3.5%), "
        "from 2 studies of 30 people. A rule of thumb for the muscle, not a finding on any pair."
    ) in whole
    assert "before these studies: 1% more for a fifth of the range (1% less to 3% more)." in whole
    assert "Longer by a fifth" not in page(a_book(), "muscles/lantern.md")


def test_outcomes_never_share_a_list() -> None:
    growth = two_lists()
    activation = replace(
        growth,
        outcome="activation",
        components=growth.components[:1],
        comparisons=tuple(
            replace(c, question=replace(c.question, outcome="activation"))
            for c in growth.comparisons[:1]
        ),
    )
    text = page(a_book(fields=[growth, activation]), "muscles/lantern.md")
    sections = [
        s.partition("</section>")[0]
        for s in re.split('<section class="hb-outcome"[^>]*>', text)[1:]
    ]
    with_lists = [s for s in sections if "hb-standing" in s]
    assert [("Growth after weeks" in s, "Activation in one session" in s) for s in with_lists] == [
        (True, False),
        (False, True),
    ]
    assert (
        next(s for s in sections if "Activation in one session" in s).count("<details") > 0
    )  # one step below


def test_short_head_is_another_field() -> None:
    text = page(a_book(fields=[replace(two_lists(), part=SHORT)]), "muscles/lantern.md")
    long_head, short_head = text.partition("{#short-head}")[::2]
    assert "hb-standing" not in long_head and "hb-standing" in short_head
