"""Every statement rests on citations or on a common-practice reason, never both, never neither.

Why: a reader must be able to tell what a source shows from what coaches hold by
habit. A statement with neither cannot be judged; a statement with both hides
which of the two carries it.

Instead: name the source and the place in it, or say in one line why coaches hold
it. What explains a claim beside its citations belongs in `because:`, what explains
a cue in `why:`.

Fails: exercises/crate-curl.yaml 2:5 6:5
    faults:
      - see: The hips slide forward.
        say: Sit back against the wall.
      - see: The heel rises.
        say: Press your heel down.
        common_practice: Seen with tired clients.
        cites: [{key: wick2030, at: abstract}]

Passes: exercises/crate-curl.yaml
    faults:
      - see: The hips slide forward.
        say: Sit back against the wall.
        common_practice: Seen with tired clients.
      - see: The heel rises.
        say: Press your heel down.
        cites: [{key: wick2030, at: abstract}]
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Statements with both kinds of basis, or with neither."""
    for statement in context.statements:
        cited, practised = bool(statement.basis.cites), statement.basis.common_practice is not None
        if cited and practised:
            yield Problem(
                statement.spot("common_practice", key=True),
                f"this {statement.called} has citations and a common-practice reason",
                "keep `cites:` if the source shows it, `common_practice:` if it does not",
            )
        elif not cited and not practised:
            yield Problem(
                statement.spot(),
                f"this {statement.called} rests on nothing",
                "add `cites: [{key: <reference>, at: <place in it>}]` or `common_practice: <why coaches hold it>`",
            )
