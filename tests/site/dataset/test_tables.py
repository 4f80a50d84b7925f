"""The tables, read by the csv module: as many rows as the catalog has, each cell what the entry says."""

from __future__ import annotations

import csv
import io

import pytest
from folders import SHIPPED
from site_building import render

from build_tools.catalog.load import load
from build_tools.site.book import Book
from build_tools.site.dataset import edition, tables, whole


@pytest.fixture(scope="module")
def shipped_book() -> Book:
    return render(load(SHIPPED, "catalog"))


def read(made: Book, name: str) -> list[dict[str, str]]:
    uri = f"{edition.FOLDER}/{name}.csv"
    text = next(file.content for file in made.files if file.uri == uri).decode()
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_there_are_as_many_rows_as_entries(shipped_book: Book) -> None:
    catalog = shipped_book.shelf.catalog
    results = [r for entry in catalog.studies.values() for r in entry.data.results]
    expected = {
        "exercises": len(catalog.exercises),
        "parts": len(catalog.part_refs()),
        "studies": len(catalog.studies),
        "values": sum(len(result.values) for result in results),
        "contrasts": sum(len(result.contrasts) for result in results),
        "claims": sum(len(c.part) for e in catalog.exercises.values() for c in e.data.emphasis),
        "pairs": len(whole.pairs(shipped_book.shelf)),
        "references": len(catalog.references),
    }
    assert {table.name for table in tables.TABLES} == expected.keys()
    assert {name: len(read(shipped_book, name)) for name in expected} == expected


@pytest.mark.parametrize("table", tables.TABLES, ids=lambda table: table.name)
def test_each_column_is_told_and_used(shipped_book: Book, table: tables.Table) -> None:
    rows = read(shipped_book, table.name)
    names = [column.name for column in table.columns]
    assert list(rows[0]) == names and len(set(names)) == len(names)
    assert all(column.holds for column in table.columns)
    empty = {name for name in names if not any(row[name] for row in rows)}
    assert empty <= {"ratio_ci95_lower", "ratio_ci95_upper"}, "no paper prints one yet"
    text = next(page.text for page in shipped_book.pages if page.uri == edition.URI)
    assert all(f"<code>{name}</code>" in text for name in names)


def test_numbers_are_those_of_the_study(shipped_book: Book) -> None:
    studies = shipped_book.shelf.catalog.studies
    rows = read(shipped_book, "values")
    for row in rows:
        value = studies[row["study"]].data.results[int(row["result"]) - 1].values[row["arm"]]
        for name in ("mean", "median", "change", "change_percent", "sd", "se"):
            given = getattr(value, name)
            assert (float(row[name]) if row[name] else None) == given
        assert (float(row["ci95_lower"]) if row["ci95_lower"] else None) == (
            value.ci95[0] if value.ci95 else None
        )
    assert any(row["change_percent"] for row in rows)


def test_contrasts_are_those_of_the_paper(shipped_book: Book) -> None:
    studies = shipped_book.shelf.catalog.studies
    for row in read(shipped_book, "contrasts"):
        contrasts = studies[row["study"]].data.results[int(row["result"]) - 1].contrasts
        told = row["of"], row["against"], row["test"], row["favours"]
        assert told in [(c.of, c.against, c.test, c.favours or "") for c in contrasts]


def test_several_values_stand_apart(shipped_book: Book) -> None:
    exercises = shipped_book.shelf.catalog.exercises
    for row in read(shipped_book, "exercises"):
        data = exercises[row["id"]].data
        assert row["equipment"].split(" | ") == data.equipment
        assert [part for part in row["direct"].split(" | ") if part] == [
            part for part, credit in data.set_credit.items() if credit == "direct"
        ]


def test_a_row_leads_to_its_page(demo_book: Book) -> None:
    """From the top of the site while nobody said where it is."""
    assert [row["page"] for row in read(demo_book, "exercises")] == [
        "/exercises/cable-curl/",
        "/exercises/crate-curl/",
    ]
    assert read(demo_book, "claims")[0]["page"].endswith("#claim-1")
