"""What a terminal receives: colours, a progress line, plain text or escapes."""

import io
import os
import pty
import subprocess
import sys

from command import COMMAND, break_swap

from build_tools import cli
from build_tools.commands import terminal


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


def test_commands_are_named_as_the_reader_types_them(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("sys.argv", ["/somewhere/else/cli.py"])
    assert terminal.command("check", "--fix") == "python -m build_tools.cli check --fix"
    program = tmp_path / "bin" / "handbook"
    program.parent.mkdir()
    program.write_text("#!/bin/sh\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setattr("sys.argv", [str(program)])
    monkeypatch.setenv("PATH", os.devnull)
    assert terminal.command("check") == f"{program} check"
    monkeypatch.setenv("PATH", str(program.parent))
    assert terminal.command("check") == "handbook check"
    (tmp_path / "Makefile").write_text("site:\n\tx\ncheck: site ## Check\n\tx\n", encoding="utf-8")
    assert terminal.command("check") == "make check"
    assert terminal.command("check", "--fix", "--dry-run") == "make check ARGS='--fix --dry-run'"
    assert terminal.command("cite", "FILE") == "handbook cite FILE"
