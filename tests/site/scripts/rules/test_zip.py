"""An archive made by the page, read back by an independent reader: Python's ``zipfile``, which checks every sum itself."""

from __future__ import annotations

import io
import zipfile
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import zip_

MOMENT = [2026, 12, 1, 9, 30, 58]


def archived(files: dict[str, bytes], moment: list[int] = MOMENT) -> zipfile.ZipFile:
    pieces: list[Any] = zip_.archive([[name, list(data)] for name, data in files.items()], moment)
    whole = b"".join(bytes(p.values() if isinstance(p, dict) else p) for p in pieces)
    return zipfile.ZipFile(io.BytesIO(whole))


@given(
    st.dictionaries(
        st.text(
            st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\\/:"),
            min_size=1,
            max_size=20,
        ),
        st.binary(max_size=60),
        max_size=4,
    )
)
def test_every_file_comes_back_as_it_was(files: dict[str, bytes]) -> None:
    read = archived(files)
    assert read.testzip() is None
    assert {info.filename: read.read(info) for info in read.infolist()} == files


@pytest.mark.parametrize(("moment", "year"), [(MOMENT, 2026), ([1970, 1, 1, 0, 0, 0], 1980)])
def test_files_bear_the_moment(moment: list[int], year: int) -> None:
    [info] = archived({"notes/é.txt": b"x"}, moment).infolist()
    assert info.date_time == (year, *moment[1:])
