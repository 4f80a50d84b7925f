"""Ordinary statistics of one contrast, written from the literature and held against published values.

The engine does not use them: it fits networks. They are what its answers on one contrast are compared with.
"""
