"""A git repository for tests, as a person would make it, whatever is set on the machine."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

#: No settings of the machine or of a person.
NOBODY = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}


def git(folder: Path, *words: str) -> str:
    """What git prints in a folder, with an invented author. Raises ``CalledProcessError``."""
    author = ("-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "core.autocrlf=false")
    done = subprocess.run(
        ["git", *author, *words],
        cwd=folder,
        check=True,
        capture_output=True,
        env={**os.environ, **NOBODY},
    )
    return done.stdout.decode()


class Clone:
    """A catalog's folder in a repository of its own."""

    def __init__(self, folder: Path) -> None:
        if shutil.which("git") is None:
            (pytest.fail if "CI" in os.environ else pytest.skip)("git is not installed")
        self.folder, self.catalog = folder, folder / "catalog"
        self.git("init", "--quiet", "--initial-branch", "main")
        self.commit()

    def git(self, *words: str) -> str:
        """What git prints in the folder."""
        return git(self.folder, *words)

    def commit(self) -> str:
        """Commit all that stands in the folder; the commit."""
        self.git("add", "--all")
        self.git("commit", "--quiet", "--allow-empty", "--message", "a step")
        return self.git("rev-parse", "HEAD").strip()

    def edit(self, path: str, *replaced: tuple[str, str]) -> None:
        """Change a file of the catalog."""
        file = self.catalog / path
        text = file.read_text(encoding="utf-8")
        for old, new in replaced:
            assert old in text, old
            text = text.replace(old, new)
        file.write_text(text, encoding="utf-8")

    def rename(self, old: str, new: str) -> None:
        """Rename an exercise wherever it is mentioned by the authored files."""
        folder = self.catalog / "exercises"
        (folder / f"{old}.yaml").rename(folder / f"{new}.yaml")
        for file in (*folder.glob("*.yaml"), *(self.catalog / "studies").glob("*.yaml")):
            text = file.read_text(encoding="utf-8")
            text = text.replace(f"exercise: {old}", f"exercise: {new}")
            file.write_text(text.replace(f"[{old}]", f"[{new}]"), encoding="utf-8")
