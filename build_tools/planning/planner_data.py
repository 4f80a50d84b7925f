"""The data behind the coach's working pages: facts, statements and orders. What a page decides with them: ``site/scripts/rules/``.

``planner`` makes it whole; ``questions`` divides it into the files that pages load, ``data/planner.json`` and one by muscle.
A part is ``muscle/part``; lists stand in the order given here; what is not known is left
out, never null; addresses are relative to the top of the site::

    {"version": 1,
     "regions": {id: name},                        # in the order of the vocabulary
     "muscles": {id: {"name", "everyday", "region", "parts": [part, ...]}},
     "parts": {part: {"name", "everyday", "inside", "muscle"}},       # `inside`: as it stands in a sentence, "the soleus"
     "equipment": {id: {"name", "note"?}},         # without `none`
     "positions": {id: name}, "joints": {id: name},
     "concerns": {id: {"name", "note"?}},
     "exercises": {id: {
        "name", "inside", "also": [name, ...], "address",
        "equipment": [id, ...],                    # everything it needs; empty for the body alone
        "position", "sides": "both" | "one", "swaps": [id, ...], "main": true | false, "load": kind,
        "joints": {part: joint},                   # the joint about which the load asks most of the part, where a load is known
        "credits": {part: 1 | 0.5},                # what one set counts
        "direct": [part, ...],                     # the parts that it trains directly
        "concerns": [id, ...],
        "lengths": {part: {"word": "long" | "middle" | "short", "percent", "hard": true | false}},
                                                   # `hard`: while the load is near its peak; false: the mean, as no load is known
        "fraction"?: share of body mass (0-1),
        "best": {part: {place: statement}}}},      # the best that puts it into a place, as an index into "statements"
     "statements": [{"kind", "part", "first", "second", "sentence", "finding", "certainty"?, "address"}],
                                                   # `first` is ahead but for the place `measured`; `part` may be a whole muscle
     "kinds": {place: {"name", "means"}},          # the places of planning/order.py, in the order in which they count
     "orders": {part: [{"kind": place, "exercises": [id, ...]}, ...]},       # exercises of one place are a tie, listed by name
     "moved"?: {old exercise: its successor}, "retired"?: {exercise that was taken out: its name},
     "words": {key: sentence with {places} to fill},                # see words.py
     "goals": {goal: {dose: {"low"?, "high"?, "unit", "means", "unsure", "address"}}},
     "credits": {"direct", "indirect"},
     "seconds": {goal: {"change", "warm_up", "repetition", "rest"}},
     "warnings": {kind: anchor of its grounds on programme/, "{goal}" to fill},
     "equations": {id: {"name", "form", "coefficients", "repetitions": [low, high], "exercises": [id, ...], "error",
        "address", "standard_error"?: kilograms}},
     "prediction": {"means", "address", "beyond": {"do", "because"}, "band": {"do", "because"}}, "pound": kilograms,
     "progression": [{"do", "because", "id"?, "numbers"?: {name: [number, ...]}}],
     "progress"?: {kind: sentence with {places} to fill},             # where the advice is enough to make the next week
     "plan": {"version", "characters", "days": [name, ...], "exercises", "weeks", "goals": [...], "done": [[field, limit], ...]},
                                                   # see plan.py
     "handout": {...}}                             # see handout/limits.py

Statements are of the kinds growth, activation and taught; the place length needs none (see ``lengths``), and ``none`` has none. Only
those stand there that an exercise's ``best`` names: what compares exercises with each other stands in ``data/compare``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from ..catalog.entries import Advice, Dose, Equation, Programme
from ..catalog.load import Catalog
from ..evidence.claims.conclusions import Conclusions
from ..evidence.settings import settings
from ..evidence.wording.names import Names
from ..evidence_map.preferences import Preference, statements
from ..handout import limits
from ..handout.successors import moved_on, taken_out
from ..movement.course import Courses
from . import plan, progression
from .facts import ExerciseFacts, facts
from .order import PLACES, STATED, Orders, PlaceKind
from .words import PLACE_WORDS, PROPOSAL_WORDS, WORDS

VERSION = 1
PROGRAMME = "programme/"
#: Kilograms of one avoirdupois pound, exact by the international yard and pound agreement of 1959.
POUND = 0.45359237


def planner(catalog: Catalog, conclusions: Conclusions, courses: Courses) -> dict[str, Any]:
    """All of it as JSON values; the same catalog always gives the same. The catalog is sound and has a programme."""
    assert catalog.programme and catalog.vocabulary
    made, told = facts(catalog, courses), statements(catalog, conclusions)
    orders = Orders(made, told, settings(catalog).margin_length)
    best = {id: _best(one, orders) for id, one in made.items()}
    used = {
        found for parts in best.values() for places in parts.values() for found in places.values()
    }
    number = {found: index for index, found in enumerate(s for s in told if s in used)}
    programme = catalog.programme.data
    trained = sorted({part for one in made.values() for part in one.direct})
    return {
        "version": VERSION,
        **_vocabulary(catalog),
        **_body(catalog, conclusions.names),
        "exercises": {
            id: {
                **_exercise(one, conclusions.names),
                "best": {
                    part: {place: number[found] for place, found in places.items()}
                    for part, places in best[id].items()
                },
            }
            for id, one in made.items()
        },
        "statements": [_statement(statement) for statement in number],
        "kinds": {
            place: {"name": PLACE_WORDS[place][0], "means": PLACE_WORDS[place][1]}
            for place in PLACES
        },
        "orders": {
            part: [
                {"kind": place.kind, "exercises": list(place.exercises)}
                for place in orders.of(part)
            ]
            for part in trained
        },
        **_retired(catalog),
        "words": {**WORDS, **PROPOSAL_WORDS},
        **_programme(programme),
        "plan": plan.as_data(),
        "handout": limits.as_data(),
    }


def _vocabulary(catalog: Catalog) -> dict[str, Any]:
    assert catalog.vocabulary
    words = catalog.vocabulary.data

    def noted(terms: Mapping[str, Any]) -> dict[str, dict[str, str]]:
        return {
            id: {"name": term.name, **({"note": term.note} if term.note else {})}
            for id, term in terms.items()
        }

    return {
        "regions": {id: term.name for id, term in words.regions.items()},
        "equipment": noted({id: term for id, term in words.equipment.items() if id != "none"}),
        "positions": {id: term.name for id, term in words.positions.items()},
        "joints": {id: term.name for id, term in words.joints.items()},
        "concerns": noted(words.concerns),
    }


def _body(catalog: Catalog, names: Names) -> dict[str, Any]:
    muscles, parts = {}, {}
    for id, entry in catalog.muscles.items():
        refs = [f"{id}/{part}" for part in entry.data.parts]
        muscles[id] = {
            "name": entry.data.name,
            "everyday": entry.data.everyday,
            "region": entry.data.region,
            "parts": refs,
        }
        for ref, part in zip(refs, entry.data.parts.values(), strict=True):
            parts[ref] = {
                "name": part.name,
                "everyday": part.everyday,
                "inside": names.part(ref),
                "muscle": id,
            }
    return {"muscles": muscles, "parts": parts}


def _exercise(one: ExerciseFacts, names: Names) -> dict[str, Any]:
    return {
        "name": one.name,
        "inside": names.exercise(one.id),
        "also": list(one.also),
        "address": one.address,
        "equipment": sorted(one.equipment),
        "position": one.position,
        "sides": one.sides,
        "swaps": list(one.swaps),
        "main": one.main,
        "load": one.load,
        "joints": one.joints,
        "credits": {part: _number(credit) for part, credit in one.credits.items()},
        "direct": sorted(one.direct),
        "concerns": sorted(one.concerns),
        "lengths": {
            part: {"word": found.word, "percent": found.percent, "hard": found.hard}
            for part, found in one.lengths.items()
        },
        **({"fraction": one.fraction} if one.fraction is not None else {}),
    }


def _best(one: ExerciseFacts, orders: Orders) -> dict[str, dict[PlaceKind, Preference]]:
    """The best statement of each place that has one, by the parts that a set counts for."""
    found = {
        part: {
            place: best
            for place in STATED
            if (best := orders.best(one.id, part, place)) is not None
        }
        for part in one.credits
    }
    return {part: places for part, places in found.items() if places}


def _statement(told: Preference) -> dict[str, Any]:
    return {
        "kind": told.kind,
        "part": told.part,
        "first": told.first,
        "second": told.second,
        "sentence": told.sentence,
        "finding": told.finding,
        **({"certainty": told.certainty} if told.certainty else {}),
        "address": told.address,
    }


def _programme(programme: Programme) -> dict[str, Any]:
    return {
        "credits": {
            "direct": _number(programme.credits.direct.value),
            "indirect": _number(programme.credits.indirect.value),
        },
        "goals": {
            goal: {key: _dose(goal, key, dose) for key, dose in doses.items()}
            for goal, doses in programme.goals.items()
        },
        "seconds": {
            goal: {
                key: _number(value) for key, value in asdict(plan.seconds(programme, goal)).items()
            }
            for goal in programme.goals
        },
        "warnings": {
            kind: anchor
            for kind, anchor in plan.GROUNDS.items()
            if not anchor.startswith("topic-") or anchor.removeprefix("topic-") in programme.topics
        },
        "equations": {
            id: _equation(id, equation)
            for id, equation in programme.load_prediction.equations.items()
        },
        "prediction": {
            "means": programme.load_prediction.means,
            "beyond": _rule(programme.load_prediction.beyond),
            "band": _rule(programme.load_prediction.band),
            "address": f"{PROGRAMME}#prediction",
        },
        "pound": POUND,
        "progression": progression.rules(programme),
        **({"progress": progression.WORDS} if progression.complete(programme) else {}),
    }


def _dose(goal: str, key: str, dose: Dose) -> dict[str, Any]:
    ends = {
        end: _number(value)
        for end, value in (("low", dose.low), ("high", dose.high))
        if value is not None
    }
    muscles = {
        muscle: {
            end: _number(value)
            for end, value in (("low", its.low), ("high", its.high))
            if value is not None
        }
        for muscle, its in dose.muscles.items()
    }
    return {
        **ends,
        **({"muscles": muscles} if muscles else {}),
        "unit": dose.unit,
        "means": dose.means,
        "unsure": dose.unsure,
        "address": f"{PROGRAMME}#{goal}-{key}".replace("_", "-"),
    }


def _equation(id: str, equation: Equation) -> dict[str, Any]:
    return {
        "name": equation.name,
        "form": equation.form,
        "coefficients": [_number(value) for value in equation.coefficients],
        "repetitions": [_number(value) for value in equation.repetitions],
        "exercises": list(equation.exercises),
        "error": equation.error,
        "address": f"{PROGRAMME}#equation-{id}",
        **({"standard_error": equation.standard_error} if equation.standard_error else {}),
    }


def _rule(advice: Advice) -> dict[str, str]:
    return {"do": advice.do, "because": advice.because}


def _number(value: float) -> int | float:
    """Whole numbers without a point, as JavaScript writes them."""
    return int(value) if value == int(value) else value


def _retired(catalog: Catalog) -> dict[str, dict[str, str]]:
    """What a saved week may still name."""
    found = {"moved": moved_on(catalog)["exercises"], "retired": taken_out(catalog)}
    return {key: ids for key, ids in found.items() if ids}
