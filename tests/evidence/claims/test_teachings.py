"""What is known of a teaching. The cases are those of the page's own words: a null that leaves a difference open is no failure
(Altman & Bland 1995, "Absence of evidence is not evidence of absence", from memory), and only the part itself settles it."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
import shipped_made
from folders import DEMO

from build_tools.catalog.load import load
from build_tools.evidence.claims.conclusions import Comparison, Row
from build_tools.evidence.claims.teachings import (
    PartAnswer,
    Teaching,
    TeachingState,
    answer,
    state_of,
    teachings,
)
from build_tools.evidence.settings import settings
from build_tools.evidence.terms import Claimed, Question, RatioInterval

#: Growth counts as alike within 3% (the demo's handbook).
SETTINGS = settings(load(DEMO, "catalog"))
MARGIN = SETTINGS.margins["growth"]
ROW = Row("wick2030", (0,), 18, "abstract", None, None, False, "", ())


def known(finding: str, side: str | None = None, **more: Any) -> Comparison:
    asked = Question("crate-curl", "cable-curl", "lantern/long-head", "growth")
    inside = RatioInterval(1, 1 / (1 + (MARGIN - 1) / 2), 1 + (MARGIN - 1) / 2)
    estimates = {
        "found": RatioInterval(1.5, 1.2, 1.9) if side == "more" else RatioInterval(0.6, 0.5, 0.8),
        "hinted": RatioInterval(1.1, 0.95, 1.3),
        "unclear": RatioInterval(1, 0.8, 1.25),
        "alike": inside,
    }
    given = Comparison(
        asked,
        finding,
        side,
        (ROW,),
        None,
        "",
        estimates.get(finding),
        path="direct",  # type: ignore[arg-type]
    )
    return replace(given, **more)


@pytest.mark.parametrize(
    ("says", "comparison", "expected"),
    [
        ("more", known("found", "more"), "holds"),
        ("more", known("found", "less"), "fails"),
        ("more", known("alike"), "fails"),
        ("similar", known("alike"), "holds"),
        ("similar", known("found", "more"), "fails"),
        ("more", known("hinted", "more"), "leans"),
        ("less", known("hinted", "more"), "leans away"),
        ("similar", known("hinted", "more"), "leans away"),
        ("more", known("unclear"), "unclear"),
        ("similar", known("unclear"), "unclear"),
        ("more", known("unclear", conflict=True), "conflict"),
        ("more", known("found", "more", measured="whole"), "leans"),
        ("less", known("found", "more", measured="together"), "leans away"),
        ("more", known("alike", measured="whole"), "unclear"),
        ("more", known("found", "more", path="indirect"), "leans"),
        ("more", known("not studied"), "printed"),
        ("more", known("not studied", rows=()), "untested"),
    ],
)
def test_what_is_known_on_one_part(
    says: Claimed, comparison: Comparison, expected: PartAnswer
) -> None:
    assert answer(says, comparison, SETTINGS) == expected


@pytest.mark.parametrize(
    ("answers", "expected"),
    [
        (("holds", "holds"), "holds"),
        (("fails",), "fails"),
        (("conflict",), "mixed"),
        (("holds", "fails"), "mixed"),
        (("holds", "leans"), "mixed"),
        (("leans", "unclear"), "open"),
        (("leans away",), "open"),
        (("holds", "untested"), "open"),
        (("untested", "printed"), "untested"),
        (("agrees", "untested"), "model"),
        (("differs",), "model"),
    ],
)
def test_what_parts_amount_to_together(
    answers: tuple[PartAnswer, ...], expected: TeachingState
) -> None:
    assert state_of(answers) == expected


def shipped() -> list[Teaching]:
    catalog = shipped_made.catalog()
    return teachings(catalog, shipped_made.conclusions(), settings(catalog))


def test_every_claim_of_common_practice_is_a_teaching_once() -> None:
    written = [
        (id, n)
        for id, entry in shipped_made.catalog().exercises.items()
        for n, claim in enumerate(entry.data.emphasis)
        if claim.common_practice is not None or claim.taught is not None
    ]
    told = [at for t in shipped() for at in ((t.exercise, t.index), *t.also)]
    assert Counter(told) == Counter(written)


def test_states_agree_with_the_findings() -> None:
    """Of the shipped catalog: what holds or fails was found on the part itself, and what nobody tested has no finding."""
    for teaching in shipped():
        findings = {c.finding for c in teaching.comparisons}
        sides = {c.side for c in teaching.comparisons}
        if teaching.state == "holds" and teaching.says != "similar":
            assert findings == {"found"} and sides == {teaching.says}
        if teaching.state == "fails" and teaching.says != "similar":
            assert findings <= {"found", "alike"} and teaching.says not in sides
        if teaching.state in ("holds", "fails"):
            assert {c.measured for c in teaching.comparisons} == {"part"}
            assert not any(c.conflict for c in teaching.comparisons)
        assert (teaching.state == "untested") == (findings == {"not studied"})
        assert (teaching.state == "model") == (
            teaching.outcome == "length" and findings != {"not studied"}
        )
        if any(c.conflict for c in teaching.comparisons):
            assert teaching.state == "mixed"
        if findings <= {"hinted", "unclear"} and not any(c.conflict for c in teaching.comparisons):
            assert teaching.state == "open"


def test_a_page_and_its_mirror_image_teach_once() -> None:
    """The bench press says of the long head of the triceps what the lying extension says the other way round."""
    found = [
        t
        for t in shipped()
        if {(t.question.first, t.question.second)}
        & {("bench-press", "lying-triceps-extension"), ("lying-triceps-extension", "bench-press")}
        and t.parts == ("elbow-extensors/triceps-brachii-long-head",)
    ]
    assert len(found) == 1 and len(found[0].also) == 1
