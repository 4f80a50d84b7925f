"""What cannot be a block is refused by the study's name, and components are found however blocks come."""

from __future__ import annotations

import numpy as np
import pytest

from build_tools.evidence.errors import EvidenceError
from build_tools.evidence.model.blocks import Block, check, components


def block(study: str, treatments: str, y, v, df=None) -> Block:
    return Block(study, tuple(treatments), np.array(y, float), np.array(v, float), df)


@pytest.mark.parametrize(
    ("bad", "message"),
    [
        (
            block("smith", "a", [], np.zeros((0, 0))),
            "smith: a comparison needs two treatments, here 1",
        ),
        (
            block("smith", "aba", [0.1, 0.2], [[1, 0], [0, 1]]),
            "smith: a treatment stands twice in one block: a, b, a",
        ),
        (
            block("smith", "ab", [0.1, 0.2], [[1, 0], [0, 1]]),
            "smith: 2 treatments need 1 contrasts",
        ),
        (block("smith", "ab", [0.1], [0.1]), "smith: 2 treatments need 1 contrasts"),
        (
            block("smith", "ab", [np.nan], [[1]]),
            "smith: a contrast or a variance is not a finite number",
        ),
        (
            block("smith", "ab", [0.1], [[np.inf]]),
            "smith: a contrast or a variance is not a finite number",
        ),
        (
            block("smith", "abc", [0.1, 0.2], [[1, 0.5], [0.4, 1]]),
            "smith: the covariance of the contrasts is not symmetric",
        ),
        (
            block("smith", "abc", [0.1, 0.2], [[1, 2], [2, 1]]),
            "smith: the covariance of the contrasts gives one of them a negative variance",
        ),
        (
            block("smith", "ab", [0.1], [[-1]]),
            "smith: the covariance of the contrasts gives one of them a negative variance",
        ),
        (block("smith", "ab", [0.1], [[0]]), "smith: a contrast has no variance"),
        # b and c: one arm entered twice
        (block("smith", "abc", [0.1, 0.1], [[1, 1], [1, 1]]), "smith: a contrast has no variance"),
        (
            block("smith", "ab", [0.1], [[1]], df=0),
            "smith: degrees of freedom must be positive, here 0",
        ),
    ],
)
def test_a_malformed_block(bad, message):
    with pytest.raises(EvidenceError) as error:
        check(bad)
    assert str(error.value).startswith(message)


def test_no_blocks_are_no_component():
    assert components([]) == []


def test_components_are_ordered_and_found_however_the_blocks_come():
    blocks = [
        block("1", "zy", [0], [[1]]),
        block("2", "cb", [0], [[1]]),
        block("3", "ya", [0], [[1]]),
        block("4", "bde", [0, 0], np.eye(2)),
    ]
    found = components(blocks)
    assert [part.treatments for part in found] == [("a", "y", "z"), ("b", "c", "d", "e")]
    assert [[b.study for b in part.blocks] for part in found] == [["1", "3"], ["2", "4"]]
    assert [part.treatments for part in components(blocks[::-1])] == [p.treatments for p in found]


def test_other_names_keep_the_numbers():
    made = block("1", "ab", [0.1], [[0.2]], 9)
    other = made.renamed(("x", "y"))
    assert other.treatments == ("x", "y") and (other.y, other.v, other.df) == (made.y, made.v, 9)
