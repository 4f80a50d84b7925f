"""A study's values and contrasts name its own arms, and a contrast has two different sides.

Why: a number that belongs to no arm, or an arm set against itself, would vanish
from every comparison without a word.

Instead: write the names given under `arms:`. When two parts are compared within
one arm, name both with `of_part:` and `against_part:`.

Fails: studies/glow2031.yaml 7:7 10:9 11:9
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values:
          sitting: {mean: 61, sd: 12}
        contrasts:
          - {of: sitting, against: standing, test: between}
          - {of: seated, against: seated, test: between}
          - {of: seated, against: seated, of_part: lantern/long-head, test: between}

Passes: studies/glow2031.yaml
    results:
      - parts: [lantern/short-head]
        measure: surface-emg
        unit: "% MVIC"
        at: Table 2
        values:
          seated: {mean: 61, sd: 12}
        contrasts:
          - {of: seated, against: standing, test: between}
          - {of: seated, against: seated, of_part: lantern/long-head, against_part: lantern/short-head, test: between}
"""

from collections.abc import Iterator

from build_tools.catalog.walk import Path
from build_tools.checks.rule import Context, Problem, suggest


def check(context: Context) -> Iterator[Problem]:
    """Unknown arms, and contrasts of a thing with itself."""
    for study in context.catalog.studies.values():
        arms = study.data.arms
        unknown: dict[str, list[Path]] = {}
        for index, result in enumerate(study.data.results):
            here: Path = ("results", index)
            named: list[tuple[str, Path]] = [(arm, (*here, "values", arm)) for arm in result.values]
            for number, contrast in enumerate(result.contrasts):
                place = (*here, "contrasts", number)
                named += [(contrast.of, (*place, "of")), (contrast.against, (*place, "against"))]
                if (contrast.of_part is None) != (contrast.against_part is None):
                    yield Problem(
                        study.spot(*place),
                        "this contrast names one part only",
                        "give both `of_part:` and `against_part:`, or neither",
                    )
                elif (contrast.of, contrast.of_part) == (contrast.against, contrast.against_part):
                    yield Problem(
                        study.spot(*place),
                        f"this contrast sets `{contrast.of}` against itself",
                        "name another arm in `against:`, or two parts in `of_part:` and `against_part:`",
                    )
            for arm, path in named:
                if arm not in arms:
                    unknown.setdefault(arm, []).append(path)
        # Once for each name: an arm that was taken out is one slip, however often it is named.
        for arm, paths in unknown.items():
            times = f", which is named in {len(paths)} places" if len(paths) > 1 else ""
            yield Problem(
                study.spot(*paths[0], key=paths[0][-2] == "values"),
                f"this study has no arm `{arm}`{times}",
                suggest(arm, arms, f"add it under `arms:`, or write one of: {', '.join(arms)}"),
            )
