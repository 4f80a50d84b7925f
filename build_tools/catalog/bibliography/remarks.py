"""What a record must not lose on its way into another program: that its author list goes on, and what was published on it since."""

from __future__ import annotations

from .references import Reference


def remarks(reference: Reference) -> list[str]:
    """Plain sentences, without a full stop; empty for nearly all."""
    found = [
        f"{notice.kind.capitalize()} published: https://doi.org/{notice.doi}"
        for notice in reference.notices
    ]
    if not reference.authors:
        found.append("The authors could not be seen")
    elif reference.more_authors:
        found.append("There are more authors than these")
    return found
