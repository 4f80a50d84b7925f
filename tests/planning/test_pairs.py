"""Two exercises side by side, on the shipped catalog: nothing is lost, nothing is said more firmly than it was found.

The rules are the handbook's own; a statement's own sentence and finding are what each heading is held against.
"""

from __future__ import annotations

import pytest
import shipped_made
from worlds import ahead

from build_tools.evidence.wording.names import Names
from build_tools.evidence_map.preferences import Preference, statements
from build_tools.planning.pairs import answer, first_sentences, pairs


@pytest.fixture(scope="module")
def told() -> list[Preference]:
    return statements(shipped_made.catalog(), shipped_made.conclusions())


@pytest.fixture(scope="module")
def names() -> Names:
    return shipped_made.conclusions().names


def test_every_statement_stands_once_with_its_pair(told: list[Preference], names: Names) -> None:
    found = pairs(names, told)
    assert all(first < second for first, second in found)
    listed = [one.told for of in found.values() for one in of]
    assert len(listed) == len(told) and set(listed) == set(told)


def test_a_heading_says_what_was_found_and_no_more(told: list[Preference], names: Names) -> None:
    for of in pairs(names, told).values():
        assert [one.rank for one in of] == sorted(one.rank for one in of)  # growth first
        for one in of:
            heading, kind = one.heading.lower(), one.told.kind
            if kind == "activation":
                assert "growth" not in heading and "grew" not in heading
            if kind in ("growth", "activation") and one.told.finding != "not studied":
                assert one.mark and one.mark.kind == kind
                assert one.mark.more == (one.told.ahead is not None)
                assert heading.startswith("leans") == (
                    one.told.ahead is not None and one.told.finding == "hinted"
                )
                assert (one.told.measured == "part") == (
                    "measured with" not in heading and "whole muscle" not in heading
                )
            if one.told.finding == "not studied" and kind != "taught":
                assert one.mark is None and "no test of the two was read" in heading


def test_the_answer_tells_growth_first_and_leaves_no_measured_part_out(
    told: list[Preference], names: Names
) -> None:
    answered = 0
    for of in pairs(names, told).values():
        lines = answer(names, of)
        assert [line.mark.kind for line in lines] == sorted(
            (line.mark.kind for line in lines), reverse=True
        )  # growth before activation
        for one in of:
            if one.told.kind == "growth" and one.mark and one.told.measured == "part":
                part = names.part(one.told.part)
                whole = "/" not in one.told.part
                assert whole or any(
                    one.heading in line.sentence and part.partition(" of the ")[0] in line.sentence
                    for line in lines
                )
        answered += bool(lines)
    assert answered > 100


def test_activation_without_a_lead_is_told_only_where_no_growth_was_measured(names: Names) -> None:
    alike = ahead("a-curl", "b-curl", kind="activation", leads=False)
    grown = ahead("a-curl", "b-curl", part="lamp/shade", finding="found")
    only = pairs(names, [alike])["a-curl", "b-curl"]
    both = pairs(names, [alike, grown])["a-curl", "b-curl"]
    assert [line.mark.kind for line in answer(names, only)] == ["activation"]
    assert [line.mark.kind for line in answer(names, both)] == ["growth"]


def test_a_shortened_statement_keeps_how_far_to_lean_on_it() -> None:
    text = "One study found more: p < 0.05, d 0.79. Do not lean on it yet. Measured: way up."
    assert first_sentences(text) == "One study found more: p < 0.05, d 0.79. Do not lean on it yet."
