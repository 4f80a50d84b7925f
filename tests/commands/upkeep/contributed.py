"""A small repository for the tests of what workflows do."""

from __future__ import annotations

from pathlib import Path

from repositories import git


class Repository:
    """Git in one folder, with nobody's settings."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self("init", "--quiet", "--initial-branch", "main")

    def __call__(self, *arguments: str) -> str:
        """What ``git`` prints. Raises ``CalledProcessError``."""
        return git(self.folder, *arguments)

    def commit(self, message: str) -> str:
        """All there is, as a commit; its id."""
        self("add", "--all")
        self("commit", "--quiet", "--allow-empty", "--message", message)
        return self("rev-parse", "HEAD").strip()
