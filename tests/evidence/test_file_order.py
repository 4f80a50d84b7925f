"""What a study says does not hang on the order of its file, and no threshold is decided by a last digit.

The shipped catalog is the case: every study's arms, values, results and contrasts are shuffled, and every
conclusion must come out the same. Nothing outside the project is needed; the demand is the check.
"""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path

import pytest

from build_tools.catalog.entries import Contrast, Result, Study
from build_tools.catalog.load import Catalog, Loaded, load
from build_tools.committed import conclusions as committed_text
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Conclusions
from build_tools.evidence.threshold import TOLERANCE

SHIPPED = Path(__file__).parents[2] / "catalog"


@pytest.fixture(scope="module")
def shipped() -> Catalog:
    return load(SHIPPED, "catalog")


@pytest.fixture(scope="module")
def concluded(shipped: Catalog) -> Conclusions:
    return conclude(shipped)


def turned(contrast: Contrast) -> Contrast:
    """The same contrast written the other way round, where nothing printed has a sign."""
    if contrast.t is not None or contrast.difference or contrast.ratio or contrast.standardised:
        return contrast
    other = {"of": "against", "against": "of"}.get(contrast.favours or "", contrast.favours)
    return contrast.model_copy(
        update={
            "of": contrast.against,
            "against": contrast.of,
            "of_part": contrast.against_part,
            "against_part": contrast.of_part,
            "favours": other,
        }
    )


def shuffled(study: Study, dice: random.Random) -> Study:
    def mixed(items: list) -> list:
        return dice.sample(items, len(items))

    def of(result: Result) -> Result:
        contrasts = [turned(c) if dice.random() < 0.5 else c for c in mixed(result.contrasts)]
        return result.model_copy(
            update={"values": dict(mixed(list(result.values.items()))), "contrasts": contrasts}
        )

    return study.model_copy(
        update={
            "arms": dict(mixed(list(study.arms.items()))),
            "results": mixed([of(r) for r in study.results]),
        }
    )


@pytest.mark.parametrize("seed", range(3))
def test_shuffling_a_study_changes_no_conclusion(
    shipped: Catalog, concluded: Conclusions, seed: int
) -> None:
    dice = random.Random(seed)
    keys = dice.sample(list(shipped.studies), len(shipped.studies))
    studies = {
        key: Loaded(key, shuffled(shipped.studies[key].data, dice), shipped.studies[key].source)
        for key in keys
    }
    again = conclude(replace(shipped, studies=studies))
    texts = (committed_text.files(found, shipped) for found in (concluded, again))
    for (path, first), (_, second) in zip(*(text.items() for text in texts), strict=True):
        assert first == second, path


def test_nothing_is_decided_within_the_noise(concluded: Conclusions) -> None:
    """An end of an interval within the tolerance of no difference counts as on it, so it decides nothing."""
    comparisons = [
        c for field in concluded.fields.values() for c in field.comparisons if c.estimate
    ]
    assert len(comparisons) > 100
    for comparison in comparisons:
        for end in (comparison.estimate.low, comparison.estimate.high):
            if abs(end - 1) <= TOLERANCE:
                assert comparison.shape not in ("more", "less"), comparison.question
