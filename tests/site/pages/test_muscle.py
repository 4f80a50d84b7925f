"""Lists on the page of a muscle, from conclusions that the demo catalog does not have."""

from __future__ import annotations

import re
from dataclasses import replace

from made import SHORT, a_book, page, two_lists


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
    assert (
        "Direct and indirect comparisons do not disagree more than chance allows (p = 0.4)." in text
    )


def test_one_list_is_not_said_to_be_apart() -> None:
    known = two_lists()
    text = page(
        a_book(fields=[replace(known, components=known.components[:1])]), "muscles/lantern.md"
    )
    assert "No study connects" not in text


def test_directions_alone_are_listed_and_never_ranked() -> None:
    text = page(a_book(fields=[two_lists()]), "muscles/lantern.md")
    listed = text.partition("only directions are known. They stand in no order.")[2]
    assert "Composed on crate-curl and lamp-raise." in listed
    assert (
        "Composed on crate-curl and lamp-raise." not in text.partition("They stand in no order.")[0]
    )
    assert all(
        "Composed on crate-curl and lamp-raise." not in ordered
        for ordered in re.findall(r"<ol.*?</ol>", text, re.DOTALL)
    )


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
