"""In a trial of separate groups the sizes of the arms add up to the people.

Why: the size of an arm decides how much its number weighs. A sum that is not the
number of people shows that one of them was misread.

Instead: compare both with the source. People in groups that are no arm here, and
people who left, go into `others:`.

Fails: studies/glow2031.yaml 3:13
    design: parallel
    same_people: false
    people: {n: 12}
    arms:
      seated: {exercise: crate-curl, called: seated crate curl, n: 6}
      standing: {exercise: cable-curl, called: standing cable curl, n: 7}

Fails: studies/glow2031.yaml 3:13
    design: parallel
    same_people: false
    people: {n: 18}
    arms:
      seated: {exercise: crate-curl, called: seated crate curl, n: 6}
      standing: {exercise: cable-curl, called: standing cable curl, n: 6}

Passes: studies/glow2031.yaml
    design: parallel
    same_people: false
    people: {n: 18, others: 6}
    arms:
      seated: {exercise: crate-curl, called: seated crate curl, n: 6}
      standing: {exercise: cable-curl, called: standing cable curl, n: 6}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Arms with more or fewer people than took part."""
    for study in context.catalog.studies.values():
        if study.data.same_people:
            continue
        sizes = [arm.n for arm in study.data.arms.values()]
        known = sum(size or 0 for size in sizes) + (study.data.people.others or 0)
        people = study.data.people.n
        # While a size is missing, only too many can be told.
        if known > people or None not in sizes and known != people:
            yield Problem(
                study.spot("people", "n"),
                f"{people} people, and {known} in the arms"
                + (" and elsewhere" if study.data.people.others else ""),
                "compare both with the source; who is in no arm goes into `others:`",
            )
