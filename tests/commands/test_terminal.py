"""What a terminal receives: colours, a progress line, plain text or escapes."""

import io
import os
import subprocess
import sys

import pytest
from command import COMMAND, break_swap

from build_tools import cli

pty = pytest.importorskip("pty", reason="Windows has no pseudo-terminals of this kind")


def on_a_terminal(arguments, **environment):
    """What a terminal receives from stdout and stderr together."""
    leader, follower = pty.openpty()
    process = subprocess.Popen(
        [*COMMAND, *arguments],
        stdout=follower,
        stderr=follower,
        stdin=subprocess.DEVNULL,
        env={**os.environ, "TERM": "xterm", **environment},
    )
    os.close(follower)
    received = b""
    while True:
        try:
            chunk = os.read(leader, 4096)
        except OSError:  # Linux: the other end is closed
            break
        if not chunk:
            break
        received += chunk
    os.close(leader)
    assert process.wait(30) == 1
    return received.decode()


def test_a_terminal_gets_colours_and_a_progress_line_that_is_wiped(here):
    break_swap(here)
    shown = on_a_terminal(["check"])
    assert "\x1b[1;31merror[known-exercise]\x1b[0m" in shown
    assert (
        "\r\x1b[Kreading the catalog ...\r\x1b[Krunning the rules ...\r\x1b[K\x1b[1mcatalog/"
        in shown
    )


def test_no_color_is_honoured(here):
    break_swap(here)
    assert "\x1b[1" not in on_a_terminal(["check"], NO_COLOR="1")


def test_a_dumb_terminal_gets_plain_text(here):
    break_swap(here)
    assert "\x1b" not in on_a_terminal(["check"], TERM="dumb")


def test_a_terminal_without_utf_8_gets_escapes(here, monkeypatch):
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr(sys, "stdout", out)
    (here / "exercises" / "café.yaml").write_text("", encoding="utf-8")
    assert cli.main(["check"]) == 1
    assert rb"catalog/exercises/caf\xe9.yaml:1:1: error[file-name]" in out.buffer.getvalue()
