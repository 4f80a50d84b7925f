"""Where in an entry something differs, and from what to what, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from os.path import commonprefix
from typing import Any

from .leaves import Leaf, Path

#: Under these keys of a study stand the numbers that conclusions are drawn from.
_MEASURED = ("people", "weeks", "arms", "results")
#: Longest text that is shown in full, and how much of what is the same stands before a difference.
_LONGEST, _LEAD = 140, 30


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
        return (
            f"{where}: {fate}" if isinstance(one, dict) else f"{where}: {_cut(value(one))} ({fate})"
        )
    return f"{where}: {' → '.join(_windows(value(leaf.before), value(leaf.now)))}"


def place(path: Path, data: Any) -> str:
    """The way to a place, with what a result or contrast is on in place of its number."""
    words = []
    for step in path:
        data = inside(data, step)
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
    """A value on one line."""
    if of is None:
        return "nothing"
    if isinstance(of, bool):
        return "true" if of else "false"
    if isinstance(of, list):
        return f"[{', '.join(map(value, of))}]"
    if isinstance(of, dict):
        return f"{{{', '.join(f'{key}: {value(item)}' for key, item in of.items())}}}"
    return " ".join(str(of).split())


def _windows(before: str, now: str) -> tuple[str, str]:
    """Both from shortly before the place where they part, where one is too long for a line."""
    if max(len(before), len(now)) <= _LONGEST:
        return before, now
    same = len(commonprefix([before, now]))
    start = before.rfind(" ", 0, max(0, same - _LEAD)) + 1 if same > _LEAD else 0
    lead = "… " if start else ""
    return lead + _cut(before[start:]), lead + _cut(now[start:])


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 2].rstrip()} …"


def inside(data: Any, step: str | int) -> Any:
    """What stands at a key or an index; ``None`` for nothing."""
    if isinstance(data, dict):
        return data.get(step)
    if isinstance(data, list) and isinstance(step, int) and step < len(data):
        return data[step]
    return None
