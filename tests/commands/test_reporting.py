"""Reports under GitHub Actions: annotations and the job summary."""

from command import break_swap

from build_tools import cli


def test_conclude_tells_a_job_summary_under_its_own_name(here, monkeypatch, tmp_path):
    summary = tmp_path / "summary.md"
    monkeypatch.setenv("GITHUB_ACTIONS", "true")
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(summary))
    assert cli.main(["conclude", "--check"]) == 0
    assert summary.read_text(encoding="utf-8").startswith("### Handbook conclude\n")


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
