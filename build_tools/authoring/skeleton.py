"""A commented draft in YAML of what a typed entry may hold.

Everything is taken from the model: which keys there are, which must be given, and what each is for, so that a draft
says what ``handbook check`` asks and nothing else. What is not given yet says ``TODO``, which the check refuses.
"""

from __future__ import annotations

import json
import re
import textwrap
import typing
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from ..catalog import entries
from ..catalog.complaints import bare
from ..catalog.entries import TODO

Path = tuple[str, ...]
"""Keys that lead to a field; steps through lists and into mappings of entries are left out."""

#: Columns of a comment above its key.
WIDTH = 100
#: Keys that a rule asks for where the model does not: without them the draft would still be refused.
DEMANDED: dict[type[BaseModel], tuple[str, ...]] = {
    entries.Basis: ("common_practice",),
    entries.Caution: ("concerns",),
    entries.Exercise: ("swaps",),
    entries.Study: ("allocation", "weeks", "left_out"),
    entries.Result: ("measured", "at", "contrasts"),
    entries.Contrast: ("favours",),
}
#: Models whose docstring says how to write them, beyond what their field says.
EXPLAINED = (entries.Movement,)
#: Texts that need no quotes, in a list neither; what YAML or a reader might take for something else gets them.
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9/'’()-]*(?: [A-Za-z0-9/'’()-]+)*")
_TYPED = {"true", "false", "null", "yes", "no", "on", "off", "y", "n"}


@dataclass
class Skeleton:
    """A draft of one entry."""

    model: type[BaseModel]
    given: Mapping[str, Any]
    """What is known, as it would stand in the file. Keys are written in the order of the model."""
    notes: Mapping[Path, list[str]] = field(default_factory=dict)
    """More lines of comment above a key."""
    shown: Collection[Path] = ()
    """Optional keys that are shown with all that belongs below them, as a comment."""
    unasked: Collection[Path] = ()
    """Keys that a rule asks for in general, and not of this entry."""
    _explained: set[type[BaseModel]] = field(default_factory=set)

    def text(self) -> str:
        """The draft, ending with a line break."""
        lines = list(self._mapping(self.model, self.given, ()))
        return "\n".join([*lines[1:], ""])

    def _mapping(
        self, model: type[BaseModel], given: Mapping[str, Any], path: Path
    ) -> Iterator[str]:
        first = model not in self._explained
        self._explained.add(model)
        for key, info in fields_of(model):
            here = (*path, key)
            if not path:
                yield ""
            asked = key in given or _is_demanded(model, key, info) and here not in self.unasked
            if not asked and here not in self.shown:
                if first:
                    yield (
                        f"# {key}: {_empty(info)}".rstrip() + f"  # {_described(info)}{_keys(info)}"
                    )
                    for note in self.notes.get(here, []):
                        yield from (line.replace("# ", "#   ", 1) for line in _comment(note))
                continue
            lines = list(self._field(key, info, given.get(key), here, key in given))
            if first:
                comments = [_described(info)]
                inner = model_in(info.annotation)
                if inner in EXPLAINED:
                    comments += _paragraphs(inner)
                comments += self.notes.get(here, [])
                yield from (line for comment in comments for line in _comment(comment))
            yield from lines if asked else (f"# {line}" for line in lines)

    def _field(
        self, key: str, info: FieldInfo, value: Any, path: Path, has_value: bool
    ) -> Iterator[str]:
        shape, inner = shape_of(info.annotation), model_in(info.annotation)
        if inner is None or (has_value and not isinstance(value, (dict, list))) or value == []:
            yield f"{key}: {written(value) if has_value else _unwritten(shape)}"
            return
        yield f"{key}:"
        if shape == "list":
            for item in value or [{}]:
                lines = list(self._mapping(inner, item, path))
                begun = next(n for n, line in enumerate(lines) if not line.startswith("#"))
                # Comments above the first key stand above the dash.
                yield from ("  " + line for line in lines[:begun])
                yield "  - " + lines[begun]
                yield from ("    " + line for line in lines[begun + 1 :])
        elif shape == "dict":
            for name, item in (value or {TODO: {}}).items():
                yield f"  {name}:"
                yield from ("    " + line for line in self._mapping(inner, item, path))
        else:
            yield from ("  " + line for line in self._mapping(inner, value or {}, path))


def written(value: Any) -> str:
    """Plain data on one line of YAML."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{written(k)}: {written(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return f"[{', '.join(map(written, value))}]"
    if isinstance(value, str) and _PLAIN.fullmatch(value) and value.lower() not in _TYPED:
        return value
    # JSON's quotes, escapes and numbers are YAML's, too.
    return json.dumps(value, ensure_ascii=False)


def fields_of(model: type[BaseModel]) -> list[tuple[str, FieldInfo]]:
    """Keys and fields in the order in which they are written: what a statement rests on comes last."""
    found = [(info.alias or name, info) for name, info in model.model_fields.items()]
    basis = entries.Basis.model_fields if issubclass(model, entries.Basis) else {}
    return sorted(found, key=lambda pair: pair[0] in basis)


def _is_demanded(model: type[BaseModel], key: str, info: FieldInfo) -> bool:
    return info.is_required() or any(
        key in keys for of, keys in DEMANDED.items() if issubclass(model, of)
    )


def shape_of(annotation: Any) -> str:
    plain = bare(annotation)
    origin = typing.get_origin(plain)
    if origin in (list, dict):
        return str(origin.__name__)
    return "model" if _is_model(plain) else "bool" if plain is bool else "scalar"


def model_in(annotation: Any) -> type[BaseModel] | None:
    """The model of a field, of its items or of its values."""
    plain = bare(annotation)
    if typing.get_origin(plain) in (list, dict):
        plain = bare(typing.get_args(plain)[-1])
    return plain if _is_model(plain) else None


def _is_model(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


def _words(annotation: Any) -> tuple[str, ...]:
    """The closed list of words that a field allows, if it is one."""
    plain = bare(annotation)
    if typing.get_origin(plain) in (list, dict):
        plain = bare(typing.get_args(plain)[-1])
    return typing.get_args(plain) if typing.get_origin(plain) is typing.Literal else ()


def _described(info: FieldInfo) -> str:
    """What the field is for, and the words it allows unless they are told."""
    told = " ".join((info.description or "").replace("``", "`").split())
    words = _words(info.annotation)
    if words and not all(word in told for word in words):
        told += f" One of: {', '.join(words)}."
    return told


def _keys(info: FieldInfo) -> str:
    """Which keys stand below an optional one, as a sentence."""
    inner = model_in(info.annotation)
    if inner is None:
        return ""
    each = "" if shape_of(info.annotation) == "model" else " of each"
    return f" Keys{each}: {', '.join(key for key, _ in fields_of(inner))}."


def _unwritten(shape: str) -> str:
    return {"list": f"[{TODO}]", "dict": f"{{{TODO}: {TODO}}}"}.get(shape, TODO)


def _empty(info: FieldInfo) -> str:
    """What may stand after an optional key, to begin with."""
    shape = shape_of(info.annotation)
    if shape == "bool":
        return "false" if info.default is True else "true"
    return {"list": "[]", "dict": "{}", "model": "{}"}.get(shape, "")


def _paragraphs(model: type[BaseModel]) -> list[str]:
    told = (model.__doc__ or "").replace("``", "`")
    return [" ".join(paragraph.split()) for paragraph in told.split("\n\n")]


def _comment(text: str) -> list[str]:
    return textwrap.wrap(
        text, WIDTH, initial_indent="# ", subsequent_indent="#     ", break_on_hyphens=False
    )
