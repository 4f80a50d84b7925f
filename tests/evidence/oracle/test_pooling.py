"""Pooling against outside values: metafor's output and printed tables, as collected in ``statistics.yaml``."""

import math
from typing import Any

import numpy as np
import pytest
from scipy import stats
from statistics_reference import entry, expect, expect_published, same

from oracle.heterogeneity import heterogeneity, tau2, tau2_interval
from oracle.pooling import interval, inverse_variance, pool, prediction_interval

COVERS = {
    "ma_bcg_logrr",
    "ma_bcg_logor",
    "ma_normand1999_md",
    "ma_normand1999_smd",
    "ma_normand1999_rom",
    "ma_normand1999_md_pooled_sd",
    "ma_bangertdrowns2004",
    "ma_dagostino1998_rnic1_smd",
    "ma_linde2005_logrr_17",
    "ma_hine1989_rd",
    "ma_clasp_logor",
    "ma_viechtbauer2005_ex1",
    "ma_edge_k2_equal_effects",
    "ma_edge_k2_opposite",
    "ma_edge_k3_homogeneous",
}
MODELS = ["EE", "DL", "HE", "PM", "REML", "ML", "SJ", "EB", "HS"]

#: metafor's iterations stop up to 6e-13 above a tau² that is exactly 0, which moves an interval by up to 7e-12.
STOPPED_SHORT = 1e-11
#: The same as a percentage of a typical variance.
I2_SHORT = 2e-9

each = pytest.mark.parametrize("entry_id", sorted(COVERS))


def studies(entry_id: str) -> tuple[np.ndarray, np.ndarray]:
    """Effects and variances of an entry."""
    inputs = entry(entry_id)["inputs"]
    return np.array(inputs["yi"], dtype=float), np.array(inputs["vi"], dtype=float)


def between(entry_id: str, model: str) -> float:
    """Our tau² under the entry's name of the model: EE has none, EB is PM's root."""
    return (
        0.0 if model == "EE" else tau2(*studies(entry_id), "PM" if model == "EB" else model).value
    )


@each
def test_heterogeneity(entry_id: str) -> None:
    y, v = studies(entry_id)
    ours = heterogeneity(y, v, tau2=0.0)
    wanted = {"k": len(y), "Q": ours.q, "Q_df": ours.df, "Q_p": ours.p, "I2_higgins_pct": ours.i2}
    for name, value in wanted.items():
        expect(entry_id, value, "heterogeneity", name)


@each
@pytest.mark.parametrize("model", MODELS)
def test_every_estimator_and_interval(entry_id: str, model: str) -> None:
    y, v = studies(entry_id)
    k, t = len(y), between(entry_id, model)
    mean = inverse_variance(y, v, t)
    m, hk_se = mean.estimate, mean.se * math.sqrt(mean.q)
    guarded = mean.se * math.sqrt(max(1.0, mean.q))
    spread = heterogeneity(y, v, t)
    ours: dict[str, Any] = {
        "tau2": t,
        "estimate": m,
        "se": mean.se,
        "ci_z": interval(m, mean.se),
        "I2_from_tau2_pct": spread.i2_tau2,
        "H2_from_tau2": spread.h2,
        "pi_z": prediction_interval(m, mean.se, t, None),
        "pi_t_k_minus_2": prediction_interval(m, mean.se, t, k - 2) if k > 2 else None,
        "hk": {
            "se": hk_se,
            "df": k - 1,
            "t_crit": interval(0, 1, k - 1)[1],
            "ci": interval(m, hk_se, k - 1),
            "q_factor": mean.q,
            "pi_t_k_minus_1": prediction_interval(m, hk_se, t, k - 1),
        },
        "hk_adhoc": {"se": guarded, "ci": interval(m, guarded, k - 1)},
    }
    wanted = entry(entry_id)["expected"]["models"][model]
    for name, value in wanted.items():
        assert not isinstance(value, dict) or value.keys() == ours[name].keys()
        same(
            ours[name],
            value,
            f"{entry_id} {model} {name}",
            abs=I2_SHORT if name == "I2_from_tau2_pct" else STOPPED_SHORT,
        )


@each
def test_what_the_engine_shows_is_guarded_reml(entry_id: str) -> None:
    y, v = studies(entry_id)
    ours, models = pool(y, v), entry(entry_id)["expected"]["models"]
    shown = {
        "tau2": ours.tau2,
        "estimate": ours.estimate,
        "hk_adhoc": {"se": ours.se, "ci": (ours.low, ours.high)},
    }
    same(shown, {name: models["REML"][name] for name in shown}, entry_id, abs=STOPPED_SHORT)
    if models["REML"]["hk"]["q_factor"] > 1:  # elsewhere metafor's prediction interval has no guard
        same(
            (ours.prediction_low, ours.prediction_high),
            models["REML"]["hk"]["pi_t_k_minus_1"],
            entry_id,
        )


@each
def test_q_profile_interval(entry_id: str) -> None:
    """metafor found the ends with R's uniroot, to 1.3e-4 at best and never above max(100, 10 tau² by DL).

    So the full-precision check is the definition: at each end, Q is the quantile of chi² (scipy.stats).
    """
    y, v = studies(entry_id)
    ends = tau2_interval(y, v)
    for end, metafor, chance in zip(
        ends,
        entry(entry_id)["expected"]["heterogeneity"]["tau2_ci_q_profile"],
        (0.975, 0.025),
        strict=True,
    ):
        quantile = stats.chi2.ppf(chance, len(y) - 1)
        w = 1 / (v + end)
        q = float(np.sum(w * (y - np.sum(w * y) / np.sum(w)) ** 2))
        if end > 0:
            assert q == pytest.approx(quantile, rel=1e-9)
        else:
            assert q <= quantile
        stopped = max(100.0, 10 * between(entry_id, "DL"))
        assert min(end, stopped) == pytest.approx(metafor, rel=1e-9, abs=1.3e-4)


def models(entry_id: str, model: str) -> tuple[float, float, float, list[float]]:
    """tau², estimate, standard error and normal interval."""
    t = between(entry_id, model)
    mean = inverse_variance(*studies(entry_id), t)
    return t, mean.estimate, mean.se, list(interval(mean.estimate, mean.se))


def test_printed_bcg_risk_ratio() -> None:
    name = "ma_bcg_logrr"
    _, common, _, common_ci = models(name, "EE")
    t, estimate, _, ci = models(name, "DL")
    spread = heterogeneity(*studies(name), t)
    expect_published(name, [common, *common_ci], spread.q, [estimate, *ci, t], spread.i2)


def test_printed_bcg_odds_ratio() -> None:
    name = "ma_bcg_logor"
    t, estimate, _, ci = models(name, "ML")
    expect_published(name, [*np.exp([estimate, *ci]), t], np.exp(_hksj(name, "ML")))


def _hksj(name: str, model: str) -> tuple[float, float]:
    y, v = studies(name)
    mean = inverse_variance(y, v, between(name, model))
    return interval(mean.estimate, mean.se * math.sqrt(mean.q), len(y) - 1)


def test_printed_normand() -> None:
    name = "ma_normand1999_md_pooled_sd"
    rows = [
        (estimate, *ci, t)
        for t, estimate, _, ci in (models(name, model) for model in ("EE", "DL", "REML"))
    ]
    expect_published(name, rows[0][:3], rows[1], rows[2])


def test_printed_linde() -> None:
    name = "ma_linde2005_logrr_17"
    _, common, _, common_ci = models(name, "EE")
    t, estimate, se, ci = models(name, "DL")
    q = heterogeneity(*studies(name), t).q
    predicted = prediction_interval(estimate, se, t, None)
    expect_published(
        name, np.exp([common, *common_ci]), q, [*np.exp([estimate, *ci, *predicted]), t]
    )


def test_printed_clasp() -> None:
    """The printed ML tau of 0.0023 is an optimiser's stop short of 0; the entry's tolerance holds 0."""
    name = "ma_clasp_logor"
    rows = [
        [math.sqrt(t), estimate, se]
        for t, estimate, se, _ in (models(name, m) for m in ("PM", "HE", "DL", "REML", "HS", "SJ"))
    ]
    assert between(name, "ML") == 0
    expect_published(name, *rows, math.sqrt(between(name, "ML")))


def test_printed_viechtbauer() -> None:
    name = "ma_viechtbauer2005_ex1"
    expect_published(
        name, [between(name, model) for model in ("HS", "HE", "DL", "ML", "REML", "EB", "SJ")]
    )
