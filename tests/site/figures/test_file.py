"""Files of figures stand alone: judged by expat, they name their licence and ask nobody for anything."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from drawn_figures import CATALOGS, SVG

from build_tools.site.figures.file import uri


def test_files_stand_alone(demo_book) -> None:  # type: ignore[no-untyped-def]
    files = {f.uri: f.content for f in demo_book.files}
    for id in CATALOGS["demo"].exercises:
        written = files[uri(id)]
        root = ET.fromstring(written)
        assert len(written) <= 8000
        assert root.get("role") == "img" and "Finish:" in root.find(f"{SVG}desc").text
        assert len(root.findall(f"{SVG}g/{SVG}svg")) == 2  # start and finish
        words = " ".join(text.text for text in root.iter(f"{SVG}text"))
        assert "Licence:" in words and "Drillis" in words
        assert (
            b"url(" not in written and b"href" not in written and b"@import" not in written
        )  # asks nobody for anything
        drawn = {e.get("class") for e in root.iter(f"{SVG}path")}
        styled = set(re.findall(r"\.(hb-pose__\w+)", root.find(f"{SVG}style").text))
        assert drawn <= styled


def test_pages_link_their_file(demo_book) -> None:  # type: ignore[no-untyped-def]
    for id in CATALOGS["demo"].exercises:
        page = next(page.text for page in demo_book.pages if page.uri == f"exercises/{id}.md")
        assert f'href="../../{uri(id)}" download="{id}.svg"' in page
        assert page.index("hb-posed") < page.index("## What it favours")


@pytest.mark.parametrize("id", ["seated-leg-curl", "bench-press"])
def test_a_file_credits_the_model_whose_attachments_it_draws(shipped_site: Path, id: str) -> None:
    """Outside source: section 4 of CC BY 3.0 asks for the author, the title and the licence's address; a file without lines owes nothing."""
    root = ET.fromstring((shipped_site / uri(id)).read_bytes())
    words = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    drawn = id == "seated-leg-curl"
    assert ("Thick lines: hamstrings" in words) == drawn == ("muscle" in str(classes(root)))
    for credit in ("gait2392.osim", "Delp S.L.", "https://creativecommons.org/licenses/by/3.0/"):
        assert (credit in words) == drawn


def classes(root: ET.Element) -> set[str | None]:
    return {path.get("class") for path in root.iter(f"{SVG}path")}
