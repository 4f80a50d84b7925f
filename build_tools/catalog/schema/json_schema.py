"""JSON Schema (draft 2020-12) of each kind of catalog file, made from the typed entries.

The schema accepts and refuses what the loader accepts and refuses, and asks for
the one basis of a statement, so an editor underlines what ``handbook check`` would
report. It cannot say what only the text shows (a duplicate key) or what only the
whole catalog shows (an unknown id): the ids there are when it is made are offered,
and any other that an id may look like is let through, for it may have come since.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

from .. import entries
from ..entries import NAMES
from ..load import ELSEWHERE, FILES, FOLDERS
from .known_words import KnownWords

Schema = dict[str, Any]

#: Kind (name of the folder or the single file) -> model.
KINDS: dict[str, type[BaseModel]] = {**FOLDERS, **FILES}


def files(kind: str) -> str:
    """Which files of the catalog a kind is for, e.g. ``exercises/<id>.yaml``."""
    return f"{kind}/<id>.yaml" if kind in FOLDERS else f"{ELSEWHERE.get(kind, kind)}.yaml"


def glob(kind: str) -> str:
    """The same as a pattern that editors and folders understand."""
    return files(kind).replace("<id>", "*")


#: File, beside those of the kinds, that holds the lists of known words.
LISTS = "known.json"


def schema(kind: str, known: KnownWords | None = None, at: str = "", lists: str = "") -> Schema:
    """The schema of one kind, which offers what is ``known``.

    ``at`` is the address of the folder it stands in, with a last slash; without one it names itself by its file. The lists
    of known words stand among its definitions, or in the file ``lists`` beside it. Raises ``KeyError`` for a kind that is
    not in ``KINDS``.
    """
    return {**_head(at, f"{kind}.json"), **_Offer(known or {}, lists).within(_bare(kind))}


@cache
def _bare(kind: str) -> Schema:
    """Without what is known; the same for every catalog."""
    return KINDS[kind].model_json_schema(by_alias=True, schema_generator=_Generator)


def known_lists(known: KnownWords, at: str = "") -> Schema:
    """The lists of known words as definitions, by kind, to stand beside the schemas (see ``schema``)."""
    return {**_head(at, LISTS), "$defs": {kind: _list(kind, known[kind]) for kind in sorted(known)}}


def _head(at: str, file: str) -> Schema:
    return {"$schema": _Generator.schema_dialect, "$id": at + file}


def _list(kind: str, words: Mapping[str, str]) -> Schema:
    # Annotations beyond the standard: what editors show beside each word, and say of another one.
    return {
        "enum": list(words),
        "enumDescriptions": list(words.values()),
        "errorMessage": f"This cannot name one of the {kind.replace('_', ' ')}; take one of those offered.",
    }


class _Offer:
    """Puts known words in place of the marks that say where something is named."""

    def __init__(self, known: KnownWords, lists: str):
        self.known, self.lists = known, lists
        self.used: set[str] = set()

    def within(self, made: Schema) -> Schema:
        """The whole schema, with the lists that it offers among its definitions unless they stand elsewhere."""
        filled: Schema = self._filled(made)
        if self.lists or not self.used:
            return filled
        lists = {f"known-{kind}": _list(kind, self.known[kind]) for kind in sorted(self.used)}
        return {**filled, "$defs": {**filled.get("$defs", {}), **lists}}

    def _filled(self, node: Any) -> Any:
        if isinstance(node, list):
            return [self._filled(one) for one in node]
        if not isinstance(node, dict):
            return node
        keys = node.get("propertyNames", {})
        if NAMES in keys:
            node = self._keys(node, dict(keys))
        filled = {key: self._filled(value) for key, value in node.items()}
        return self._word(filled) if NAMES in filled else filled

    def _word(self, node: Schema) -> Schema:
        """A word that is named: one of those there are, or another that has the form of one."""
        kind = node.pop(NAMES)
        if kind not in self.known:
            return node
        self.used.add(kind)
        told = {"description": node.pop("description")} if "description" in node else {}
        place = f"{self.lists}#/$defs/{kind}" if self.lists else f"#/$defs/known-{kind}"
        return {"anyOf": [{"$ref": place}, node], **told}

    def _keys(self, node: Schema, keys: Schema) -> Schema:
        """A mapping by what is named: editors offer as keys what stands among the properties."""
        kind, (value,) = keys.pop(NAMES), node["patternProperties"].values()
        offered = {
            word: {**value, "description": called}
            for word, called in self.known.get(kind, {}).items()
        }
        return {**node, "propertyNames": keys, **({"properties": offered} if offered else {})}


class _Generator(GenerateJsonSchema):
    """Pydantic's generator, made as strict as the loader and without titles that repeat the key."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False

    def default_schema(self, schema: Any) -> Schema:
        # That a key may be left out is nothing to offer as its value.
        made = super().default_schema(schema)
        return {key: value for key, value in made.items() if (key, value) != ("default", None)}

    def str_schema(self, schema: Any) -> Schema:
        made = super().str_schema(schema)
        if schema.get("strip_whitespace") and "pattern" in made:
            # The loader takes the space around a text away before it looks, a line break of YAML's `>` too.
            made["pattern"] = rf"^\s*(?!\s){made['pattern'][1:-1]}\s*$"
        return made

    def date_schema(self, schema: Any) -> Schema:
        # `format` is only an annotation to many editors; a pattern is always checked.
        return {**super().date_schema(schema), "pattern": r"^\d{4}-\d{2}-\d{2}$"}

    def dict_schema(self, schema: Any) -> Schema:
        made = super().dict_schema(schema)
        return {**made, "additionalProperties": False} if "patternProperties" in made else made

    def model_schema(self, schema: Any) -> Schema:
        made, model = super().model_schema(schema), schema["cls"]
        rests = _BASIS if issubclass(model, entries.Basis) and model not in _CITED_ONLY else {}
        for also in (IN_CODE.get(model, {}), rests):
            # Keys that both speak of hold together.
            clash = made.keys() & also.keys()
            made = {**made, "allOf": [*made.get("allOf", []), also]} if clash else {**made, **also}
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


#: A statement that rests on citations alone, which its own fields say.
_CITED_ONLY = (entries.AuthoredCertainty,)
_ONE_BASIS = (
    "Give `cites:` if a source shows it, or `common_practice:` if coaches hold it: one of the two."
)
#: What the rule `statement-basis` asks of every other statement. `errorMessage` is what editors say; no keyword of the standard.
_BASIS: Schema = {
    "if": _given("common_practice"),
    "then": {"properties": {"cites": {"const": [], "errorMessage": _ONE_BASIS}}},
    "else": {
        "required": ["cites"],
        "properties": {"cites": {"minItems": 1, "errorMessage": _ONE_BASIS}},
        "errorMessage": _ONE_BASIS,
    },
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
        "allOf": [
            {
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
            _given("cites", minItems=1),
            {"anyOf": [_none("standard_error"), _given("exercises", minItems=1)]},
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
