"""Posture, muscle length and load from the few angles in an exercise's ``movement``.

Geometry, used by every module here. Lengths in metres, angles in degrees, the
ground at ``y = 0``. Side view: x forward (the way the person faces when standing),
y up. Front view: x to the person's left, y up.

Angle of a segment in space: for limbs 0 points straight down from the upper joint
and positive swings the far end forward; for trunk and head 0 is upright and
positive leans forward; for the foot 0 is flat and positive lifts the toes.
Joint angles are clinical: 0 is the anatomical position, flexion is positive.

**Writing a movement.** Choose the view in which it is seen best; figure, load and words follow from it.

``side`` (unless given): forwards and backwards. Hip, knee, ankle, spine, shoulder, elbow; wrist (with ``grip``), both
    directions of the shoulder girdle; ``shoulder-rotation`` for an upper arm that points at the viewer.
``front``: sideways, and a body that lies or leans on its right side. Abduction of hip and shoulder, ``spine-side-bend``,
    ``scapular-elevation``, ``forearm-rotation``; ``hip`` and ``knee`` only shorten what is seen; ``shoulder-rotation`` says
    which way a bent elbow points (-90 up, 0 at the viewer, 90 down).
``above`` (along the trunk, from the head): across the body. ``shoulder-horizontal`` or ``shoulder-rotation``, elbow,
    ``spine-rotation``, ``hip-abduction`` (spread of the thighs).

- The shoulder is measured against the trunk: an arm that hangs beside a trunk leaning forward 40 degrees is at 40.
- Seen from the front or the head, plain names are the left limbs. Without ``other`` the right ones mirror them, load
  included; with it only the left ones are loaded. In the side view ``other`` may move a second leg and arm.
- ``stays: other`` lets the other leg (and arm) carry while the plain one moves. Seen from the front, its hip then tilts
  the pelvis in ``standing``, while ``standing-tall`` keeps the trunk upright.
- Gravity acts in the view from the head as far as the trunk lies down (the sine of its lean; all of it on the side). A
  weight that pulls along the body has no curve there.
- ``load.from``: ``x`` is forward of what carries the body (from the head: of the trunk), ``left`` to the person's left;
  ``other-hand`` is a band held between the hands. A cable overhead wants its pulley in line with the arms at the start.
- ``out_of_plane`` names joints that also leave the drawn plane: no load and no model length is told for them.
- A posture that is held says ``hold: true``; without it the same angles at both ends are an error.
- Positions with ``toes`` set the feet on the floor by themselves: leave hip, knee and ankle out. So do positions on the
  knees: leave the knee out.
- Not reckoned: the trunk itself, the shoulder blades seen from the side, a forearm that turns, a leg that stands in the
  front view, and legs of someone who leans on a wall or a sled. The page says so.
"""
