"""Print the JSON Schema (draft 2020-12) of a kind of entry, for editors.

An editor with YAML support then completes keys and ids, shows what they mean and
underlines mistakes while you type. The ids are those of the catalog; another one is
not underlined, as it may have come since. Whether the content is sound (that a study
exists, say) only `handbook check` can tell.

    `handbook schema --all catalog/.schemas`

writes the schemas of all kinds into a folder, which `handbook conclude` then keeps up
to date, and prints what to put into the editor's settings (of VS Code:
.vscode/settings.json; others that use yaml-language-server read the same words).
Where an editor has no settings for a folder, the file itself can say it, as its first
line:

  # yaml-language-server: $schema=../.schemas/exercises.json

A published handbook has them too, in data/schema/: an address works as well as a path.
"""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from build_tools.authoring import schemas
from build_tools.catalog import load
from build_tools.catalog.complaints import did_you_mean
from build_tools.catalog.schema import json_schema
from build_tools.catalog.schema.known_words import known_words

from . import CLEAN, CannotRun, reporting


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "kind",
        nargs="?",
        metavar="KIND",
        help=f"one of: {', '.join(json_schema.KINDS)}; left out: list them",
    )
    parser.add_argument(
        "--all", type=Path, metavar="DIR", help="write those of all kinds into this folder"
    )
    reporting.add_catalog(parser)


def run(args: argparse.Namespace) -> int:
    """Print one schema or write all, or print the kinds with the files they are for. Raises ``CannotRun``."""
    if args.all is not None:
        _write_all(args.catalog, args.all)
    elif args.kind is None:
        width = max(map(len, json_schema.KINDS))
        for kind in json_schema.KINDS:
            print(f"{kind.ljust(width)}  {json_schema.files(kind)}")
    elif args.kind in json_schema.KINDS:
        # Keys need no catalog; without one no ids are offered.
        known = known_words(load.load(args.catalog)) if args.catalog.is_dir() else {}
        print(json.dumps(json_schema.schema(args.kind, known), indent=2, ensure_ascii=False))
    else:
        kinds = list(json_schema.KINDS)
        raise CannotRun(
            f"there is no kind `{args.kind}`; {did_you_mean(args.kind, kinds) or 'kinds: ' + ', '.join(kinds)}"
        )
    return CLEAN


def _write_all(catalog: Path, folder: Path) -> None:
    if not catalog.is_dir():
        raise CannotRun(
            f"there is no folder `{catalog}`; name the folder that holds handbook.yaml: --catalog DIR"
        )
    try:
        schemas.write(load.load(catalog), folder)
    except OSError as error:
        raise CannotRun(f"the schemas cannot be written: {error}") from None
    print(json.dumps(schemas.settings(folder.as_posix(), catalog.as_posix()), indent=2))
