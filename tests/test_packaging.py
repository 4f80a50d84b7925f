"""The two commands and the locked sets.

Outside sources: pip's documentation of hash-checking mode (every requirement pinned with ``==`` and hashed); the names of
requirements compared after PEP 503.
"""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
import tomllib
from importlib.metadata import entry_points, packages_distributions
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LOCKED = sorted((ROOT / ".ci" / "locked").glob("*.txt"))


def pins(path: Path) -> dict[str, set[str]]:
    """Normalised package name -> versions pinned in a locked set."""
    found: dict[str, set[str]] = {}
    for name, version in re.findall(
        r"^([A-Za-z0-9._-]+)==([^\s;]+)", path.read_text(encoding="utf-8"), re.MULTILINE
    ):
        found.setdefault(normal(name), set()).add(version)
    return found


def normal(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def asked(requirements: list[str]) -> set[str]:
    return {normal(re.match(r"[A-Za-z0-9._-]+", requirement)[0]) for requirement in requirements}


# --- locked sets -------------------------------------------------------------


@pytest.mark.parametrize("path", LOCKED, ids=lambda p: p.name)
def test_everything_is_pinned_and_hashed_and_names_no_host(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    blocks = re.split(
        r"^(?=\S)", re.sub(r"^\s*#.*\n", "", text, flags=re.MULTILINE), flags=re.MULTILINE
    )
    for block in filter(None, blocks):
        assert re.match(r"[a-z0-9-]+(\[[a-z,]+\])?==", block), block.splitlines()[0]
        assert "--hash=sha256:" in block, block.splitlines()[0]
    assert not re.search(
        r"://|^\s*-|file:|index-url|find-links",
        re.sub(r"^\s+--hash=", "", text, flags=re.MULTILINE),
        re.MULTILINE,
    )


def test_the_locked_sets_hold_what_the_project_asks_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    site, test = pins(ROOT / ".ci/locked/site.txt"), pins(ROOT / ".ci/locked/test.txt")
    build = asked(project["project"]["dependencies"]) | asked(project["dependency-groups"]["build"])
    assert build <= site.keys()
    assert build | asked(project["dependency-groups"]["test"]) <= test.keys()
    assert site.items() <= test.items(), (
        "both commands share one environment, so versions must agree"
    )


def libraries(folder: Path) -> set[str]:
    """Top-level modules that the files of a folder import from elsewhere."""
    files = sorted(folder.rglob("*.py"))
    trees = [ast.walk(ast.parse(path.read_text(encoding="utf-8"))) for path in files]
    names = {
        name.partition(".")[0]
        for tree in trees
        for node in tree
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module]
            if isinstance(node, ast.ImportFrom) and node.module and not node.level
            else []
        )
    }
    return (
        names
        - sys.stdlib_module_names
        - {path.stem for path in files}
        - {path.parent.name for path in files}
        - {"build_tools"}
    )


@pytest.mark.parametrize(("folder", "groups"), [("build_tools", []), ("tests", ["build", "test"])])
def test_every_library_that_is_imported_is_declared(folder: str, groups: list[str]) -> None:
    data = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    # Parts of a declared library that it hands on by name: Jinja's escaping, Pydantic's errors, MkDocs' Markdown.
    declared = asked(data["project"]["dependencies"]) | {"markupsafe", "pydantic-core", "markdown"}
    declared = declared.union(*(asked(data["dependency-groups"][group]) for group in groups))
    if folder == "build_tools":
        declared = declared.union(
            *(asked(extra) for extra in data["project"]["optional-dependencies"].values())
        )
    distributions = packages_distributions()  # reads every installed package, so once
    owners = {
        module: set(map(normal, distributions.get(module, [module])))
        for module in libraries(ROOT / folder)
    }
    assert {module for module, names in owners.items() if not declared & names} == set()


# --- what people read ----------------------------------------------------------


def test_the_guide_can_be_read_at_one_sitting() -> None:
    assert len((ROOT / "DEVELOPERS.md").read_bytes()) <= 16 * 1024


# --- make --------------------------------------------------------------------


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    """Just enough of the project to run make, in a path with a space, with an environment that runs nothing."""
    folder = tmp_path / "with a space"
    binaries = folder / ".venv" / "bin"
    binaries.mkdir(parents=True)
    for name in ("Makefile", "pyproject.toml"):
        shutil.copyfile(ROOT / name, folder / name)
    shutil.copytree(ROOT / ".ci" / "locked", folder / ".ci" / "locked")
    for name in ("python", "handbook"):
        # Logs what it was asked; `mkdocs build` writes a page. FAIL names the program that fails.
        (binaries / name).write_text(f"""#!/bin/sh
echo "{name} $*" >> log
[ "$FAIL" != {name} ] || exit 1
case "$*" in *"mkdocs build"*) mkdir -p site; echo new > site/index.html;; esac
""")
        (binaries / name).chmod(0o755)
    return folder


def make(folder: Path, *arguments: str, **env: str) -> subprocess.CompletedProcess[str]:
    surroundings = {
        name: value for name, value in os.environ.items() if not name.startswith(("MAKE", "MFLAGS"))
    }
    return subprocess.run(
        ["make", *arguments],
        cwd=folder,
        env={**surroundings, **env},
        capture_output=True,
        text=True,
    )


needs_make = pytest.mark.skipif(
    os.name != "posix" or shutil.which("make") is None, reason="needs make and a POSIX shell"
)


@needs_make
def test_a_second_run_installs_nothing_unless_the_lock_changed(clone: Path) -> None:
    assert make(clone, "site").returncode == 0
    first = (clone / "log").read_text()
    assert first.count("pip install") == 2 and "--require-hashes" in first
    (clone / "log").unlink()
    assert make(clone, "site").returncode == 0
    assert "pip install" not in (clone / "log").read_text()
    stamp = (clone / ".venv" / "site.stamp").stat().st_mtime
    os.utime(clone / ".ci" / "locked" / "site.txt", (stamp + 5, stamp + 5))
    assert make(clone, "site").returncode == 0
    assert "pip install" in (clone / "log").read_text()


@needs_make
@pytest.mark.parametrize("fails", [False, True])
def test_the_site_is_read_and_checked_once_by_a_strict_build(clone: Path, fails: bool) -> None:
    """What a strict build refuses, `tests/site/adapter/test_plugin.py` shows; what becomes of the last site, `tests/site/hosting/test_place.py`."""
    assert make(clone, "site").returncode == 0
    (clone / "log").unlink()
    found = make(clone, "site", FAIL="python" if fails else "")
    assert (found.returncode != 0) == fails and ("is in site/" in found.stdout) != fails
    assert (clone / "log").read_text() == "python -m mkdocs build --strict\n"


@needs_make
@pytest.mark.parametrize(("asked", "base"), [((), "HEAD^1"), (("BASE=main",), "main")])
def test_the_changes_of_a_commit_are_told_as_markdown(
    clone: Path, asked: tuple[str, ...], base: str
) -> None:
    assert make(clone, "changes", *asked).returncode == 0
    assert f"handbook diff {base} --format markdown" in (clone / "log").read_text()


@needs_make
@pytest.mark.parametrize(
    ("base", "since"),
    [([], ' --since "HEAD^1"'), (["BASE=main"], " --since main"), (["BASE="], "")],
)
def test_generated_files_are_judged_from_a_commit_on_or_not_at_all(
    clone: Path, base: list[str], since: str
) -> None:
    assert make(clone, "generated", *base, "ARGS=--patch x.patch").returncode == 0
    asked = (clone / "log").read_text(encoding="utf-8").splitlines()[-1]
    assert asked == f"handbook upkeep generated --strict{since} --patch x.patch".replace('"', "")


@needs_make
def test_nothing_to_suggest_and_something_left_to_mend_is_no_failure(clone: Path) -> None:
    """`handbook check` ends with 1 where something is left; 2 is a failure of its own."""
    handbook = clone / ".venv" / "bin" / "handbook"
    text = handbook.read_text(encoding="utf-8")
    for status in (1, 2):
        ends = f'case "$*" in check*) exit {status};; esac\n[ "$FAIL"'
        handbook.write_text(text.replace('[ "$FAIL"', ends), encoding="utf-8")
        assert (make(clone, "suggestions").returncode == 0) == (status == 1)
        assert (make(clone, "sarif").returncode == 0) == (status == 1)


@needs_make
def test_an_old_python_is_named(tmp_path: Path, clone: Path) -> None:
    shutil.rmtree(clone / ".venv")
    old = tmp_path / "old-python"
    old.write_text('#!/bin/sh\n[ "$1" = --version ] && echo Python 3.9.0 || exit 1\n')
    old.chmod(0o755)
    told = make(clone, "site", f"PYTHON={old}")
    assert told.returncode != 0
    assert "Python 3.9.0 is too old; use Python 3.11 or newer" in told.stderr


@needs_make
def test_another_python_that_is_asked_for_makes_the_environment_anew(
    tmp_path: Path, clone: Path
) -> None:
    """The stand-in says 3.14; the environment that is there says nothing, so another made it."""
    other = tmp_path / "python3.14"
    other.write_text(
        '#!/bin/sh\ncase "$*" in *--version*) echo Python 3.14.0;; *print*) echo 3 14 0 /opt;; *venv*--clear*) echo anew >> log;; esac\n'
    )
    other.chmod(0o755)
    told = make(clone, "check", f"PYTHON={other}")
    assert "Making .venv/ anew with Python 3.14.0" in told.stdout
    asked = (clone / "log").read_text()
    assert "anew" in asked and asked.count("pip install") == 2
    # The same Python again, and none asked for: nothing is made. From the surroundings it is only a default.
    python = clone / ".venv" / "bin" / "python"
    python.write_text(
        python.read_text().replace(
            '[ "$FAIL"', 'case "$*" in *print*) echo 3 14 0 /opt;; esac\n[ "$FAIL"'
        )
    )
    (clone / "log").unlink()
    for options, surroundings in (([f"PYTHON={other}"], {}), ([], {}), ([], {"PYTHON": "none"})):
        assert make(clone, "check", *options, **surroundings).returncode == 0
    assert "anew" not in (clone / "log").read_text()
    missing = make(clone, "check", "PYTHON=/nonexistent")
    assert missing.returncode != 0 and "/nonexistent not found" in missing.stderr


@needs_make
def test_help_stands_in_columns(clone: Path) -> None:
    listed = make(clone, "help").stdout.splitlines()
    assert len(listed) > 8
    starts = {re.match(r"  make [a-z]+ {2,}", line).end() for line in listed}  # type: ignore[union-attr]
    assert len(starts) == 1


@needs_make
def test_a_missing_python_is_named(clone: Path) -> None:
    shutil.rmtree(clone / ".venv")
    assert "no-such-python not found" in make(clone, "site", "PYTHON=no-such-python").stderr


def test_the_command_and_the_plugin_are_declared() -> None:
    plugins = entry_points(group="mkdocs.plugins", name="handbook")
    assert plugins, "the project is not installed here; run the tests with: make test"
    assert all(
        callable(point.load())
        for point in (*plugins, *entry_points(group="console_scripts", name="handbook"))
    )
