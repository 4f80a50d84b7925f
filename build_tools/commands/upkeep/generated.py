"""Make the files that the build writes into the catalog: conclusions, the record of
changes, addresses.

A contributor need not bring them. Those that a change since --since does bring must
be what comes out, so one that is not is a finding; the others are simply made. With
--patch all that was made is also written as a patch for `git apply`. Under GitHub
Actions the job summary says in plain words what is left to do.

Exit status: 0 nothing to mend, 1 something to mend, 2 it could not run.
"""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

from ...catalog.finding import Finding, Spot
from ...checks.profile import load_profile, severity_of
from ...checks.runner import GradedFinding
from ...english import counted
from .. import CLEAN, FINDINGS, CannotRun, addresses, conclude, reporting
from .repository import GENERATED, Repository

#: Generated file or folder -> the rule that a difference in it breaks. The record of changes holds the day of each run, so two
#: honest runs may differ: it is made, never compared.
_COMPARED = {
    "conclusions": "stale-conclusions",
    "addresses.txt": "address-list",
    ".schemas": "stale-schemas",
}
#: Names in the summary. Convention.
_MOST_NAMED = 10


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_arguments(parser)
    reporting.add_content(parser)
    parser.add_argument(
        "--since",
        metavar="REV",
        help="the commit that a change begins at: what it brings must be right",
    )
    parser.add_argument(
        "--patch", type=Path, metavar="FILE", help="also write what was made as a patch"
    )


def run(args: argparse.Namespace) -> int:
    """Make the files of ``args.catalog``, judge those that a change brings, and answer the exit status. Raises ``CannotRun``."""
    repository = Repository(args.catalog)
    brought = repository.changed(repository.commit(args.since), *_COMPARED) if args.since else set()
    args.check = False
    if status := conclude.run(args) or addresses.run(args):
        return status
    patch, made = repository.work(*GENERATED)
    if wrong := sorted(made & brought):
        opened = reporting.load(args.catalog, lambda _: None)
        label = opened.catalog.label
        reporting.tell(
            args, [_finding(name, label) for name in wrong], opened.catalog, "Generated files"
        )
        return FINDINGS
    if args.patch and patch:
        _write(args.patch, patch)
    _tell(sorted(made), args.patch)
    return CLEAN


def _finding(name: str, label: str) -> GradedFinding:
    kind = name.partition("/")[0]
    found = Finding(
        _COMPARED[kind],
        Spot(f"{label}/{name}", 1, 1),
        "this generated file came with the change, and is not what the catalog gives",
        "take it out of the change (it is then made for you), or commit what `handbook conclude` and `handbook addresses` write",
    )
    return GradedFinding(found, severity_of(found.rule, load_profile()))


def _write(path: Path, patch: str) -> None:
    try:
        path.write_bytes(patch.encode("utf-8", "surrogateescape"))
    except OSError as error:
        raise CannotRun(f"the patch cannot be written: {path}: {error.strerror}") from None


def _tell(made: list[str], patch: Path | None) -> None:
    told = summary(made, patch.name if patch else None)
    sys.stdout.write(told)
    if path := os.environ.get("GITHUB_STEP_SUMMARY"):
        with open(path, "a", encoding="utf-8") as out:
            out.write(told)


def summary(made: list[str], patch: str | None) -> str:
    """Markdown: which files were ``made``, and what is left to do, where ``patch`` is the file that holds them."""
    lines = ["### Generated files", ""]
    if not made:
        return "\n".join([*lines, "They are what the catalog gives: nothing to do.", "", ""])
    named = ", ".join(f"`{name}`" for name in made[:_MOST_NAMED])
    more = f" and {len(made) - _MOST_NAMED} more" if len(made) > _MOST_NAMED else ""
    follow = "follows" if len(made) == 1 else "follow"
    lines += [
        f"{counted(len(made), 'generated file')} {follow} from this change: {named}{more}. **Whoever wrote it has nothing to do.**"
    ]
    if patch:
        lines += [
            "",
            "Whoever merges it may do one of three things:",
            "",
            "- merge as it is: publishing makes these files on the main branch and commits them;",
            "- a branch of this repository: *Actions*, *Generate*, *Run workflow*, choose the branch: they are committed to it;",
            f"- by hand: download the artefact *generated* of this run, unpack it, then `git apply {patch}` and commit.",
        ]
    return "\n".join([*lines, "", ""])
