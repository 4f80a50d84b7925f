"""What the workflows may do, above all with a stranger's pull request, and that they do what they say.

Outside sources: GitHub's documentation on workflow syntax (`permissions`, `pull_request`, expression contexts, reusable
workflows) and its hardening guide (pin actions to a full commit; text that others choose never stands in `run:`); the
published JSON Schemas of workflows, Dependabot and issue forms (SchemaStore), which check-jsonschema carries.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
import yaml
from folders import ROOT
from repositories import NOBODY, git

HOSTED = ROOT / ".github"
WORKFLOWS = sorted((HOSTED / "workflows").glob("*.yml"))
each = pytest.mark.parametrize("path", WORKFLOWS, ids=lambda path: path.name)

#: Workflow -> what starts it. Never `pull_request_target` or `workflow_run`, which run with rights beside a stranger's code.
TRIGGERS = {
    "commit-generated.yml": {"workflow_call"},
    "generate.yml": {"workflow_dispatch"},
    "own-handbook.yml": {"workflow_call"},
    "publish.yml": {"push"},
    "pull-request.yml": {"pull_request"},
    "weekly.yml": {"schedule", "workflow_dispatch"},
}
#: Workflow and job -> what it may write.
WRITES = {
    ("commit-generated.yml", "commit"): {"contents"},
    ("generate.yml", "commit"): {"contents"},
    ("publish.yml", "commit"): {"contents"},
    ("publish.yml", "deploy"): {"pages", "id-token"},
    ("pull-request.yml", "scan"): {"security-events"},
    ("pull-request.yml", "suggest"): {"pull-requests"},
}
#: Whose pull request comes from a branch of this repository, so from somebody who may write to it anyway.
TRUSTED = "github.event.pull_request.head.repo.full_name == github.repository"
OF_GITHUB = re.compile(r"(actions/[a-z-]+|github/codeql-action/upload-sarif)@[0-9a-f]{40}")


def read(path: Path) -> dict:
    # BaseLoader keeps `on` a word; YAML 1.1 would read it as true.
    return yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506 - builds plain text only


def jobs(path: Path) -> dict[str, dict]:
    return read(path)["jobs"]


def steps(path: Path) -> list[dict]:
    return [step for job in jobs(path).values() for step in job.get("steps", [])]


def writes(permissions: dict[str, str]) -> set[str]:
    return {name for name, right in permissions.items() if right == "write"}


# --- rights ----------------------------------------------------------------------


@each
def test_every_workflow_may_only_read_but_where_named(path: Path) -> None:
    triggers = read(path)["on"]
    assert set([triggers] if isinstance(triggers, str) else triggers) == TRIGGERS[path.name]
    assert read(path)["permissions"] == {"contents": "read"}
    for name, job in jobs(path).items():
        assert writes(job.get("permissions", {})) == WRITES.get((path.name, name), set())
        assert "name" in job


def test_every_right_that_is_listed_is_used() -> None:
    assert {name for name, _ in WRITES} <= {path.name for path in WORKFLOWS} == TRIGGERS.keys()
    for name, job in WRITES:
        assert job in jobs(HOSTED / "workflows" / name)


@each
def test_who_may_write_runs_nothing_of_the_project(path: Path) -> None:
    """Git, GitHub's own client and GitHub's own actions; no make, no Python, no file of the repository as a program."""
    for name, job in jobs(path).items():
        if (path.name, name) not in WRITES:
            continue
        if "uses" in job:
            assert job["uses"] == "./.github/workflows/commit-generated.yml"
            continue
        assert not any("setup-python" in step.get("uses", "") for step in job["steps"])
        for step in job["steps"]:
            programs = {line.split()[0] for line in step.get("run", "").splitlines()}
            assert programs <= {"git", "gh", "echo", "exit", "}"}


@each
def test_no_secret_is_named_and_a_token_only_where_it_may_write(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert "secrets" not in re.sub(r"#.*", "", text)
    for name, job in jobs(path).items():
        if re.search(r"github\.token|GITHUB_TOKEN", str(job)):
            assert (path.name, name) in WRITES


def test_a_stranger_reaches_no_job_that_may_write() -> None:
    found = jobs(HOSTED / "workflows" / "pull-request.yml")
    assert TRUSTED in found["mend"]["if"] and TRUSTED in found["scan"]["if"]
    # `suggest` has something to send only where `mend` ran.
    assert found["suggest"]["needs"] == "mend"
    assert found["suggest"]["if"] == "needs.mend.outputs.review"
    assert {name for name, _ in WRITES if name == "pull-request.yml"} == {"pull-request.yml"}


# --- steps -----------------------------------------------------------------------


@each
def test_actions_are_pinned_and_say_their_version(path: Path) -> None:
    for line in path.read_text(encoding="utf-8").splitlines():
        if used := re.search(r"^[^#]*\buses: (\S+)(.*)", line):
            action, comment = used.groups()
            if action.startswith("./"):
                assert (ROOT / action).is_file()
            else:
                assert OF_GITHUB.fullmatch(action), "pin to a full commit"
                assert re.fullmatch(r" # v\d+\.\d+\.\d+", comment), "say which version that is"


def test_an_action_has_one_pin() -> None:
    used = {step["uses"] for path in WORKFLOWS for step in steps(path) if "uses" in step}
    assert len(used) == len({action.partition("@")[0] for action in used})


@each
def test_steps_keep_no_credentials_and_run_no_text_of_others(path: Path) -> None:
    for job in jobs(path).values():
        assert "uses" in job or int(job["timeout-minutes"]) <= 60
    for step in steps(path):
        # Text that a stranger chooses (title, branch) would be run as shell if it stood in `run:`.
        assert "${{" not in step.get("run", "")
        if step.get("uses", "").startswith("actions/checkout@"):
            assert step["with"]["persist-credentials"] == "false"


def test_the_publishing_workflow_tests_before_it_publishes_and_commits() -> None:
    found = jobs(HOSTED / "workflows" / "publish.yml")
    assert "make test" in [step.get("run") for step in found["test"]["steps"]]
    for name in ("deploy", "commit"):
        assert set(found[name]["needs"]) == {"build", "test"}


def test_every_make_target_and_command_that_is_run_exists() -> None:
    targets = re.findall(
        r"^([a-z]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE
    )
    asked = {
        target
        for path in WORKFLOWS
        for step in steps(path)
        for target in re.findall(r"\bmake ([a-z]+)", step.get("run", ""))
    }
    assert asked and asked <= set(targets)


def test_a_pull_request_is_told_only_what_was_made_from_a_checked_catalog() -> None:
    """A stranger's own text never reaches the summary before the check has found it plain."""
    runs = [
        step["run"]
        for step in jobs(HOSTED / "workflows" / "pull-request.yml")["site"]["steps"]
        if "run" in step
    ]
    assert runs[:3] == [
        "make authored",
        'make generated BASE=HEAD^1 ARGS="--patch generated.patch"',
        "make site",
    ]


@each
def test_pythons_are_those_that_the_project_promises(path: Path) -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lowest = re.fullmatch(r">=(3\.\d+)", project["requires-python"])[1]
    promised = [f"3.{minor}" for minor in range(int(lowest.partition(".")[2]), 14)]
    assert f"Python {lowest} or newer" in (ROOT / "README.md").read_text(encoding="utf-8")
    for job in jobs(path).values():
        if matrix := job.get("strategy", {}).get("matrix"):
            assert matrix["python"] == promised
        for step in job.get("steps", []):
            if "setup-python" in step.get("uses", ""):
                asked = step["with"]["python-version"]
                if asked == "${{ inputs.python-version }}":
                    asked = read(path)["on"]["workflow_call"]["inputs"]["python-version"]["default"]
                assert asked in ("${{ matrix.python }}", promised[0], promised[-1])


# --- what may write, tried ---------------------------------------------------------


as_on_the_runner = pytest.mark.skipif(
    os.name != "posix" or not (shutil.which("bash") and shutil.which("git")),
    reason="needs git and the shell that the workflow's own machine has",
)


def run_step(name: str, folder: Path, **surroundings: str) -> subprocess.CompletedProcess[str]:
    """A step of the committing workflow, as it is written there, in the shell that runs it (`bash -e`)."""
    found = steps(HOSTED / "workflows" / "commit-generated.yml")
    script = next(step["run"] for step in found if step.get("name") == name)
    return subprocess.run(
        ["bash", "-e", "-c", script],
        cwd=folder,
        capture_output=True,
        encoding="utf-8",
        env={**os.environ, **NOBODY, **surroundings},
    )


@as_on_the_runner
def test_the_commit_holds_generated_files_and_nothing_else(tmp_path: Path) -> None:
    """The step as it is written, on a patch that also brings a program and a claim."""
    files = {
        "catalog/addresses.txt": "/a/\n",
        "catalog/conclusions/exercises/a.yaml": "finding: found\n",
        "catalog/conclusions/muscles/gone.yaml": "finding: found\n",
        "catalog/exercises/a.yaml": "name: A\n",
        "Makefile": "site:\n",
    }
    git(tmp_path, "init", "--quiet")
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "--quiet", "--message", "base")
    for name, text in files.items():
        (tmp_path / name).write_text(f"{text}# more\n", encoding="utf-8")
    (tmp_path / "catalog/conclusions/muscles/gone.yaml").unlink()
    (tmp_path / "catalog/changes.yaml").write_text("days: []\n", encoding="utf-8")
    (tmp_path / ".github").mkdir()
    (tmp_path / ".github" / "new.yml").write_text("on: push\n", encoding="utf-8")
    git(tmp_path, "add", ".")
    patch = git(tmp_path, "diff", "--cached", "--binary")
    git(tmp_path, "reset", "--quiet", "--hard")
    (tmp_path / "generated.patch").write_text(patch, encoding="utf-8", newline="\n")

    assert run_step("Apply and commit", tmp_path).returncode == 0
    assert git(tmp_path, "show", "--name-status", "--format=").splitlines() == [
        "M\tcatalog/addresses.txt",
        "A\tcatalog/changes.yaml",
        "M\tcatalog/conclusions/exercises/a.yaml",
        "D\tcatalog/conclusions/muscles/gone.yaml",
    ]
    assert git(tmp_path, "status", "--porcelain") == "?? generated.patch\n"


@as_on_the_runner
def test_a_push_that_fails_says_why(tmp_path: Path) -> None:
    """GitHub's client is a stand-in here; a branch that moved on meanwhile is a real one."""
    (tmp_path / "bin").mkdir()
    (tmp_path / "bin" / "gh").write_text("#!/bin/sh\n", encoding="utf-8")
    (tmp_path / "bin" / "gh").chmod(0o755)
    git(tmp_path, "init", "--quiet", "--bare", "--initial-branch", "main", "origin")
    for name in ("mine", "other"):
        git(tmp_path, "clone", "--quiet", "origin", name)
        git(tmp_path / name, "switch", "--quiet", "--create", "main")
    here = {"PATH": f"{tmp_path / 'bin'}:{os.environ['PATH']}", "GITHUB_REF": "refs/heads/main"}
    git(tmp_path / "mine", "commit", "--quiet", "--allow-empty", "--message", "made")
    assert run_step("Push", tmp_path / "mine", **here).returncode == 0
    made = git(tmp_path / "mine", "rev-parse", "HEAD")
    assert git(tmp_path / "origin", "rev-parse", "main") == made

    git(tmp_path / "other", "commit", "--quiet", "--allow-empty", "--message", "meanwhile")
    told = run_step("Push", tmp_path / "other", **here)
    assert told.returncode == 1
    assert told.stdout.startswith("::error::The files could not be pushed.")
    assert git(tmp_path / "origin", "rev-parse", "main") == made
