"""Typed entries: what one may write in each kind of catalog file.

These models say what a file may *contain*; whether the content is sound is the
business of ``build_tools.checks``. Every field has a description, because the
JSON Schema that editors use for completion is made from these classes.

Units: angles in degrees (clinical convention, 0 = anatomical position, flexion
positive), durations in weeks, ages in years, ``change_percent`` in per cent of
the value before training, everything else in the unit its field states.
"""

from .base import (
    ID_PATTERN,
    KEY_PATTERN,
    PLAIN,
    Basis,
    Citation,
    ContactPoint,
    Entry,
    Fact,
    Id,
    Interval,
    Key,
    Line,
    Name,
    Outcome,
    PartRef,
    Positive,
)
from .exercise import Anchor, AuthoredCertainty, Caution, Claim, Comparator, Cue, Cues, Exercise, Fault, Load, Movement, OtherLimb
from .muscle import Muscle, Part
from .study import Appraisal, Arm, Contrast, Difference, Moment, People, Ratio, Result, Spread, Standardised, Study, Value
from .whole import (
    Convention,
    Conventions,
    Design,
    Exception_,
    Exceptions,
    Handbook,
    Joint,
    LoadPoint,
    Measure,
    Moved,
    Notice,
    Owner,
    Position,
    Term,
    Vocabulary,
)

__all__ = [
    "Anchor",
    "Appraisal",
    "AuthoredCertainty",
    "Arm",
    "Basis",
    "Caution",
    "Citation",
    "Claim",
    "Comparator",
    "ContactPoint",
    "Contrast",
    "Convention",
    "Conventions",
    "Cue",
    "Cues",
    "Design",
    "Difference",
    "Entry",
    "Exception_",
    "Exceptions",
    "Exercise",
    "Fact",
    "Fault",
    "Handbook",
    "ID_PATTERN",
    "Id",
    "Interval",
    "Joint",
    "KEY_PATTERN",
    "Key",
    "Line",
    "Load",
    "LoadPoint",
    "Measure",
    "Moment",
    "Moved",
    "Movement",
    "Muscle",
    "Name",
    "Notice",
    "OtherLimb",
    "Outcome",
    "Owner",
    "PLAIN",
    "Part",
    "PartRef",
    "People",
    "Position",
    "Positive",
    "Ratio",
    "Result",
    "Spread",
    "Standardised",
    "Study",
    "Term",
    "Value",
    "Vocabulary",
]
