"""The table of sentences against GRADE's pattern (``grade_wording`` and ``grade_wording_matrix``), and its cells in use."""

import re

import pytest
from answers import asked, made, said
from statistics_reference import entry

from build_tools.evidence.terms import LEVELS
from build_tools.evidence.wording.names import Names
from build_tools.evidence.wording.sentences import row_of
from build_tools.evidence.wording.table import ROWS, TABLE, example

COVERS = {"grade_wording", "grade_wording_matrix"}
HEDGES = re.compile(r"\b(probably|may|could be chance|perhaps|likely|possibly|might|seems?)\b")


def hedges(text: str) -> list[str]:
    return HEDGES.findall(text)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize(("row", "size"), [("found", "moderate"), ("alike", "trivial")])
def test_the_certainty_word_is_that_of_the_pattern(row, size, level):
    """``probably`` at moderate, ``may`` at low, a plain verb at high; at very low the reader is told not to rely on it."""
    published = entry("grade_wording_matrix")["expected"][level.replace(" ", "_")]
    pattern = published.get("any", published.get(size))
    told = hedges(TABLE[row][level])
    assert told == hedges(pattern)
    assert ("very uncertain" in pattern) == ("Do not lean on it yet" in TABLE[row][level])


def test_moderate_and_low_use_the_words_of_the_rule():
    rule = entry("grade_wording")["expected"]["rule"]
    assert "Moderate: 'probably'" in rule and "Low: 'may'" in rule
    for row in ("found", "trivial", "alike"):
        assert hedges(TABLE[row]["moderate"]) == ["probably"]
        assert hedges(TABLE[row]["low"]) == ["may"]


def test_every_row_has_every_level_and_a_meaning():
    assert set(TABLE) == set(ROWS)
    assert all(set(phrases) == set(LEVELS) for phrases in TABLE.values())


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("row", TABLE)
def test_no_phrase_hedges_twice(row, level):
    assert len(hedges(TABLE[row][level])) <= 1


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("row", TABLE)
def test_every_cell_is_reached_and_said_with_its_own_phrase(demo, row, level):
    answer = made(row, level)
    assert row_of(answer) == row
    fixed = [text for text in re.split(r"\{\w+\}", TABLE[row][level]) if text.strip(" .")]
    told = said(Names(demo), answer)
    where = -1
    for text in fixed:
        where = told.lower().find(text.strip().lower(), where + 1)
        assert where >= 0, (text, told)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("row", TABLE)
def test_methods_prints_what_pages_say(demo, row, level):
    """The example of a cell, with names for its letters and without its numbers, begins the sentence on a page."""
    printed = re.split(r"[:;]|\. ", example(row, level))[0]
    for letter, name in {
        "P": "the long head of the lantern muscle",
        "X": "the crate curl",
        "Y": "the standing cable curl",
    }.items():
        printed = re.sub(rf"\b{letter}\b", name, printed)
    printed = re.sub(r"^One study of N people", "One study of 28 people over 12 weeks", printed)
    told = said(Names(demo), made(row, level, asked()))
    assert told.lower().startswith(printed.lower())
