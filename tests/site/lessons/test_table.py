"""The table of a lesson, read by Python's ``csv`` (RFC 4180) and held against the committed conclusions' own numbers."""

from __future__ import annotations

import csv
import io

import pytest
import shipped_made

from build_tools.site.lessons import chosen, table

MUSCLES = list(shipped_made.catalog().muscles)


def read(muscle: str) -> list[dict[str, str]]:
    text = table.file(shipped_made.book().shelf, muscle).decode()
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


@pytest.mark.parametrize("muscle", MUSCLES)
def test_each_row_is_one_that_was_compared(muscle: str) -> None:
    shelf = shipped_made.book().shelf
    compared = chosen.studied(shelf, muscle)
    rows = read(muscle)
    assert len(rows) == len(compared)
    for row, comparison in zip(rows, compared, strict=True):
        assert row["outcome"] == comparison.question.outcome
        assert int(row["people"]) == comparison.people
        assert row["found"] != "not studied" and row["address"] and row["day"]
        studies = row["studies"].split(" | ") if row["studies"] else []
        assert studies == list(dict.fromkeys(studies))
        assert all(shelf.catalog.references[key].doi in row["DOI"] for key in studies)
        assert bool(studies) != (row["place read"] == table.INDIRECT)
        if row["ratio of first to second"]:
            low, ratio, high = (
                float(row[name])
                for name in ("interval from", "ratio of first to second", "interval to")
            )
            assert low <= ratio <= high


def test_overhead_against_pushdown_as_the_abstract_prints_it() -> None:
    """Maeo et al. 2022, abstract: the long head gained 28.5% overhead and 19.6% with the arm by the side."""
    [row] = [
        row
        for row in read("elbow-extensors")
        if row["part"] == "long head of the triceps"
        and row["outcome"] == "growth"
        and "overhead cable extension" in (row["first exercise"], row["second exercise"])
        and "cable pushdown" in (row["first exercise"], row["second exercise"])
    ]
    gains = {
        row["first exercise"]: float(row["gain with first"]),
        row["second exercise"]: float(row["gain with second"]),
    }
    assert gains == pytest.approx(
        {"overhead cable extension": 0.285, "cable pushdown": 0.196}, abs=0.001
    )
    assert "maeo2022" in row["studies"] and "10.1080/17461391.2022.2100279" in row["DOI"]
