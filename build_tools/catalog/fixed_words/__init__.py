"""The fixed words of the pages that clients open: one file a page kind, and ``client.yaml`` for what they share.

Another language is another folder like ``en``. What a catalog says, and sentences that are composed (postures, evidence), are not here.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any

import yaml

LANGUAGE = "en"


@cache
def fixed_words(kind: str) -> Mapping[str, Any]:
    """The words of a page kind (``cue_sheet``, ``handout``, ``keep``) with those that all client pages share; places in them are ``{named}``."""
    folder = resources.files(__package__) / LANGUAGE
    files = dict.fromkeys(("client", kind))
    found: dict[str, Any] = {}
    for name in files:
        text = (folder / f"{name}.yaml").read_text(encoding="utf-8")
        found |= yaml.load(text, yaml.CSafeLoader)
    return found
