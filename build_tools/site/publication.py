"""Where the handbook is published, and whether it may be kept for use without a network."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Publication:
    """What pages need to know about the place they will stand at."""

    url: str | None = None
    """Absolute address of the handbook's home page, or None while nobody said it: no QR code and no canonical link then."""
    offline: bool = True
    """Whether cue sheets and handouts are kept on the reader's device."""

    def at(self, path: str) -> str | None:
        """The absolute address of ``path`` (as from ``address.url``, e.g. ``cues/seated-row/``); None without an address."""
        return f"{self.url.rstrip('/')}/{path}" if self.url else None


#: A preview whose address nobody knows.
UNPUBLISHED = Publication()
