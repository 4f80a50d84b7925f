"""A preview of the shipped catalog says what one from nothing says, study after study.

`tests/test_pipeline.py` changes the invented catalog, line by line.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from folders import SHIPPED

from build_tools import pipeline
from build_tools.committed import files as committed
from build_tools.evidence.claims.memory import measured_by_changed

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
