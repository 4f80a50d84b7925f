"""`handbook explain` prints the chain of a claim."""

import pytest
from command import break_swap

from build_tools import cli


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
    assert "run `handbook check`" in capsys.readouterr().err
