"""What every effect asks of its inputs: an EvidenceError in plain words, or the number itself."""

import pytest

from build_tools.evidence.effects import inputs
from build_tools.evidence.errors import EvidenceError


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: inputs.people(1), "1 people: at least 2 are needed"),
        (lambda: inputs.people(2, least=3), "at least 3 are needed"),
        (lambda: inputs.people(float("nan")), "nan people"),
        (lambda: inputs.sd(0), "rounded away or misprinted"),
        (lambda: inputs.sd(-1), "must be a positive number"),
        (lambda: inputs.sd(float("inf")), "a spread of inf is none"),
        (lambda: inputs.mean(0), "a ratio needs means above zero"),
        (lambda: inputs.mean(float("nan")), "a mean of nan"),
        (lambda: inputs.correlation(1.1), "between -1 and 1"),
        (lambda: inputs.interval(2, 1), "the lower limit comes first"),
        (lambda: inputs.interval(1, 1), "a spread of zero"),
    ],
)
def test_what_is_refused(call, says):
    with pytest.raises(EvidenceError, match=says) as refused:
        call()
    assert isinstance(refused.value, ValueError)


def test_what_is_let_through():
    assert (
        inputs.people(2),
        inputs.sd(0.1),
        inputs.mean(3),
        inputs.correlation(-1),
        inputs.interval(1, 3),
    ) == (2, 0.1, 3, -1, 2)
