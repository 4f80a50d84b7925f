"""Words of closed lists (equipment, concerns, joints, measures and others) stand in the vocabulary.

Why: the finder filters by these words and the movement and evidence engines read
them; a word outside the closed list is found by nobody.

Instead: use the id of the term that fits, or add a new term to vocabulary.yaml.

Fails: exercises/crate-curl.yaml 1:13 3:13 4:19 6:29
    equipment: [crates]
    movement:
      position: sitting
      from: {hip: 90, nee: 0}
      to: {hip: 90, knee: 100}
      load: {kind: machine, at: ankel}

Fails: studies/glow2031.yaml 1:9 4:14
    design: within-participants
    results:
      - parts: [lantern/short-head]
        measure: emg
        unit: "% MVIC"
        at: Table 2
        values: {seated: {mean: 61}}

Fails: studies/glow2031.yaml 2:43
    arms:
      seated: {exercise: crate-curl, version: lower-haf, called: seated crate curl}
      standing: {exercise: cable-curl, called: standing cable curl}

Fails: exercises/crate-curl.yaml 4:10 7:12
    movement:
      position: standing
      from: {hip: 90}
      via: [{hp: 40}]
      to: {hip: 90}
      other:
        from: {kne: 5}
        to: {knee: 5}
      load: {kind: machine, at: ankle}

Fails: exercises/crate-curl.yaml 3:22
    cautions:
      - who: Anyone with a sore knee today.
        concerns: [knee, sore-nee]
        instead: Bend only as far as it feels fine.
        stop_if: The knee hurts sharply or gives way.
        ask: Ask a licensed physiotherapist or doctor.
        common_practice: The usual care with a painful joint.

Fails: muscles/lantern.yaml 1:9
    region: lamps

Fails: vocabulary.yaml 3:81
    positions:
      standing: {name: Standing, rests_on: {feet: 0}, fixes: foot}
      seated: {name: Seated, rests_on: {seat: 0.45}, fixes: thigh, at: 90, angles: {nee: 90}}
      standing-tall: {name: Standing tall, rests_on: {feet: 0}, fixes: trunk}

Fails: programme.yaml 4:25
    careful:
      lamp-keepers:
        name: Keepers of old lamps
        concerns: [balance, sore-nee]
        advice:
          - {do: Start with a small lamp., because: Old lamps are heavy., common_practice: An invented rule.}
        ask: Ask a licensed physiotherapist or doctor.

Fails: vocabulary.yaml 3:85 8:60
    positions:
      standing: {name: Standing, rests_on: {feet: 0}, fixes: foot}
      seated: {name: Seated, rests_on: {seat: 0.45}, fixes: thigh, at: 90, care: [knee, nee]}
      standing-tall: {name: Standing tall, rests_on: {feet: 0}, fixes: trunk}
    concerns:
      balance: {name: Unsteady balance}
      operation: {name: Operation}
      knee: {name: Knee, wording: [{in: [instead], positions: [sitting], one_of: [wait], because: write wait}]}

Fails: example.yaml 6:17 7:13
    clients:
      - name: Wickle
        about: Trains with a crate.
        goal: growth
        lagging: [lantern/long-head]
        equipment: [crates]
        avoid: [nee]
        week:
          monday:
            - {exercise: crate-curl, sets: 3, repetitions: 8-12}

Fails: studies/glow2031.yaml 2:3
    appraisal:
      fare-lamp: {answer: yes, because: The lamp was drawn by lot., at: Table 2}
      fair-lamp: {answer: yes, because: The lamp was drawn by lot., at: Table 2}
      told-all: {answer: not stated, at: Table 2}

Fails: vocabulary.yaml 2:54
    appraisal_questions:
      fair-lamp: {asks: "Was the lamp drawn?", designs: [paralel], decides: true, common_practice: Invented.}
      told-all: {asks: "Is every lamp told of?", designs: [within-participant], common_practice: Invented.}

Fails: exercises/crate-curl.yaml 1:18
    version_ranges: {lower-haf: [0, 0.5]}

Fails: exercises/crate-curl.yaml 5:15 6:11
    movement:
      position: standing
      from: {hip: 90}
      to: {hip: 100}
      hand_width: lamp-wise
      stance: crate-wise
      load: {kind: free-weight, at: hand}

Passes: exercises/crate-curl.yaml
    equipment: [crate]
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from build_tools.catalog.entries import Wording
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import Path
from build_tools.checks.names import term_names
from build_tools.checks.rule import Context, Problem, suggest
from build_tools.movement.posture.limits import named_angles


def check(context: Context) -> Iterator[Problem]:
    """Words that their closed list does not hold."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None:
        return
    called: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for kind, id, name, _ in term_names(vocabulary.data):
        called[kind].append((name, id))
    for kind, word, entry, path in _words(context):
        known = getattr(vocabulary.data, kind)
        if word not in known:
            yield Problem(
                entry.spot(*path, key=path[-1] == word),
                f"there is no `{word}` among the {kind.replace('_', ' ')} of the vocabulary",
                suggest(word, known, f"write one of: {', '.join(known)}", called[kind]),
            )


#: A list of terms, a term used, and where.
_Word = tuple[str, str, Loaded[Any], Path]


def _words(context: Context) -> Iterator[_Word]:
    yield from _in_vocabulary(context)
    yield from _in_exercises(context)
    yield from _in_plans(context)
    yield from _in_muscles(context)


def _in_vocabulary(context: Context) -> Iterator[_Word]:
    vocabulary = context.catalog.vocabulary
    if not vocabulary:
        return
    for kind in ("positions", "load_points"):
        for id, term in getattr(vocabulary.data, kind).items():
            for joint in term.angles:
                yield "joints", joint, vocabulary, (kind, id, "angles", joint)
    for id, position in vocabulary.data.positions.items():
        for index, concern in enumerate(position.care):
            yield "concerns", concern, vocabulary, ("positions", id, "care", index)
    for id, question in vocabulary.data.appraisal_questions.items():
        for index, design in enumerate(question.designs):
            yield "designs", design, vocabulary, ("appraisal_questions", id, "designs", index)
    demands: list[tuple[Path, Wording]] = [
        (("caution_wording", n), demand) for n, demand in enumerate(vocabulary.data.caution_wording)
    ]
    demands += [
        (("concerns", id, "wording", n), demand)
        for id, term in vocabulary.data.concerns.items()
        for n, demand in enumerate(term.wording)
    ]
    for path, demand in demands:
        for index, id in enumerate(demand.positions):
            yield "positions", id, vocabulary, (*path, "positions", index)


def _in_exercises(context: Context) -> Iterator[_Word]:
    for exercise in context.catalog.exercises.values():
        for index, id in enumerate(exercise.data.equipment):
            yield "equipment", id, exercise, ("equipment", index)
        for id in exercise.data.version_ranges:
            yield "versions", id, exercise, ("version_ranges", id)
        movement = exercise.data.movement
        yield "positions", movement.position, exercise, ("movement", "position")
        for where, angles in named_angles(movement):
            for joint in angles:
                yield "joints", joint, exercise, ("movement", *where, joint)
        for kind, word in (("hand_widths", movement.hand_width), ("stances", movement.stance)):
            if word:
                yield kind, word, exercise, ("movement", kind[:-1])
        if movement.load.at:
            yield "load_points", movement.load.at, exercise, ("movement", "load", "at")
        for number, caution in enumerate(exercise.data.cautions):
            for index, id in enumerate(caution.concerns):
                yield "concerns", id, exercise, ("cautions", number, "concerns", index)


def _in_plans(context: Context) -> Iterator[_Word]:
    if programme := context.catalog.programme:
        for group, careful in programme.data.careful.items():
            for index, id in enumerate(careful.concerns):
                yield "concerns", id, programme, ("careful", group, "concerns", index)
    if example := context.catalog.example:
        for number, client in enumerate(example.data.clients):
            for index, id in enumerate(client.equipment):
                yield "equipment", id, example, ("clients", number, "equipment", index)
            for index, id in enumerate(client.avoid):
                yield "concerns", id, example, ("clients", number, "avoid", index)


def _in_muscles(context: Context) -> Iterator[_Word]:
    for muscle in context.catalog.muscles.values():
        yield "regions", muscle.data.region, muscle, ("region",)
        for id, part in muscle.data.parts.items():
            for index, joint in enumerate(part.crosses):
                yield "joints", joint, muscle, ("parts", id, "crosses", index)
    for study in context.catalog.studies.values():
        yield "designs", study.data.design, study, ("design",)
        for id in study.data.appraisal or {}:
            yield "appraisal_questions", id, study, ("appraisal", id)
        for id, arm in study.data.arms.items():
            if arm.version:
                yield "versions", arm.version, study, ("arms", id, "version")
        for index, result in enumerate(study.data.results):
            yield "measures", result.measure, study, ("results", index, "measure")
