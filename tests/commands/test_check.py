"""`handbook check`: what it finds, what stops it, and what it counts."""

import json
import re
import subprocess
import sys
from types import SimpleNamespace

from command import break_swap
from folders import ROOT

from build_tools import cli
from build_tools.catalog.invocation import typed
from build_tools.checks import rule


def make_overdue(catalog):
    """Only a warning: the review is older than the demo's interval of 24 months."""
    path = catalog / "muscles" / "lantern.yaml"
    path.write_text(
        path.read_text(encoding="utf-8").replace("reviewed: 2026-11-01", "reviewed: 2020-11-01"),
        encoding="utf-8",
    )


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
    assert (
        "catalog:1:1: error[internal-error]: the rule `swap-once` failed at test_check.py:" in out
    )
    assert "error[known-exercise]" in out


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
        "advice": {"cited": 0, "common practice": 4},
        "caution": {"cited": 0, "common practice": 2},
        "convention": {"cited": 0, "common practice": 20},
        "correlation": {"cited": 0, "common practice": 11},
        "cue": {"cited": 0, "common practice": 6},
        "dose": {"cited": 0, "common practice": 14},
        "emphasis claim": {"cited": 2, "common practice": 1},
        "equation": {"cited": 1, "common practice": 0},
        "fact": {"cited": 2, "common practice": 1},
        "fault": {"cited": 0, "common practice": 2},
        "line of care": {"cited": 0, "common practice": 2},
        "set credit": {"cited": 0, "common practice": 2},
        "signalling question": {"cited": 0, "common practice": 2},
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


def slip(catalog):
    """Three slips with one answer each, and one that is the author's."""
    curl = catalog / "exercises" / "crate-curl.yaml"
    text = curl.read_text(encoding="utf-8").replace(
        "swaps: [cable-curl]", "swaps: [cable-curl, cable-curl]"
    )
    curl.write_text(text.replace("name: Crate curl", "name: “Crate curl”"), encoding="utf-8")
    bib = catalog / "references.bib"
    text = bib.read_text(encoding="utf-8")
    bib.write_bytes(
        text.replace("{10.0000/invented.1}", "{https://doi.org/10.0000/invented.1}")
        .replace("\n", "\r\n")
        .encode()
    )


def contents(folder):
    return {
        path.relative_to(folder): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def test_fix_mends_tells_and_reports_what_is_left(here, capsys):
    slip(here)
    break_swap(here)
    assert cli.main(["check", "--fix"]) == 1
    out, err = capsys.readouterr()
    assert out.split("\n")[:4] == [
        "catalog/exercises/crate-curl.yaml:1: mended [quoted-value]: took the curly marks away",
        "catalog/exercises/crate-curl.yaml:43: mended [swap-once]: took out the second `cable-curl`",
        "catalog/references.bib:10: mended [reference-identifier]: wrote 10.0000/invented.1 alone",
        "catalog/exercises/cable-curl.yaml:37:9: error[known-exercise]: there is no exercise `crate-crul`",
    ]
    assert out.endswith("\n1 error in 15 entries\n") and err == ""
    assert cli.main(["check", "--fix"]) == 1
    assert "mended" not in capsys.readouterr().out


def test_a_check_says_how_many_can_be_mended(here, capsys):
    slip(here)
    assert cli.main(["check"]) == 1
    err = capsys.readouterr().err
    assert err == typed("3 of these can be mended for you: run `handbook check --fix`\n")


def test_a_dry_run_prints_a_patch_that_git_applies_to_the_same_end(here, tmp_path, capsys):
    slip(here)
    before = contents(here)
    assert cli.main(["check", "--fix", "--dry-run"]) == 1
    patch, told = capsys.readouterr()
    assert contents(here) == before and told.count("mended [") == 3
    git = ["git", "-c", "core.autocrlf=false", "apply", "--whitespace=nowarn", "-"]
    subprocess.run(git, input=patch.encode(), cwd=here.parent, check=True, timeout=60)
    patched = contents(here)
    for name, content in before.items():
        (here / name).write_bytes(content)
    assert cli.main(["check", "--fix"]) == 0
    assert contents(here) == patched != before
    capsys.readouterr()
    assert cli.main(["check", "--fix", "--dry-run"]) == 0
    assert capsys.readouterr() == ("", "nothing that a machine can mend\n")


def test_fix_adds_addresses_once_nothing_is_wrong(here, capsys):
    assert cli.main(["addresses"]) == 0
    listed = (here / "addresses.txt").read_text(encoding="utf-8")
    (here / "addresses.txt").write_text(
        listed.replace("/cues/crate-curl/\n", "").replace("/exercises/crate-curl/\n", ""),
        encoding="utf-8",
    )
    break_swap(here)
    assert cli.main(["check", "--fix"]) == 1
    assert "address-list" not in capsys.readouterr().out
    curl = here / "exercises" / "cable-curl.yaml"
    curl.write_text(
        curl.read_text(encoding="utf-8").replace("crate-crul", "crate-curl"), encoding="utf-8"
    )
    assert cli.main(["check", "--fix"]) == 0
    assert (
        "catalog/addresses.txt:1: mended [address-list]: 2 addresses added"
        in capsys.readouterr().out
    )
    assert (here / "addresses.txt").read_text(encoding="utf-8") == listed
    (here / "addresses.txt").unlink()
    assert cli.main(["check", "--fix"]) == 0
    assert not (here / "addresses.txt").exists()


def test_fix_leaves_machine_readable_reports_whole(here, capsys):
    slip(here)
    assert cli.main(["check", "--fix", "--format", "json"]) == 0
    out, err = capsys.readouterr()
    assert json.loads(out)["findings"] == [] and err.count("mended [") == 3


def test_a_dry_run_is_that_of_fix(here, capsys):
    assert cli.main(["check", "--dry-run"]) == 2
    assert "give both" in capsys.readouterr().err


def test_everything_at_once_says_what_was_looked_at(here, capsys):
    """What the three commands find one by one, in one run that reads the catalog once."""
    assert cli.main(["check", "--all", "--strict"]) == 0
    assert (
        capsys.readouterr().out
        == "no findings in 15 entries (rules, numbers, conclusions and addresses)\n"
    )
    study = here / "studies" / "glow2031.yaml"
    study.write_text(study.read_text().replace("mean: 61", "mean: 63"))
    (here / "addresses.txt").unlink()
    found = []
    for command in (
        ["check", "--all"],
        ["check"],
        ["conclude", "--check"],
        ["addresses", "--check"],
    ):
        cli.main([*command, "--format", "json"])
        findings = json.loads(capsys.readouterr().out)["findings"]
        found.append({(one["rule"], one["file"], one["line"], one["message"]) for one in findings})
    assert found[0] == found[1] | found[2] | found[3]
    assert {rule for rule, *_ in found[0]} == {"stale-conclusions", "address-list"}


def test_numbers_wait_for_sound_rules(here, capsys) -> None:
    file = here / "exercises" / "crate-curl.yaml"
    file.write_text(file.read_text().replace("swaps: [cable-curl]", "swaps: [cable-crul]"))
    assert cli.main(["check", "--all"]) == 1
    assert capsys.readouterr().out.endswith(
        "1 error in 15 entries (rules; numbers, conclusions and addresses wait for them)\n"
    )
