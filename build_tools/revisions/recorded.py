"""Why statements moved since the conclusions were committed last, for the record that the site tells."""

from __future__ import annotations

import tempfile
from pathlib import Path

from ..committed import files
from ..committed.moves import Move, Moves
from . import entries
from .history import History, NoRevision
from .inputs import Inputs
from .reasons import certain
from .snapshot import NOW, Snapshot


def explained(found: Moves, root: Path) -> Moves:
    """``found`` with what changed behind each move in the catalog ``root``, as far as git tells; else as it is."""
    if not found.moved:
        return found
    try:
        history = History.around(root)
        revision = history.last_change(files.FOLDER)
        if revision is None:
            return found
        with tempfile.TemporaryDirectory(prefix="handbook-") as folder:
            history.unpack(revision, Path(folder))
            before, now = Snapshot(Path(folder), str(revision)), Snapshot(root, NOW)
            inputs = Inputs(before, now, entries.changes(before, now))
            return found._replace(moved=[_explained(move, inputs) for move in found.moved])
    except (NoRevision, OSError):
        return found


def _explained(move: Move, inputs: Inputs) -> Move:
    because = [f"{reason.kind} {reason.name}".strip() for reason in certain(inputs, move)]
    return Move.model_validate(
        {**move.model_dump(by_alias=True), "because": list(dict.fromkeys(because))}
    )
