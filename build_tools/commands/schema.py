"""Print the JSON Schema (draft 2020-12) of a kind of entry, for editors.

An editor with YAML support then completes keys, shows what they mean and
underlines mistakes while you type. Three ways to tell it which schema to use:

  in the file, as its first line:
    # yaml-language-server: $schema=https://YOUR.SITE/data/schema/exercises.json

  in the editor's settings, once for all files (VS Code's YAML extension and
  other users of yaml-language-server):
    "yaml.schemas": {"https://YOUR.SITE/data/schema/exercises.json": "catalog/exercises/*.yaml"}

  without a published site, from a file that you keep outside the catalog:
    `handbook schema exercises > exercises.schema.json`

The schema knows what a file may contain. Whether the content is sound (that a
cited study exists, say) only `handbook check` can tell.
"""

from __future__ import annotations

import argparse
import json

from build_tools.catalog import json_schema
from build_tools.catalog.complaints import did_you_mean

from . import CLEAN, CannotRun


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "kind",
        nargs="?",
        metavar="KIND",
        help=f"one of: {', '.join(json_schema.KINDS)}; left out: list them",
    )


def run(args: argparse.Namespace) -> int:
    """Print one schema, or the kinds with the files they are for. Raises ``CannotRun`` for an unknown kind."""
    if args.kind is None:
        width = max(map(len, json_schema.KINDS))
        for kind in json_schema.KINDS:
            print(f"{kind.ljust(width)}  {json_schema.files(kind)}")
    elif args.kind in json_schema.KINDS:
        print(json.dumps(json_schema.schema(args.kind), indent=2))
    else:
        kinds = list(json_schema.KINDS)
        raise CannotRun(
            f"there is no kind `{args.kind}`; {did_you_mean(args.kind, kinds) or 'kinds: ' + ', '.join(kinds)}"
        )
    return CLEAN
