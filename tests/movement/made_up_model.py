"""A made-up model in the place of the package that samples muscle lengths."""

from __future__ import annotations

from math import degrees
from types import SimpleNamespace


class Members(dict):
    """A set of a model, as the package has it."""

    contains = dict.__contains__
    get = dict.__getitem__


class Coordinate:
    def __init__(self) -> None:
        self.radians = 0.0

    def setValue(self, _state: object, radians: float, _enforce: bool) -> None:
        self.radians = radians


def package() -> SimpleNamespace:
    """A model whose `rope_r` is 0.4 m plus 1 mm per degree of `first` and 0.1 mm per degree of `second`, as it counts them."""
    first, second = Coordinate(), Coordinate()

    def length(_state: object) -> float:
        return 0.4 + degrees(first.radians) / 1000 + degrees(second.radians) / 10_000

    model = SimpleNamespace(
        initSystem=object,
        realizePosition=lambda state: None,
        getCoordinateSet=lambda: Members(first=first, second=second),
        getMuscles=lambda: Members(rope_r=SimpleNamespace(getLength=length)),
    )
    return SimpleNamespace(Model=lambda path: model, Logger=SimpleNamespace(setLevelString=str))
