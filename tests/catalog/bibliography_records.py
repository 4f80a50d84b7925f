"""Records for the tests of the bibliography, read as the catalog reads them."""

from __future__ import annotations

from pathlib import Path

from build_tools.catalog.bibliography.references import (
    Reference,
    read_bibliography,
)

GOOD = """@article{wick2030,
  author = {Wick, Ada and Ember, Bo},
  title = {On lanterns},
  journal = {Invented Letters},
  year = 2030,
  read = {abstract},
}
"""


def read(
    tmp_path: Path, text: str | bytes
) -> tuple[dict[str, Reference], list[tuple[str, int, int, str]], set[str]]:
    file = tmp_path / "references.bib"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    references, findings, broken = read_bibliography(file, "c/references.bib")
    assert all(f.spot.file == "c/references.bib" and f.help for f in findings)
    return references, [(f.rule, f.spot.line, f.spot.column, f.message) for f in findings], broken


def one(tmp_path: Path, **fields: str) -> Reference:
    """The reference made of ``GOOD`` with some fields put in or replaced."""
    references, findings, broken = read(tmp_path, record(**fields))
    assert findings == [] and not broken
    return references["wick2030"]


def record(**fields: str) -> str:
    kept = {
        "author": "Wick, Ada",
        "title": "T",
        "journal": "J",
        "year": "2030",
        "read": "abstract",
        **fields,
    }
    return (
        "@article{wick2030,\n"
        + "".join(f"  {name} = {{{value}}},\n" for name, value in kept.items() if value)
        + "}\n"
    )


NEXT = "\n@article{next2031,\n  author = {Next, A}, title = {T}, journal = {J}, year = 2031, read = {record}\n}\n"
