"""JSON Schema (draft 2020-12) of each kind of catalog file, made from the typed entries.

The schema accepts and refuses what the loader accepts and refuses, so an editor
underlines what ``handbook check`` would report. It cannot say what only the
text shows (a duplicate key) or what only the whole catalog shows (an unknown id).
"""

from __future__ import annotations

from typing import Any, get_args

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

from . import entries
from .load import ELSEWHERE, FILES, FOLDERS

Schema = dict[str, Any]

#: Kind (name of the folder or the single file) -> model.
KINDS: dict[str, type[BaseModel]] = {**FOLDERS, **FILES}


def files(kind: str) -> str:
    """Which files of the catalog a kind is for, e.g. ``exercises/<id>.yaml``."""
    return f"{kind}/<id>.yaml" if kind in FOLDERS else f"{ELSEWHERE.get(kind, kind)}.yaml"


def schema(kind: str) -> Schema:
    """The schema of one kind. Raises ``KeyError`` for a kind that is not in ``KINDS``."""
    made = KINDS[kind].model_json_schema(by_alias=True, schema_generator=_Generator)
    return {"$schema": _Generator.schema_dialect, **made}


class _Generator(GenerateJsonSchema):
    """Pydantic's generator, made as strict as the loader and without titles that repeat the key."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False

    def date_schema(self, schema: Any) -> Schema:
        # `format` is only an annotation to many editors; a pattern is always checked.
        return {**super().date_schema(schema), "pattern": r"^\d{4}-\d{2}-\d{2}$"}

    def dict_schema(self, schema: Any) -> Schema:
        made = super().dict_schema(schema)
        return {**made, "additionalProperties": False} if "patternProperties" in made else made

    def model_schema(self, schema: Any) -> Schema:
        made, code = super().model_schema(schema), IN_CODE.get(schema["cls"], {})
        # Keys that both speak of hold together.
        made = {**made, **code} if not made.keys() & code.keys() else {**made, "allOf": [code]}
        return {**made, "description": made["description"].replace("``", "`")}


def _given(key: str, **also: Any) -> Schema:
    """``key`` is there and not empty."""
    return {"required": [key], "properties": {key: {"not": {"type": "null"}, **also}}}


def _exactly_one(*keys: str) -> Schema:
    return {"oneOf": [_given(key) for key in keys]}


def _none(*keys: str) -> Schema:
    return {"not": {"anyOf": [_given(key) for key in keys]}}


def _one_of_outcome(outcome: str) -> Schema:
    """A list holds exactly one entry for all measures of ``outcome``."""
    every = {
        "anyOf": [
            {"not": {"required": ["measures"]}},
            {"properties": {"measures": {"maxItems": 0}}},
        ]
    }
    return {
        "contains": {"allOf": [_given("outcome", const=outcome), every]},
        "minContains": 1,
        "maxContains": 1,
    }


#: What these models check in code, said once more as schema; the tests hold the two together.
IN_CODE: dict[type[BaseModel], Schema] = {
    entries.Comparator: _exactly_one("exercise", "part"),
    entries.Claim: _exactly_one("more_than", "less_than", "similar_to"),
    entries.Value: {
        "allOf": [
            {
                "anyOf": [
                    {
                        "allOf": [
                            _exactly_one("mean", "median"),
                            _none("pre", "post", "change", "change_percent"),
                        ]
                    },
                    {
                        "allOf": [
                            _exactly_one("change", "change_percent"),
                            _none("mean", "median"),
                            {"anyOf": [_given("pre"), _none("post")]},
                        ]
                    },
                    {
                        "allOf": [
                            _given("pre"),
                            _given("post"),
                            _none("mean", "median", "change", "change_percent", "sd", "se", "ci95"),
                        ]
                    },
                ]
            },
            {"anyOf": [_none("sd", "se", "ci95"), _exactly_one("sd", "se", "ci95")]},
            {"anyOf": [_none("correlation"), _given("post")]},
        ]
    },
    entries.Arm: {"anyOf": [_given("exercise"), _none("version", "forbidden_by")]},
    entries.Site: {
        "allOf": [
            {"anyOf": [_none("percent", "from"), {"allOf": [_given("percent"), _given("from")]}]},
            {"anyOf": [_given("said"), _given("percent")]},
        ]
    },
    entries.Contrast: {
        "anyOf": [
            _given(
                "test", enum=[test for test in get_args(entries.Test) if test != "not reported"]
            ),
            _none("favours", "p", "p_below", "p_above", "t"),
        ]
    },
    entries.AppraisalAnswer: {"anyOf": [_given("answer", const="not stated"), _given("because")]},
    entries.Correlations: {
        "properties": {
            kind: {"allOf": [_one_of_outcome(outcome) for outcome in outcomes]}
            for kind, outcomes in entries.CORRELATED.items()
        }
    },
    entries.Load: {"anyOf": [_none("curve"), _given("kind", const="machine")]},
    entries.Movement: {"anyOf": [_none("shown"), _given("view", const="above")]},
    entries.OtherLimb: {
        "oneOf": [
            {"allOf": [_given("from"), _given("to"), _none("toes", "pitch")]},
            {"allOf": [_given("toes"), _none("from", "to")]},
        ]
    },
    entries.Position: {
        "oneOf": [
            {"allOf": [_given("rests_on", maxProperties=1), _given("fixes"), _none("faces")]},
            {
                "allOf": [
                    _given("rests_on", minProperties=2),
                    _none("fixes"),
                    {"oneOf": [_given("faces"), _given("sideways", const=True)]},
                ]
            },
        ]
    },
    entries.Measure: {
        "oneOf": [
            {"allOf": [_given("outcome", const="growth"), _given("dimension")]},
            {
                "allOf": [
                    _given(
                        "outcome",
                        enum=[it for it in get_args(entries.Outcome) if it != "growth"],
                    ),
                    _none("dimension"),
                ]
            },
        ]
    },
    entries.Wording: {"oneOf": [_given("one_of", minItems=1), _given("none_of", minItems=1)]},
    entries.Dose: {"anyOf": [_given("low"), _given("high")]},
    entries.Equation: {
        "oneOf": [
            {
                "allOf": [
                    _given("form", const=form),
                    _given("coefficients", minItems=count, maxItems=count),
                ]
            }
            for form, count in entries.COEFFICIENTS.items()
        ]
    },
    entries.Result: {
        "allOf": [
            {"anyOf": [_given("values", minProperties=1), _given("contrasts", minItems=1)]},
            _exactly_one("at", "via"),
            {
                "anyOf": [
                    _given("unit"),
                    {
                        "properties": {
                            "values": {"maxProperties": 0},
                            "contrasts": {"items": _none("difference")},
                        }
                    },
                ]
            },
        ]
    },
}
