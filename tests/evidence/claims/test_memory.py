"""A preview of the shipped catalog says what one from nothing says, study after study.

`tests/test_pipeline.py` changes the invented catalog, line by line.
"""

from __future__ import annotations

import re
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

from folders import DEMO, SHIPPED

from build_tools import pipeline
from build_tools.catalog.load import Catalog, load
from build_tools.committed import files as committed
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.memory import (
    READ_OF_VOCABULARY,
    ConclusionMemory,
    measured_by_changed,
    terms,
)

NUMBER = re.compile(r"\b(?:mean|sd|change_percent): (\d+(?:\.\d+)?)")
#: Growth of several muscles, a signal of several, growth of parts of one.
STUDIES = ("kubo2019", "contreras2015", "maeo2021")


def test_a_study_is_weighed_anew_where_it_measures(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(SHIPPED, tmp_path / "catalog"))
    memory, before = pipeline.Memory(), None
    pipeline.run(pipeline.open_catalog(folder, "catalog", memory), memory)
    for key in STUDIES:
        path = folder / "studies" / f"{key}.yaml"
        text = path.read_text(encoding="utf-8")
        number = NUMBER.search(text)
        assert number
        raised = f"{text[: number.start(1)]}{float(number[1]) * 1.3:g}{text[number.end(1) :]}"
        path.write_text(raised, encoding="utf-8")
        known = pipeline.run(pipeline.open_catalog(folder, "catalog", memory), memory)
        new = pipeline.run(pipeline.open_catalog(folder, "catalog"))
        assert known.conclusions and new.conclusions
        told = committed.files(known.conclusions, known.catalog)
        assert told == committed.files(new.conclusions, new.catalog), key
        assert known.reported == new.reported
        assert told != before  # or nothing was changed that anything rests on
        before = told


def test_it_is_told_by_muscle_and_outcome(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(SHIPPED, tmp_path / "catalog"))
    memory = pipeline.Memory()
    last = pipeline.open_catalog(folder, "catalog", memory).catalog
    assert measured_by_changed(last, last) is None
    path = folder / "studies" / "kubo2019.yaml"
    path.write_text(path.read_text(encoding="utf-8") + "# looked up again\n", encoding="utf-8")
    catalog = pipeline.open_catalog(folder, "catalog", memory).catalog
    measured = measured_by_changed(catalog, last)
    assert measured and {outcome for _, outcome in measured} <= {"growth", "strength"}
    assert ("quadriceps", "growth") in measured


class Watched:
    """Stands for an entry and keeps which of its fields were read."""

    def __init__(self, data: Any, read: set[str], **instead: Any) -> None:
        self._data, self._read, self._instead = data, read, instead

    def __getattr__(self, name: str) -> Any:
        self._read.add(name)
        return self._instead.get(name, getattr(self._data, name))


def test_the_terms_are_all_that_weighing_reads() -> None:
    """Each field that is read is watched, so that nothing new is read without being among the terms."""
    catalog = load(SHIPPED)
    read: dict[str, set[str]] = {
        kind: set() for kind in ("vocabulary", "handbook", "part", "record", "exercise")
    }

    def watched(entry: Any, kind: str, **instead: Any) -> Any:
        return replace(entry, data=Watched(entry.data, read[kind], **instead))

    muscles = {}
    for id, entry in catalog.muscles.items():
        parts = {name: Watched(part, read["part"]) for name, part in entry.data.parts.items()}
        muscles[id] = watched(entry, "part", parts=parts)
    looked_at: Catalog = replace(
        catalog,
        vocabulary=watched(catalog.vocabulary, "vocabulary"),
        handbook=watched(catalog.handbook, "handbook"),
        muscles=muscles,
        exercises={id: watched(entry, "exercise") for id, entry in catalog.exercises.items()},
        references={
            key: Watched(record, read["record"]) for key, record in catalog.references.items()
        },
    )
    told = committed.files(conclude(looked_at), catalog)
    assert told == committed.files(conclude(catalog), catalog)
    # One of the questions asked of a design is found by a method.
    read["vocabulary"] = {
        "appraisal_questions" if name == "asked_of" else name for name in read["vocabulary"]
    }
    assert read == {
        "vocabulary": set(READ_OF_VOCABULARY),
        "handbook": {"conventions"},
        "part": {"name", "coaches", "parts"},
        "record": {"read", "retracted"},
        # The claims of an exercise are concluded anew with each change of it.
        "exercise": {"name", "emphasis"},
    }


def test_another_state_with_the_same_terms_keeps_the_engine() -> None:
    catalog, memory = load(DEMO), ConclusionMemory()
    conclude(catalog, memory=memory)
    engine = memory.engine(catalog)
    lantern, words = catalog.muscles["lantern"], catalog.vocabulary
    assert words
    described = lantern.data.model_copy(update={"summary": "Another light."})
    plain = words.data.model_copy(update={"client_words": {"lumen": "light"}})
    for same in (
        replace(catalog, muscles={"lantern": replace(lantern, data=described)}),
        replace(catalog, vocabulary=replace(words, data=plain)),
    ):
        assert terms(same) == terms(catalog) and memory.engine(same) is engine
    renamed = lantern.data.model_copy(update={"name": "Beacon"})
    other = replace(catalog, muscles={"lantern": replace(lantern, data=renamed)})
    assert terms(other) != terms(catalog) and memory.engine(other) is not engine
