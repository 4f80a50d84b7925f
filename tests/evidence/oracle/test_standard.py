"""Mean differences, raw and standardised, against metafor, vcmeta and the Cochrane Handbook (tests/reference/statistics.yaml).

Two printed values are not checked, as their variances are not built: Bonett's of
the uncorrected differences (published in es_smdh_ind2 and es_smd_paired_pooled_wit4).
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from statistics_reference import REL, entry, expect, expect_published, same
from statsmodels.stats.meta_analysis import effectsize_smd

from build_tools.evidence.errors import EvidenceError
from oracle import standard
from oracle.standard import Group, sd_of_differences

SMD = {f"es_smd_ind{i}" for i in (1, 2, 5)}
UNEQUAL = {f"es_smdh_ind{i}" for i in range(1, 6)}
RAW = {f"es_md_ind{i}" for i in range(1, 6)}
PAIRED = {
    "es_mc_wit": range(1, 6),
    "es_smcc_wit": (1, 2, 3, 5),
    "es_smcr_wit": range(1, 6),
    "es_smcrh_wit": range(1, 6),
}
POOLED = {f"es_smd_paired_pooled_wit{i}" for i in range(1, 6)}
COVERS = (
    SMD
    | UNEQUAL
    | RAW
    | POOLED
    | {f"{stem}{i}" for stem, numbers in PAIRED.items() for i in numbers}
    | {"es_hedges_j", "es_smd_from_t", "es_smd_from_d", "es_gleser_olkin_2009_shared_control_smd"}
)

groups = st.builds(Group, st.integers(2, 200), st.floats(-50, 50), st.floats(0.1, 50))


def two(entry_id: str) -> tuple[Group, Group]:
    i = entry(entry_id)["inputs"]
    return Group(i.get("n1", i.get("n")), i["m1"], i["sd1"]), Group(
        i.get("n2", i.get("n")), i["m2"], i["sd2"]
    )


def numbers(estimate) -> dict[str, float]:
    """As metafor names them."""
    return {"yi": estimate.y, "vi": estimate.v, "sei": estimate.se}


def test_correction_of_small_samples():
    df = entry("es_hedges_j")["inputs"]["df"]
    expect("es_hedges_j", [standard.hedges_j(x) for x in df], "J_exact")
    expect("es_hedges_j", [standard.hedges_j_approximate(x) for x in df], "J_approx")


@pytest.mark.parametrize("entry_id", sorted(SMD))
def test_standardised_difference(entry_id):
    a, b = two(entry_id)
    d = standard.cohen_d(a, b)
    g = {
        key: numbers(standard.hedges_g(d.y, a.n, b.n, name))
        for key, name in (("LS", "large sample"), ("LS2", "large sample of d"), ("UB", "unbiased"))
    }
    expect(
        entry_id,
        {
            "sd_pooled": standard.pooled_sd(a, b),
            "d": d.y,
            "J": standard.hedges_j(a.n + b.n - 2),
            "v_of_d_borenstein": d.v,
            **g,
        },
    )
    if entry_id == "es_smd_ind5":
        expect_published(entry_id, [g["LS"]["yi"], g["LS"]["vi"]])


@pytest.mark.parametrize("entry_id", sorted(UNEQUAL))
def test_standardised_difference_with_unequal_spread(entry_id):
    g = standard.hedges_g_unequal_spread(*two(entry_id))
    expect(entry_id, g.y, "yi")
    # The entry's `vi` is an older release's form; its note prefers this one.
    expect(entry_id, g.v, "vi_newer_metafor")
    if entry_id == "es_smdh_ind5":
        expect_published(entry_id, [g.y, g.v])


@pytest.mark.parametrize("entry_id", sorted(RAW))
def test_mean_difference(entry_id):
    a, b = two(entry_id)
    common = standard.pooled_sd(a, b)
    expect(
        entry_id,
        {
            "LS": numbers(standard.mean_difference(a, b)),
            "HO": numbers(standard.mean_difference(a._replace(sd=common), b._replace(sd=common))),
        },
    )
    if entry_id == "es_md_ind2":
        difference = standard.mean_difference(a, b)
        expect_published(entry_id, [difference.y, difference.se])


FORMS = {
    "es_mc_wit": standard.mean_difference_paired,
    "es_smcc_wit": standard.change_in_sds_of_change,
    "es_smcr_wit": standard.change_in_sds_of_first,
    "es_smcrh_wit": standard.change_in_sds_of_first_unequal_spread,
}


@pytest.mark.parametrize(
    "stem, number", [(stem, i) for stem, numbers in PAIRED.items() for i in numbers]
)
def test_paired_difference(stem, number):
    entry_id = f"{stem}{number}"
    a, b = two(entry_id)
    estimates = [FORMS[stem](a, b, r) for r in entry(entry_id)["inputs"]["r"]]
    expect(entry_id, [e.y for e in estimates], "yi")
    # As above: the newer form of Bonett's variance.
    newer = "vi_newer_metafor" if stem == "es_smcrh_wit" else "vi"
    expect(entry_id, [e.v for e in estimates], newer)


def test_paired_difference_as_printed():
    r = entry("es_mc_wit1")["inputs"]["r"]
    at = {0.68: r.index(0.68), 0.7: r.index(0.7), 0.78: r.index(0.78)}

    def of(entry_id, r):
        e = FORMS[entry_id[:-1]](*two(entry_id), r)
        return e.y, e.v, e.se

    assert set(at) <= set(r)
    expect_published("es_mc_wit1", of("es_mc_wit1", 0.7)[:2])
    expect_published("es_mc_wit4", [of("es_mc_wit4", 0.78)[0], of("es_mc_wit4", 0.78)[2]])
    # The second is for differences with an SD of 2: equal SDs of 2 whose correlation is 0.5.
    ten = Group(10, 7, 2), Group(10, 6.5, 2)
    expect_published(
        "es_mc_wit3", of("es_mc_wit3", 0.68)[2], standard.mean_difference_paired(*ten, 0.5).se
    )
    expect_published("es_smcrh_wit1", of("es_smcrh_wit1", 0.7)[:2])


@pytest.mark.parametrize("entry_id", sorted(POOLED))
def test_paired_difference_in_sds_of_both(entry_id):
    a, b = two(entry_id)
    r = entry(entry_id)["inputs"]["r"]
    expect(entry_id, standard.paired_d(a, b, 0.5).y, "d")
    expect(entry_id, [standard.paired_d(a, b, x).se for x in r], "se")
    expect(entry_id, [sd_of_differences(a.sd, b.sd, x) for x in r], "sd_diff")
    if entry_id.endswith("wit3"):
        expect_published(entry_id, standard.paired_d(a, b, 0).y, standard.paired_d(a, b, 0.68).se)


def test_from_t_and_from_d():
    i = entry("es_smd_from_t")["inputs"]
    d = standard.cohen_d_from_t(i["t"], i["n1"], i["n2"]).y
    expect("es_smd_from_t", {"d": d, "escalc": numbers(standard.hedges_g(d, i["n1"], i["n2"]))})
    i = entry("es_smd_from_d")["inputs"]
    expect("es_smd_from_d", numbers(standard.hedges_g(i["d"], i["n1"], i["n2"])))


def test_shared_control_group():
    """Gleser and Olkin (2009): the covariance of two treatments' differences from one control, and what pools from it."""
    key = "es_gleser_olkin_2009_shared_control_smd"
    i = entry(key)["inputs"]
    rows = range(len(i["study"]))
    # Uncorrected, and in the SD within all arms of the study.
    d = [(i["m1"][k] - i["m2"][k]) / i["sdp"][k] for k in rows]
    people = {
        s: i["n2"][i["study"].index(s)] + sum(i["n1"][k] for k in rows if i["study"][k] == s)
        for s in i["study"]
    }
    expect(key, d, "yi")
    v = np.zeros((len(d), len(d)))
    for p in rows:
        for q in rows:
            if i["study"][p] == i["study"][q]:
                shared = standard.covariance_shared_control(
                    d[p], d[q], i["n2"][p], people[i["study"][p]]
                )
                v[p, q] = shared + (1 / i["n1"][p] if p == q else 0)
    expect(key, v, "V")
    x = np.array([[t == 1, t == 2] for t in i["trt"]], dtype=float)
    vcov = np.linalg.inv(x.T @ np.linalg.solve(v, x))
    coef = vcov @ x.T @ np.linalg.solve(v, d)
    residual = d - x @ coef
    q = residual @ np.linalg.solve(v, residual)
    expect(key, {"coef": coef, "vcov": vcov, "QE": q})
    expect_published(key, d, coef, vcov, q)


@given(groups, groups)
def test_agrees_with_statsmodels(a, b):
    """statsmodels 0.15 corrects with the approximate J and takes another variance: only its estimate is compared."""
    estimate, _ = effectsize_smd(a.mean, a.sd, a.n, b.mean, b.sd, b.n)
    ours = standard.hedges_j_approximate(a.n + b.n - 2) * standard.cohen_d(a, b).y
    assert ours == pytest.approx(estimate, rel=REL, abs=1e-12)


@given(groups, groups, st.floats(0.01, 100))
def test_swapping_and_unit_change(a, b, scale):
    def scaled(group):
        return group._replace(mean=scale * group.mean, sd=scale * group.sd)

    for form in (standard.cohen_d, standard.hedges_g_unequal_spread, standard.mean_difference):
        forth, back = form(a, b), form(b, a)
        assert back == pytest.approx((-forth.y, forth.v), rel=1e-9, abs=1e-12)
        factor = scale if form is standard.mean_difference else 1
        assert form(scaled(a), scaled(b)) == pytest.approx(
            (factor * forth.y, factor**2 * forth.v), rel=1e-9, abs=1e-12
        )


def test_pairs_and_small_groups_are_refused():
    with pytest.raises(EvidenceError, match="are no pairs"):
        standard.mean_difference_paired(Group(10, 1, 1), Group(9, 1, 1), 0.5)
    with pytest.raises(EvidenceError, match="1 people: at least 2"):
        standard.cohen_d(Group(1, 1, 1), Group(9, 1, 1))
    with pytest.raises(EvidenceError, match="a spread of zero cannot be weighed"):
        standard.cohen_d(Group(9, 1, 0), Group(9, 1, 1))


def test_reference_helper_notices_a_difference():
    with pytest.raises(AssertionError):
        same({"a": [1.0, 2.0]}, {"a": [1.0, 2.0 + 1e-8]})
