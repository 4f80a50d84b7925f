"""What `handbook check --fix` mended in the work tree, as a review for a pull request:
JSON for GitHub's "Create a review for a pull request", each mend a suggestion that its
author takes over with one click.

A suggestion can only stand on lines that the pull request itself shows (lines it
changed, and three around them); other mends are counted in the review's text. Nothing
is sent anywhere.

    handbook check --fix
    handbook upkeep suggestions --since main --out review.json

Exit status: 0 also when there is nothing to suggest, 2 it could not run.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from ...english import counted
from .. import CLEAN, CannotRun, reporting
from .repository import GENERATED, Repository

#: Comments in one review; a page full of them helps nobody. Convention.
MOST = 30
_HUNK = re.compile(r"@@ -(\d+)(?:,(\d+))? \+(\d+)(?:,(\d+))? @@")
#: No context; but mends with one line between them are one, as both might stand on that line.
BARE = ("--unified=0", "--inter-hunk-context=1")
#: What people write in the catalog; generated files are made, not suggested.
_WRITTEN = ("--", ".", *(f":(exclude){name}" for name in GENERATED))
_ABOVE = "This can be mended with one click:"


class Hunk(NamedTuple):
    """A stretch of a unified diff: which lines it replaces (from 1), and the lines that stand there then."""

    path: str
    old_start: int
    old_count: int
    new_start: int
    new_count: int
    lines: tuple[str, ...]

    @property
    def shown(self) -> range:
        """The lines of the new file that it shows."""
        return range(self.new_start, self.new_start + self.new_count)


class Suggestion(NamedTuple):
    """Lines ``first`` to ``last`` of a file (from 1), and what they should be."""

    path: str
    first: int
    last: int
    lines: tuple[str, ...]

    def comment(self) -> dict[str, Any]:
        """As GitHub's interface takes it; one line has no ``start_line``."""
        start = {"start_line": self.first, "start_side": "RIGHT"} if self.first < self.last else {}
        # A fence is longer than any run of backticks inside it (CommonMark 0.31, 4.5).
        longest = max(map(len, re.findall("`+", "\n".join(self.lines))), default=0)
        fence = "`" * max(3, longest + 1)
        body = "\n".join([_ABOVE, "", f"{fence}suggestion", *self.lines, fence])
        return {"path": self.path, **start, "line": self.last, "side": "RIGHT", "body": body}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    reporting.add_catalog(parser)
    parser.add_argument(
        "--since", required=True, metavar="REV", help="the branch that the pull request goes to"
    )
    parser.add_argument(
        "--out",
        type=Path,
        metavar="FILE",
        help="write it there, and only when there is something to suggest",
    )


def run(args: argparse.Namespace) -> int:
    """Print the review. Raises ``CannotRun``."""
    repository = Repository(args.catalog)
    base, head = repository.commit(args.since), repository.commit("HEAD")
    own = repository.difference("--merge-base", base, head, *_WRITTEN)
    mends = repository.difference(*BARE, head, *_WRITTEN)

    def lines(path: str) -> list[str]:
        return repository.ask("show", f"{head}:{path}").split("\n")

    made = review(mends, own, lines, head)
    text = json.dumps(made, indent=1) + "\n"
    if not args.out:
        sys.stdout.write(text)
    elif made["comments"]:
        try:
            args.out.write_text(text, encoding="utf-8", newline="\n")
        except OSError as error:
            raise CannotRun(f"the review cannot be written: {args.out}: {error.strerror}") from None
    return CLEAN


def review(
    mends: str, own: str, lines: Callable[[str], Sequence[str]], head: str
) -> dict[str, Any]:
    """The review of commit ``head``, where ``own`` is the pull request's diff and ``mends`` what to change, without context.

    ``lines`` gives the lines of a file as ``head`` has it.
    """
    shown: dict[str, list[range]] = {}
    for hunk in hunks(own):
        shown.setdefault(hunk.path, []).append(hunk.shown)
    asked = list(hunks(mends))
    found = [suggest(hunk, shown.get(hunk.path, []), lines) for hunk in asked]
    fitting = [suggestion for suggestion in found if suggestion][:MOST]
    said = []
    if fitting:
        each = "" if len(fitting) == 1 else " each, or all at once: *Add suggestion to batch*"
        said.append(f"{counted(len(fitting), 'slip')} can be mended with one click{each}.")
    if left := len(asked) - len(fitting):
        said.append(
            f"{left} more {'stands' if left == 1 else 'stand'} elsewhere: `handbook check --fix` mends them."
        )
    return {
        "commit_id": head,
        "event": "COMMENT",
        "body": " ".join(said),
        "comments": [suggestion.comment() for suggestion in fitting],
    }


def suggest(
    hunk: Hunk, shown: Iterable[range], lines: Callable[[str], Sequence[str]]
) -> Suggestion | None:
    """The mend ``hunk`` as a suggestion on lines that are ``shown``, or ``None`` where it cannot stand on one."""
    if hunk.old_count:
        places = [
            Suggestion(hunk.path, hunk.old_start, hunk.old_start + hunk.old_count - 1, hunk.lines)
        ]
    else:
        # Nothing is replaced, so a neighbour carries the new lines: the line before them, or the one after.
        before, after = hunk.old_start, hunk.old_start + 1
        text = lines(hunk.path)
        places = [
            Suggestion(hunk.path, at, at, own)
            for at, own in (
                (before, (*text[before - 1 : before], *hunk.lines)),
                (after, (*hunk.lines, *text[after - 1 : after])),
            )
            if at
        ]
    seen = list(shown)
    for place in places:
        if any(place.first in lines_ and place.last in lines_ for lines_ in seen):
            return place
    return None


def hunks(diff: str) -> Iterable[Hunk]:
    """The stretches of a unified diff, as git writes it; files that come, go or are no text have none."""
    path, rows = "", iter(diff.split("\n"))
    for row in rows:
        if row.startswith("diff --git "):
            path = ""
        elif row.startswith("--- "):
            old, new = row[4:], next(rows)[4:]
            # Git ends a name that holds a space with a tab, and quotes one that holds stranger letters.
            is_plain = old.startswith("a/") or old == "/dev/null"
            path = new[2:].removesuffix("\t") if is_plain and new.startswith("b/") else ""
        elif found := _HUNK.match(row):
            old_start, old_count, new_start, new_count = (
                1 if number is None else int(number) for number in found.groups()
            )
            left, come = old_count, new_count
            before: list[str] = []
            after: list[str] = []
            while left or come:
                sign, text = (inner := next(rows))[:1], inner[1:]
                left -= sign in "- "
                come -= sign in "+ "
                if sign in "- ":
                    before.append(text)
                if sign in "+ ":
                    after.append(text)
            # Alike but for the line break at the end of the file: no click can mend that.
            if path and before != after:
                yield Hunk(path, old_start, old_count, new_start, new_count, tuple(after))
