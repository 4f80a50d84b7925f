"""Sampling a model into tables: a made-up model in the place of the package, and a fresh run of the real ones where they are at hand."""

from __future__ import annotations

import hashlib
import os
import sys
from math import degrees
from pathlib import Path
from types import SimpleNamespace

import pytest
from folders import SHIPPED
from shipped_lengths import catalog

from build_tools import cli
from build_tools.catalog.entries import LengthTable
from build_tools.movement.length import sample

#: Folder with the model files that muscles.yaml names.
MODELS = os.environ.get("MODEL_FILES", "")


class Members(dict):
    """A set of a model, as the package has it."""

    contains = dict.__contains__
    get = dict.__getitem__


class Coordinate:
    def __init__(self) -> None:
        self.radians = 0.0

    def setValue(self, _state: object, radians: float, _enforce: bool) -> None:
        self.radians = radians


@pytest.fixture
def package(monkeypatch: pytest.MonkeyPatch) -> None:
    """A model whose `rope_r` is 0.4 m plus 1 mm per degree of `first` and 0.1 mm per degree of `second`, as it counts them."""
    first, second = Coordinate(), Coordinate()

    def length(_state: object) -> float:
        return 0.4 + degrees(first.radians) / 1000 + degrees(second.radians) / 10_000

    model = SimpleNamespace(
        initSystem=object,
        realizePosition=lambda state: None,
        getCoordinateSet=lambda: Members(first=first, second=second),
        getMuscles=lambda: Members(rope_r=SimpleNamespace(getLength=length)),
    )
    monkeypatch.setitem(
        sys.modules,
        "opensim",
        SimpleNamespace(Model=lambda path: model, Logger=SimpleNamespace(setLevelString=str)),
    )


TABLE = {
    "model": "any",
    "axes": [
        {"joint": "hip", "coordinate": "first", "span": [-10, 10], "step": 10},
        {"joint": "knee", "coordinate": "second", "reversed": True, "span": [0, 20], "step": 20},
    ],
}


def test_degrees_millimetres_directions_and_rounding(package: None) -> None:
    """Worked by hand: at hip -10 and knee 20 the model sees -10 and -20 degrees, 400 - 10 - 2 = 388 mm."""
    text = sample.sample(Path("any.osim"), LengthTable.model_validate(TABLE), {"rope": "rope_r"})
    assert (
        text
        == "hip_deg,knee_deg,rope\n-10,0,390.0\n-10,20,388.0\n0,0,400.0\n0,20,398.0\n10,0,410.0\n10,20,408.0\n"
    )


def test_a_model_without_the_muscle_or_the_joint(package: None) -> None:
    table = LengthTable.model_validate(TABLE)
    with pytest.raises(ValueError, match="any.osim has no `string_r`"):
        sample.sample(Path("any.osim"), table, {"string": "string_r"})
    axes = [table.axes[0].model_copy(update={"coordinate": "third"}), table.axes[1]]
    with pytest.raises(ValueError, match="any.osim has no `third`"):
        sample.sample(Path("any.osim"), table.model_copy(update={"axes": axes}), {"rope": "rope_r"})


# --- the command -----------------------------------------------------------------


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


# --- the real models ----------------------------------------------------------------


@pytest.fixture
def opensim() -> object:
    return pytest.importorskip(
        "opensim", reason="the package `opensim` (extra `model`) is not installed"
    )


@pytest.mark.parametrize("id", catalog().model.data.models)
def test_a_fresh_run_gives_the_committed_tables(opensim: object, id: str) -> None:
    model = catalog().model.data
    file = Path(MODELS) / model.models[id].file
    if not MODELS or not file.exists():
        pytest.skip(f"{file.name} is not at hand; set MODEL_FILES to the folder that holds it")
    assert sample.digest(file) == model.models[id].sha256
    for name, table in model.tables.items():
        if table.model == id:
            fresh = sample.sample(file, table, sample.columns(model, name))
            assert fresh.encode() == (SHIPPED / "model" / f"{name}.csv").read_bytes()


def test_rectus_femoris_in_a_fresh_run(opensim: object) -> None:
    """Left out of the tables, so looked at in the model: longer with the hip straight, as anatomy has it; but its length changes more
    with the hip than with the knee, against Visser et al. 1990 (six cadaver limbs), which is why it is left out."""
    model = catalog().model.data
    file = Path(MODELS) / model.models["gait2392"].file
    if not MODELS or not file.exists():
        pytest.skip(f"{file.name} is not at hand; set MODEL_FILES to the folder that holds it")
    text = sample.sample(file, model.tables["hip-knee"], {"rect_fem": "rect_fem_r"})
    at = {
        (int(hip), int(knee)): float(length)
        for hip, knee, length in (line.split(",") for line in text.splitlines()[1:])
    }
    assert all(at[0, knee] - at[90, knee] > 60 for knee in range(0, 121, 10))
    assert at[0, 0] - at[90, 0] > at[0, 90] - at[0, 0]
