"""The `handbook` command as people, pipes, terminals and CI meet it."""

import io
import json
import os
import pty
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from types import SimpleNamespace

import pytest

from build_tools import cli
from build_tools.catalog import json_schema
from build_tools.checks import rule
from build_tools.checks.manuals.register import manuals
from build_tools.commands import COMMANDS

ROOT = Path(__file__).parents[1]
COMMAND = [sys.executable, "-m", "build_tools.cli"]


@pytest.fixture(autouse=True)
def day(monkeypatch):
    """2026-12-01, a month after the demo's reviews."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1796083200")
    monkeypatch.setenv("PYTHONPATH", str(ROOT))
    for name in ("GITHUB_WORKSPACE", "TERM"):
        monkeypatch.delenv(name, raising=False)


@pytest.fixture
def here(demo, monkeypatch):
    """A copy of the demo catalog, standing in the folder that holds it."""
    monkeypatch.chdir(demo.parent)
    return demo


def break_swap(catalog):
    path = catalog / "exercises" / "cable-curl.yaml"
    path.write_text(
        path.read_text(encoding="utf-8").replace("swaps: [crate-curl]", "swaps: [crate-crul]"),
        encoding="utf-8",
    )


def make_overdue(catalog):
    """Only a warning: the review is older than the demo's interval of 24 months."""
    path = catalog / "muscles" / "lantern.yaml"
    path.write_text(
        path.read_text(encoding="utf-8").replace("reviewed: 2026-11-01", "reviewed: 2020-11-01"),
        encoding="utf-8",
    )


# --- check ---------------------------------------------------------------------


def test_clean(here, capsys):
    assert cli.main(["check", "--strict"]) == 0
    assert capsys.readouterr() == ("no findings in 15 entries\n", "")


def test_findings(here, capsys):
    break_swap(here)
    assert cli.main(["check"]) == 1
    out, err = capsys.readouterr()
    assert out == (
        "catalog/exercises/cable-curl.yaml:37:9: error[known-exercise]: there is no exercise `crate-crul`\n"
        "  help: did you mean `crate-curl`?\n"
        "1 error in 15 entries\n"
    )
    assert err == ""


def test_warnings_fail_only_under_strict(here, capsys):
    curl = here / "exercises/crate-curl.yaml"
    curl.write_text(
        curl.read_text(encoding="utf-8").replace("name: Crate curl", "name: Standing cabel curls"),
        encoding="utf-8",
    )
    assert cli.main(["check"]) == 0
    assert "catalog/exercises/crate-curl.yaml:1:7: warning[near-names]: " in capsys.readouterr().out
    assert cli.main(["check", "--strict"]) == 1


def test_a_review_that_falls_due_stops_nothing(here, capsys):
    make_overdue(here)
    assert cli.main(["check", "--strict"]) == 0
    out = capsys.readouterr().out
    assert "catalog/muscles/lantern.yaml:28:11: notice[review-due]: " in out and out.endswith(
        "\n1 notice in 15 entries\n"
    )


def test_the_calendar_alone_stops_nothing(here, monkeypatch, capsys):
    """In 2030 every review of the demo is due, and it can still be published."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1893456000")  # 2030-01-01
    for command in (["check"], ["conclude", "--check"], ["addresses", "--check"]):
        assert cli.main([*command, "--strict"]) == 0, capsys.readouterr().out
    cli.main(["check", "--strict"])
    assert capsys.readouterr().out.endswith("notices in 15 entries\n")


def test_source_date_epoch_sets_the_day(here, monkeypatch):
    make_overdue(here)
    monkeypatch.setenv(
        "SOURCE_DATE_EPOCH", "1640995200"
    )  # 2022-01-01: not overdue, but the other reviews lie ahead
    assert cli.main(["check", "--strict", "--format", "json"]) == 1


@pytest.mark.parametrize(
    "arguments, complaint",
    [
        (
            ["check", "--catalog", "nowhere"],
            "there is no folder `nowhere`; name the folder that holds handbook.yaml: --catalog DIR",
        ),
        (
            ["check", "--catalog", "catalog/handbook.yaml"],
            "there is no folder `catalog/handbook.yaml`",
        ),
        (["check", "--format", "xml"], "invalid choice: 'xml'"),
        (["check", "--stric", "--nonsense"], "unrecognized arguments: --nonsense"),
        (["chek"], "there is no command `chek`; did you mean `check`?"),
        ([], "required: COMMAND"),
        (["rules", "unknow-key"], "there is no rule `unknow-key`; did you mean `unknown-key`?"),
        (["schema", "excercises"], "there is no kind `excercises`; did you mean `exercises`?"),
    ],
)
def test_could_not_run(here, capsys, arguments, complaint):
    assert cli.main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == "" and complaint in err


def test_a_day_that_is_none_could_not_run(here, capsys, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    assert cli.main(["check"]) == 2
    assert (
        "SOURCE_DATE_EPOCH is `yesterday`; it should be whole seconds since 1970"
        in capsys.readouterr().err
    )


def test_a_rule_that_fails_could_not_run_but_shows_the_rest(here, capsys, monkeypatch):
    def check(context):
        raise KeyError("hip")

    break_swap(here)
    real = rule.all_rules()
    monkeypatch.setattr(
        "build_tools.checks.runner.all_rules",
        lambda: real | {"swap-once": SimpleNamespace(check=check)},
    )
    assert cli.main(["check"]) == 2
    out = capsys.readouterr().out
    assert "catalog:1:1: error[internal-error]: the rule `swap-once` failed at test_cli.py:" in out
    assert "error[known-exercise]" in out


def test_a_fault_of_the_program_is_not_a_finding(here, capsys, monkeypatch):
    monkeypatch.setattr("build_tools.catalog.load.load", lambda *_: 1 / 0)
    assert cli.main(["check"]) == 2
    assert "ZeroDivisionError" in capsys.readouterr().err


def test_paths_are_relative_to_where_the_person_stands(here, capsys, monkeypatch):
    break_swap(here)
    monkeypatch.chdir(here / "muscles")
    assert cli.main(["check", "--catalog", str(here)]) == 1
    assert capsys.readouterr().out.startswith("../exercises/cable-curl.yaml:37:9: error")


def test_summary_counts_by_kind_basis_and_outcome(here, capsys):
    assert cli.main(["check", "--summary", "--format", "json"]) == 0
    counts = json.loads(capsys.readouterr().out)["counts"]
    # Counted by hand in the demo's files.
    assert counts["entries"] == {
        kind: {"written": n}
        for kind, n in (
            ("muscles", 1),
            ("muscle parts", 2),
            ("exercises", 2),
            ("studies", 3),
            ("references", 4),
        )
    }
    assert counts["statements"] == {
        "advice": {"cited": 0, "common practice": 2},
        "caution": {"cited": 0, "common practice": 2},
        "convention": {"cited": 0, "common practice": 12},
        "correlation": {"cited": 0, "common practice": 11},
        "cue": {"cited": 0, "common practice": 6},
        "dose": {"cited": 0, "common practice": 14},
        "emphasis claim": {"cited": 2, "common practice": 1},
        "equation": {"cited": 0, "common practice": 1},
        "fact": {"cited": 2, "common practice": 1},
        "fault": {"cited": 0, "common practice": 2},
        "line of care": {"cited": 0, "common practice": 2},
        "set credit": {"cited": 0, "common practice": 2},
        "time allowance": {"cited": 0, "common practice": 2},
    }
    assert counts["outcomes"] == {
        "growth": {"claims": 1, "results": 3},
        "activation": {"claims": 2, "results": 1},
        "length": {"claims": 0, "results": 0},
        "strength": {"claims": 0, "results": 0},
        "architecture": {"claims": 0, "results": 0},
    }
    assert counts["regions"] == {
        "lamp": {"parts": 2, "exercises": 2, "cited": 2, "common practice": 1}
    }
    assert counts["results by region"] == {
        "lamp": {"growth": 3, "activation": 1, "length": 0, "strength": 0, "architecture": 0}
    }
    tested = {
        "between": 4,
        "interaction": 0,
        "within": 0,
        "omnibus": 0,
        "ranking": 0,
        "none": 0,
        "not reported": 0,
    }
    assert counts["contrasts by test"] == {test: {"contrasts": n} for test, n in tested.items()}
    assert counts["studies by allocation"] == {
        kind: {"studies": n}
        for kind, n in (
            ("random", 2),
            ("counterbalanced", 0),
            ("self-chosen", 1),
            ("not stated", 0),
        )
    }
    assert counts["references by what was read"] == {
        kind: {"references": n}
        for kind, n in (
            ("full text", 1),
            ("abstract", 3),
            ("part of abstract", 0),
            ("record", 0),
            ("memory", 0),
            ("without authors", 0),
            ("with a notice", 1),
        )
    }
    assert counts["results by where they were read"] == {
        kind: {"results": n}
        for kind, n in (("read in the study", 4), ("second-hand", 0), ("in doubt", 0))
    }
    cli.main(["check", "--summary"])
    assert re.search(r"(?m)^emphasis claim +2 +1$", capsys.readouterr().out)


# --- conclude ------------------------------------------------------------------


def test_conclude_writes_what_changed_and_then_has_nothing_to_do(here, capsys):
    shutil.rmtree(here / "conclusions")
    assert cli.main(["conclude", "--check"]) == 1
    assert capsys.readouterr().out == (
        "catalog/conclusions:1:1: error[stale-conclusions]: the conclusions were never written\n"
        "  help: run `handbook conclude` and commit what it writes\n1 error in 15 entries\n"
    )
    assert not (here / "conclusions").exists()
    assert cli.main(["conclude"]) == 0
    assert capsys.readouterr() == (
        "no findings in 15 entries\n",
        "3 written, 0 removed, 0 unchanged in catalog/conclusions\n",
    )
    assert cli.main(["conclude"]) == 0
    assert capsys.readouterr().err == "0 written, 0 removed, 3 unchanged in catalog/conclusions\n"
    assert cli.main(["conclude", "--check", "--strict"]) == 0


def test_nothing_is_concluded_from_an_unsound_catalog(here, capsys):
    shutil.rmtree(here / "conclusions")
    break_swap(here)
    assert cli.main(["conclude"]) == 1
    out, err = capsys.readouterr()
    assert "error[known-exercise]" in out and "nothing was computed" in err
    assert not (here / "conclusions").exists()


def contradict(catalog):
    path = catalog / "exercises" / "crate-curl.yaml"
    path.write_text(
        path.read_text(encoding="utf-8").replace(
            "more_than: {exercise: cable-curl}", "less_than: {exercise: cable-curl}"
        ),
        encoding="utf-8",
    )


@pytest.mark.parametrize(
    "command",
    [
        ["conclude"],
        ["conclude", "--check", "--format", "sarif"],
        ["write", "--to", "out", "--content", "."],
    ],
)
def test_a_contradicted_claim_fails_whatever_shows_it(here, capsys, command):
    contradict(here)
    assert cli.main(["check"]) == 0, "the check itself reckons nothing"
    assert cli.main(command) == 1
    assert "contradicted-claim" in (out := capsys.readouterr()).out or "conclude --check" in out.err
    assert not Path("out").exists()


def test_conclude_tells_a_job_summary_under_its_own_name(here, monkeypatch, tmp_path):
    summary = tmp_path / "summary.md"
    monkeypatch.setenv("GITHUB_ACTIONS", "true")
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(summary))
    assert cli.main(["conclude", "--check"]) == 0
    assert summary.read_text(encoding="utf-8").startswith("### Handbook conclude\n")


# --- explain -------------------------------------------------------------------


def test_explain_prints_the_chain_and_nothing_else(here, capsys):
    assert cli.main(["explain", "crate-curl/1"]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("crate-curl/1  catalog/exercises/crate-curl.yaml:11:5\n") and err == ""


@pytest.mark.parametrize(
    "claim, hint",
    [
        ("crate-crul/1", "did you mean `crate-curl/1`?"),
        ("crate-curl", "this exercise has crate-curl/1 to crate-curl/2"),
        ("cable-curl/7", "this exercise has cable-curl/1"),
        ("nothing-like-it", "a claim is an exercise and a number, e.g. cable-curl/1"),
    ],
)
def test_explain_names_the_claim_that_was_meant(here, capsys, claim, hint):
    assert cli.main(["explain", claim]) == 2
    out, err = capsys.readouterr()
    assert out == "" and err == f"handbook: there is no claim `{claim}`; {hint}\n"


def test_explain_refuses_an_unsound_catalog(here, capsys):
    break_swap(here)
    assert cli.main(["explain", "crate-curl/1"]) == 1
    assert "run: handbook check" in capsys.readouterr().err


# --- under GitHub Actions ----------------------------------------------------------


def test_annotations_appear_by_themselves_with_a_job_summary(here, capsys, monkeypatch, tmp_path):
    break_swap(here)
    monkeypatch.setenv("GITHUB_ACTIONS", "true")
    summary = tmp_path / "summary.md"
    summary.write_text("before\n", encoding="utf-8")
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(summary))
    assert cli.main(["check"]) == 1
    assert capsys.readouterr().out.startswith(
        "::error file=catalog/exercises/cable-curl.yaml,line=37,col=9,title=known-exercise::"
    )
    assert summary.read_text(encoding="utf-8").startswith(
        "before\n### Handbook check\n\n1 error in 15 entries.\n\n| Place |"
    )


def test_a_format_that_was_asked_for_wins(here, capsys, monkeypatch, tmp_path):
    monkeypatch.setenv("GITHUB_ACTIONS", "true")
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(tmp_path / "summary.md"))
    cli.main(["check", "--format", "text"])
    assert (
        capsys.readouterr().out == "no findings in 15 entries\n"
        and not (tmp_path / "summary.md").exists()
    )


def test_a_summary_that_cannot_be_written_fails_nothing(here, capsys, monkeypatch, tmp_path):
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(tmp_path / "no" / "summary.md"))
    assert cli.main(["check", "--format", "github"]) == 0
    assert "the job summary could not be written" in capsys.readouterr().err


# --- terminals, pipes and interruption -----------------------------------------------


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


@pytest.mark.parametrize(
    "arguments",
    [
        ["schema", "studies"],
        ["check"],
        ["rules"],
        ["conclude", "--check"],
        ["explain", "crate-curl/1"],
    ],
)
def test_a_closed_pipe_ends_quietly(here, arguments):
    process = subprocess.Popen(
        [*COMMAND, *arguments], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    process.stdout.close()  # the reader goes away before anything is written
    assert process.stderr.read() == b""
    assert process.wait(30) == 141


def test_an_interrupt_ends_quietly(here):
    program = (
        "import os, signal, sys, time; from build_tools import cli; from build_tools.catalog import load\n"
        # A shell that runs the tests in the background hands on an ignored interrupt.
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "load.load = lambda *_: (os.kill(os.getpid(), signal.SIGINT), time.sleep(30))\n"
        "sys.exit(cli.main(['check']))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, timeout=60)
    assert (done.returncode, done.stdout, done.stderr) == (130, b"", b"")


def test_a_terminal_without_utf_8_gets_escapes(here, monkeypatch):
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr(sys, "stdout", out)
    (here / "exercises" / "café.yaml").write_text("", encoding="utf-8")
    assert cli.main(["check"]) == 1
    assert rb"catalog/exercises/caf\xe9.yaml:1:1: error[file-name]" in out.buffer.getvalue()


# --- rules, schema, help -----------------------------------------------------------------


def test_rules_lists_every_id_once(capsys):
    assert cli.main(["rules"]) == 0
    assert [line.split()[0] for line in capsys.readouterr().out.splitlines()] == list(manuals())


def test_rules_explains_one(capsys):
    assert cli.main(["rules", "known-exercise"]) == 0
    out = capsys.readouterr().out
    assert out.startswith(
        "known-exercise (error)\n\nEvery exercise that is mentioned has a file.\n\nWhy: "
    )
    assert "\n\nFails: exercises/crate-curl.yaml 1:" in out and "\n\nPasses: " in out
    assert "\n    swaps: [cable-curl]\n" in out


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_schema_prints_what_the_library_makes(capsys, kind):
    assert cli.main(["schema", kind]) == 0
    assert json.loads(capsys.readouterr().out) == json_schema.schema(kind)


def test_schema_lists_the_kinds(capsys):
    assert cli.main(["schema"]) == 0
    assert "exercises   exercises/<id>.yaml\n" in capsys.readouterr().out


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help(capsys, name):
    assert cli.main([name, "--help"]) == 0
    assert f"usage: handbook {name}" in capsys.readouterr().out


def test_the_version_is_that_of_the_project(capsys):
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert cli.main(["--version"]) == 0
    assert capsys.readouterr().out == f"handbook {project['version']}\n"


def test_help_lists_the_commands_and_imports_none():
    program = (
        "import sys; from build_tools import cli; cli.main(['--help'])\n"
        "print([m for m in sys.modules if m.startswith(('build_tools.', 'pydantic', 'yaml'))])"
    )
    out = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=60
    ).stdout
    assert all(f"\n  {name} " in out for name in COMMANDS)
    assert out.splitlines()[-1] == "['build_tools.commands', 'build_tools.cli']"


def test_check_imports_nothing_it_does_not_need():
    program = (
        "import sys; from build_tools import cli; cli.main(['check', '--catalog', sys.argv[1]])\n"
        "print(sorted({m.split('.')[0] for m in sys.modules} & {'mkdocs', 'jinja2', 'numpy', 'scipy', 'asyncio', 'requests'}))"
    )
    demo = ROOT / "tests" / "demo" / "catalog"
    out = subprocess.run(
        [sys.executable, "-c", program, str(demo)],
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    ).stdout
    assert out.splitlines()[-1] == "[]"
