"""A small repository for the tests of what workflows do."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path


class Repository:
    """Git in one folder, with nobody's settings."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self("init", "--quiet", "--initial-branch", "main")

    def __call__(self, *arguments: str) -> str:
        """What ``git`` prints. Raises ``CalledProcessError``."""
        nobody = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
        people = (
            "-c",
            "user.name=A",
            "-c",
            "user.email=a@example.org",
            "-c",
            "core.autocrlf=false",
        )
        return subprocess.run(
            ["git", *people, *arguments],
            cwd=self.folder,
            check=True,
            capture_output=True,
            encoding="utf-8",
            env={**os.environ, **nobody},
        ).stdout

    def commit(self, message: str) -> str:
        """All there is, as a commit; its id."""
        self("add", "--all")
        self("commit", "--quiet", "--allow-empty", "--message", message)
        return self("rev-parse", "HEAD").strip()
