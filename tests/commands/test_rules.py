"""`handbook rules` prints manuals."""

from build_tools import cli
from build_tools.checks.manuals.register import manuals


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
