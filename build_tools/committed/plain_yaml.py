"""Writes plain data as YAML that differs line by line where the data differs.

Block style, keys in the order given, one line for each number or text however long,
and no choice that a version of a YAML library could make otherwise.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from decimal import Decimal

#: Texts that need no quotes: words of small letters, digits, hyphens and slashes, no lone number among them.
_PLAIN = re.compile(r"[a-z][a-z0-9/-]*(?:,? [a-z0-9/-]+)*|[0-9]+(?:,? [a-z0-9/-]+)+")
#: Words that some version of YAML reads as something else than text.
_TYPED = {"true", "false", "null", "yes", "no", "on", "off", "y", "n"}

Scalar = str | int | Decimal
Data = Scalar | tuple[Scalar, ...] | list["Data"] | Mapping[str, "Data"]
"""Mappings and lists become blocks; a tuple of scalars is one thing and stands on one line."""


def dump(data: Mapping[str, Data]) -> str:
    """``data`` as text that ends with a line break."""
    return "\n".join(_mapping(data)) + "\n"


def _mapping(data: Mapping[str, Data]) -> Iterator[str]:
    for key, value in data.items():
        if isinstance(value, (Mapping, list)) and value:
            yield f"{key}:"
            yield from ("  " + line for line in _block(value))
        else:
            yield f"{key}: {_leaf(value)}"


def _block(value: list[Data] | Mapping[str, Data]) -> Iterator[str]:
    if isinstance(value, Mapping):
        yield from _mapping(value)
        return
    for item in value:
        lines = _block(item) if isinstance(item, (Mapping, list)) and item else iter((_leaf(item),))
        yield f"- {next(lines)}"
        yield from ("  " + line for line in lines)


def _leaf(value: Data) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(map(_leaf, value))}]"
    if isinstance(value, str):
        # JSON's quotes and escapes are YAML's, too.
        return (
            value
            if _PLAIN.fullmatch(value) and value not in _TYPED
            else json.dumps(value, ensure_ascii=False)
        )
    if isinstance(value, Decimal):
        return format(value, "f")
    return json.dumps(value)  # whole numbers, and empty lists and mappings
