"""The subcommands of ``handbook``: one small module each.

A command module has a docstring (its help), ``add_arguments(parser)`` and
``run(args) -> int``, the exit status. Adding one is a module here and a line in
``COMMANDS``; modules are imported only when their command is called.
"""

from __future__ import annotations

#: Name (its module, with underscores) -> the line `handbook --help` shows.
COMMANDS: dict[str, str] = {
    "addresses": "keep the list of published addresses, so that none of them dies",
    "check": "check the catalog and say what to mend",
    "cite": "add a record from another program's export",
    "conclude": "recompute what the numbers say, and write it to catalog/conclusions/",
    "diff": "tell what the catalog says otherwise than at a revision, and why",
    "explain": "show how a claim's numbers became its sentence",
    "new": "begin an exercise, a study or a muscle as a draft",
    "rules": "explain the rules that entries are checked against",
    "sample-lengths": "make the tables of muscle lengths anew from a model file",
    "schema": "print the JSON Schema of an entry, for editors",
    "start": "begin a handbook of your own in a new or empty folder",
    "upkeep": "what workflows do: generated files, suggestions, what is due",
    "write": "write the handbook as a folder of Markdown",
}

#: Exit statuses of every command.
CLEAN, FINDINGS, COULD_NOT_RUN = 0, 1, 2


class CannotRun(Exception):
    """What was asked for cannot be done; the message says what to do instead."""
