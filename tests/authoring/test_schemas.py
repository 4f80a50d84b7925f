"""The schemas that stand in the catalog, and what editors are told of them."""

from __future__ import annotations

import json
from fnmatch import fnmatch
from pathlib import Path

import pytest
import yaml
from folders import ROOT, SHIPPED

from build_tools import cli
from build_tools.authoring import schemas
from build_tools.catalog.load import load

SETTINGS = json.loads((ROOT / ".vscode" / "settings.json").read_text(encoding="utf-8"))


def test_those_of_the_shipped_catalog_are_up_to_date() -> None:
    catalog = load(SHIPPED, "catalog")
    assert schemas.stale(catalog) == []
    assert {path.name for path in (SHIPPED / schemas.FOLDER).iterdir()} == set(
        schemas.texts(catalog)
    )


def test_a_fresh_clone_has_a_schema_for_each_file_that_authors_write() -> None:
    """Paths and patterns as an editor reads them: from the folder that is open in it."""
    authored = [
        path.relative_to(ROOT).as_posix()
        for path in SHIPPED.rglob("*.yaml")
        if "conclusions" not in path.parts and path.name != "changes.yaml"
    ]
    for file in authored:
        found = [
            schema for schema, pattern in SETTINGS["yaml.schemas"].items() if fnmatch(file, pattern)
        ]
        assert len(found) == 1 and (ROOT / found[0]).is_file(), file
    assert SETTINGS == schemas.settings("catalog/.schemas", "catalog")


def test_the_index_leads_from_a_schema_to_its_files() -> None:
    index = json.loads((SHIPPED / schemas.FOLDER / schemas.INDEX).read_text(encoding="utf-8"))
    assert index["exercises.json"] == "exercises/*.yaml"
    assert all((SHIPPED / schemas.FOLDER / schema).is_file() for schema in index)


def add_a_word(demo: Path) -> None:
    file = demo / "vocabulary.yaml"
    words = yaml.safe_load(file.read_text(encoding="utf-8"))
    words["equipment"]["lamp-post"] = {"name": "Lamp post"}
    file.write_text(json.dumps(words), encoding="utf-8")


def test_a_new_word_is_missed_by_conclude_and_added_by_it(
    demo: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = demo / schemas.FOLDER
    asked = ["conclude", "--catalog", str(demo), "--format", "json"]
    assert cli.main(["schema", "--catalog", str(demo), "--all", str(folder)]) == 0
    assert cli.main(asked) == 0
    add_a_word(demo)
    capsys.readouterr()
    assert cli.main([*asked, "--check", "--strict"]) == 1
    [found] = json.loads(capsys.readouterr().out)["findings"]
    assert (found["rule"], found["severity"]) == ("stale-schemas", "warning")
    assert found["file"].endswith(".schemas/known.json")
    assert cli.main(asked) == 0
    assert '"lamp-post"' in (folder / "known.json").read_text(encoding="utf-8")
    assert cli.main([*asked, "--check", "--strict"]) == 0


def test_a_catalog_without_the_folder_is_asked_for_nothing(demo: Path) -> None:
    assert cli.main(["conclude", "--catalog", str(demo)]) == 0
    assert not (demo / schemas.FOLDER).exists()
    assert cli.main(["conclude", "--catalog", str(demo), "--check", "--strict"]) == 0


def test_a_folder_that_is_a_link_is_not_written_through(demo: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (demo / schemas.FOLDER).symlink_to(elsewhere, target_is_directory=True)
    with pytest.raises(OSError, match="is a link"):
        schemas.refresh(load(demo))
    assert not list(elsewhere.iterdir())
