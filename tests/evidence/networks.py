"""Networks for the tests: from the reference entries, and drawn at random."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import yaml
from statistics_reference import PATH, entry

from build_tools.evidence.model.blocks import Block

#: Few studies as a published package weighs them.
SMALL = yaml.safe_load(PATH.with_name("small-evidence.yaml").read_text(encoding="utf-8"))


def from_arms(study: str, treatments: Sequence[str], y: Sequence[float], s: Any) -> Block:
    """A block from arms: their values and the covariance of these; the first is the baseline."""
    contrast = np.hstack([-np.ones((len(y) - 1, 1)), np.eye(len(y) - 1)])
    return Block(
        study, tuple(treatments), contrast @ np.asarray(y), contrast @ np.asarray(s) @ contrast.T
    )


def of_independent_arms(entry_id: str) -> list[Block]:
    """An entry whose ``inputs.arms`` are columns study, trt, y, v."""
    arms: dict[str, list[tuple[str, float, float]]] = {}
    columns = entry(entry_id)["inputs"]["arms"]
    for study, treatment, y, v in zip(
        *(columns[name] for name in ("study", "trt", "y", "v")), strict=True
    ):
        arms.setdefault(study, []).append((treatment, y, v))
    return [
        from_arms(
            study, *zip(*((t, y) for t, y, _ in rows), strict=True), np.diag([v for *_, v in rows])
        )
        for study, rows in arms.items()
    ]


def of_contrasts(inputs: Mapping[str, Any]) -> list[Block]:
    """Contrast rows study, y, ref, trt with one covariance matrix ``V``."""
    y, v, blocks = np.array(inputs["y"]), np.array(inputs["V"]), []
    for study in dict.fromkeys(inputs["study"]):
        rows = [i for i, s in enumerate(inputs["study"]) if s == study]
        blocks.append(
            Block(
                str(study),
                (inputs["ref"][rows[0]], *(inputs["trt"][i] for i in rows)),
                y[rows],
                v[np.ix_(rows, rows)],
            )
        )
    return blocks


def whole(blocks: Sequence[Block]) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """All contrasts as one vector y (n,), its design over the sorted treatments less the first, its covariance, and tau's share of it.

    Written out with whole matrices, as a check on everything that is decorrelated or factored.
    """
    treatments = sorted({t for block in blocks for t in block.treatments})
    n = sum(len(block.y) for block in blocks)
    y = np.concatenate([block.y for block in blocks])
    x, v, p, at = np.zeros((n, len(treatments))), np.zeros((n, n)), np.zeros((n, n)), 0
    for block in blocks:
        part = slice(at, at := at + len(block.y))
        v[part, part], p[part, part] = block.v, (np.eye(len(block.y)) + 1) / 2
        x[part, treatments.index(block.treatments[0])] = -1
        for row, t in zip(range(part.start, part.stop), block.treatments[1:], strict=True):
            x[row, treatments.index(t)] = 1
    return y, x[:, 1:], v, p


def least_squares(
    blocks: Sequence[Block], tau: float
) -> tuple[np.ndarray, np.ndarray, float, float]:
    """Generalised least squares with the whole covariance: effects against the first treatment, their covariance, Q, and the
    logarithm of the likelihood with the effects integrated out (a flat prior), up to a constant."""
    y, x, v, p = whole(blocks)
    w = np.linalg.inv(v + tau**2 * p)
    covariance = np.linalg.inv(x.T @ w @ x)
    effect = covariance @ x.T @ w @ y
    q = float((y - x @ effect) @ w @ (y - x @ effect))
    log_likelihood = (np.linalg.slogdet(w)[1] + np.linalg.slogdet(covariance)[1] - q) / 2
    return effect, covariance, q, float(log_likelihood)


def random_network(seed: int, treatments: int, studies: int, tau: float = 0.15) -> list[Block]:
    """A connected network: a chain through all treatments first, then samples of two to four."""
    g = np.random.default_rng(seed)
    effect, blocks = g.normal(0, 0.3, treatments), []
    for number in range(studies):
        chain = number < treatments - 1
        arms = (
            np.array([number, number + 1])
            if chain
            else g.choice(treatments, g.integers(2, min(4, treatments) + 1), replace=False)
        )
        s = np.outer(*[g.uniform(0.05, 0.2, len(arms))] * 2) * (0.5 + 0.5 * np.eye(len(arms)))
        means = (
            effect[arms]
            + g.multivariate_normal(np.zeros(len(arms)), s)
            + g.normal(0, tau / np.sqrt(2), len(arms))
        )
        blocks.append(from_arms(f"study{number}", [f"t{a}" for a in arms], means, s))
    return blocks


def pair(study: str, y: float, v: float, df: float | None = None) -> Block:
    """The first ``a`` against ``b``."""
    return Block(study, ("b", "a"), np.array([y]), np.array([[v]]), df)


def pairs(y: Sequence[float], s: Sequence[float]) -> list[Block]:
    """Studies of that pair, each with its effect and standard error."""
    return [
        pair(f"s{n}", float(a), float(b) ** 2) for n, (a, b) in enumerate(zip(y, s, strict=True))
    ]
