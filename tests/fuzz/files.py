"""Mutated plan files, handout links and exports of other programs."""

from __future__ import annotations

import argparse
import io
import json
from base64 import urlsafe_b64decode, urlsafe_b64encode
from contextlib import redirect_stdout
from pathlib import Path
from random import Random
from typing import Any

import quickjs
import script_rules
from authoring.sample_exports import ALL

from build_tools.catalog.bibliography.references import read_records
from build_tools.commands import CannotRun, cite
from build_tools.handout import limits
from build_tools.planning import plan

from . import texts
from .outcome import Outcome, of_error

_EXERCISES = {
    id: {"name": f"{id}, long", "main": id == "a-curl"} for id in ("a-curl", "b-curl", "c-curl")
}
_DATA = {
    "exercises": _EXERCISES,
    "plan": plan.as_data(),
    "moved": {"old-curl": "a-curl"},
    "retired": {"pit-curl": "Pit curl"},
}
_KNOWN = {"a-curl": "a-curl", "b-curl": "b-curl", "old-curl": "a-curl"}
_ROW = {
    "exercise": "a-curl",
    "sets": 3,
    "repetitions": "8-12",
    "load": "20 kg",
    "left": 2,
    "rest": 90,
}
_DONE = {"sets": 3, "repetitions": 9, "load": "20 kg", "left": 1}
_WEEK = [
    [{**_ROW, "tempo": "3-0-1", "note": "slow", "done": _DONE}, {**_ROW, "exercise": "b-curl"}],
    [], [{"exercise": "old-curl", "sets": 1, "repetitions": "5"}], [], [], [], [{**_ROW, "exercise": "pit-curl"}],
]  # fmt: skip
PLAN: dict[str, Any] = {
    **{
        "version": 2,
        "goal": "growth",
        "monday": "2026-12-07",
        "easy": True,
        "main": {"a-curl": False},
    },
    "days": _WEEK,
    "before": [{"monday": "2026-11-30", "days": _WEEK}, {"easy": True, "days": [[]] * 7}],
}
_ROWS = [["a-curl", 3, "8-12", "20 kg", 2, 90, "3-0-1", "slow"], ["old-curl", None, "30s"]]
LINK: list[Any] = ["Legs", "Ada", "2026-12-01", ["knee"], [[0, _ROWS], [3, [["b-curl"]]]]]
#: What JSON can hold where something else belongs.
_VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 2.5, 1e308, 9007199254740993, 10**30, "", " ", "a-curl", "__proto__", "x" * 500, [], {}),
    *([[]], [None], {"exercise": "a-curl"}, "8-12", "12-8", "2026-02-30", "\ud800", "\U0001f600", "=1+1", "a\nb", "\x00"),
)  # fmt: skip


def _json(value: Any, random: Random) -> Any:
    """A value with one of its places changed, lost, said again or renamed."""
    value = json.loads(json.dumps(value))
    places = list(_places(value))
    inside, key = random.choice(places)
    how = random.randrange(6)
    if how == 0:
        del inside[key]
    elif how == 1:
        other, at = random.choice(places)
        inside[key] = json.loads(json.dumps(other[at]))
    elif how == 2 and isinstance(inside, list):
        inside[key:key] = [inside[key]] * random.choice((1, 2, 10, 200))
    elif how == 3 and isinstance(inside, dict):
        inside[random.choice(("__proto__", "constructor", "mood", "days", "exercise", ""))] = (
            inside.pop(key)
        )
    else:
        inside[key] = random.choice(_VALUES)
    return value


def _places(value: Any) -> Any:
    for key, held in list(value.items() if isinstance(value, dict) else enumerate(value)):
        yield value, key
        if isinstance(held, dict | list) and held:
            yield from _places(held)


def _text(value: Any, random: Random) -> str:
    for _ in range(random.choices((0, 1, 2, 3), (1, 6, 3, 1))[0]):
        try:
            value = _json(value, random)
        except IndexError:
            break
    text = json.dumps(value, ensure_ascii=random.random() < 0.5, indent=random.choice((None, 1)))
    return texts.mutated(text, random).decode("utf-8", "replace") if random.random() < 0.2 else text


def a_plan(random: Random) -> bytes:
    """A plan file, or the address of one."""
    text = _text(PLAN, random)
    if random.random() < 0.3:
        text = "#" + urlsafe_b64encode(text.encode("utf-8", "replace")).decode().rstrip("=")
        if random.random() < 0.3:
            text = texts.mutated(text, random).decode("utf-8", "replace")
    return text.encode("utf-8", "surrogatepass")


def try_plan(data: bytes) -> Outcome:
    """A plan that is opened can be saved and is then the same; its table, calendar and handout can be made."""
    text, told = data.decode("utf-8", "replace"), limits.as_data()
    rules = script_rules.plan
    try:
        rules.takenOut(text, _DATA)
        try:
            found = (
                rules.unpacked(text[1:], _DATA, told)
                if text.startswith("#")
                else rules.read(text, _DATA, told)
            )
        except script_rules.Refused as refused:
            return Outcome("refused" if str(refused) else "unlocated", str(refused))
        if rules.read(rules.write(found, _DATA), _DATA, told) != found:
            return Outcome("traceback", "what was saved opens to another week")
        rules.csv(found, _DATA)
        rules.packed(found, _DATA)
        rules.handout(found, {"title": "Week", "care": []})
        return Outcome("clean")
    except (quickjs.JSException, ValueError, TypeError) as error:
        return of_error(error, "read")


def a_link(random: Random) -> bytes:
    """A fragment of a handout: what it holds changed, or its letters."""
    text = _text(LINK, random) if random.random() < 0.8 else json.dumps(LINK)
    try:
        text = json.dumps(json.loads(text), ensure_ascii=False, separators=(",", ":"))
    except (ValueError, RecursionError):
        pass
    packed = urlsafe_b64encode(text.encode("utf-8", "replace")).decode().rstrip("=")
    fragment = f"{random.choices(('2', '1', '3', '', '2' * 9), (30, 3, 1, 1, 1))[0]}.{packed}"
    if random.random() < 0.2:
        fragment = texts.mutated(fragment, random).decode("utf-8", "replace")
    return fragment.encode("utf-8", "surrogatepass")


def try_link(data: bytes) -> Outcome:
    """A handout that is shown spells back the same; anything else is refused with one of the reasons."""
    text, told = data.decode("utf-8", "replace"), limits.as_data()
    try:
        try:
            found = script_rules.link.decode(text, told, script_rules.Map(_KNOWN))
        except script_rules.Refused as refused:
            return Outcome("refused" if refused.kind else "unlocated", refused.kind)
        again = script_rules.link.encode(found, told)
        held = urlsafe_b64decode(text[2:] + "=" * (-len(text[2:]) % 4))
        if text.startswith("2.") and b"old-curl" not in held and again != text:
            return Outcome("traceback", "the handout spells another way")
        return Outcome("clean")
    except (quickjs.JSException, ValueError, TypeError) as error:
        return of_error(error, "read")


def an_export(random: Random) -> tuple[str, bytes]:
    """The name and bytes of another program's export."""
    name = random.choice(sorted(ALL))
    if name.endswith(".json") and random.random() < 0.8:
        return name, _text(json.loads(ALL[name]), random).encode("utf-8", "surrogatepass")
    return name, texts.mutated(ALL[name], random)


def try_export(name: str, data: bytes, folder: Path, records: str) -> Outcome:
    """Whatever ``handbook cite`` adds leaves a bibliography that is read without a finding."""
    export, bibliography = folder / name, folder / "catalog" / "references.bib"
    bibliography.parent.mkdir(exist_ok=True)
    export.write_bytes(data)
    bibliography.write_text(records, encoding="utf-8")
    args = argparse.Namespace(
        file=str(export),
        doi=None,
        catalog=bibliography.parent,
        key=None,
        section=None,
        dry_run=False,
    )
    told = io.StringIO()
    try:
        with redirect_stdout(told):
            status = cite.run(args)
        _, findings, _ = read_records(bibliography.read_text(encoding="utf-8"), "references.bib")
        if findings:
            return Outcome("traceback", f"what was added does not read: {findings[0]}")
        return Outcome("refused" if status else "clean", told.getvalue()[:200])
    except CannotRun as refused:
        return Outcome("refused" if str(refused) else "unlocated", str(refused))
    except (Exception, RecursionError) as error:
        return of_error(error, "read")
