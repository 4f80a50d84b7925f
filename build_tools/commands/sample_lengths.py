"""Make the tables of muscle lengths and the muscles' paths anew from a model file.

The tables in catalog/model/ were sampled once and are committed; the handbook
never needs this command. It needs the model file that catalog/model/README.md
names and the package `opensim` (about 280 MB): pip install 'evidence-handbook[model]'

MODEL must be the very file that catalog/model/muscles.yaml names by its hash.
Another one is refused unless --accept-hash gives its SHA-256; then write that
hash into muscles.yaml, and read the table of checks again before anything is
published. With --check nothing is written, and a table that would change is told.

Exit status: 0 written (or unchanged, with --check), 1 with --check: a table
would change, 2 it could not run.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from build_tools.checks.reports import visible

from . import CLEAN, FINDINGS, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.catalog.entries import Model


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("model", type=Path, metavar="MODEL", help="the model file (.osim)")
    parser.add_argument(
        "--accept-hash",
        metavar="SHA256",
        help="sample another file than muscles.yaml names, if this is its hash",
    )
    parser.add_argument(
        "--check", action="store_true", help="write nothing; say whether a table would change"
    )
    reporting.add_catalog(parser)


def run(args: argparse.Namespace) -> int:
    """Sample every table of ``args.model`` and the paths of its muscles. Raises ``CannotRun`` for a wrong file, a wrong hash or a missing package."""
    from build_tools.catalog import muscle_path
    from build_tools.movement.length import sample, sample_paths

    with terminal.progress() as tell:
        catalog, _, _ = reporting.load(args.catalog, tell)
        if catalog.model is None:
            raise CannotRun(
                f"{catalog.label}/model/muscles.yaml is missing or has errors; run `handbook check`"
            )
        model = catalog.model.data
        id = _pinned(model, args.model, args.accept_hash)
        made: dict[str, Callable[[], str]] = {
            f"{name}.csv": partial(sample.sample, args.model, table, sample.columns(model, name))
            for name, table in model.tables.items()
            if table.model == id
        }
        if model.models[id].segments:
            made[muscle_path.file(id)] = partial(sample_paths.sample_paths, args.model, id, model)
        changed = []
        for name, make in made.items():
            tell(f"sampling {name}")
            try:
                text = make()
            except ImportError:
                raise CannotRun(
                    "sampling needs the package `opensim`: pip install 'evidence-handbook[model]'"
                ) from None
            except ValueError as error:
                raise CannotRun(str(error)) from None
            path = catalog.root / "model" / name
            if not path.exists() or path.read_bytes() != text.encode():
                changed.append(name.removesuffix(".csv"))
                if not args.check:
                    path.write_bytes(text.encode())
    print(
        f"{', '.join(changed)}: {'would change' if args.check else 'written'}"
        if changed
        else "every table is as it was"
    )
    return FINDINGS if changed and args.check else CLEAN


def _pinned(model: Model, path: Path, accepted: str | None) -> str:
    """The id of the model that ``path`` is."""
    from build_tools.movement.length.sample import digest

    try:
        found = digest(path)
    except OSError as error:
        raise CannotRun(f"{visible(str(path))} cannot be read: {error.strerror}") from None
    for id, source in model.models.items():
        if source.sha256 == found:
            return id
    by_name = [id for id, source in model.models.items() if source.file == path.name]
    if accepted == found and by_name:
        return by_name[0]
    raise CannotRun(
        f"{visible(path.name)} (SHA-256 {found}) is not a model file that muscles.yaml names; "
        "use that very file, or see --accept-hash in --help"
    )
