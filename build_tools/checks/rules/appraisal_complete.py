"""A study that is appraised answers every question of its design, and no other.

Why: the risk of bias is computed from the answers. A question that is left out is the one
that would have spoken against the study.

Instead: answer each question that the vocabulary asks of the design; `not stated` when
what was read is silent.

Fails: studies/wick2030.yaml 1:1
    appraisal:
      fair-lamp: {answer: yes, because: The lamp was drawn by lot., at: abstract}

Fails: studies/wick2030.yaml 4:3
    design: parallel
    appraisal:
      fair-lamp: {answer: not stated, at: abstract}
      told-all: {answer: yes, because: Both are told., at: abstract}

Passes: studies/wick2030.yaml
    appraisal:
      fair-lamp: {answer: yes, because: The lamp was drawn by lot., at: abstract}
      told-all: {answer: not stated, at: abstract}
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem
from build_tools.english import listed


def check(context: Context) -> Iterator[Problem]:
    """Appraisals with questions left out, or with questions of another design."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None:
        return
    for study in context.catalog.studies.values():
        if study.data.appraisal is None:
            continue
        asked = vocabulary.data.asked_of(study.data.design)
        left_out = [f"`{id}`" for id in asked if id not in study.data.appraisal]
        if left_out:
            yield Problem(
                study.spot("appraisal", key=True),
                f"this appraisal leaves out {listed(left_out)}",
                "answer every question of the design; write `answer: not stated` when what was read is silent",
            )
        for id in study.data.appraisal:
            if id in vocabulary.data.appraisal_questions and id not in asked:
                yield Problem(
                    study.spot("appraisal", id, key=True),
                    f"`{id}` is not asked of a `{study.data.design}` study",
                    "leave it out, or give the question this design in the vocabulary",
                )
