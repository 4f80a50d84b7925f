"""Content security policies (W3C, Content Security Policy Level 3): what a browser may load and run on a page, and nothing else.

Scripts and styles that stand in a page are named by their hashes, never allowed as such: what an author wrote could not run even if it
got into the markup.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Sequence

from markupsafe import Markup

#: Begins every policy. The worker knows pages of ours by it (``sw.js``), those kept years ago among them.
MARK = "default-src 'none'"
SELF = "'self'"


def policy(**sources: Sequence[str]) -> Markup:
    """The policy of a page as the value of a header or attribute. ``sources``: directive, with ``_`` for ``-``, and what it allows."""
    allowed = [
        f"{name.replace('_', '-')} {' '.join(values)}" for name, values in sources.items() if values
    ]
    # Nothing in it needs an escape but the apostrophes, which attributes between quotes may hold.
    return Markup("; ".join([MARK, *allowed, "base-uri 'none'", "form-action 'none'"]))


def hashed(inline: str) -> str:
    """The source that allows one inline script or style, whose whole text is ``inline``."""
    digest = hashlib.sha256(inline.encode()).digest()
    return f"'sha256-{base64.b64encode(digest).decode()}'"
