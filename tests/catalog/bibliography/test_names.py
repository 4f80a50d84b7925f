"""Names of authors, as BibTeX lets them be written."""

from __future__ import annotations

from pathlib import Path

import pytest
from bibliography_records import one


@pytest.mark.parametrize(
    ("written", "family", "initials"),
    [
        ("Wick, Ada", "Wick", "A"),
        ("Ada Beth Wick", "Wick", "AB"),
        ("Bourne, MN", "Bourne", "MN"),
        ("Wick, BC-D", "Wick", "BC-D"),
        ("Wick, A.B.", "Wick", "AB"),
        ("Wick, Jean-Paul M.", "Wick", "J-PM"),
        ("Wick, J.-P.", "Wick", "J-P"),
        ("van Dieën, Jaap H.", "van Dieën", "JH"),
        (r"M{\"u}ller, {\'E}mile", "Müller", "É"),
        ("Al Najjar, Aiman", "Al Najjar", "A"),
        ("King, Jr., Martin Luther", "King", "ML Jr"),
        ("{{World Health Organization}}", "World Health Organization", ""),
        ("{Health and Safety Board}", "Health and Safety Board", ""),
        ("Ikegawa", "Ikegawa", ""),
    ],
)
def test_names(tmp_path: Path, written: str, family: str, initials: str) -> None:
    assert one(tmp_path, author=written).authors == ((family, initials),)


def test_and_others(tmp_path: Path) -> None:
    r = one(tmp_path, author="Wick, A and Ember, B and others")
    assert r.authors == (("Wick", "A"), ("Ember", "B")) and r.more_authors
