"""`handbook sample-lengths` with a made-up model in the place of the package."""

from __future__ import annotations

import hashlib
import sys
from pathlib import Path

import made_up_model
import pytest

from build_tools import cli


@pytest.fixture
def package(monkeypatch: pytest.MonkeyPatch) -> None:
    """The made-up model stands where the package would."""
    monkeypatch.setitem(sys.modules, "opensim", made_up_model.package())


@pytest.fixture
def lamp(demo: Path, package: None, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo's model file, made up; its hash stands in the demo's muscles.yaml."""
    monkeypatch.chdir(demo.parent)
    path = demo.parent / "lamplighter.osim"
    path.write_bytes(b"invented")
    muscles = demo / "model" / "muscles.yaml"
    text = muscles.read_text(encoding="utf-8").replace(
        "0" * 64, hashlib.sha256(b"invented").hexdigest()
    )
    text = text.replace("coordinate: hip,", "coordinate: first,").replace(
        "coordinate: knee,", "coordinate: second,"
    )
    for column in ("long", "short"):
        text = text.replace(f"column: {column}", "column: rope\n    suffix: _r")
    muscles.write_text(text, encoding="utf-8")
    return path


def test_writes_the_same_bytes_every_time(lamp: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = lamp.parent / "catalog" / "model" / "lamp.csv"
    assert (
        cli.main(["sample-lengths", "--check", str(lamp)]) == 1
        and "lamp: would change" in capsys.readouterr().out
    )
    assert cli.main(["sample-lengths", str(lamp)]) == 0
    first = table.read_bytes()
    assert first.startswith(b"hip_deg,knee_deg,rope\n-20,0,380.0\n") and b"\r" not in first
    assert (
        cli.main(["sample-lengths", "--check", str(lamp)]) == 0
        and cli.main(["sample-lengths", str(lamp)]) == 0
    )
    assert table.read_bytes() == first


def test_another_file_is_refused_unless_its_hash_is_given(
    lamp: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lamp.write_bytes(b"another")
    found = hashlib.sha256(b"another").hexdigest()
    for wrong in ([], ["--accept-hash", "0" * 64]):
        assert cli.main(["sample-lengths", str(lamp), *wrong]) == 2
        told = capsys.readouterr().err
        assert found in told and "is not a model file that muscles.yaml names" in told
    assert cli.main(["sample-lengths", str(lamp), "--accept-hash", found]) == 0
    elsewhere = lamp.rename(lamp.with_name("stranger.osim"))
    assert cli.main(["sample-lengths", str(elsewhere), "--accept-hash", found]) == 2
    assert (
        cli.main(["sample-lengths", "nowhere.osim"]) == 2
        and "cannot be read" in capsys.readouterr().err
    )


def test_without_the_package(
    lamp: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "opensim", None)
    assert (
        cli.main(["sample-lengths", str(lamp)]) == 2
        and "pip install 'evidence-handbook[model]'" in capsys.readouterr().err
    )


def test_without_a_model_in_the_catalog(lamp: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (lamp.parent / "catalog" / "model" / "muscles.yaml").unlink()
    assert (
        cli.main(["sample-lengths", str(lamp)]) == 2
        and "model/muscles.yaml is missing" in capsys.readouterr().err
    )
