"""Figures seen from the head have the whole body beside them; others do not need it."""

from __future__ import annotations

import shipped_made
from drawn_figures import of


def test_who_is_seen_from_the_head_is_seen_whole_beside() -> None:
    for id, entry in shipped_made.catalog().exercises.items():
        movement = entry.data.movement
        from_head = movement.view == "above" and movement.shown is None
        told = [inset.says for inset in of("shipped", id).insets]
        assert ("From the side" in told) == from_head, id


def test_it_shows_who_lies_who_sits_and_who_stands() -> None:
    def shape(id: str) -> float:
        box = next(i for i in of("shipped", id).insets if i.says == "From the side").box
        return box[3] / box[2]

    assert shape("prone-t-raise") < 1 < shape("machine-fly") < shape("cable-trunk-rotation") * 1.5
