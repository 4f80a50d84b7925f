"""Evidence handbook generator: load, check, compute, render.

The subpackages follow the flow of data and import only towards its source:
``catalog`` (what was written), ``checks`` (is it sound), ``evidence`` (what the
numbers say), ``site`` (how it reads), ``contribute`` (how it grows).
"""
