"""Where in an entry something differs, and from what to what, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from .leaves import Leaf, Path

#: Under these keys of a study stand the numbers that conclusions are drawn from.
_MEASURED = ("people", "weeks", "arms", "results")
#: Longest text that is shown in full.
_LONGEST = 160


def numbers(
    found: Sequence[Leaf], before: Mapping[str, Any], now: Mapping[str, Any]
) -> Iterator[str]:
    """Each number of a study that came, went or changed, and each result or contrast as a whole."""
    for leaf in found:
        whole = isinstance(leaf.now if leaf.before is None else leaf.before, dict)
        if leaf.path[0] in _MEASURED and (leaf.is_number or whole):
            yield told(leaf, before, now)


def told(leaf: Leaf, before: Mapping[str, Any], now: Mapping[str, Any]) -> str:
    """``hamstrings mri-volume, seated, change percent: 14 → 36``."""
    where = place(leaf.path, now if leaf.now is not None else before)
    if leaf.before is None or leaf.now is None:
        one, fate = (leaf.now, "new") if leaf.before is None else (leaf.before, "taken out")
        return f"{where}: {fate}" if isinstance(one, dict) else f"{where}: {value(one)} ({fate})"
    return f"{where}: {value(leaf.before)} → {value(leaf.now)}"


def place(path: Path, data: Any) -> str:
    """The way to a place, with what a result or contrast is on in place of its number."""
    words = []
    for step in path:
        data = _inside(data, step)
        if isinstance(step, str):
            if step not in ("results", "contrasts", "values", "value"):
                words.append(step.replace("_", " "))
        elif isinstance(data, dict) and "measure" in data:
            parts = data.get("parts")
            on = ", ".join(map(str, parts)) if isinstance(parts, list) else ""
            words.append(f"{on} {data['measure']}".strip())
        elif isinstance(data, dict) and "of" in data and "against" in data:
            words.append(f"{data['of']} against {data['against']}")
        else:
            words.append(f"no. {step + 1}")
    return ", ".join(words) or "the whole"


def value(of: Any) -> str:
    """A value, short enough for a line."""
    if isinstance(of, bool) or of is None:
        return {True: "true", False: "false"}.get(of, "nothing")
    if isinstance(of, list):
        return f"[{', '.join(map(value, of))}]"
    if isinstance(of, dict):
        return f"{{{', '.join(f'{key}: {value(item)}' for key, item in of.items())}}}"[:_LONGEST]
    text = " ".join(str(of).split())
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def _inside(data: Any, step: str | int) -> Any:
    if isinstance(data, dict):
        return data.get(step)
    if isinstance(data, list) and isinstance(step, int) and step < len(data):
        return data[step]
    return None
