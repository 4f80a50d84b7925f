"""The little TeX that BibTeX records are written in, as plain Unicode text."""

from __future__ import annotations

import codecs
import re

import latexcodec  # noqa: F401 - registers the codec

#: Where decoding could change anything but braces; most fields have none of it, and decoding is slow.
_TEX = re.compile(r"[\\$~`^_%\u00ad]|--|''|,,")


class NotText(ValueError):
    """The TeX says more than text can. Arguments: what is wrong, what to write instead."""


def plain_text(value: str) -> str:
    """``value`` with accents as Unicode letters, without braces, in single spaces.

    Raises ``NotText`` for commands and formulas that have no plain text.
    """
    if not _TEX.search(value):
        return " ".join(re.sub("[{}]", "", value).split())
    # A bare % starts a comment in TeX; in a title it is a percent sign.
    escaped = re.sub(r"(?<!\\)%", r"\\%", value)
    try:
        text = codecs.getdecoder("ulatex")(escaped)[0]  # type: ignore[arg-type]  # text to text
    except ValueError as error:
        raise NotText(
            "holds TeX that cannot be read", "write the characters themselves; the file is UTF-8"
        ) from error
    left = re.search(r"\\[a-zA-Z]*|\$|[\^_](?=\{)", text)
    if left:
        raise NotText(
            f"holds the TeX `{left.group()}`, which is no plain text",
            "write the characters themselves: β, é, H₂O",
        )
    return " ".join(re.sub("[{}\u00ad]", "", text).split())
