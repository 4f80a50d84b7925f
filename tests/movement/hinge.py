"""A hinge that a test changes."""

from __future__ import annotations

from build_tools.catalog.entries import Movement


def moved(**changes: object) -> Movement:
    hinge = {
        "position": "standing",
        "from": {"hip": 0},
        "to": {"hip": 90},
        "load": {"kind": "body-weight"},
    }
    return Movement.model_validate(hinge | changes)
