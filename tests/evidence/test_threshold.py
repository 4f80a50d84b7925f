"""Against the demand itself: within a billionth of a threshold is on it, either way."""

import pytest

from build_tools.evidence.threshold import above, below, leaves_out, meets, within


@pytest.mark.parametrize("noise", [0.0, 4.4e-16, -4.4e-16, 9e-10, -9e-10])
def test_noise_decides_nothing(noise: float) -> None:
    assert not above(1 + noise, 1) and not below(1 + noise, 1)
    assert not leaves_out(1 + noise, 1.4, 1) and not leaves_out(0.7, 1 + noise, 1)
    assert within(1 / 1.1 + noise, 1.1 + noise, 1 / 1.1, 1.1)


def test_what_is_beyond_the_noise_decides() -> None:
    assert above(1 + 2e-9, 1) and below(1 - 2e-9, 1)
    assert meets(1 + 9e-10, 1) and not meets(1 + 2e-9, 1)
    assert leaves_out(1.01, 1.4, 1) and leaves_out(0.7, 0.99, 1) and not leaves_out(0.9, 1.1, 1)
    assert not within(0.9, 1.2, 1 / 1.1, 1.1)
