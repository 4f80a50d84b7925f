"""Evidence handbook generator: load, check, compute, render.

The subpackages follow the flow of data and import only towards its source:
``catalog`` (what was written), ``movement`` (what a posture implies), ``checks``
(is it sound), ``evidence`` (what the numbers say), ``site`` (how it reads).
``commands`` are the verbs of the ``handbook`` command and may use all of them.
"""
