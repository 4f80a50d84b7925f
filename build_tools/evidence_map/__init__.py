"""Exercises by parts: for each pair of them the best kind of evidence that sets the exercise apart, and every statement behind it.

The form that evidence synthesis calls an evidence and gap map. Data only: marks are drawn by ``site``.
"""
