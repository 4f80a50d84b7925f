"""The evidence handbook generator. Data flows one way: load, check, conclude, render.

``LAYERS`` is the order of the rooms: each may import from itself and from those before it. The guide's table of
rooms and the test of layers read it from here.
"""

from __future__ import annotations

#: Room -> what it holds, from the ground up. A name without a folder is a module.
LAYERS: dict[str, str] = {
    "clock": "the day of the build",
    "collector": "how often Python looks for objects that nothing needs any more",
    "english": "small pieces of English: lists, counts, first letters",
    "catalog": "what was written: YAML and BibTeX as typed entries, each with its line and column",
    "movement": "what a posture implies: segments in space, load over the repetition, muscle lengths",
    "handout": "limits and doses of a handout, and ids that moved on",
    "checks": "whether it is sound: one rule a file, with manual, severity and reports",
    "evidence": "what the numbers say: effects, studies, the model, certainty, claims, sentences",
    "pipeline": "load, check, conclude: one function for every caller",
    "committed": "files that the build writes and people review: conclusions and addresses",
    "authoring": "help for authors: records from exports, drafts of entries, mends",
    "revisions": "what a catalog says otherwise than at another revision, and why",
    "evidence_map": "exercises by parts, each with the best kind of evidence",
    "planning": "data for finding, comparing, proposing and counting",
    "site": "pages, figures, plots, client files; ``adapter/`` alone knows MkDocs, ``folder`` writes a folder instead",
    "commands": "the subcommands of ``handbook``",
    "cli": "the ``handbook`` command",
}
