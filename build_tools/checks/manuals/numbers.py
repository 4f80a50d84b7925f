"""Manuals of what only the numbers can show, and what the committed files must be.

``handbook check`` reckons nothing, so it never reports these: ``handbook conclude``, ``handbook
addresses`` and the site do. They stand here because every id has its severity and its exceptions here.
"""

from __future__ import annotations

from .manual import Manual, read_manual

#: Found while the numbers are weighed. These can be let through by an exception.
NUMBERS: dict[str, Manual] = {
    "contradicted-claim": read_manual("""
        A claim that the numbers contradict says why it stands.

        Why: What was clearly found, over all studies or by the model of lengths, lies on the other side; printed as it is, the
        claim would teach the opposite of it. A hint, or numbers that allow either, contradict nothing.

        Instead: Turn the claim round or take it out; when there is a reason to keep it, add `disputed:` with that reason.

        Fails: exercises/crate-curl.yaml 2:5
            emphasis:
              - part: [lantern/long-head]
                outcome: length
                less_than: {exercise: cable-curl}
                because: The knee is bent more.
                cites: [{key: wick2030, at: abstract}]

        Passes: exercises/crate-curl.yaml
            emphasis:
              - part: [lantern/long-head]
                outcome: length
                less_than: {exercise: cable-curl}
                because: The knee is bent more.
                disputed: The model knows no crates.
                cites: [{key: wick2030, at: abstract}]
        """),
    "needless-dispute": read_manual("""
        A claim is disputed only while the numbers contradict it.

        Why: The page says that what was found lies on the other side, which is untrue once the numbers have moved.

        Instead: Remove `disputed:`; if its reason still matters to a reader, say it in `because:`.

        Fails: exercises/crate-curl.yaml 6:3
            emphasis:
            - part: [lantern/long-head]
              outcome: growth
              more_than: {exercise: cable-curl}
              because: The bent hip lengthens the part that crosses it.
              disputed: The trial used a crate of another height.
              cites: [{key: wick2030, at: abstract}]

        Passes: exercises/crate-curl.yaml
            emphasis:
            - part: [lantern/long-head]
              outcome: growth
              more_than: {exercise: cable-curl}
              because: The bent hip lengthens the part that crosses it.
              cites: [{key: wick2030, at: abstract}]
        """),
    "cited-without-numbers": read_manual("""
        A study cited for a claim has numbers, or a stated direction, for that contrast in the catalog.

        Why: The sentence on the page counts what the studies report; a citation without numbers looks like support and is not counted.

        Instead: Add what the study reports on this contrast to its file in studies/, or cite a study that has it.

        Fails: exercises/crate-curl.yaml 6:13
            emphasis:
              - part: [lantern]
                outcome: growth
                more_than: {exercise: cable-curl}
                because: The bent hip lengthens a part of it.
                cites: [{key: wick2030, at: abstract}]

        Passes: exercises/crate-curl.yaml
            emphasis:
              - part: [lantern/long-head]
                outcome: growth
                more_than: {exercise: cable-curl}
                because: The bent hip lengthens the part that crosses it.
                cites: [{key: wick2030, at: abstract}]
        """),
    "unusable-number": read_manual("""
        Numbers that give a spread agree with each other.

        Why: A mean outside its own interval, or a t that points the other way, is a slip of the pen; weighed as it stands, it
        would move the conclusion.

        Instead: Compare the number with the paper; what the paper itself misprints is left out, with a note.

        Fails: studies/glow2031.yaml 2:5
            results:
              - parts: [lantern/short-head]
                measured: part
                measure: surface-emg
                unit: "% MVIC"
                at: Table 2
                values:
                  seated: {mean: -61, sd: 12}
                  standing: {mean: 60, sd: 11}

        Passes: studies/glow2031.yaml
            results:
              - parts: [lantern/short-head]
                measured: part
                measure: surface-emg
                unit: "% MVIC"
                at: Table 2
                values:
                  seated: {mean: 61, sd: 12}
                  standing: {mean: 60, sd: 11}
        """),
}

#: Found in the files that commands write and people commit. A generated file takes no exception.
COMMITTED: dict[str, Manual] = {
    "stale-conclusions": Manual(
        "The committed conclusions are those that the catalog gives.",
        "A pull request shows what a study changes only if the files under conclusions/ are written anew with it.",
        "Run `handbook conclude`, read the difference, and commit it with the change that caused it.",
        (),
        (),
    ),
    "stale-schemas": Manual(
        "What editors complete is what the catalog holds.",
        "Whoever writes an entry is offered equipment, parts and studies that are gone, and misses those that came.",
        "Run `handbook conclude` and commit what it writes; a catalog without the folder .schemas is asked for nothing.",
        (),
        (),
    ),
    "change-record": Manual(
        "The record of moved statements has its days in order and names what was published.",
        "Readers follow it, and feed readers keep it: a day that moves, or a link to nothing, cannot be taken back.",
        "Leave changes.yaml to `handbook conclude`; after a merge keep both sides' days and run it. Only `note:` is written by hand.",
        (),
        (),
    ),
    "dead-address": Manual(
        "An address that was published answers for good.",
        "It stands in a client's chat, on a printed code and in other people's texts, where nobody can mend it.",
        "Name its living successor in moved.yaml; its old address then leads there. Without a successor it stands under `retired:` with "
        "the reason; its old address then tells it. Or bring the entry back.",
        (),
        (),
    ),
    "address-list": Manual(
        "The list of published addresses is whole.",
        "Only an address that is listed in addresses.txt can be missed once it is gone.",
        "Run `handbook addresses` and commit what it writes; it adds lines and takes none out.",
        (),
        (),
    ),
}
