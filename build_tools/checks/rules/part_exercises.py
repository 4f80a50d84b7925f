"""Every muscle part is trained by as many exercises as the handbook promises.

Why: a page that lists one exercise for a part gives a coach no choice. How many are
enough is the convention `exercises_per_part` in handbook.yaml; without it nothing
is asked, so that a small handbook can grow.

Instead: add exercises that credit the part, or lower the convention.

Fails: muscles/lantern.yaml 12:3
    parts:
      long-head:
        {name: Long head, everyday: long lamper, crosses: [hip], does: Bends., lengthened_by: Bending.,
         facts: [{say: It is long., common_practice: It is called so.}]}
      short-head:
        name: Short head
        everyday: short lamper
        crosses: [knee]
        does: Bends the knee.
        lengthened_by: Straightening the knee.
        facts: [{say: It is short., common_practice: It is called so.}]
      third-head:
        {name: Third head, everyday: third lamper, crosses: [hip], does: Bends., lengthened_by: Bending.,
         facts: [{say: It is the third., common_practice: It is called so.}]}

Passes: muscles/lantern.yaml
    name: Lantern muscle
"""

from collections import Counter
from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem
from build_tools.english import counted


def check(context: Context) -> Iterator[Problem]:
    """Parts with too few exercises. A set for a whole muscle counts for each of its parts."""
    catalog = context.catalog
    convention = catalog.handbook.data.conventions.exercises_per_part if catalog.handbook else None
    if convention is None or not catalog.is_whole("exercises"):
        return
    trained = Counter(
        ref for exercise in catalog.exercises.values() for ref in exercise.data.set_credit
    )
    for id, muscle in catalog.muscles.items():
        for part in muscle.data.parts:
            count = trained[id] + trained[f"{id}/{part}"]
            if count < convention.value:
                yield Problem(
                    muscle.spot("parts", part, key=True),
                    f"{counted(count, 'exercise')} for `{id}/{part}`; the handbook promises {convention.value:g}",
                    "add exercises that credit it in `set_credit:`, or change `exercises_per_part` in handbook.yaml",
                )
