"""Publication bias: said on every body, charged on none."""

from __future__ import annotations

from ..wording.amounts import samples
from .body import CertaintyRule, EvidenceBody, RatingStep

#: Fewer studies than this are too few to look for an asymmetric scatter. Common practice, from memory.
ENOUGH_STUDIES = 10

RULES = (
    CertaintyRule(
        "publication-bias",
        "publication bias",
        f"Never charged: with fewer than {ENOUGH_STUDIES} studies it cannot be looked for, and from there on authors may judge it.",
        "GRADE names publication bias among its five reasons (doi:10.1016/j.jclinepi.2018.01.012, Table 1). "
        "The number of studies is common practice, from memory.",
    ),
)


def publication_bias(body: EvidenceBody) -> RatingStep:
    """What can be said on unpublished studies, at no charge."""
    k = len({sample.study for sample in body.samples})
    if k < ENOUGH_STUDIES:
        reason = f"Whether studies are missing cannot be judged from {k}: fewer than {ENOUGH_STUDIES} are too few to look."
    else:
        reason = f"Whether studies are missing was not judged, although {k} studies ({samples(len(body.samples))}) would be enough to look."
    return RatingStep("publication-bias", "publication bias", 0, reason)
