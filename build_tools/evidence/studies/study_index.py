"""The studies that count: what their arms did, whose people they tested, and their results, all in one order.

Nothing here depends on a handbook's conventions, so that all ways of weighing one catalog share it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import cached_property

from ...catalog.entries import Contrast, Result, Study
from ...catalog.load import Catalog
from . import study_order


class StudyView:
    """One study in the order in which it is taken."""

    def __init__(self, study: Study) -> None:
        self.study = study
        self.doing = study_order.treatments(study)
        """Arm -> what it did."""
        self.results = study_order.results(study)
        """Its results with their indices."""

    @cached_property
    def contrasts(self) -> dict[int, list[Contrast]]:
        """Index of a result -> its contrasts."""
        return {index: study_order.contrasts(result) for index, result in self.results}


class StudyIndex:
    """All studies of a catalog that count."""

    def __init__(self, catalog: Catalog, earlier: StudyIndex | None = None) -> None:
        """``earlier`` is that of a state before; what it knows of studies that are the same objects is taken over."""
        before: dict[str, StudyView] = earlier.views if earlier else {}
        self.studies = counting(catalog)
        self.views: dict[str, StudyView] = {
            key: before[key] if key in before and before[key].study is study else StudyView(study)
            for key, study in self.studies.items()
        }
        """Study -> it in order."""
        self.sample_of = sample_names(self.studies)
        """Study -> the study that names its sample of people."""
        self.arms_of: dict[str, list[tuple[str, str]]] = defaultdict(list)
        """Exercise or version -> (study, arm) of every arm that did it."""
        self.measuring: dict[str, list[str]] = defaultdict(list)
        """Part -> studies that measured it."""
        for key, view in self.views.items():
            for arm, treatment in view.doing.items():
                self.arms_of[treatment].append((key, arm))
            for part in sorted({part for result in view.study.results for part in result.parts}):
                self.measuring[part].append(key)

    def doing(self, key: str) -> dict[str, str]:
        """Arm -> what it did, of one study."""
        return self.views[key].doing

    def results(self, key: str) -> list[tuple[int, Result]]:
        """A study's results with their indices."""
        return self.views[key].results

    def contrasts(self, key: str, index: int) -> list[Contrast]:
        """The contrasts of one result of a study."""
        return self.views[key].contrasts[index]


def counting(catalog: Catalog) -> dict[str, Study]:
    """The studies that count: no review, which would count its studies twice, and nothing that was retracted."""
    syntheses = (
        {id for id, design in catalog.vocabulary.data.designs.items() if design.synthesis}
        if catalog.vocabulary
        else set()
    )
    return {
        key: entry.data
        for key, entry in catalog.studies.items()
        if entry.data.design not in syntheses
        and not (key in catalog.references and catalog.references[key].retracted)
    }


def sample_names(studies: Mapping[str, Study]) -> dict[str, str]:
    """Study to the study that names its sample of people: where ``same_sample_as`` ends, or the first id where it runs in a circle."""
    found = {}
    for key in studies:
        chain = [key]
        while (
            there := studies[chain[-1]].same_sample_as if chain[-1] in studies else None
        ) and there not in chain:
            chain.append(there)
        found[key] = min(chain[chain.index(there) :]) if there else chain[-1]
    return found
