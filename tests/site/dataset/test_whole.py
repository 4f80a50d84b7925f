"""The JSON, unpacked by bz2 and read by json: the entries as they were written, and the conclusions as they are committed."""

from __future__ import annotations

import bz2
import json
from typing import Any

import pytest
import yaml
from folders import DEMO, SHIPPED
from site_building import render

from build_tools.catalog import entries
from build_tools.catalog.bibliography import csl
from build_tools.catalog.load import load
from build_tools.committed import files as committed
from build_tools.site.book import Book
from build_tools.site.dataset import edition, whole

MODELS = {"exercises": entries.Exercise, "muscles": entries.Muscle, "studies": entries.Study}


@pytest.fixture(scope="module")
def shipped_book() -> Book:
    return render(load(SHIPPED, "catalog"))


def data(made: Book) -> dict[str, Any]:
    packed = next(file.content for file in made.files if file.uri == whole.URI)
    found: dict[str, Any] = json.loads(bz2.decompress(packed))
    return found


@pytest.mark.parametrize("kind", MODELS)
def test_entries_come_back_as_they_were_written(shipped_book: Book, kind: str) -> None:
    found, kept = data(shipped_book)[kind], getattr(shipped_book.shelf.catalog, kind)
    read = {id: MODELS[kind].model_validate_json(json.dumps(one)) for id, one in found.items()}
    assert read == {id: entry.data for id, entry in kept.items()}


def test_so_do_the_lists_and_conventions(shipped_book: Book) -> None:
    found, shelf = data(shipped_book), shipped_book.shelf
    assert entries.Vocabulary.model_validate_json(json.dumps(found["vocabulary"])) == (
        shelf.vocabulary
    )
    assert entries.Conventions.model_validate_json(json.dumps(found["conventions"])) == (
        shelf.handbook.conventions
    )
    assert shelf.catalog.programme
    assert entries.Programme.model_validate_json(json.dumps(found["programme"])) == (
        shelf.catalog.programme.data
    )


def test_references_are_csl_with_what_was_read(shipped_book: Book) -> None:
    found = data(shipped_book)["references"]
    for key, reference in shipped_book.shelf.catalog.references.items():
        assert csl.item(reference).items() <= found[key].items()
        assert found[key]["read"] == reference.read


def test_conclusions_are_those_that_are_committed(demo_book: Book) -> None:
    """Read from the demo's own files by PyYAML."""
    texts = committed.stored_texts(DEMO)
    files = [yaml.safe_load(text or "") for text in texts.values()]
    claims = [claim for file in files for claim in file.get("claims", ())]
    pairs = [
        {"part": field["part"], "outcome": field["outcome"], **pair}
        for file in files
        for field in file.get("fields", ())
        for pair in field["comparisons"]
    ]
    found = data(demo_book)
    assert claims and pairs
    assert [found["claims"], found["pairs"]] == [claims, pairs]


def test_every_key_is_told_on_the_page(demo_book: Book) -> None:
    found = data(demo_book)
    assert found.keys() == whole.KEYS.keys()
    more = {k for one in found["references"].values() for k in one if k in whole.REFERENCE_KEYS}
    assert {"read", "read at"} <= more
    text = next(page.text for page in demo_book.pages if page.uri == edition.URI)
    for key in (*whole.KEYS, *whole.REFERENCE_KEYS):
        assert f"<code>{key}</code>" in text


def test_the_set_is_no_heavier_than_its_limit(shipped_book: Book) -> None:
    """Three megabytes, of a site that is to weigh 25."""
    files = [f.content for f in shipped_book.files if f.uri.startswith(edition.FOLDER)]
    assert len(files) > 5 and sum(map(len, files)) <= 3_000_000


def test_the_edition_says_when_by_whom_and_how_to_cite(demo_book: Book) -> None:
    told, handbook = data(demo_book)["edition"], demo_book.shelf.handbook
    assert (told["version"], told["date"]) == ("1.0", "2026-11-01")
    for word in (handbook.owner.name, handbook.title, handbook.licence, "1 November 2026"):
        assert word in told["cite"]
    assert all(
        licence.startswith("https://creativecommons.org/") for licence in edition.LICENCES.values()
    )
