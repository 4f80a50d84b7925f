"""`handbook schema` prints what the library makes, with the ids of the catalog that is there."""

import json

import pytest
from folders import DEMO

from build_tools import cli
from build_tools.catalog.load import load
from build_tools.catalog.schema import json_schema
from build_tools.catalog.schema.known_words import known_words


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_schema_prints_what_the_library_makes(capsys, kind):
    assert cli.main(["schema", kind, "--catalog", str(DEMO)]) == 0
    made = json.loads(capsys.readouterr().out)
    assert made == json_schema.schema(kind, known_words(load(DEMO)))


def test_schema_needs_no_catalog(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert cli.main(["schema", "exercises"]) == 0
    assert json.loads(capsys.readouterr().out) == json_schema.schema("exercises")


def test_schema_lists_the_kinds(capsys):
    assert cli.main(["schema"]) == 0
    assert "exercises   exercises/<id>.yaml\n" in capsys.readouterr().out


def test_schema_writes_all_and_says_what_the_editor_needs(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert cli.main(["schema", "--all", "made", "--catalog", str(DEMO)]) == 0
    said = json.loads(capsys.readouterr().out)["yaml.schemas"]
    assert all((tmp_path / file).is_file() for file in said)
    assert said["made/exercises.json"] == f"{DEMO.as_posix()}/exercises/*.yaml"


def test_schema_without_a_catalog_says_so(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert cli.main(["schema", "--all", "made"]) == 2
    assert "--catalog DIR" in capsys.readouterr().err
    assert not (tmp_path / "made").exists()
