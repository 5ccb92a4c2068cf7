"""How features of a family were made, wore and were re-sized: what is known of them before a reading is taken.

All figures are starting values that the sums widen by themselves (spread by a factor of two either way, wear by a factor of
three); they are checked by simulation, not taken from one maker.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from gudgeon.engine.system import Feature
from gudgeon.handbook.oversizes import oversizes
from gudgeon.reckoning.siblings import OWN_SHARE, Resizing

INCH = 0.0254


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """Usual ways of a family: greatest wear of an instance (median) [m], spread of manufacture at 1.5 in [m], chance that it
    was re-sized since, and the kind of oversize in the handbook."""

    wear: float
    spread: float
    resized: float = 0.0
    steps: str = ""


def _habit(wear: float, spread: float, resized: float = 0.0, steps: str = "") -> Habit:
    return Habit(wear=wear * INCH, spread=spread * INCH, resized=resized, steps=steps)


HABITS: dict[str, Habit] = {
    "bore": _habit(0.003, 0.0003, 0.25, "cylinder"),
    "piston": _habit(0.002, 0.0004, 0.12, "cylinder"),
    "journal": _habit(0.0015, 0.0004, 0.3, "journal"),
    "shaft": _habit(0.001, 0.0004, 0.06, "journal"),
    "pin": _habit(0.0008, 0.00025, 0.05, "pin"),
    "bush": _habit(0.0012, 0.0004, 0.04, "pin"),
    "stem": _habit(0.0012, 0.0004, 0.05, "valve stem"),
    "guide": _habit(0.0018, 0.0004, 0.07, "valve stem"),
    "hole": _habit(0.0012, 0.0005, 0.05, "pin"),
    "ring width": _habit(0.0012, 0.0004),
    "ring thickness": _habit(0.002, 0.0015),
    "gear": _habit(0.001, 0.001),
    "centre distance": _habit(0.0, 0.0006),
    "ball": _habit(0.0004, 0.0001),
    "wire": _habit(0.0003, 0.0004),
    "valve head": _habit(0.0, 0.003),
    "length": _habit(0.0, 0.003),
    "spring length": _habit(0.08, 0.02),
}
USUAL = _habit(0.0012, 0.0006)
HONED = 0.03
"""Chance of a re-sizing for features that are never said to be re-sized."""


def habit(feature: Feature) -> Habit:
    """The habit of a feature's family."""
    return HABITS.get(feature.family, USUAL)


def spread_of(feature: Feature, size: float) -> float:
    """Spread of the machine's setting [m], so that with the instances' own spread about it the whole is the feature's.

    Where the description gives none, the family's at 1.5 in is taken with the cube root of size, as limits were (Newall limits,
    *Turning and Boring*, 1914, ch. III, widen so).
    """
    whole = feature.spread if feature.spread else habit(feature).spread * max(abs(size) / (1.5 * INCH), 0.1) ** (1 / 3)
    return float(whole / math.sqrt(1 + OWN_SHARE**2))


def wear_of(feature: Feature, size: float) -> float:
    """Median of the greatest wear of an instance [m]; a spring's set goes with its length."""
    usual = habit(feature).wear
    return usual * max(abs(size) / (3 * INCH), 0.05) if feature.family == "spring length" else usual


OVERSIZE_SHAFTS = ("piston", "pin", "stem")
"""Shafts that are not re-cut but replaced by larger ones when their hole is opened out."""


@cache
def resizing(family: str, allowed: bool) -> Resizing:
    """How features of a family are re-sized; amounts in the direction in which wear goes (negative for oversize pistons)."""
    known = HABITS.get(family)
    if known is None or not known.steps or known.resized <= 0:
        return Resizing(amounts=np.zeros(0), shares=np.zeros(0), chance=0.0)
    rows = oversizes(known.steps)
    sense = -1.0 if family in OVERSIZE_SHAFTS else 1.0
    amounts = np.array([sense * abs(row.amount) for row in rows])
    shares = np.array([row.weight for row in rows])
    words = tuple(row.written for row in rows)
    replaced = family in OVERSIZE_SHAFTS
    chance = known.resized if allowed or replaced else min(HONED, known.resized)
    return Resizing(amounts=amounts, shares=shares / shares.sum(), chance=chance, words=words)


def lattice_family(feature: Feature) -> str:
    """Family of sizes in the handbook."""
    return {"spring length": "length", "gear": "length", "": "length", "gap": "gap"}.get(feature.family, feature.family)
