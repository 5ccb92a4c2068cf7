"""Reconstructs the specification, runs the systems over a snapshot, ranks remedies, names the next reading."""

from gudgeon.reckoning.order import Loop
from gudgeon.reckoning.reckon import reckon, reckon_with_bench

__all__ = ["Loop", "reckon", "reckon_with_bench"]
