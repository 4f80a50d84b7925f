"""A real ``mkdocs serve`` on this machine, and how to ask it."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from folders import ROOT
from site_building import configuration

#: A build of the demo takes a few seconds; a shared machine may need many times as long.
PATIENCE = 120
#: A page that stands in for another.
INSTEAD = -1


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class Preview:
    """A running preview and its answers."""

    def __init__(self, port: int, log: Path) -> None:
        self.address, self.log = f"http://127.0.0.1:{port}/", log

    def ask(self, path: str = "", patience: float = 10) -> tuple[int, str]:
        """Status and text of an answer, ``INSTEAD`` for a page that stands in; ``(0, "")`` while nobody listens.

        Raises ``TimeoutError`` when there is none in time.
        """
        try:
            with urllib.request.urlopen(self.address + path, timeout=patience) as answer:
                stands_in = "ETag" in answer.headers  # MkDocs gives none
                return INSTEAD if stands_in else answer.status, answer.read().decode()
        except urllib.error.HTTPError as answer:
            return answer.code, answer.read().decode()
        except urllib.error.URLError as error:
            if isinstance(error.reason, TimeoutError):
                raise error.reason from None
            return 0, ""

    def wait_for(self, status: int, path: str = "") -> str:
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            told, text = self.ask(path, PATIENCE)
            if told == status:
                return text
            time.sleep(0.2)
        raise AssertionError(f"no {status} at {path}:\n{self.log.read_text()}")


@contextmanager
def serving(folder: Path, catalog: Path, *options: str, **changes: object) -> Iterator[Preview]:
    port, log = free_port(), folder / "log"
    config = configuration(folder, catalog, **changes)
    with log.open("w") as out:
        process = subprocess.Popen(
            [
                sys.executable,
                "-m",
                "mkdocs",
                "serve",
                "-f",
                str(config),
                "-a",
                f"127.0.0.1:{port}",
                *options,
            ],
            cwd=folder,
            stdout=out,
            stderr=subprocess.STDOUT,
            env={**os.environ, "PYTHONPATH": str(ROOT), "NO_MKDOCS_2_WARNING": "1"},
        )
    try:
        yield Preview(port, log)
        assert process.poll() is None, log.read_text()
    finally:
        process.terminate()  # a process in the background may not hear an interrupt
        process.wait(30)


def edit(file: Path, change: Callable[[str], str]) -> None:
    file.write_text(change(file.read_text(encoding="utf-8")), encoding="utf-8")
