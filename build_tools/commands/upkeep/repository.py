"""What git knows of the folder that holds a catalog."""

from __future__ import annotations

import os
import subprocess
import tempfile
from pathlib import Path

from .. import CannotRun

#: Whatever a person has set for themselves, a difference is written in one form.
_FORM = tuple(
    word
    for setting in (
        "core.quotePath",
        "diff.noprefix",
        "diff.mnemonicPrefix",
        "diff.suppressBlankEmpty",
    )
    for word in ("-c", f"{setting}=false")
)
_DIFF = ("diff", "--no-color", "--no-ext-diff", "--no-textconv", "--no-renames", "--no-relative")


#: What is written into the catalog's folder: addresses by ``handbook addresses``, the others by ``handbook conclude``.
GENERATED = ("conclusions", "changes.yaml", "addresses.txt", ".schemas")


class Repository:
    """The repository that ``folder`` stands in. All methods raise ``CannotRun`` when git fails."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def ask(self, *arguments: str, index: Path | None = None) -> str:
        """What ``git`` prints in the folder."""
        surroundings = os.environ | ({"GIT_INDEX_FILE": str(index)} if index else {})
        try:
            told = subprocess.run(
                ["git", *_FORM, *arguments],
                cwd=self.folder,
                env=surroundings,
                capture_output=True,
                check=True,
            )
        except FileNotFoundError:
            raise CannotRun("git is not installed; install it, then run this again") from None
        except subprocess.CalledProcessError as error:
            said = error.stderr.decode("utf-8", "replace").strip()
            raise CannotRun(f"git {arguments[0]}: {said or 'failed'}") from None
        return told.stdout.decode("utf-8", "surrogateescape")

    def commit(self, name: str) -> str:
        """The full id of the commit called ``name``."""
        try:
            return self.ask(
                "rev-parse", "--verify", "--quiet", "--end-of-options", f"{name}^{{commit}}"
            ).strip()
        except CannotRun as error:
            if "git is not installed" in str(error):
                raise
            raise CannotRun(
                f"there is no commit `{name}` here; fetch it, or name another, such as `main`"
            ) from None

    def difference(self, *arguments: str) -> str:
        """A difference as ``git diff`` writes it, paths from the top of the repository."""
        return self.ask(*_DIFF, *arguments)

    def changed(self, since: str, *paths: str) -> set[str]:
        """Files below the folder, relative to it, that the commits after ``since`` changed, came with or took out."""
        told = self.difference("--relative", "--name-only", "-z", since, "HEAD", "--", *paths)
        return set(filter(None, told.split("\0")))

    def work(self, *paths: str) -> tuple[str, set[str]]:
        """What the work tree holds beyond the last commit, new files too: as a patch from the top, and the names relative to the folder.

        The person's own index stays as it is.
        """
        with tempfile.TemporaryDirectory() as apart:
            index = Path(apart) / "index"
            self.ask("read-tree", "HEAD", index=index)
            self.ask("add", "--all", "--", ".", index=index)
            against = ("--cached", "HEAD", "--", *paths)
            patch = self.ask(*_DIFF, "--binary", *against, index=index)
            names = self.ask(*_DIFF, "--relative", "--name-only", "-z", *against, index=index)
        return patch, set(filter(None, names.split("\0")))
