"""Every muscle and part that is mentioned stands in a muscle file.

Why: a misspelt part would get its own line in every list, without anatomy and
without numbers, and the real part would lose them.

Instead: write muscle/part, or the muscle's id alone for the whole muscle.

Fails: exercises/crate-curl.yaml 1:14 3:12
    set_credit: {lantern/long-haed: direct}
    emphasis:
      - part: [lamp/long-head]
        outcome: growth
        more_than: {exercise: cable-curl}
        because: The bent hip lengthens it.
        common_practice: Commonly taught in Lantern Yard.

Fails: studies/glow2031.yaml 2:13
    results:
      - parts: [lantern/shorthead]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values: {seated: {mean: 61}}

Fails: example.yaml 5:15
    clients:
      - name: Wickle
        about: Trains with a crate.
        goal: growth
        lagging: [lantern/long-haed]
        equipment: [crate]
        week:
          monday:
            - {exercise: crate-curl, sets: 3, repetitions: 8-12}

Passes: exercises/crate-curl.yaml
    set_credit: {lantern/long-head: direct}
"""

from collections.abc import Collection, Iterator
from typing import Any

from build_tools.catalog import moved
from build_tools.catalog.load import Catalog, Loaded
from build_tools.catalog.walk import Path
from build_tools.checks.names import muscle_names, plain
from build_tools.checks.rule import Context, Problem, suggest


def check(context: Context) -> Iterator[Problem]:
    """Mentions of parts that no muscle file describes."""
    catalog = context.catalog
    known = set(catalog.part_refs())
    for ref, entry, path in _mentions(context):
        muscle = ref.partition("/")[0]
        if (
            ref in known
            or muscle not in catalog.muscles
            and not context.is_absent("muscles", muscle)
        ):
            continue
        is_key = path[-2] in ("set_credit", "muscles")
        yield Problem(
            entry.spot(*path, key=is_key),
            f"there is no muscle part `{ref}`",
            moved.instead(catalog, "parts", ref)
            or (muscle not in catalog.muscles and moved.instead(catalog, "muscles", muscle))
            or _help(catalog, ref, known),
        )


def _help(catalog: Catalog, ref: str, known: Collection[str]) -> str:
    """The part that was meant, by any of its names; else what there is to choose from."""
    given, _, part = ref.partition("/")
    names = {plain(name): id for name, id in muscle_names(catalog) if id in catalog.muscles}
    muscle = given if given in catalog.muscles else names.get(plain(given))
    if muscle is None:
        return suggest(ref, known, f"muscles: {', '.join(catalog.muscles)}", muscle_names(catalog))
    parts = catalog.muscles[muscle].data.parts
    if part and (fitting := [f"`{muscle}/{id}`" for id in parts if _words(part) <= _words(id)]):
        return f"did you mean {' or '.join(fitting)}?"
    if part and muscle != given:
        return f"`{muscle}` is also called {given}; its parts: {', '.join(parts)}"
    return suggest(ref, known, f"its parts: {', '.join(parts)}", muscle_names(catalog))


def _words(text: str) -> set[str]:
    return set(plain(text).split())


#: A part named, and where.
_Mention = tuple[str, Loaded[Any], Path]


def _mentions(context: Context) -> Iterator[_Mention]:
    yield from _in_exercises(context)
    yield from _in_plans(context)
    yield from _in_studies(context)


def _in_exercises(context: Context) -> Iterator[_Mention]:
    for exercise in context.catalog.exercises.values():
        for ref in exercise.data.set_credit:
            yield ref, exercise, ("set_credit", ref)
    for statement, claim in context.claims:
        for index, ref in enumerate(claim.part):
            yield ref, statement.entry, (*statement.path, "part", index)
        if claim.relative_to:
            yield claim.relative_to, statement.entry, (*statement.path, "relative_to")
        if claim.comparator.part:
            yield claim.comparator.part, statement.entry, (*statement.path, claim.direction, "part")


def _in_plans(context: Context) -> Iterator[_Mention]:
    if programme := context.catalog.programme:
        for goal, doses in programme.data.goals.items():
            for key, dose in doses.items():
                for ref in dose.muscles:
                    yield ref, programme, ("goals", goal, key, "muscles", ref)
    if example := context.catalog.example:
        for index, client in enumerate(example.data.clients):
            for number, ref in enumerate(client.lagging):
                yield ref, example, ("clients", index, "lagging", number)
    if context.catalog.moved:
        retired = context.catalog.moved.data.retired
        for kind in type(retired).model_fields:
            for id, gone in getattr(retired, kind).items():
                for number, ref in enumerate(gone.parts):
                    yield ref, context.catalog.moved, ("retired", kind, id, "parts", number)


def _in_studies(context: Context) -> Iterator[_Mention]:
    for study in context.catalog.studies.values():
        for index, result in enumerate(study.data.results):
            here = ("results", index)
            for number, ref in enumerate(result.parts):
                yield ref, study, (*here, "parts", number)
            if result.relative_to:
                yield result.relative_to, study, (*here, "relative_to")
            for number, contrast in enumerate(result.contrasts):
                for side in ("of_part", "against_part"):
                    if ref := getattr(contrast, side):
                        yield ref, study, (*here, "contrasts", number, side)
