"""Intervals and curves drawn from numbers."""
