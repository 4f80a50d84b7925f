"""Text written in TeX. Outside check: latexcodec, which decodes what is not plain."""

from __future__ import annotations

import codecs
import re
from pathlib import Path

import pytest
from bibliography_records import one
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.bibliography.tex import plain_text


@pytest.mark.parametrize(
    ("tex", "text"),
    [
        (r"M{\"u}ller \'{e} \ss{} {\o} {\L}\'odz \v{c} \c{c} {\'\i}", "Müller é ß ø Łódz č ç í"),
        ("{EMG} of the {Biceps} at 50% 1RM", "EMG of the Biceps at 50% 1RM"),
        (r"50\% \& more, R&D \#1 a\_b", "50% & more, R&D #1 a_b"),
        (r"$\alpha$ and $\beta$", "α and β"),
        ("a--b ``quoted'' it's", "a–b “quoted” it's"),
        ("two\n   lines  and~more", "two lines and more"),
        (r"Al{\-}pha", "Alpha"),
        ("Dieën 膝 β²", "Dieën 膝 β²"),
    ],
)
def test_tex_becomes_text(tmp_path: Path, tex: str, text: str) -> None:
    assert one(tmp_path, title=tex).title == text


@given(st.text(st.sampled_from("ab %&#{}'`,-!?<>~é.\"=$^_"), max_size=12))
def test_text_without_tex_is_as_the_decoder_would_have_it(value: str) -> None:
    # The short way for plain fields must not differ from latexcodec, which decodes the rest.
    if re.search(r"[$^_%~]", value):
        return
    decoded = codecs.decode(value, "ulatex")
    assert plain_text(value) == " ".join(re.sub("[{}]", "", decoded).split())
