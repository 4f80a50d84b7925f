"""The first files of an own handbook. Outside source: PEP 610 for what pip records of where a distribution came from; PyYAML reads what
is written."""

from __future__ import annotations

import json
import re
import zipfile
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest
import yaml
from folders import ROOT, SHIPPED

from build_tools.authoring import own_handbook
from build_tools.authoring.own_handbook import Installable, Named

NAMED = Named(
    'Berry: "lane" \\ 1', "Owner's & Co", "CC BY-SA 4.0", "What: it is for", "https://a.example/"
)


@pytest.fixture(scope="module")
def made() -> dict[str, str]:
    found = own_handbook.files(NAMED, Installable("evidence-handbook==1"), date(2026, 12, 1))
    return {path: content.decode() for path, content in found.items()}


def test_what_a_team_says_stands_where_it_is_read(made: dict[str, str]) -> None:
    handbook = yaml.safe_load(made["catalog/handbook.yaml"])
    assert handbook["title"] == NAMED.title and handbook["tagline"] == NAMED.tagline
    assert handbook["owner"] == {"name": NAMED.owner} and handbook["licence"] == NAMED.licence
    assert NAMED.url in made["mkdocs.yml"]
    assert yaml.safe_load(re.sub(r"!ENV.*", "x", made["mkdocs.yml"]))["site_name"] == NAMED.title
    assert made["requirements.txt"].splitlines()[-1] == "evidence-handbook==1"


def test_shared_text_is_the_catalogs_own(made: dict[str, str]) -> None:
    shipped = SHIPPED / "vocabulary.yaml"
    assert made["catalog/vocabulary.yaml"] == shipped.read_text(encoding="utf-8")
    whole = yaml.safe_load((SHIPPED / "programme.yaml").read_text(encoding="utf-8"))
    del whole["goals"]["growth"]["weekly_sets"]["muscles"]
    for lift in ("bench", "leg"):
        del whole["load_prediction"]["equations"][f"reynolds-{lift}-press"]
    assert yaml.safe_load(made["catalog/programme.yaml"]) == whole


def test_records_are_those_that_are_cited(made: dict[str, str]) -> None:
    keys = re.findall(r"^@\w+\{(\w+),", made["catalog/references.bib"], re.MULTILINE)
    cited = {key for text in made.values() for key in re.findall(r"\bkey: (\w+)", text)}
    assert keys == sorted(cited)
    shipped = (SHIPPED / "references.bib").read_text(encoding="utf-8")
    assert all(
        record in shipped for record in re.split(r"\n\n(?=@)", made["catalog/references.bib"])
    )


def test_examples_are_marked_and_claim_no_evidence(made: dict[str, str]) -> None:
    for path, text in made.items():
        if path.startswith("catalog/exercises/"):
            assert Path(path).name.startswith("example-") and "(example)\n" in text
            assert "cites" not in text and text.startswith("# An example")


def test_workflows_run_the_actions_that_ours_pin(made: dict[str, str]) -> None:
    """One version of each action in both, at a full commit."""

    def pins(text: str) -> set[str]:
        return set(re.findall(r"uses: (actions/\S+@[0-9a-f]{40})\b", text))

    ours = [path.read_text("utf-8") for path in (ROOT / ".github" / "workflows").glob("*.yml")]
    theirs = [text for path, text in made.items() if path.startswith(".github/workflows/")]
    assert len(theirs) == 2
    for text in theirs:
        assert pins(text) and pins(text) <= set().union(*map(pins, ours))
        assert text.count("uses:") == len(re.findall(r"@[0-9a-f]{40} # v", text))
        assert yaml.safe_load(text)["permissions"] == {"contents": "read"}
        assert "secrets" not in text.replace("no secrets", "")


@pytest.mark.parametrize(
    ("recorded", "requirement"),
    [
        (None, "evidence-handbook==1.2.3"),
        ({"url": "file:///gone/x.whl", "archive_info": {}}, "evidence-handbook==1.2.3"),
        (
            {"url": "https://a.example/x.whl", "archive_info": {}},
            "evidence-handbook @ https://a.example/x.whl",
        ),
        (
            {"url": "https://a.example/r.git", "vcs_info": {"vcs": "git", "commit_id": "0af3"}},
            "evidence-handbook @ git+https://a.example/r.git@0af3",
        ),
    ],
    ids=["index", "file that is gone", "address", "repository"],
)
def test_the_engine_is_named_by_where_it_came_from(
    monkeypatch: pytest.MonkeyPatch, recorded: dict[str, object] | None, requirement: str
) -> None:
    text = json.dumps(recorded) if recorded else None
    found = SimpleNamespace(version="1.2.3", read_text=lambda name: text)
    monkeypatch.setattr(own_handbook, "distribution", lambda name: found)
    assert own_handbook.installed() == Installable(requirement)


def test_an_engine_in_its_repository_has_its_wheel_built(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An index may not have it, and the repository's folder is on one machine. Outside: zipfile reads what pip made."""
    text = json.dumps({"url": ROOT.as_uri(), "dir_info": {"editable": True}})
    found = SimpleNamespace(version="1.2.3", read_text=lambda name: text)
    monkeypatch.setattr(own_handbook, "distribution", lambda name: found)
    source = own_handbook.installed().source
    assert source == ROOT
    engine = own_handbook.built(source, tmp_path)
    assert engine.wheel and engine.requirement == f"./engine/{engine.wheel.name}"
    assert "build_tools/authoring/starter/README.md" in zipfile.ZipFile(engine.wheel).namelist()


def test_a_folder_that_is_no_engine_says_so(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    with pytest.raises(own_handbook.UnbuiltWheel, match=r"(?i)project|installable"):
        own_handbook.built(tmp_path / "empty", tmp_path)


def test_a_wheels_file_goes_along(tmp_path: Path) -> None:
    wheel = tmp_path / "with a space.whl"
    wheel.write_bytes(b"PK")
    engine = own_handbook.given(wheel.as_uri())
    assert engine == Installable("./engine/with a space.whl", wheel)
    found = own_handbook.files(NAMED, engine, date(2026, 12, 1))
    assert found["engine/with a space.whl"] == b"PK"
    assert own_handbook.given(str(tmp_path / "none.whl")) is None
