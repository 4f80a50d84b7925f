"""What workflows do for authors and maintainers. Asks nothing of any network.

    generated     make the files that the build writes into the catalog, and tell what
                  whoever merges a change has to do with them
    suggestions   what `handbook check --fix` mended, as one-click suggestions for a
                  pull request
    due           what has come up this week, as Markdown: reviews, and references to
                  look up for retraction notices

`handbook upkeep TASK --help` explains one of them. Exit status: 0 nothing to mend,
1 something to mend, 2 it could not run.
"""

from __future__ import annotations

import argparse

from . import due, generated, suggestions

_TASKS = {"generated": generated, "suggestions": suggestions, "due": due}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    tasks = parser.add_subparsers(dest="task", metavar="TASK", required=True, help="see above")
    for name, module in _TASKS.items():
        module.add_arguments(
            tasks.add_parser(
                name,
                description=module.__doc__,
                formatter_class=argparse.RawDescriptionHelpFormatter,
            )
        )


def run(args: argparse.Namespace) -> int:
    """Do ``args.task``, and answer the exit status."""
    status: int = _TASKS[args.task].run(args)
    return status
