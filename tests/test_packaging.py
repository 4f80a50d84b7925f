"""The two commands, the locked sets, and what a stranger's pull request may do.

Outside sources: GitHub's documentation on workflow syntax (`permissions`, `pull_request`, expression
contexts) and its hardening guide (pin actions to a full commit); pip's documentation of hash-checking
mode (every requirement pinned with ``==`` and hashed); the names of requirements compared after PEP 503.
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
import yaml

ROOT = Path(__file__).parents[1]
LOCKED = sorted((ROOT / ".ci" / "locked").glob("*.txt"))
WORKFLOWS = sorted((ROOT / ".github" / "workflows").glob("*.yml"))
PULL_REQUEST = ROOT / ".github" / "workflows" / "pull-request.yml"


def workflow(path: Path) -> dict:
    # BaseLoader keeps `on` a word; YAML 1.1 would read it as true.
    return yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506 - builds plain text only


def steps(path: Path) -> list[dict]:
    return [step for job in workflow(path)["jobs"].values() for step in job["steps"]]


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


# --- pull requests -----------------------------------------------------------


def test_a_pull_request_gets_a_read_only_token_and_no_secrets() -> None:
    data = workflow(PULL_REQUEST)
    assert data["on"] == "pull_request"
    assert data["permissions"] == {"contents": "read"}
    for job in data["jobs"].values():
        assert "permissions" not in job
        assert "timeout-minutes" in job
    assert not re.search(
        r"secrets\.|secrets: inherit|github\.token|GITHUB_TOKEN",
        PULL_REQUEST.read_text(encoding="utf-8"),
    )


def test_a_pull_request_runs_the_two_commands_and_hands_nothing_on() -> None:
    site, test = workflow(PULL_REQUEST)["jobs"].values()
    # What changes is shown after `make site` has found the files fresh: a stranger's own text never reaches the summary.
    assert [step["run"] for step in site["steps"] if "run" in step] == [
        "make site",
        'make changes >> "$GITHUB_STEP_SUMMARY"',
    ]
    assert [step["run"] for step in test["steps"] if "run" in step] == ["make test"]
    used = {step["uses"].partition("@")[0] for step in steps(PULL_REQUEST) if "uses" in step}
    assert used == {"actions/checkout", "actions/setup-python"}


@pytest.mark.parametrize("path", WORKFLOWS, ids=lambda p: p.name)
def test_no_workflow_runs_strangers_code_with_rights(path: Path) -> None:
    triggers = workflow(path)["on"]
    assert set([triggers] if isinstance(triggers, str) else triggers) <= {
        "pull_request",
        "push",
        "workflow_call",
    }
    assert workflow(path)["permissions"] == {"contents": "read"}
    for step in steps(path):
        # Text that a stranger chooses (title, branch) would be run as shell if it stood in `run:`.
        assert "${{" not in step.get("run", "")
        if "uses" in step:
            assert re.fullmatch(r"actions/[a-z-]+@[0-9a-f]{40}", step["uses"]), (
                "pin to a full commit"
            )
        if step.get("uses", "").startswith("actions/checkout@"):
            assert step["with"]["persist-credentials"] == "false"


def test_only_the_job_without_project_code_may_write() -> None:
    for path in WORKFLOWS:
        for job in workflow(path)["jobs"].values():
            if "write" in job.get("permissions", {}).values():
                assert not any(
                    "run" in step or "checkout" in step.get("uses", "") for step in job["steps"]
                )


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


def test_the_changelog_has_an_open_section_and_the_version_at_hand() -> None:
    """Keep a Changelog 1.1: ``Unreleased`` stands first, then versions, newest first."""
    version = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"][
        "version"
    ]
    headings = re.findall(
        r"^## \[?([^\]\s]+)", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.MULTILINE
    )
    assert headings[:2] == ["Unreleased", version]


def test_the_guide_can_be_read_at_one_sitting() -> None:
    assert len((ROOT / "DEVELOPERS.md").read_bytes()) <= 12 * 1024


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
        # Logs what it was asked; `mkdocs build --site-dir X` writes a page. FAIL names the program that fails.
        (binaries / name).write_text(f"""#!/bin/sh
echo "{name} $*" >> log
[ "$FAIL" != {name} ] || exit 1
for last; do :; done
case "$*" in *"mkdocs build"*) mkdir -p "$last"; echo new > "$last/index.html"; [ -z "$FAIL_LATE" ];; esac
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


needs_make = pytest.mark.skipif(shutil.which("make") is None, reason="make is not installed")


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
@pytest.mark.parametrize(
    "failing", [{"FAIL": "handbook"}, {"FAIL_LATE": "yes"}], ids=["the check", "the build"]
)
def test_the_last_site_stays_when_something_fails(clone: Path, failing: dict[str, str]) -> None:
    (clone / "site").mkdir()
    (clone / "site" / "index.html").write_text("old")
    assert make(clone, "site", **failing).returncode != 0
    assert (clone / "site" / "index.html").read_text() == "old"
    assert make(clone, "site").returncode == 0
    assert (clone / "site" / "index.html").read_text() == "new\n"


@needs_make
@pytest.mark.parametrize("stale", [False, True])
def test_the_site_needs_fresh_conclusions(clone: Path, stale: bool) -> None:
    if stale:
        handbook = clone / ".venv" / "bin" / "handbook"
        handbook.write_text(
            handbook.read_text().replace(
                "for last", 'case "$*" in *--all*) exit 1;; esac\nfor last'
            )
        )
    assert (make(clone, "site").returncode != 0) == stale
    asked = (clone / "log").read_text()
    assert asked.count("handbook check --all --strict") == 1
    assert ("mkdocs build" in asked) != stale


@needs_make
@pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")
def test_the_changes_of_a_commit_are_shown_as_markdown(clone: Path) -> None:
    def git(*arguments: str) -> None:
        subprocess.run(
            ["git", "-c", "user.name=A", "-c", "user.email=a@example.org", *arguments],
            cwd=clone,
            check=True,
            capture_output=True,
            env={**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull},
        )

    file = clone / "catalog" / "conclusions" / "exercises" / "crate-curl.yaml"
    file.parent.mkdir(parents=True)
    git("init", "--quiet")
    for finding in ("hinted", "found", "found"):
        file.write_text(f"exercise: crate-curl\nfinding: {finding}\n")
        git("add", "catalog")
        git("commit", "--quiet", "--allow-empty", "--message", finding)
    assert make(clone, "changes").stdout == "### Conclusions\n\nNo conclusion moves.\n"
    shown = make(clone, "changes", "BASE=HEAD~2").stdout
    assert shown.startswith("### Conclusions\n\n~~~~~~diff\n") and shown.endswith("\n~~~~~~\n")
    assert "\n-finding: hinted\n+finding: found\n" in shown
    failed = make(clone, "changes", "BASE=no-such-commit")
    assert (
        failed.returncode != 0
        and failed.stdout == ""
        and "no commit no-such-commit here" in failed.stderr
    )


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
            "for last", 'case "$*" in *print*) echo 3 14 0 /opt;; esac\nfor last'
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
