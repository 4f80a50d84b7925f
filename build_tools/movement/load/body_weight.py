"""How many kilograms a body-weight movement moves: body mass times a stated share, plus what is added.

The share stands in the catalog with its source.
"""

from __future__ import annotations

from ..posture.body import REFERENCE


def total_load(body_mass: float, share: float, added: float = 0.0) -> float:
    """Kilograms moved: body mass (kg) times the share (0-1) plus added load (kg; negative where a band or a machine helps).

    Raises ValueError where an input makes no sense or the help exceeds the load.
    """
    if body_mass <= 0:
        raise ValueError(f"body mass must be above 0 kg, not {body_mass:g}")
    if not 0 < share <= 1:
        raise ValueError(f"the share of body mass must lie above 0 and at most at 1, not {share:g}")
    total = body_mass * share + added
    if total < 0:
        raise ValueError(
            f"help of {-added:g} kg is more than the {body_mass * share:g} kg that the movement loads"
        )
    return total


def told(share: float, how: str, body_mass: float = REFERENCE.mass) -> str:
    """The load of a body-weight movement in plain words, with one worked number (kg)."""
    source = (
        "measured on a force plate"
        if how == "measured"
        else "reckoned from segment masses, not measured"
    )
    return (
        f"Total load: {share:.2f} × body mass, plus what is added. A person of {body_mass:.0f} kg moves about "
        f"{total_load(body_mass, share):.0f} kg. The share is {source}."
    )
