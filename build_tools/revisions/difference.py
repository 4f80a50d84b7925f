"""All that a catalog says otherwise than before, put together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..committed import addresses, moves
from ..committed.moves import Move, Reworded
from . import entries, leaves, places
from .entries import KINDS, EntryChange
from .inputs import Inputs
from .reasons import Ground, MoveReason, reasons
from .snapshot import Snapshot
from .statements import Renames, under_present_ids

#: In the order of ``Renames``.
_RENAMED = ("exercises", "muscles", "studies")
#: Path below the catalog -> text of a file of conclusions.
Texts = Mapping[str, str | None]


@dataclass(frozen=True)
class ExplainedMove:
    """A statement that moved, and why."""

    move: Move
    why: list[MoveReason]


@dataclass(frozen=True)
class ExplainedRewording:
    """A statement that answers the same in another sentence, and why."""

    reworded: Reworded
    why: list[MoveReason]


@dataclass(frozen=True)
class DyingAddress:
    """A published address that would no longer answer, and what keeps it alive."""

    address: str
    remedy: str


@dataclass(frozen=True)
class FileDifference:
    """Another file that changed: from what to what, or how many lines."""

    path: str
    told: tuple[str, ...]


@dataclass
class CatalogDifference:
    """What differs between two states."""

    before: Snapshot
    now: Snapshot
    notes: list[str] = field(default_factory=list)
    """What could not be compared, and what else a reader must know."""
    dying: list[DyingAddress] = field(default_factory=list)
    new_addresses: list[str] = field(default_factory=list)
    has_answers: bool = False
    """Whether the answers of both states could be compared."""
    moved: list[ExplainedMove] = field(default_factory=list)
    new: list[str] = field(default_factory=list)
    """Addresses of statements that came."""
    gone: list[str] = field(default_factory=list)
    reworded: list[ExplainedRewording] = field(default_factory=list)
    entries: list[EntryChange] = field(default_factory=list)
    files: list[FileDifference] = field(default_factory=list)
    program: list[str] = field(default_factory=list)
    """Files of the program that changed, where they are in the same repository."""

    @property
    def is_empty(self) -> bool:
        """Whether the catalog is what it was."""
        return not any(
            (self.dying, self.new_addresses, self.moved, self.new, self.gone)
            + (self.reworded, self.entries, self.files)
        )


def authored(before: Snapshot, now: Snapshot) -> CatalogDifference:
    """Entries and other files that were written otherwise."""
    found = CatalogDifference(before, now, entries=entries.changes(before, now))
    for path in sorted({*before.texts, *now.texts}):
        is_entry = path.partition("/")[0] in KINDS or path == "references.bib"
        if not is_entry and before.texts.get(path) != now.texts.get(path):
            found.files.append(FileDifference(path, _told(before, now, path)))
    bib = before.texts.get("references.bib"), now.texts.get("references.bib")
    if bib[0] != bib[1] and not any(change.kind == "references" for change in found.entries):
        told = (f"{entries.lines(bib[0] or '', bib[1] or '')}; no record says anything else",)
        found.files.append(FileDifference("references.bib", told))
    return found


def compare_addresses(found: CatalogDifference, answers: set[str] | None) -> None:
    """Add the addresses that would die and those that are new.

    ``answers`` is all that answers now; ``None`` where that cannot be told, so that only entries which are gone are looked at.
    """
    published = found.before.published
    listed = published | found.now.published
    removed = {(change.kind, change.id) for change in found.entries if change.fate == "removed"}
    dead = (
        {address for address in listed if _entry(address) in removed}
        if answers is None
        else listed - answers
    )
    found.dying = [DyingAddress(address, addresses.remedy(address)) for address in sorted(dead)]
    if answers is None:
        found.notes.append(
            "Files of the newer state cannot be read by this program, so only addresses of entries were compared"
        )
    elif found.before.has_list:
        found.new_addresses = sorted(answers - published)


def compare_statements(
    found: CatalogDifference, old: Texts, new: Texts, tried: Texts | None
) -> None:
    """Add what moved between two states of the conclusions, and why. ``tried``: what today's program concludes from the old one."""
    renames = Renames(*(entries.renamed(found.before, found.now, kind) for kind in _RENAMED))
    paths = moves.differing_files(old, new)
    now = moves.statements(new, paths)
    was = under_present_ids(moves.statements(old, paths), now, renames)
    if not was and any(old.values()) and not moves.statements(old, old):
        found.notes.append(
            "No answer was compared: the conclusions were committed in a form that this program does not read"
        )
        return
    found.has_answers = True
    if any(map(_is_without_sentences, old.values())):
        found.notes.append(
            "Only claims of exercises were compared: pairs of a part were committed without their sentences then"
        )
        was, now = (
            {key: one for key, one in side.items() if one.asked.is_claim} for side in (was, now)
        )
    again = (
        None if tried is None else under_present_ids(moves.statements(tried, paths), now, renames)
    )
    ground = Ground(Inputs(found.before, found.now, found.entries), again)
    what = moves.moves(was, now)
    found.new, found.gone = what.new, what.gone
    found.moved = [
        ExplainedMove(move, reasons(ground, move, move.before, move.now)) for move in what.moved
    ]
    found.reworded = [
        ExplainedRewording(one, reasons(ground, one.asked, one.before, one.now, by_words=True))
        for one in moves.reworded(was, now)
    ]


def _entry(address: str) -> tuple[str, str] | None:
    """Kind and id of the entry that an address belongs to."""
    _, folder, id, *_ = [*address.split("/"), ""]
    return (addresses.FOLDERS[folder][1], id) if folder in addresses.FOLDERS else None


def _is_without_sentences(text: str | None) -> bool:
    """Whether a file of a muscle has answers of an older form, which did not tell their sentences."""
    told = text or ""
    return "- pair: " in told and " certainty: " in told and " sentence: " not in told


def _told(before: Snapshot, now: Snapshot, path: str) -> tuple[str, ...]:
    if path not in before.texts or path not in now.texts:
        return ("new" if path in now.texts else "taken out",)
    if path.endswith(".yaml"):
        old, new = before.data(path), now.data(path)
        if isinstance(old, dict) and isinstance(new, dict):
            told = tuple(places.told(leaf, old, new) for leaf in leaves.differing(old, new))
            return told or ("only its layout or remarks",)
    return (entries.lines(before.texts[path], now.texts[path]),)
