"""Reads a catalog as it stood at a revision, through git. Nothing is checked out; the working tree is never touched.

Files are read as git stores them (``git cat-file``): ``git archive`` would apply what attributes and line ends ask for.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

#: Modes of plain files in a tree; links and submodules are left out.
_PLAIN = ("100644", "100755", "100664")


class NoRevision(ValueError):
    """What was asked for cannot be read through git; the message says what to do instead."""


@dataclass(frozen=True)
class Revision:
    """A commit, and how people call it."""

    asked: str
    """As typed: ``main``, ``HEAD~5``."""
    commit: str
    day: str
    """Of the commit, year-month-day."""

    def __str__(self) -> str:
        same = self.commit.startswith(self.asked)
        return (
            f"{self.commit[:9]} of {self.day}"
            if same
            else f"{self.asked} ({self.commit[:9]} of {self.day})"
        )


@dataclass(frozen=True)
class History:
    """The git repository that a catalog's folder stands in."""

    folder: Path
    """Where git is run: the catalog's folder, or the nearest above it that exists."""
    inside: str
    """The catalog's folder from the top of the repository, with forward slashes; empty for the top itself."""

    @classmethod
    def around(cls, catalog: Path) -> History:
        """The repository of the folder ``catalog``, which need not exist. Raises ``NoRevision``."""
        folder = catalog.resolve()
        below: list[str] = []
        while not folder.is_dir() and folder != folder.parent:
            below.insert(0, folder.name)
            folder = folder.parent
        done = _git(folder, "rev-parse", "--show-prefix")
        if done.returncode:
            raise NoRevision(
                f"`{catalog}` stands in no git repository that can be read ({_last(done)}); "
                "a difference needs the history: git clone the handbook, or run this where it was cloned"
            )
        prefix = done.stdout.decode(errors="surrogateescape").removesuffix("\n").strip("/")
        return cls(folder, "/".join(filter(None, [prefix, *below])))

    def revision(self, asked: str) -> Revision:
        """The commit that ``asked`` names. Raises ``NoRevision``."""
        commit = self._line(
            "rev-parse", "--verify", "--quiet", "--end-of-options", f"{asked}^{{commit}}"
        )
        if not commit:
            raise NoRevision(f"there is no revision `{asked}` here; {self._instead(asked)}")
        return Revision(asked, commit, self._line("show", "--no-patch", "--format=%cs", commit))

    def last_change(self, below: str) -> Revision | None:
        """The last commit that changed the folder ``below`` the catalog; ``None`` where the history does not reach that far."""
        if self._line("rev-parse", "--is-shallow-repository") != "false":
            return None
        place = f":(top,literal){'/'.join(filter(None, [self.inside, below]))}"
        commit = self._line("log", "-1", "--format=%H", "--", place)
        return self.revision(commit) if commit else None

    def unpack(self, revision: Revision, target: Path) -> None:
        """Write the catalog as of ``revision`` into the folder ``target``. Raises ``NoRevision``, ``OSError``."""
        tree = f"{revision.commit}:{self.inside}"
        listed = _git(self.folder, "ls-tree", "-r", "-z", "--full-tree", tree)
        if listed.returncode:
            raise NoRevision(
                f"there was no `{self.inside}/` at {revision}; {self._elsewhere(revision)}"
            )
        found = []
        for line in listed.stdout.split(b"\0"):
            about, _, name = line.decode("utf-8", "surrogateescape").partition("\t")
            if name and about.split()[0] in _PLAIN and _is_inside(name):
                found.append((name, about.split()[2]))
        for (name, _), data in zip(found, self._blobs([id for _, id in found]), strict=True):
            path = target / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)

    def changed_below(self, before: Revision, *folders: Path) -> list[str]:
        """Files of ``folders`` that differ between ``before`` and the working tree, from the top of the repository; empty for those elsewhere."""
        try:
            top = Path(self._line("rev-parse", "--show-toplevel")).resolve()
            inside = [folder.resolve().relative_to(top).as_posix() for folder in folders]
        except (ValueError, OSError):
            return []
        done = _git(
            top,
            "diff",
            "--name-only",
            "-z",
            "--no-ext-diff",
            before.commit,
            "--",
            *(f":(top,literal){path}" for path in inside),
        )
        return sorted(filter(None, done.stdout.decode(errors="backslashreplace").split("\0")))

    def _blobs(self, ids: Sequence[str]) -> list[bytes]:
        asked = "".join(f"{id}\n" for id in ids).encode()
        text = _git(self.folder, "cat-file", "--batch", given=asked).stdout
        found, at = [], 0
        for id in ids:
            head, _, _ = text[at : at + 200].partition(b"\n")
            if not head.startswith(id.encode()) or len(head.split()) != 3:
                raise NoRevision(
                    f"git cannot read a file of that revision ({head.decode(errors='replace')}); try: git fetch"
                )
            start = at + len(head) + 1
            at = start + int(head.split()[2])
            found.append(text[start:at])
            at += 1  # git ends each with a line break
        return found

    def _instead(self, asked: str) -> str:
        if not self._line("rev-parse", "--verify", "--quiet", "HEAD"):
            return "nothing was committed yet: git add, git commit, then compare"
        if self._line(
            "rev-parse", "--verify", "--quiet", "--end-of-options", f"origin/{asked}^{{commit}}"
        ):
            return f"write origin/{asked}"
        if self._line("rev-parse", "--is-shallow-repository") == "true":
            return "the history was cut off when this was cloned; run: git fetch --unshallow"
        name = asked.removeprefix("origin/")
        if (
            self._line("remote")
            and name.replace("-", "").replace("_", "").replace("/", "").isalnum()
        ):
            return f"if it is a branch, run: git fetch origin {name}, and write origin/{name}; `git log --oneline` lists commits"
        return "`git log --oneline` lists commits, `git branch --all` branches"

    def _elsewhere(self, revision: Revision) -> str:
        listed = _git(
            self.folder, "ls-tree", "-r", "-z", "--full-tree", "--name-only", revision.commit
        )
        names = listed.stdout.decode("utf-8", "backslashreplace").split("\0")
        found = [
            str(PurePosixPath(name).parent)
            for name in names
            if PurePosixPath(name).name == "handbook.yaml"
        ]
        if found:
            return f"a handbook.yaml stood in `{found[0]}/` then: name that folder with --catalog, or compare with a later revision"
        return "no handbook.yaml stood anywhere: compare with a later revision"

    def _line(self, *words: str) -> str:
        done = _git(self.folder, *words)
        return "" if done.returncode else done.stdout.decode(errors="surrogateescape").strip()


def _git(folder: Path, *words: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    # No lock is taken, nothing is asked and no words change with the language.
    quiet = {"GIT_OPTIONAL_LOCKS": "0", "GIT_TERMINAL_PROMPT": "0", "LC_ALL": "C"}
    try:
        return subprocess.run(
            ["git", "-C", str(folder), *words],
            input=given,
            capture_output=True,
            check=False,
            env={**os.environ, **quiet},
        )
    except FileNotFoundError:
        raise NoRevision(
            "git was not found; install it (https://git-scm.com/downloads), so that the history can be read"
        ) from None


def _last(done: subprocess.CompletedProcess[bytes]) -> str:
    lines = done.stderr.decode(errors="replace").strip().splitlines() or ["git gave no reason"]
    return lines[0].removeprefix("fatal: ")


def _is_inside(name: str) -> bool:
    """Whether a name in a tree leads to a file below the folder on every system; hidden files are none of the catalog's."""
    parts = name.split("/")
    return not any(
        part.startswith(".") or set(part) & set('\\:*?"<>|\0') or not part for part in parts
    )
