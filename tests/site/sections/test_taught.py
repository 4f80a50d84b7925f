"""Teachings as pages show them: sentence, what was found, what would settle it, and their count."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
import shipped_made
from made import LONG, SHORT, a_book, compared, concluded, outlook, row

from build_tools.evidence.claims.conclusions import Comparison, Conclusion
from build_tools.evidence.terms import Gains
from build_tools.evidence_map.marks import Fill, Mark
from build_tools.site.book import Book
from build_tools.site.sections import taught
from build_tools.site.sections.taught import TaughtView

FOUND = compared(
    "crate-curl",
    "cable-curl",
    row(estimate=(1.2, 1.1, 1.3), direction="more", weighed=True),
    estimate=(1.2, 1.1, 1.3),
    finding="found",
    side="more",
    outlook=outlook(0.34),
)
OPEN = compared(
    "crate-curl",
    "cable-curl",
    row(estimate=(1.0, 0.9, 1.1), direction="neither", weighed=True),
    estimate=(1.0, 0.9, 1.1),
    outlook=outlook(0.5),
)
UNTESTED = compared("crate-curl", "cable-curl", finding="not studied", certainty=None)


def a_teaching(*comparisons: Comparison) -> Conclusion:
    """On the demo's claim of common practice: the crate curl, more."""
    return concluded(
        comparisons[0],
        index=1,
        basis="common practice",
        parts=tuple(c.question.part for c in comparisons),
        comparisons=comparisons,
    )


def made(*comparisons: Comparison) -> Book:
    return a_book([concluded(FOUND), a_teaching(*comparisons)])


def shown(*comparisons: Comparison) -> TaughtView:
    shelf = made(*comparisons).shelf
    [teaching] = taught.all_taught(shelf)
    return taught.view(shelf.at("taught.md"), teaching)


def of(comparison: Comparison, **more: object) -> Comparison:
    return replace(comparison, **more)  # type: ignore[arg-type]


ON_SHORT = compared("crate-curl", "cable-curl", part=SHORT).question


@pytest.mark.parametrize(
    ("comparison", "state", "fill", "found"),
    [
        (FOUND, "holds", "found", "18 people: 20% larger at the end."),
        (of(FOUND, side="less"), "fails", "no more", "18 people: 20% larger at the end."),
        (of(OPEN, conflict=True), "mixed", "no more", "Studies point opposite ways. 18 people."),
        (OPEN, "open", "no more", "No clear difference. 18 people: no difference."),
        (
            of(FOUND, finding="hinted"),
            "open",
            "hinted",
            "Leans that way. 18 people: 20% larger at the end.",
        ),
        (
            of(FOUND, finding="hinted", measured="whole"),
            "open",
            "wider",
            "Leans that way. 18 people: 20% larger at the end.",
        ),
        (
            of(FOUND, gains=Gains(1.2, 1.0)),
            "holds",
            "found",
            "18 people: about 20% against 0%.",
        ),
        (UNTESTED, "untested", None, ""),
    ],
)
def test_each_state_has_its_mark_and_its_words(
    comparison: Comparison, state: str, fill: Fill | None, found: str
) -> None:
    told = shown(comparison)
    assert (told.state, told.found) == (state, found)
    assert told.mark == (Mark("growth", fill) if fill else Mark("taught"))
    assert told.says == (
        "The crate curl grows the long head of the lantern muscle more than the standing cable curl."
    )
    assert told.href == "../exercises/crate-curl/#claim-2"


def test_parts_that_answer_differently_say_which_does_what() -> None:
    told = shown(FOUND, of(OPEN, question=ON_SHORT))
    assert told.state == "mixed"
    assert told.found == (
        "Holds for the long head of the lantern muscle; "
        "no clear difference for the short head of the lantern muscle."
    )


@pytest.mark.parametrize(
    ("comparison", "settles"),
    [
        (FOUND, "34% chance that another study changes it."),
        (OPEN, "A study of about 40 people would settle it."),
        (of(OPEN, measured="together"), "What is missing is a study that measures it alone."),
        (UNTESTED, "Train with each; scan it before and after."),
        (
            of(UNTESTED, rows=(row(),)),
            "Numbers are printed for both; what is missing is a test of the two.",
        ),
    ],
)
def test_what_would_settle_it_follows_from_what_is_missing(
    comparison: Comparison, settles: str
) -> None:
    assert shown(comparison).settles == settles


def test_studies_lead_to_the_table_of_their_result() -> None:
    assert [s.link.href for s in shown(FOUND).studies] == ["../sources/wick2030/#result-1"]
    assert shown(UNTESTED).studies == []


def test_activity_never_answers_a_teaching_on_growth() -> None:
    """Each outcome is asked for by itself; where only a session was tested that is said, and nobody has tested the teaching."""
    shelf = shipped_made.book().shelf
    told = [taught.view(shelf.at("taught.md"), one) for one in taught.all_taught(shelf)]
    only = [one for one in told if one.found == "Only activity in one session was tested."]
    assert only and all(one.state == "untested" and " grow" in one.says for one in only)


def test_a_part_names_what_is_taught_of_it_and_nobody_tested() -> None:
    desk = made(UNTESTED).shelf.at("muscles/lantern.md")
    assert taught.taught_of(desk, LONG) == [
        (
            "more growth with the crate curl than with the standing cable curl",
            "../../exercises/crate-curl/#claim-2",
        )
    ]
    assert taught.taught_of(desk, SHORT) == []
    assert taught.taught_of(made(FOUND).shelf.at("muscles/lantern.md"), LONG) == []


def test_the_count_adds_up() -> None:
    shelf = shipped_made.book().shelf
    told = taught.counts(taught.all_taught(shelf))
    numbers = [int(n) for n in re.findall(r"\d+", told.replace("none", "0"))]
    first, *parts = numbers
    assert first == sum(parts[:5]) and first + parts[5] == len(taught.all_taught(shelf))
    assert taught.counts([]).startswith("Of 0 common teachings, none holds so far")
