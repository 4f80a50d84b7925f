"""Posture, muscle length and load from the few angles in an exercise's ``movement``.

Geometry, used by every module here. Lengths in metres, angles in degrees, the
ground at ``y = 0``. Side view: x forward (the way the person faces when standing),
y up. Front view: x to the person's left, y up.

Angle of a segment in space: for limbs 0 points straight down from the upper joint
and positive swings the far end forward; for trunk and head 0 is upright and
positive leans forward; for the foot 0 is flat and positive lifts the toes.
Joint angles are clinical: 0 is the anatomical position, flexion is positive.
"""
