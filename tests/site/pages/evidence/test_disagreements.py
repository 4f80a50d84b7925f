"""Contradictions on the page of gaps: both sides, numbers, people, places, and what sets them apart."""

from __future__ import annotations

import re

import shipped_made
from made import a_book, compared, page, row

from build_tools.evidence.claims.conclusions import PartEvidence
from build_tools.site.pages.evidence import disagreements


def section(text: str) -> str:
    return text.partition("## Disagreements")[2].partition("\n## ")[0]


def test_each_contradiction_is_told_once_with_both_sides() -> None:
    shelf = shipped_made.book().shelf
    told = section(page(shipped_made.book(), "gaps.md"))
    items = re.findall(r"<li><p>.*?</li>", told, re.S)
    assert len(items) == len(disagreements.all_contradictions(shelf))
    assert len(set(items)) == len(items)
    for one, item in zip(disagreements.all_contradictions(shelf), items, strict=True):
        assert {m.study for m in one.measurements} <= set(re.findall(r"sources/(\w+)/", item))
        if one.kind == "tested":
            assert item.count("<dt>More") == 2 and ", tested: " in item


def test_those_that_were_tested_stand_open() -> None:
    told = section(page(shipped_made.book(), "gaps.md"))
    unfolded = re.sub(r"<details.*?</details>", "", told, flags=re.S)
    for kind, heading in disagreements.HEADINGS.items():
        assert (heading in unfolded) == (heading in told and kind not in disagreements.FOLDED)


def test_an_explanation_is_only_what_the_catalog_notes() -> None:
    """Two pulldown studies recorded different phases; the catalog holds both, and nothing else is offered."""
    told = section(page(shipped_made.book(), "gaps.md"))
    item = told.partition("Close-grip pulldown against lat pulldown, rear delt")[2].partition(
        "</li>"
    )[0]
    assert "What differs, first side: lowering phase. On the second side: lifting phase." in item


def test_a_catalog_without_contradictions_says_so() -> None:
    alone = compared(
        "crate-curl", "cable-curl", row(direction="more"), finding="found", side="more"
    )
    made = a_book(fields=[PartEvidence(alone.question.part, "growth", None, (), (alone,))])
    assert "<p>None.</p>" in section(page(made, "gaps.md"))
