"""Where the catalog points opposite ways, against a plain search through every comparison of the shipped catalog."""

from __future__ import annotations

from collections import Counter
from functools import cache

import shipped_made

from build_tools.evidence.claims.conclusions import Comparison
from build_tools.evidence.claims.contradictions import (
    KINDS,
    Contradiction,
    contradictions,
    same_question,
)
from build_tools.evidence.claims.sample_rows import clear_side


@cache
def shipped() -> list[Contradiction]:
    return contradictions(shipped_made.catalog(), shipped_made.conclusions())


def every() -> list[Comparison]:
    conclusions = shipped_made.conclusions()
    claimed = [c for told in conclusions.claims.values() for one in told for c in one.comparisons]
    return claimed + [c for field in conclusions.fields.values() for c in field.comparisons]


def key(comparison: Comparison) -> tuple[object, ...]:
    asked = comparison.question
    part = "" if asked.within else asked.part
    sides = frozenset((asked.first, asked.second))
    return sides, part, asked.outcome, asked.relative_to, asked.within


def covered() -> Counter[tuple[object, ...]]:
    """How often each question is told, all parts of a joined one counted."""
    found: Counter[tuple[object, ...]] = Counter()
    for one in shipped():
        asked = one.question
        for part in ("",) if asked.within else one.parts:
            sides = frozenset((asked.first, asked.second))
            found[
                one.kind == "kinds", sides, part, asked.outcome, asked.relative_to, asked.within
            ] += 1
    return found


def test_every_contradiction_stands_exactly_once() -> None:
    """Samples that point opposite ways, and samples whose own measurements do."""
    told = covered()
    assert set(told.values()) == {1}
    for comparison in every():
        sides = {clear_side(row) for row in comparison.rows}
        pointing = {row.direction for row in comparison.rows if not row.stated} & {"more", "less"}
        stated = {row.direction for row in comparison.rows if row.stated} & {"more", "less"}
        against = (
            comparison.conflict
            or {1, -1} <= sides
            or {"more", "less"} <= stated
            or len(pointing | stated) == 2
            or any(row.mixed for row in comparison.rows)
        )
        if against and comparison.question.outcome != "length":
            assert told[False, *key(comparison)] == 1, comparison.question


def test_conflicts_of_the_engine_are_told_as_tested() -> None:
    kinds = {same_question(one.question): one.kind for one in shipped()}
    for comparison in every():
        if comparison.conflict:
            found = [one for one in shipped() if comparison.question.part in one.parts]
            assert any(one.kind == "tested" for one in found)
    assert set(kinds.values()) <= set(KINDS)


def test_growth_and_activation_that_part_ways_are_all_told() -> None:
    apart = [kinds for kinds in shipped_made.conclusions().kinds if kinds.agree is False]
    told = [one for one in shipped() if one.kind == "kinds"]
    assert [one.sentence for one in told] == [kinds.sentence for kinds in apart]
    assert all(len(one.comparisons) == 2 for one in told)


def test_claims_that_numbers_lean_against_are_all_told() -> None:
    directions = {"more_than": "more", "less_than": "less", "similar_to": "similar"}
    told = {same_question(one.question) for one in shipped() if one.claim}
    parts = {part for one in shipped() if one.claim for part in one.parts}
    for id, entry in shipped_made.catalog().exercises.items():
        for conclusion in shipped_made.conclusions().of(id):
            says = directions[entry.data.emphasis[conclusion.index].direction]
            for c in conclusion.comparisons:
                leans = c.finding in ("found", "hinted") and c.side != says and says != "similar"
                if conclusion.outcome != "length" and leans:
                    assert same_question(c.question) in told or c.question.part in parts


def test_no_two_pages_claim_opposite_things() -> None:
    """The rule claims-agree holds it; were it to fail, the page would miss what it forbids."""
    says: dict[tuple[object, ...], str] = {}
    for id, entry in shipped_made.catalog().exercises.items():
        for conclusion in shipped_made.conclusions().of(id):
            claim = entry.data.emphasis[conclusion.index]
            for comparison in conclusion.comparisons:
                asked, direction = comparison.question, claim.direction
                if asked.first > asked.second and direction != "similar_to":
                    direction = "less_than" if direction == "more_than" else "more_than"
                assert says.setdefault(same_question(asked), direction) == direction


def test_both_sides_of_a_tested_one_were_tested() -> None:
    for one in shipped():
        if one.kind in ("tested", "itself"):
            assert all(any(m.tested for m in one.of(way)) for way in ("more", "less"))
        if one.kind == "half tested":
            assert {m.tested for m in (*one.of("more"), *one.of("less"))} == {True, False}


def test_two_lifts_are_two_questions() -> None:
    """Each lift raises its own test most (the specificity of training, common practice): no contradiction."""
    for one in shipped():
        if one.question.outcome == "strength":
            tests = {m.strength_test for m in one.measurements if m.says != "neither"}
            assert one.kind in ("claim", "partly", "untested", "half tested") or len(tests) == 1
        for m in one.measurements:
            assert m.at and m.at in m.printed and m.people > 0


def test_the_strongest_come_first_and_growth_before_activation() -> None:
    kinds = [KINDS.index(one.kind) for one in shipped()]
    assert kinds == sorted(kinds)
    for kind in KINDS:
        outcomes = [one.question.outcome for one in shipped() if one.kind == kind]
        order = ["growth", "strength", "activation", "architecture"]
        assert outcomes == sorted(outcomes, key=order.index)
