"""Networks for the tests: from the reference entries, and drawn at random."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from statistics_reference import entry

from build_tools.evidence.model.network import Block


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
