"""What must hold of a whole catalog, the shipped one and 500 made ones: nothing outside the project is needed, the demand is the check.

- What a study says does not hang on the order of its file, nor on a last digit, nor on who stands first in a question.
- Certainty never rises when numbers are dropped, and a further study that agrees never weakens what was found.
- A null pulls towards no difference, a significant report never away from its side.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from math import log
from typing import Any

import pytest
from catalogs import LONG, A, B, C, answer, engine, growth, result, study

from build_tools.catalog.entries import Contrast, Moment, Result, Study, Value
from build_tools.catalog.load import Catalog, Loaded
from build_tools.committed import files as committed
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Comparison, Conclusions
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.settings import settings
from build_tools.evidence.terms import LEVELS, Question
from build_tools.movement.length.length import MeanLengths

Data = dict[str, Any]
#: How many made catalogs certainty is tried on, and how many the other properties.
MADE, FEWER = 500, 150
TURNED = {"more": "less", "less": "more", None: None}


def texts(found: Conclusions, catalog: Catalog) -> dict[str, str]:
    return dict(committed.files(found, catalog))


def rewritten(
    catalog: Catalog, change: Callable[[Study], Study], keys: list[str] | None = None
) -> Catalog:
    """The catalog with every study changed, in the order of ``keys``."""
    return replace(
        catalog,
        studies={
            key: Loaded(key, change(catalog.studies[key].data), catalog.studies[key].source)
            for key in keys or list(catalog.studies)
        },
    )


# --- the shipped catalog ----------------------------------------------------------------------------------------------


def turned(contrast: Contrast) -> Contrast:
    """The same contrast written the other way round, where nothing printed has a sign."""
    if contrast.t is not None or contrast.difference or contrast.ratio or contrast.standardised:
        return contrast
    other = {"of": "against", "against": "of"}.get(contrast.favours or "", contrast.favours)
    return contrast.model_copy(
        update={
            "of": contrast.against,
            "against": contrast.of,
            "of_part": contrast.against_part,
            "against_part": contrast.of_part,
            "favours": other,
        }
    )


def shuffled(study: Study, dice: random.Random) -> Study:
    def mixed(items: list) -> list:
        return dice.sample(items, len(items))

    def of(result: Result) -> Result:
        contrasts = [turned(c) if dice.random() < 0.5 else c for c in mixed(result.contrasts)]
        values = dict(mixed(list(result.values.items())))
        return result.model_copy(update={"values": values, "contrasts": contrasts})

    arms, results = dict(mixed(list(study.arms.items()))), mixed([of(r) for r in study.results])
    return study.model_copy(update={"arms": arms, "results": results})


def test_shuffling_files_arms_results_and_contrasts_changes_no_byte(
    shipped: Catalog, concluded: Conclusions
) -> None:
    dice = random.Random(13)
    keys = dice.sample(list(shipped.studies), len(shipped.studies))
    again = conclude(rewritten(shipped, lambda s: shuffled(s, dice), keys), MeanLengths(shipped))
    first, second = texts(concluded, shipped), texts(again, shipped)
    for path in first:
        assert first[path] == second[path], path


def moved(study: Study, dice: random.Random, by: float) -> Study:
    """Every printed number a little off, relative to itself."""

    def off(x: Any) -> Any:
        if isinstance(x, float):
            return x * (1 + by * dice.choice((-1, 1)))
        if isinstance(x, tuple | list):
            return type(x)(off(item) for item in x)
        return x

    def value(v: Value | Moment) -> Value | Moment:
        told = {
            name: off(getattr(v, name))
            for name in type(v).model_fields
            if name not in ("n", "pre", "post")
        }
        for name in ("pre", "post"):
            if getattr(v, name, None):
                told[name] = value(getattr(v, name))
        return v.model_copy(update=told)

    def contrast(c: Contrast) -> Contrast:
        told = {name: off(getattr(c, name)) for name in ("t", "p", "p_below", "p_above")}
        return c.model_copy(update=told)

    def of(r: Result) -> Result:
        return r.model_copy(
            update={
                "values": {arm: value(v) for arm, v in r.values.items()},
                "contrasts": [contrast(c) for c in r.contrasts],
            }
        )

    return study.model_copy(update={"results": [of(r) for r in study.results]})


def test_no_finding_is_decided_by_a_last_digit(shipped: Catalog, concluded: Conclusions) -> None:
    """Every number moved by a part in a million millions: no finding, no certainty, no claim moves."""
    dice = random.Random(7)
    again = conclude(rewritten(shipped, lambda s: moved(s, dice, 1e-12)), MeanLengths(shipped))
    for topic, field in concluded.fields.items():
        for one, two in zip(field.comparisons, again.fields[topic].comparisons, strict=True):
            assert (one.finding, one.side, level(one)) == (two.finding, two.side, level(two)), (
                one.question
            )
    assert [c.finding for claims in concluded.claims.values() for c in claims] == [
        c.finding for claims in again.claims.values() for c in claims
    ]


def level(comparison: Comparison) -> int:
    return LEVELS.index(comparison.certainty.level) if comparison.certainty else -1


def bare(study: Study) -> Study:
    """Without any number: what was tested, and which way it went, is all that is left."""

    def of(r: Result) -> Result | None:
        contrasts = [
            c.model_copy(
                update={
                    name: None
                    for name in (
                        "t",
                        "p",
                        "p_below",
                        "p_above",
                        "ratio",
                        "difference",
                        "standardised",
                    )
                }
            )
            for c in r.contrasts
            if c.favours
        ]
        return r.model_copy(update={"values": {}, "contrasts": contrasts}) if contrasts else None

    return study.model_copy(update={"results": [r for r in map(of, study.results) if r]})


def test_a_catalog_without_its_numbers_is_nowhere_surer(
    shipped: Catalog, concluded: Conclusions
) -> None:
    made = Engine(rewritten(shipped, bare), settings(shipped))
    seen = 0
    for field in concluded.fields.values():
        for comparison in field.comparisons:
            if comparison.finding == "not studied":
                continue
            again = made.comparison(comparison.question)
            if again.measured != comparison.measured:  # another measurement answers now
                continue
            seen += 1
            assert level(again) <= level(comparison), comparison.question
            assert (
                again.finding != "found"
                or comparison.finding != "unclear"
                or again.directions.total
            )
    assert seen > 300


def test_every_published_interval_is_kept(shipped: Catalog, concluded: Conclusions) -> None:
    """A row's own interval leaves out no difference only where its own test did, and the other way round (tested rows)."""
    rows = [
        row
        for field in concluded.fields.values()
        for comparison in field.comparisons
        for row in comparison.rows
        if row.estimate and row.stated and row.direction == "neither"
    ]
    assert rows
    for row in rows:
        assert row.estimate.low <= 1 + 1e-6 and row.estimate.high >= 1 - 1e-6, (
            row.study,
            row.estimate,
        )


def test_the_other_side_of_every_shipped_question_mirrors(
    shipped: Catalog, concluded: Conclusions
) -> None:
    made = Engine(shipped, settings(shipped))
    for field in list(concluded.fields.values())[::4]:
        for forth in field.comparisons:
            asked = forth.question
            back = made.comparison(replace(asked, first=asked.second, second=asked.first))
            assert mirrored(forth, back), asked


def mirrored(forth: Comparison, back: Comparison) -> bool:
    same = (
        (back.finding, back.side, level(back)) == (forth.finding, TURNED[forth.side], level(forth))
        and (back.studies, back.people, back.path) == (forth.studies, forth.people, forth.path)
        and back.directions.more == forth.directions.less
        and (back.estimate is None) == (forth.estimate is None)
    )
    if not same or forth.estimate is None or back.estimate is None:
        return same
    one, two = forth.estimate, back.estimate
    ends = zip((one.ratio, one.low, one.high), (two.ratio, two.high, two.low), strict=True)
    return all(abs(log(a) + log(b)) < 1e-9 for a, b in ends)


# --- 500 made catalogs ------------------------------------------------------------------------------------------------


def made_study(dice: random.Random, outcome: str) -> Data:
    """One study of two exercises: spreads, a test of numbers, numbers alone or a direction alone."""
    n = dice.randint(6, 40)
    same = dice.random() < 0.6
    kind = dice.choice(
        ["spreads", "spreads and test", "test", "bound", "null", "numbers", "direction"]
    )
    middle = dice.gauss(0, 0.25 if outcome == "activation" else 0.05)
    if outcome == "activation":
        means = [50.0 * (1 + max(-0.8, middle)), 50.0]
        spread, key, make = dice.uniform(5, 20), "mean", result
    else:
        means = [8 + 100 * middle, 8.0]
        spread, key, make = dice.uniform(2, 9), "change_percent", growth
    if round(means[0], 2) == means[1]:
        means[0] += 0.5
    values = {arm: {key: round(m, 2)} for arm, m in zip("ab", means, strict=True)}
    if kind.startswith("spreads"):
        for told in values.values():
            told["sd"] = round(spread, 2)
    ahead = "of" if means[0] > means[1] else "against"
    told: Data = {"of": "a", "against": "b"}
    if kind in ("test", "spreads and test"):
        p = round(dice.uniform(0.001, 0.9), 3)
        told |= {"p": p, "favours": ahead if p < 0.05 else "neither"}
    elif kind == "bound":
        told |= {"p_below": 0.05, "favours": ahead}
    elif kind == "null":
        told |= {"p_above": 0.05, "favours": "neither"}
    elif kind == "direction":
        told |= {"favours": dice.choice([ahead, "neither"])}
        values = {}
    contrasts = [told] if "favours" in told else None
    sizes = None if same else {"a": n, "b": n}
    return study([make(values or None, contrasts)], same=same, n=n if same else 2 * n, sizes=sizes)


def made_catalog(seed: int) -> tuple[dict[str, Data], str]:
    dice = random.Random(seed)
    outcome = dice.choice(["activation", "growth"])
    return {
        f"s{k}": made_study(dice, outcome) for k in range(dice.choice([1, 1, 1, 2, 3, 5]))
    }, outcome


def stripped(data: Data) -> Data:
    """Without numbers; a significant exact p stays as the direction that was tested."""
    [told] = data["results"]
    contrasts = [
        {k: v for k, v in c.items() if k in ("of", "against", "test", "favours")}
        for c in told.get("contrasts", [])
    ]
    kept = {k: v for k, v in told.items() if k not in ("values", "contrasts")}
    return data | {"results": [kept | {"contrasts": contrasts}] if contrasts else []}


def asked(studies: Mapping[str, Data], outcome: str) -> Comparison:
    return answer(studies, outcome=outcome)


def slices(made: int) -> pytest.MarkDecorator:
    """The seeds in ten parts, so that a failure is near its case."""
    parts = [range(start, made, 10) for start in range(10)]
    return pytest.mark.parametrize("seeds", parts, ids=lambda part: f"from {part.start}")


some = slices(FEWER)


@slices(MADE)
def test_dropping_numbers_never_raises_certainty(seeds):
    """Of all studies, and of any one that has half of the people or more. Of fewer a missing spread is said and not charged
    (``imprecision-unknown``), so hiding how far a small study lies from the others can hide that they differ."""
    for seed in seeds:
        studies, outcome = made_catalog(seed)
        full = level(asked(studies, outcome))
        people = sum(data["people"]["n"] for data in studies.values())
        most = [key for key, data in studies.items() if 2 * data["people"]["n"] >= people]
        for dropped in ([*studies], *([key] for key in most)):
            left = {k: stripped(d) if k in dropped else d for k, d in studies.items()}
            left = {k: d for k, d in left.items() if d["results"]}
            if len(left) == len(studies):
                # A study whose side is clear may go on showing it; what differs between studies is then no longer seen.
                assert level(asked(left, outcome)) <= max(full, 0), (seed, dropped)


@slices(MADE)
def test_a_spread_that_is_not_printed_never_makes_it_surer(seeds):
    """Only the spreads dropped: numbers and tests stay."""
    for seed in seeds:
        studies, outcome = made_catalog(seed)
        if not any(
            "sd" in v for d in studies.values() for v in d["results"][0].get("values", {}).values()
        ):
            continue
        left = {}
        for key, data in studies.items():
            [told] = data["results"]
            values = {
                arm: {k: x for k, x in v.items() if k != "sd"}
                for arm, v in told.get("values", {}).items()
            }
            left[key] = data | {"results": [told | ({"values": values} if values else {})]}
        assert level(asked(left, outcome)) <= level(asked(studies, outcome)), seed


@some
def test_a_further_agreeing_study_never_weakens_a_finding(seeds):
    """The study that is there, once more with other people."""
    rank = {"not studied": 0, "unclear": 1, "hinted": 2, "alike": 3, "found": 4}
    for seed in seeds:
        dice = random.Random(seed)
        outcome = dice.choice(["activation", "growth"])
        data = made_study(dice, outcome)
        found = [asked({f"s{k}": data for k in range(times)}, outcome) for times in (1, 2, 3)]
        for one, more in zip(found, found[1:], strict=False):
            if one.finding in ("found", "hinted"):
                assert more.side == one.side or more.finding == "alike", seed
                assert rank[more.finding] >= rank[one.finding], seed
            if one.certainty:
                assert level(more) >= level(one), seed


@some
def test_null_and_significant_reports_pull_their_way(seeds):
    for seed in seeds:
        studies, outcome = made_catalog(seed)
        plain = engine(studies).weighing(Question(A, B, LONG, outcome))
        if plain is None:
            continue
        make = result if outcome == "activation" else growth
        for favours, way in (("of", 1), ("against", -1), ("neither", 0)):
            bare_ = study([make(None, [{"of": "a", "against": "b", "favours": favours}])], n=20)
            then = engine(studies | {"zz": bare_}).weighing(Question(A, B, LONG, outcome)).posterior
            now = plain.posterior
            if way:
                assert way * (then.mean - now.mean) >= -1e-6 * now.sd, seed
            elif plain.sized:
                # Of studies that differ, a null also says that they differ less, and so weighs them anew.
                room = 1e-6 if len(studies) == 1 else 0.1
                assert abs(then.mean) <= abs(now.mean) + room * now.sd, seed


@some
def test_sides_and_order(seeds):
    for seed in seeds:
        studies, outcome = made_catalog(seed)
        made = engine(studies)
        forth = made.comparison(Question(A, B, LONG, outcome))
        assert mirrored(forth, made.comparison(Question(B, A, LONG, outcome))), seed
        again = asked(dict(reversed(studies.items())), outcome)
        assert again == forth, seed


@some
def test_units_change_nothing(seeds):
    """Tenfold levels of activation (another unit), and growth from 100 times the size."""
    for seed in seeds:
        studies, outcome = made_catalog(seed)
        if outcome != "activation":
            continue
        scaled = {}
        for key, data in studies.items():
            [told] = data["results"]
            values = {
                arm: {k: 10 * x for k, x in v.items()} for arm, v in told.get("values", {}).items()
            }
            scaled[key] = data | {
                "results": [told | {"unit": "mV"} | ({"values": values} if values else {})]
            }
        one, two = asked(studies, outcome), asked(scaled, outcome)
        assert (one.finding, one.side, level(one)) == (two.finding, two.side, level(two)), seed
        if one.estimate:
            assert two.estimate.ratio == pytest.approx(one.estimate.ratio, rel=1e-9)
            assert two.estimate.high == pytest.approx(one.estimate.high, rel=1e-6)


def test_growth_from_millimetres_centimetres_per_cent_and_a_difference():
    """One change of 5 from 50, its SD 3, told four ways: in one unit, in another, in per cent, by before and change."""
    groups: Data = {"same": False, "n": 24, "sizes": {"a": 12, "b": 12}}
    told = [
        (
            {"pre": {"mean": 50.0}, "change": 5.0, "sd": 3.0},
            {"pre": {"mean": 50.0}, "change": 2.0, "sd": 3.0},
            "cm3",
        ),
        (
            {"pre": {"mean": 5.0}, "change": 0.5, "sd": 0.3},
            {"pre": {"mean": 5.0}, "change": 0.2, "sd": 0.3},
            "l",
        ),
        ({"change_percent": 10.0, "sd": 6.0}, {"change_percent": 4.0, "sd": 6.0}, "%"),
    ]
    answers = [
        answer({"one": study([growth({"a": a, "b": b}, unit=unit)], **groups)}, outcome="growth")
        for a, b, unit in told
    ]
    for other in answers[1:]:
        assert other.estimate.ratio == pytest.approx(answers[0].estimate.ratio, rel=1e-9)
        assert other.estimate.low == pytest.approx(answers[0].estimate.low, rel=1e-9)
    assert answers[0].estimate.ratio == pytest.approx(1.1 / 1.04, rel=1e-3)


def test_numbers_that_no_page_should_believe_are_listed_with_words():
    """Fractions for per cent, and a level lost in its own spread; a ratio of gains is found by the check ``study-sizes``."""
    fractions = {
        "a": {"change_percent": 0.18, "sd": 0.05},
        "b": {"change_percent": 0.11, "sd": 0.05},
    }
    near = {"a": {"mean": 5.0, "sd": 12.0}, "b": {"mean": 20.0, "sd": 12.0}}
    for told, outcome, words in (
        (growth(fractions), "growth", "its numbers cannot be weighed"),
        (result(near), "activation", "within three standard errors of zero"),
    ):
        comparison = answer({"one": study([told])}, outcome=outcome)
        [row] = comparison.rows
        assert comparison.finding == "not studied" and words in row.how
    third = {"one": study([result(near | {"c": near["b"]})], {"a": A, "b": B, "c": C})}
    assert answer(third, B, C).estimate is not None, "what is sound beside it is weighed"
