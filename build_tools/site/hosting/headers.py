"""``_headers``, a file that several hosts of plain files read: what no page can say of itself, and one policy for all of them.

The form: a line with a pattern of paths, then its headers, indented.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..book import File

HEADERS = "_headers"
_STATED = re.compile(rb'http-equiv="Content-Security-Policy" content="([^"]+)"')


def stated(files: Iterable[File]) -> list[str]:
    """The policies that whole pages say of themselves."""
    found = (_STATED.search(file.content) for file in files if file.uri.endswith(".html"))
    return sorted({match[1].decode() for match in found if match})


def headers(policies: Iterable[str]) -> str:
    """The file for a site of pages with these policies. Each page still obeys its own, too."""
    together: dict[str, dict[str, None]] = {}
    for one in policies:
        for directive in one.split("; "):
            name, *sources = directive.split()
            together.setdefault(name, {}).update(dict.fromkeys(sources))
    whole = "; ".join(" ".join([name, *sources]) for name, sources in together.items())
    lines = {
        "Content-Security-Policy": f"{whole}; frame-ancestors 'self'",
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "strict-origin-when-cross-origin",
    }
    return "/*\n" + "".join(f"  {name}: {value}\n" for name, value in lines.items())
