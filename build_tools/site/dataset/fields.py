"""What each field of the JSON holds, from the same descriptions that editors show while an entry is written."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from ...catalog.schema import json_schema


class FieldRow(NamedTuple):
    """One field."""

    path: str
    """Its name, below that of the entry it is in: ``cues.move[].do``; ``*`` stands for an id."""
    form: str
    """``text``, ``number``, ``yes or no``, ``list of text``, ..."""
    holds: str


_FORMS = {
    "string": "text",
    "number": "number",
    "integer": "whole number",
    "boolean": "yes or no",
    "null": "nothing",
}


def rows(kind: str) -> list[FieldRow]:
    """Every field of a kind of entry, outer before inner."""
    schema = json_schema.schema(kind)
    return list(_rows(schema, schema.get("$defs", {}), "", ()))


def _rows(
    node: dict[str, Any], defs: dict[str, Any], before: str, within: tuple[str, ...]
) -> Iterator[FieldRow]:
    for name, field in node.get("properties", {}).items():
        path = f"{before}{name}"
        form, inner, suffix = _form(field, defs)
        yield FieldRow(path, form, field.get("description", ""))
        if inner and inner not in within:
            yield from _rows(defs[inner], defs, f"{path}{suffix}.", (*within, inner))


def _form(field: dict[str, Any], defs: dict[str, Any]) -> tuple[str, str | None, str]:
    """Its form in words, the definition that it holds, and what leads there."""
    if "anyOf" in field:
        options = [one for one in field["anyOf"] if one.get("type") != "null"]
        return _form(options[0], defs)
    if "$ref" in field:
        name = field["$ref"].rpartition("/")[2]
        return ("fields", name, "") if "properties" in defs[name] else (*_form(defs[name], defs),)
    if "enum" in field or "const" in field:
        options = field.get("enum", [field.get("const")])
        return " or ".join(map(str, options)), None, ""
    if field.get("type") == "array":
        form, inner, suffix = _form(field.get("items", {}), defs)
        return f"list of {form}", inner, f"[]{suffix}"
    if field.get("type") == "object":
        of: Any = field.get("additionalProperties") or next(
            iter(field.get("patternProperties", {}).values()), {}
        )
        form, inner, suffix = _form(of if isinstance(of, dict) else {}, defs)
        return f"by id: {form}", inner, f".*{suffix}"
    return _FORMS.get(field.get("type", ""), "text"), None, ""
