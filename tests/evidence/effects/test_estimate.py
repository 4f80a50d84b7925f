"""An estimate with its variance."""

from build_tools.evidence.effects.estimate import Effect


def test_the_standard_error_is_the_root_of_the_variance():
    assert Effect(0.3, 0.04).se == 0.2
