"""What the page says of each field is what the schema of its kind says."""

from __future__ import annotations

from typing import Any

import pytest

from build_tools.catalog.schema import json_schema
from build_tools.site.dataset import fields


def described(node: Any) -> list[str]:
    """Every description of a property, wherever in a schema."""
    if isinstance(node, list):
        return [text for item in node for text in described(item)]
    if not isinstance(node, dict):
        return []
    own = [
        field["description"]
        for field in node.get("properties", {}).values()
        if isinstance(field, dict) and "description" in field
    ]
    return own + [text for item in node.values() for text in described(item)]


@pytest.mark.parametrize("kind", ["exercises", "muscles", "studies"])
def test_every_field_of_the_schema_is_told(kind: str) -> None:
    rows = fields.rows(kind)
    assert all(row.holds and row.form for row in rows)
    assert {row.holds for row in rows} == set(described(json_schema.schema(kind)))
    assert len({row.path for row in rows}) == len(rows)


@pytest.mark.parametrize(
    ("kind", "path", "form"),
    [
        ("exercises", "name", "text"),
        ("exercises", "main_lift", "yes or no"),
        ("exercises", "equipment", "list of text"),
        ("exercises", "cues.move[].do", "text"),
        ("exercises", "set_credit", "by id: direct or indirect"),
        ("studies", "arms.*.n", "whole number"),
        ("studies", "results[].values.*.ci95", "list of number"),
        ("studies", "results[].contrasts[].difference.value", "number"),
        ("muscles", "parts.*.latin", "text"),
    ],
)
def test_a_field_has_its_place_and_form(kind: str, path: str, form: str) -> None:
    assert {row.path: row.form for row in fields.rows(kind)}[path] == form
