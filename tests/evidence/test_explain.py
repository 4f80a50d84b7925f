"""The explanation of a claim: every step's numbers are those of the engine, and one chain is worked by hand."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from textwrap import indent

import pytest

from build_tools.catalog.load import load
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.engine import Engine
from build_tools.evidence.explain.claim import by_id, explain
from build_tools.evidence.settings import settings

DEMO = Path(__file__).parents[1] / "demo" / "catalog"
SHIPPED = Path(__file__).parents[2] / "catalog"


def chain(root: Path, claim: str) -> str:
    """The explanation with every text on one line."""
    catalog = load(root, "demo")
    return re.sub(r"\n +(?=\S)", " ", explain(catalog, conclude(catalog), claim))


def test_a_chain_worked_by_hand() -> None:
    """p < 0.01, 18 people: t tables give 2.898 for 17 degrees of freedom (two-sided 0.01) and 2.110 (0.05).
    ln(1.14 / 1.09) = 0.04485; 0.04485 / 2.898 = 0.01548; 0.04485 -+ 2.110 x 0.01548 = 0.0122 and 0.0775."""
    told = chain(DEMO, "crate-curl/1")
    assert told.startswith("crate-curl/1  demo/exercises/crate-curl.yaml:11:5\n")
    for step in (
        "Cites: wick2030 (abstract)",
        "wick2030: within-participant, 18 people, 12 weeks; read: abstract",
        "demo/studies/wick2030.yaml:10:5",
        "log ratio ln(1.14 / 1.09) = 0.04485; p < 0.01 with 17 degrees of freedom gives t at least 2.898, "
        "and |0.04485| over it gives a standard error of at most 0.01548.",
        "exp(0.04485) = 1.046, from exp(0.0122) = 1.012 to exp(0.0775) = 1.081 (standard error 0.01548, t(17) = 2.11)",
        "Certainty: low",
        "at most moderate: ",
        "Verdict: shown. The estimate is 4.6% more",
    ):
        assert step in told
    catalog = load(DEMO, "demo")
    assert told.endswith(f"Certainty: low. {conclude(catalog).of('crate-curl')[0].sentence}\n")


# Every way a paper can print a result; what is laid over the demo's study of activation.
PRINTED = {
    "SDs, same people": "same_people: true\nvalues: {a: {mean: 61, sd: 12}, b: {mean: 50, sd: 11}}",
    "SEs, different people": "same_people: false\nvalues: {a: {mean: 61, se: 3.5}, b: {mean: 50, se: 2.5}}",
    "intervals": "same_people: false\nvalues: {a: {mean: 61, ci95: [55, 67]}, b: {mean: 50, ci95: [45, 55]}}",
    "medians": "same_people: false\nvalues: {a: {median: 61, quartiles: [50, 70]}, b: {median: 50, quartiles: [40, 61]}}",
    "SDs and a paired p": "same_people: true\nvalues: {a: {mean: 61, sd: 12}, b: {mean: 50, sd: 11}}\n"
    "contrasts: [{of: a, against: b, favours: of, p: 0.01, test: between}]",
    "t": "same_people: true\nvalues: {a: {mean: 61}, b: {mean: 50}}\ncontrasts: [{of: a, against: b, favours: of, t: 2.5, test: between}]",
    "p": "same_people: false\nvalues: {a: {mean: 61}, b: {mean: 50}}\n"
    "contrasts: [{of: b, against: a, favours: against, p: 0.03, test: between}]",
    "a bound on p": "same_people: true\nvalues: {a: {mean: 61}, b: {mean: 50}}\n"
    "contrasts: [{of: a, against: b, favours: of, p_below: 0.01, test: between}]",
    "a ratio with its interval": "same_people: true\n"
    "contrasts: [{of: a, against: b, favours: of, ratio: {value: 1.22, ci95: [1.05, 1.4]}, test: between}]",
    "a ratio with p": "same_people: true\ncontrasts: [{of: a, against: b, favours: of, ratio: {value: 1.22}, p: 0.004, test: between}]",
    "a difference": "same_people: true\nvalues: {a: {mean: 61}, b: {mean: 50}}\n"
    'contrasts: [{of: a, against: b, favours: of, difference: {value: 11, unit: "% MVIC", se: 4}, test: between}]',
}


def write_study(root: Path, printed: str) -> None:
    same_people, rest = printed.split("\n", 1)
    (root / "studies" / "glow2031.yaml").write_text(
        f"""\
design: within-participant
{same_people}
people: {{n: 24}}
arms:
  a: {{exercise: cable-curl, called: cable curl, n: 12}}
  b: {{exercise: crate-curl, called: crate curl, n: 12}}
results:
  - parts: [lantern/short-head]
    measure: surface-emg
    unit: "% MVIC"
    at: Table 2
{indent(rest, "    ")}
says: Invented.
""",
        encoding="utf-8",
    )


@pytest.mark.parametrize("printed", PRINTED.values(), ids=PRINTED)
def test_the_spread_in_words_is_the_spread_that_is_pooled(printed: str, tmp_path: Path) -> None:
    root = Path(shutil.copytree(DEMO, tmp_path / "catalog"))
    write_study(root, printed)
    told = chain(root, "cable-curl/1")
    words, pooled = told.split("Its own ratio:")
    said = re.findall(r"standard error (?:of )?(?:at most )?([0-9.e-]+?)[.,]?(?= |$)", words)
    assert said[-1] == re.search(r"\(standard error ([0-9.e-]+),", pooled)[1]
    ratio = conclude(load(root, "demo")).of("cable-curl")[0].comparisons[0].estimate
    assert f"(ratio {ratio.ratio:.4g}, {ratio.low:.4g} to {ratio.high:.4g})" in pooled


@pytest.mark.parametrize("root", [DEMO, SHIPPED], ids=["demo", "shipped"])
def test_every_claim_can_be_explained(root: Path) -> None:
    catalog = load(root, "catalog")
    conclusions, engine = conclude(catalog), Engine(catalog, settings(catalog))
    for id, conclusion in by_id(conclusions).items():
        told = explain(catalog, conclusions, id, engine)
        assert all(len(line) <= 100 for line in told.splitlines())
        flat = " ".join(told.split())
        assert " ".join(conclusion.sentence.split()) in flat and conclusion.verdict in flat
        for comparison in conclusion.comparisons:
            assert all(row.study in flat for row in comparison.rows)
            assert all(
                " ".join(step.reason.split()) in flat
                for step in (comparison.certainty.steps if comparison.certainty else ())
            )


def test_several_studies_show_how_they_differ_and_meet(tmp_path: Path) -> None:
    """Three studies of one contrast: two contrasts more than a line needs, REML's tau², Q and the interval's rule are named."""
    root = Path(shutil.copytree(DEMO, tmp_path / "catalog"))
    write_study(root, PRINTED["SDs, same people"])
    study = (root / "studies" / "glow2031.yaml").read_text()
    records = (root / "references.bib").read_text()
    [record] = [r for r in re.split(r"(?m)^(?=@)", records) if "{glow2031," in r]
    for number, mean in ((2, 40), (3, 75)):
        (root / "studies" / f"glow203{number}.yaml").write_text(
            study.replace("mean: 50", f"mean: {mean}")
        )
        records += "\n" + record.replace("glow2031", f"glow203{number}")
    (root / "references.bib").write_text(records)
    told = chain(root, "cable-curl/1")
    assert "3 samples connect 2 exercises, with 2 contrasts more than that takes" in told
    assert re.search(
        r"tau² = 0\.\d+ by restricted maximum likelihood; Q = [\d.]+ with 2 degrees of freedom, p = \S+; "
        r"I² = \(Q − df\) / Q = \d+%",
        told,
    )
    assert "A new study would be expected between" in told
