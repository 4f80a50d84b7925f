"""Networks given as contrasts with their covariance, made of within-person samples, or falling apart.

Against independent least squares in base R; see each entry's ``obtained``.
"""

import numpy as np
import pytest
from networks import from_arms, of_contrasts
from statistics_reference import REL, entry, expect, expect_published, same

from build_tools.evidence.errors import EvidenceError
from build_tools.evidence.model.network import Block, components, fit

COVERS = {"nma_law2016_example2", "nma_within_participant_synthetic", "nma_disconnected"}

LAW = "nma_law2016_example2"
#: Named wider tolerance: the reference's own search for the REML maximum.
REML_REL = 2e-7


@pytest.mark.parametrize(
    ("method", "key", "rel"), [("moments", "mm", REL), ("REML", "reml", REML_REL)]
)
def test_contrasts_with_a_covariance(method, key, rel):
    network = fit(of_contrasts(entry(LAW)["inputs"]), method=method, reference="A")
    expect(LAW, network.tau2, f"tau2_{key}", rel=rel)
    expect(LAW, {t: network.estimate(t, "A").estimate for t in "BCD"}, key, "b", rel=rel)
    expect(LAW, network.covariance[1:, 1:], key, "vcov", rel=rel)


def test_contrasts_with_a_covariance_at_no_tau2():
    network = fit(of_contrasts(entry(LAW)["inputs"]), tau2=0.0)
    expect(LAW, network.q, "Q")
    expect(LAW, network.df, "df")


def test_contrasts_with_a_covariance_as_printed():
    network = fit(of_contrasts(entry(LAW)["inputs"]), reference="A")
    expect_published(LAW, network.tau2, [network.estimate(t, "A").estimate for t in "BCD"])


def log_ratio_block(study: dict, r: float) -> Block:
    """As the entry says: S_ij = r sd_i sd_j/(n m_i m_j) for the same people in all arms, diagonal otherwise; no correction."""
    m, variation = (
        np.array(study["m"], float),
        np.array(study["sd"]) / np.array(study["m"]) / np.sqrt(study["n"]),
    )
    correlation = np.full((len(m), len(m)), r if study["within"] else 0.0)
    np.fill_diagonal(correlation, 1.0)
    return from_arms(
        study["study"], study["trt"], np.log(m), correlation * np.outer(variation, variation)
    )


@pytest.mark.parametrize("case", range(5))
def test_within_person_samples_over_the_range_of_correlations(case):
    given = entry("nma_within_participant_synthetic")
    wanted = given["expected"]["by_r"][case]
    blocks = [log_ratio_block(study, wanted["r"]) for study in given["inputs"]["studies"]]
    same(np.concatenate([b.y for b in blocks]), wanted["y"], "y", REL)
    common = fit(blocks, tau2=0.0, reference="A")
    same([common.q, common.df], [wanted["Q"], wanted["df"]], "Q", REL)
    for key, network in (
        ("common", common),
        ("random_mm", fit(blocks, method="moments", reference="A")),
    ):
        for t in "BCD":
            same(
                network.estimate(t, "A"),
                [wanted[key]["b"][t], wanted[key]["se"][t]],
                f"{key} {t}",
                REL,
            )
    same(fit(blocks, method="moments").tau2, wanted["tau2_mm"], "moments", REL)
    same(
        fit(blocks).tau2, wanted["tau2_reml"], "REML", REML_REL, 1e-9
    )  # the reference stops short of a maximum at 0


def test_a_network_in_two_pieces():
    given = entry("nma_disconnected")
    blocks = [
        Block(f"{a}{b}", (a, b), np.array([0.1]), np.array([[0.01]]))
        for a, b in given["inputs"]["comparisons"]
    ]
    found = components(blocks)
    assert [list(part.treatments) for part in found] == given["expected"]["components"]
    treatments = sum(len(part.treatments) for part in found)
    assert treatments == given["expected"]["treatments"]
    assert treatments - len(found) == given["expected"]["laplacian_rank"]
    with pytest.raises(EvidenceError, match="2: A, B, C; D, E"):
        fit(blocks)
    for part in found:
        assert fit(part.blocks).treatments == part.treatments
