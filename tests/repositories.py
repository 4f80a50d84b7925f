"""A git repository for tests, as a person would make it, whatever is set on the machine."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest


class Clone:
    """A catalog's folder in a repository of its own."""

    def __init__(self, folder: Path) -> None:
        if shutil.which("git") is None:
            (pytest.fail if "CI" in os.environ else pytest.skip)("git is not installed")
        self.folder, self.catalog = folder, folder / "catalog"
        self.git("init", "--quiet", "--initial-branch", "main")
        self.git("config", "core.autocrlf", "false")
        self.commit()

    def git(self, *words: str) -> str:
        """What git prints, with an invented author and no settings of the machine."""
        done = subprocess.run(
            ["git", "-c", "user.name=A", "-c", "user.email=a@example.org", *words],
            cwd=self.folder,
            check=True,
            capture_output=True,
            env={**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"},
        )
        return done.stdout.decode()

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
