"""The committed list of published addresses (``catalog/addresses.txt``): what was published once answers for good.

An address answers while its entry exists or ``moved.yaml`` names a living
successor (see ``site.client.redirects``); ``site.book.answering`` gives all of them without
making a page.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from ..catalog.finding import Finding, Spot
from ..catalog.load import Catalog
from ..catalog.moved import what_to_write
from .whole import put

FILE = "addresses.txt"
HEADER = "# Every address this handbook was published under. `handbook addresses` adds new ones; none is ever taken out.\n"

#: An address that would no longer answer, and a list that is not whole (their manuals: ``checks.number_manuals``).
DEAD, LIST = "dead-address", "address-list"

#: Folder of pages -> the list of moved.yaml that leads on from its retired ids, and the catalog's collection.
FOLDERS = {
    "exercises": ("exercises", "exercises"),
    "cues": ("exercises", "exercises"),
    "muscles": ("muscles", "muscles"),
    "lessons": ("muscles", "muscles"),
    "sources": ("sources", "references"),
}

_ADDRESS = re.compile(r"/(?:[a-z0-9]+(?:-[a-z0-9]+)*/)*")
_RUN = "run `handbook addresses` and commit what it writes"


class AddressesWritten(NamedTuple):
    """How many addresses were added, and how many the list now holds."""

    added: int
    listed: int


def stale(catalog: Catalog, answers: set[str]) -> list[Finding]:
    """Listed addresses that would die, and what ``handbook addresses`` would change, where ``answers`` is all that the site answers at."""
    try:
        text = _text(catalog)
    except OSError as error:
        return [
            Finding(
                LIST,
                Spot(_label(catalog), 1, 1),
                f"this file cannot be read: {error.strerror}",
                "make it a plain text file",
            )
        ]
    if text is None:
        return [
            Finding(
                LIST, Spot(_label(catalog), 1, 1), "the published addresses were never listed", _RUN
            )
        ]
    listed, damaged = _read(catalog, text)
    found = [*damaged, *_dead(catalog, listed, answers)]
    new = sorted(answers - listed.keys())
    if new:
        number = "1 address is" if len(new) == 1 else f"{len(new)} addresses are"
        found.append(
            Finding(
                LIST,
                Spot(_label(catalog), 1, 1),
                f"{number} not listed yet: `{'`, `'.join(new[:3])}`"
                + (", ..." if len(new) > 3 else ""),
                _RUN,
            )
        )
    elif not damaged and text != _written(listed):
        found.append(
            Finding(
                LIST,
                Spot(_label(catalog), 1, 1),
                "the lines are not in order, or one stands twice",
                _RUN,
            )
        )
    return sorted(found, key=lambda finding: finding.spot)


def add(catalog: Catalog, answers: set[str]) -> tuple[list[Finding], AddressesWritten]:
    """Add what answers and is not listed yet; tell which listed addresses would die. Nothing is written while a line is damaged.

    Raises ``OSError`` when the file cannot be written or is a link that might lead anywhere.
    """
    listed, damaged = _read(catalog, _text(catalog) or "")
    if damaged:
        return damaged, AddressesWritten(0, len(listed))
    _replace(catalog, _written(listed.keys() | answers))
    return _dead(catalog, listed, answers), AddressesWritten(
        len(answers - listed.keys()), len(listed.keys() | answers)
    )


def published(catalog: Catalog) -> set[str]:
    """Every address that is listed, and those of the entries that live."""
    listed, _ = _read(catalog, _text(catalog) or "")
    living = {f"/exercises/{id}/" for id in catalog.exercises}
    return {*listed, *living, *(f"/muscles/{ref}/" for ref in catalog.part_refs())}


def _read(catalog: Catalog, text: str) -> tuple[dict[str, int], list[Finding]]:
    """Address -> its line (from 1), and the lines that are none."""
    listed: dict[str, int] = {}
    damaged = []
    for number, line in enumerate(text.split("\n"), 1):
        if _ADDRESS.fullmatch(line):
            listed.setdefault(line, number)
        elif line.strip() and not line.startswith("#"):
            damaged.append(
                Finding(
                    LIST,
                    Spot(_label(catalog), number, 1),
                    "this line is no address",
                    "write one address a line, such as `/exercises/seated-row/`; after a merge keep both sides' lines",
                )
            )
    return listed, damaged


def _dead(catalog: Catalog, listed: dict[str, int], answers: set[str]) -> list[Finding]:
    return [
        Finding(
            DEAD,
            Spot(_label(catalog), line, 1),
            f"`{address}` was published and would no longer answer",
            remedy(address, catalog.label),
        )
        for address, line in listed.items()
        if address not in answers
    ]


def remedy(address: str, label: str = "catalog") -> str:
    """What keeps an address of the catalog in the folder ``label`` alive."""
    _, folder, id, below, *_ = [*address.split("/"), "", ""]
    if id and folder in FOLDERS:
        # A part has a page below its muscle's, and a list of its own.
        is_part = folder == "muscles" and below
        return what_to_write(
            "parts" if is_part else FOLDERS[folder][0],
            f"{id}/{below}" if is_part else id,
            label,
        )
    return "bring the page back, or leave a page there that leads on"


def _text(catalog: Catalog) -> str | None:
    try:
        return (catalog.root / FILE).read_text(encoding="utf-8", errors="replace")
    except FileNotFoundError:
        return None


def _written(addresses: set[str] | dict[str, int]) -> str:
    return HEADER + "".join(f"{address}\n" for address in sorted(addresses))


def _replace(catalog: Catalog, text: str) -> None:
    """Write the file whole or not at all."""
    target = catalog.root / FILE
    if target.is_symlink():
        raise OSError(f"{FILE} is a link; make it a plain file")
    if _text(catalog) == text:
        return
    put(target, text)


def _label(catalog: Catalog) -> str:
    return f"{catalog.label}/{FILE}" if catalog.label else FILE
