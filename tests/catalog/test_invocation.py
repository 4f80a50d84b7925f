"""Commands in messages are as whoever reads them types them, and all are written in the one form that makes them so."""

from __future__ import annotations

import ast
import os
import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from folders import ROOT

from build_tools.catalog import invocation
from build_tools.catalog.invocation import typed
from build_tools.commands import COMMANDS

#: What committed files begin with is the same for everybody, so it names the program and not a way to call it.
HEADINGS = ("# Written by handbook conclude", "# Every address this handbook")


@pytest.fixture(autouse=True)
def _asked_anew(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    invocation.called.cache_clear()
    yield
    monkeypatch.undo()
    invocation.called.cache_clear()


def test_with_make_it_is_the_target(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(invocation.TARGETS, "check conclude serve")
    assert typed("run `handbook conclude` and commit") == "run `make conclude` and commit"
    assert typed("`handbook\ncheck`") == "`make check`"
    assert typed("`mkdocs serve -a 127.0.0.1:8001`") == '`make serve ARGS="-a 127.0.0.1:8001"`'
    told = typed("`handbook conclude --check`", catalog="my own/catalog")
    assert told == "`make conclude ARGS=\"--check --catalog 'my own/catalog'\"`"
    # What the Makefile has no target for is called by its name or path.
    assert typed("`handbook rules` lists them") == "`handbook rules` lists them"


@pytest.mark.skipif(shutil.which("make") is None, reason="make is not installed")
def test_the_makefile_says_which_targets_it_has() -> None:
    """Make itself is asked: what it exports, and what it would run."""
    shown = subprocess.run(
        ["make", "--print-data-base", "--question", "help"],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    exported = re.search(rf"^{invocation.TARGETS} :?= (.+)$", shown.stdout, re.MULTILINE)
    assert exported, "the Makefile exports no list of its targets"
    targets = exported[1].split()
    assert {"addresses", "check", "conclude", "serve"} <= set(targets)
    for target in targets:
        assert re.search(rf"^{target}: ", shown.stdout, re.MULTILINE), target
        assert target in COMMANDS or target == "serve"
        # Options reach the program.
        recipe = (ROOT / "Makefile").read_text(encoding="utf-8").partition(f"\n{target}: ")[2]
        assert "$(ARGS)" in recipe.partition("\n\n")[0], target


def test_the_name_alone_only_where_it_is_this_program(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    assert typed("`handbook check`") == "`handbook check`"  # the tests put it on the path
    other = tmp_path / "handbook"
    other.write_text("#!/bin/sh\n")
    other.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    invocation.called.cache_clear()
    program = typed("`handbook check`").strip("`").removesuffix(" check")
    assert program != "handbook" and Path(shlex.split(program)[0]).is_file()


def test_without_a_program_it_is_python_with_the_module(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """What is told is run, from another folder, by a Python that stands where no `handbook` does."""
    binary = tmp_path / "with a space" / ("python.exe" if os.name == "nt" else "python")
    binary.parent.mkdir()
    binary.symlink_to(sys.executable)
    monkeypatch.setattr(sys, "executable", str(binary))
    monkeypatch.setattr(sys, "argv", ["-c"])
    monkeypatch.setenv("PATH", str(tmp_path))
    told = typed("`handbook rules near-names`").strip("`")
    assert told == f'"{binary}" -m build_tools.cli rules near-names'
    monkeypatch.chdir(tmp_path)
    invocation.called.cache_clear()
    assert (
        typed("`handbook check`") == f'`"{binary.relative_to(tmp_path)}" -m build_tools.cli check`'
    )


def test_a_catalog_elsewhere_is_named_where_a_command_reads_one() -> None:
    assert typed("`handbook check`", "demo/catalog") == "`handbook check --catalog demo/catalog`"
    assert typed("`handbook rules`", "demo/catalog") == "`handbook rules`"
    reading = {
        name
        for name in COMMANDS
        if "--catalog DIR"
        in subprocess.run(
            [sys.executable, "-m", "build_tools.cli", name, "--help"],
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        ).stdout
    }
    # Each is judged in one place; `sample-lengths` is only ever named for the catalog at hand.
    assert reading - {"sample-lengths"} == set(invocation._READ_CATALOG)


def sentences(path: Path) -> Iterator[tuple[int, str]]:
    """Every text in a module that may be shown, with its line; of docstrings only help and manuals are."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    is_shown = path.parent.name in ("commands", "rules")
    described = (ast.ClassDef, ast.FunctionDef, *(() if is_shown else (ast.Module,)))
    hidden = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, described) and node.body and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in hidden
        ):
            yield node.lineno, node.value


def test_no_message_names_a_command_by_hand() -> None:
    """In one form, or as the start of a committed file: all else would be told to people who cannot type it."""
    names = "|".join((*COMMANDS, *{name.split("-")[0] for name in COMMANDS}))
    found = []
    for path in sorted((ROOT / "build_tools").rglob("*.py")):
        for line, text in sentences(path):
            if text.startswith(HEADINGS):
                continue
            rest = invocation._NAMED.sub("", text)
            by_hand = re.search(
                rf"\bhandbook\s+(?:{names})\b(?!s)|\bmake [a-z]+\b(?=`| ARGS|$)", rest
            )
            if by_hand:
                found.append(f"{path.relative_to(ROOT)}:{line}: {by_hand[0]}")
    assert found == []


def test_what_is_printed_goes_through_the_one_place() -> None:
    """A command named in a plain `print` would stay as it is written."""
    found = [
        f"{path.name}:{node.lineno}"
        for path in sorted((ROOT / "build_tools" / "commands").glob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id == "print"
        and not (isinstance(node.args[0], ast.Call) and ast.unparse(node.args[0].func) == "typed")
        and any(
            isinstance(part, ast.Constant)
            and isinstance(part.value, str)
            and re.search(r"`(?:handbook|mkdocs) ", part.value)
            for argument in node.args
            for part in ast.walk(argument)
        )
    ]
    assert found == []
