"""Postures drawn from joint angles."""
