"""Invented catalogs for tests of the evidence engine: written as files and loaded like any other, or changed in memory.

Exercises, people and numbers do not exist. The muscle is the demo's.
"""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import yaml

from build_tools.catalog.entries import Exercise, Handbook, Study
from build_tools.catalog.load import Catalog, Loaded, load
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Comparison, Conclusion
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.settings import Settings, settings
from build_tools.evidence.studies.measurement import ResultBlock
from build_tools.evidence.studies.reading import Reading
from build_tools.evidence.studies.samples import Assembly, PooledTopic, Sample
from build_tools.evidence.terms import Question, RatioInterval

DEMO = Path(__file__).parents[1] / "demo" / "catalog"
SHIPPED = Path(__file__).parents[2] / "catalog"
LONG, SHORT = "lantern/long-head", "lantern/short-head"
#: Exercise id -> name.
EXERCISES = {
    f"{name}-curl": f"{name.capitalize()} curl"
    for name in ("alder", "birch", "cedar", "dogwood", "elder", "fir")
}
A, B, C, D, E, F = EXERCISES

Data = dict[str, Any]


def study(
    results: list[Data],
    arms: Mapping[str, str] | None = None,
    *,
    same: bool = True,
    n: int = 12,
    sizes: Mapping[str, int] | None = None,
    **more: Any,
) -> Data:
    """A study file. ``arms`` is arm id -> exercise id (default ``a`` and ``b``), ``sizes`` arm id -> people."""
    ids = arms or {"a": A, "b": B}
    return {
        "design": "within-participant" if same else "parallel",
        "same_people": same,
        "people": {"n": n},
        "arms": {
            id: {"exercise": exercise, "called": f"{id} arm", **({"n": sizes[id]} if sizes else {})}
            for id, exercise in ids.items()
        },
        "results": results,
        "says": "Invented.",
        **more,
    }


def result(
    values: Mapping[str, Data] | None = None,
    contrasts: list[Data] | None = None,
    *,
    parts: tuple[str, ...] = (LONG,),
    measure: str = "surface-emg",
    unit: str = "% MVIC",
    **more: Any,
) -> Data:
    """One result; activation of the long head unless told otherwise, its contrasts tested between the two sides."""
    tested = [{"test": "between", **contrast} for contrast in contrasts or []]
    return {
        "parts": list(parts),
        "measure": measure,
        "unit": unit,
        "at": "Table 1",
        **({"values": dict(values)} if values else {}),
        **({"contrasts": tested} if tested else {}),
        **more,
    }


def growth(
    values: Mapping[str, Data] | None = None, contrasts: list[Data] | None = None, **more: Any
) -> Data:
    """One result on muscle size."""
    return result(values, contrasts, **{"measure": "mri-volume", "unit": "%", **more})


def claim(**more: Any) -> Data:
    """A claim that the first exercise gives the long head more activation than the second."""
    way = {} if {"less_than", "similar_to"} & set(more) else {"more_than": {"exercise": B}}
    basis = {} if "common_practice" in more else {"cites": [{"key": "one", "at": "abstract"}]}
    return {"part": [LONG], "outcome": "activation", "because": "Invented.", **way, **basis, **more}


def written(
    root: Path,
    studies: Mapping[str, Data],
    claims: Mapping[str, list[Data]] | None = None,
    read: str = "full text",
    reviews: Mapping[str, Data] | None = None,
) -> Catalog:
    """A catalog written below ``root`` and loaded. ``claims`` is exercise id -> its claims."""
    shutil.copytree(DEMO / "muscles", root / "muscles")
    for name in ("exercises", "studies"):
        (root / name).mkdir()
    handbook, words, exercise = (
        yaml.safe_load((DEMO / name).read_text())
        for name in ("handbook.yaml", "vocabulary.yaml", "exercises/crate-curl.yaml")
    )
    words["measures"] |= {
        "one-repetition-maximum": {"name": "One-repetition maximum", "outcome": "strength"},
        "signal-shift": {"name": "Signal shift", "outcome": "activation", "pools": False},
        "fibre-angle": {"name": "Fibre angle", "outcome": "architecture"},
    }
    words["designs"] |= {"review": {"name": "Review", "synthesis": True}}
    files = {"handbook": handbook, "vocabulary": words}
    for id, name in EXERCISES.items():
        files[f"exercises/{id}"] = exercise | {
            "name": name,
            "also_called": [],
            "swaps": [],
            "reviewed": str(exercise["reviewed"]),
            "emphasis": (claims or {}).get(id, []),
        }
    files |= {f"studies/{key}": data for key, data in {**studies, **(reviews or {})}.items()}
    for name, data in files.items():
        (root / f"{name}.yaml").write_text(
            yaml.safe_dump(data, sort_keys=False, allow_unicode=True), encoding="utf-8"
        )
    keys = sorted({*studies, *(reviews or {}), "wick2030"})  # the muscle's facts cite the last
    records = "\n".join(
        f"@article{{{key}, author = {{Glow, Dee}}, title = {{Invented {key}}}, journal = {{Invented}}, year = {{2030}},\n"
        f" doi = {{10.0000/{key}}}, read = {{{read}}}, readat = {{this file}} }}"
        for key in keys
    )
    (root / "references.bib").write_text(records, encoding="utf-8")
    catalog = load(root, "invented")
    assert not catalog.findings, catalog.findings
    return catalog


@cache
def _base() -> Catalog:
    with tempfile.TemporaryDirectory() as folder:
        catalog = written(Path(folder) / "catalog", {"one": study([result({"a": {"mean": 1}})])})
        catalog.studies["one"].source.position(())  # read while the file is there
        return catalog


def of(
    studies: Mapping[str, Data],
    claims: Mapping[str, list[Data]] | None = None,
    read: str = "full text",
    **conventions: float,
) -> Catalog:
    """The same in memory, for many small catalogs; studies in the order given. ``conventions`` is name -> value."""
    base = _base()
    one, record = base.studies["one"], base.references["one"]
    exercises = dict(base.exercises)
    for id, told in (claims or {}).items():
        entry = exercises[id]
        data = entry.data.model_dump(by_alias=True, mode="json", exclude_none=True) | {
            "emphasis": told
        }
        exercises[id] = Loaded(id, Exercise.model_validate_json(json.dumps(data)), entry.source)
    assert base.handbook
    handbook = base.handbook.data.model_dump(mode="json", exclude_none=True)
    for name, value in conventions.items():
        found = handbook["conventions"]["correlations"].get(name) or [handbook["conventions"][name]]
        for convention in found:
            convention["value"] = value
            if "range" in convention:
                convention["range"] = [
                    min(value, convention["range"][0]),
                    max(value, convention["range"][1]),
                ]
    return replace(
        base,
        exercises=exercises,
        handbook=Loaded(
            "handbook", Handbook.model_validate_json(json.dumps(handbook)), base.handbook.source
        ),
        studies={
            key: Loaded(key, Study.model_validate_json(json.dumps(data)), one.source)
            for key, data in studies.items()
        },
        references={key: replace(record, key=key, read=read) for key in studies},
    )


def engine(studies: Mapping[str, Data], **more: Any) -> Engine:
    """An engine over an in-memory catalog."""
    catalog = of(studies, **more)
    return Engine(catalog, settings(catalog))


def answer(
    studies: Mapping[str, Data],
    first: str = A,
    second: str = B,
    part: str = LONG,
    outcome: str = "activation",
    relative_to: str | None = None,
    within: str | None = None,
    **more: Any,
) -> Comparison:
    """What the engine says on one question."""
    return engine(studies, **more).comparison(
        Question(first, second, part, outcome, relative_to, within)
    )


def judged(studies: Mapping[str, Data], **more: Any) -> Conclusion:
    """The conclusion on one claim of the first exercise; see ``claim``."""
    [conclusion] = conclude(of(studies, {A: [claim(**more)]})).of(A)
    return conclusion


def correlated(fixed: Settings, kind: str, value: float) -> Settings:
    """Settings with every correlation of a kind at one value."""
    lists = {
        kind: [c.model_copy(update={"value": value}) for c in getattr(fixed.correlations, kind)]
    }
    return replace(fixed, correlations=fixed.correlations.model_copy(update=lists))


def assembly(studies: Mapping[str, Data], **more: Any) -> Assembly:
    """The samples of an in-memory catalog."""
    catalog = of(studies, **more)
    return Assembly(catalog, settings(catalog))


def samples_in(
    made: Assembly, part: str = LONG, outcome: str = "activation", relative_to: str | None = None
) -> list[Sample]:
    """The samples of a part by itself, whatever the dimension."""
    return [
        sample
        for dimension in made.dimensions(outcome)
        for sample in made.samples(PooledTopic(part, outcome, relative_to, "part", dimension))
    ]


def measured(
    data: Data, outcome: str = "activation", index: int = 0, **correlations: float
) -> ResultBlock:
    """One result of one study as the engine measures it, with its own findings left out."""
    catalog = of({"one": data})
    fixed: Settings = settings(catalog)
    for name, value in correlations.items():
        fixed = correlated(fixed, name, value)
    return Assembly(catalog, fixed).result_block("one", index)


def read_study(data: Data, outcome: str = "activation", **conventions: float) -> Reading:
    """The first result of an invented study, as the engine reads it."""
    catalog = of({"one": data}, **conventions)
    typed = catalog.studies["one"].data
    return Reading(typed, typed.results[0], outcome, settings(catalog))


def close(a: RatioInterval | None, b: RatioInterval | None) -> bool:
    """Two estimates alike within rounding, or neither there."""
    if a is None or b is None:
        return a is b
    return np.allclose(
        np.log([a.ratio, a.low, a.high]), np.log([b.ratio, b.low, b.high]), rtol=1e-6, atol=1e-7
    )
