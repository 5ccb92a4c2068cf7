"""What a hole says of its shaft and a shaft of its hole, and what one feature's nominal says of its like of another size.

For a fit with nominals H and S and a clearance c = H - S that such fits had, each side's sizes are weighed by the other's:

    factor(H) = sum over S of P(S) f(H - S)

with f a lognormal curve about the usual clearance, over a thin even floor so that an odd pair never decides.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.place import FeatureKey
from gudgeon.reckoning.lattice import Lattice
from gudgeon.reckoning.siblings import Reconstructed

Array = NDArray[np.float64]
INCH = 0.0254

FLOOR_SHARE = 0.1
"""Share of fits that follow no rule at all, spread evenly over the floor's width."""
FLOOR_LOW, FLOOR_HIGH = -0.004 * INCH, 0.02 * INCH
SAME_SHARE = 0.6
"""How often two groups of one sort that stand apart were made to one size and re-sized since."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitHabit:
    """Usual clearance of a kind of fit [m] (constant and per size), and the factor either way that covers two in three."""

    name: str
    constant: float
    per_size: float
    factor: float
    source: str


# Medians and spreads chosen to cover the rules of practice in the handbook on these subjects, car practice as the tight end and
# stationary practice as the loose one.
# hole, shaft: constant [in], per size, factor, name, the rules behind it
_FIT_ROWS: tuple[tuple[str, str, float, float, float, str, str], ...] = (
    ("bore", "piston", 0.0, 0.0010, 2.0, "piston in bore", "rules on piston clearance"),
    ("guide", "stem", 0.002, 0.0, 1.5, "stem in guide", "rules on stem clearance"),
    ("bush", "pin", 0.0006, 0.0002, 1.6, "pin in bush", "rules on pin clearance"),
    ("hole", "pin", 0.0004, 0.0, 2.5, "pin in boss", "rules on pin clearance"),
    ("bush", "shaft", 0.0012, 0.0005, 1.6, "shaft in bush", "rules on bushes"),
    ("hole", "shaft", 0.0012, 0.0005, 1.6, "shaft in hole", "rules on bushes"),
    ("bush", "journal", 0.0005, 0.001, 1.7, "journal in bearing", "rules on bearings"),
)
FITS: dict[tuple[str, str], FitHabit] = {
    (hole, shaft): FitHabit(name=name, constant=constant * INCH, per_size=slope, factor=factor, source=source)
    for hole, shaft, constant, slope, factor, name, source in _FIT_ROWS
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A hole and the shaft that ran in it."""

    hole: FeatureKey
    shaft: FeatureKey
    habit: FitHabit


def clearance_curve(clearance: Array, *, size: float, habit: FitHabit) -> Array:
    """How usual a clearance is, relative to the floor: about 1 for anything, more for what fits of the kind had."""
    usual = habit.constant + habit.per_size * size
    sigma = np.log(habit.factor)
    positive = np.maximum(clearance, 1e-9)
    curve = np.exp(-0.5 * (np.log(positive / usual) / sigma) ** 2) / (positive * sigma * np.sqrt(2 * np.pi))
    curve = np.where(clearance > 0, curve, 0.0)
    floor = np.where(
        (clearance > FLOOR_LOW) & (clearance < FLOOR_HIGH), 1 / (FLOOR_HIGH - FLOOR_LOW), 0.02 / (FLOOR_HIGH - FLOOR_LOW)
    )
    weighed: Array = (1 - FLOOR_SHARE) * curve + FLOOR_SHARE * floor
    return weighed


def set_masses(group: Reconstructed, *, most: int = 40) -> tuple[Array, Array]:
    """Likeliest sizes to which a group was last set, and their chances (sum 1)."""
    keys, place = np.unique(np.round((group.nominal + group.rework) * 1e8).astype(np.int64), return_inverse=True)
    chances = np.asarray(np.bincount(place, weights=group.chances, minlength=keys.size), dtype=np.float64)
    return _best(np.asarray(keys * 1e-8, dtype=np.float64), chances, most)


def nominal_masses(group: Reconstructed, *, most: int = 60) -> tuple[Array, Array]:
    """Likeliest nominals of a group and their chances (sum 1), rework summed out."""
    keys, place = np.unique(np.round(group.nominal * 1e9).astype(np.int64), return_inverse=True)
    chances = np.asarray(np.bincount(place, weights=group.chances, minlength=keys.size), dtype=np.float64)
    return _best(np.asarray(keys * 1e-9, dtype=np.float64), chances, most)


def _best(sizes: Array, chances: Array, most: int) -> tuple[Array, Array]:
    best = np.argsort(chances)[::-1][:most]
    return sizes[best], chances[best] / chances[best].sum()


def for_hole(at: Array, shaft: Reconstructed, habit: FitHabit) -> Array:
    """What the shaft says of each size to which the hole may have been set."""
    sets, chances = set_masses(shaft)
    factor: Array = clearance_curve(at[:, None] - sets[None, :], size=float(sets @ chances), habit=habit) @ chances * INCH
    return factor


def for_shaft(at: Array, hole: Reconstructed, habit: FitHabit) -> Array:
    """What the hole says of each size to which the shaft may have been set."""
    sets, chances = set_masses(hole)
    factor: Array = clearance_curve(sets[None, :] - at[:, None], size=float(sets @ chances), habit=habit) @ chances * INCH
    return factor


def for_like(sizes: Lattice, other: Reconstructed) -> Array:
    """What a group of the same sort says of each nominal: made to the same one more often than not."""
    nominal, chances = nominal_masses(other)
    exact = np.zeros(sizes.sizes.size)
    for size, chance in zip(nominal, chances, strict=True):
        exact[np.abs(sizes.sizes - size) < 1e-8] = chance
    even = 1 / max(int(np.count_nonzero(exact)), 1)
    return (1 - SAME_SHARE) * even + SAME_SHARE * exact


HOUSE_SHARE = 0.4
"""How often a maker kept one allowance for all shafts, or all holes, of a family (common practice)."""
HOUSE_FAMILIES = ("journal", "shaft", "pin", "stem")
_NEAREST = 3.5e-3 * INCH
_COARSE = (8, 16, 32)


def allowances(sizes: Array) -> Array:
    """What each size has over the coarsest fraction that it lies within 3.5 thousandths of, to half a thousandth, in half
    thousandths; NaN for a size that lies near none."""
    found = np.full(sizes.shape, np.nan)
    for parts in reversed(_COARSE):
        base = np.round(sizes / INCH * parts) / parts * INCH
        away = sizes - base
        found = np.where(np.abs(away) < _NEAREST, np.round(away / (0.5e-3 * INCH)), found)
    return found


def for_house(sizes: Lattice, others: list[Reconstructed]) -> Array:
    """What the maker's other shafts of the family say of each nominal: who ground his mains .001 under the fraction mostly
    ground his crankpins so too."""
    own = allowances(sizes.sizes)
    usual = _shares(own, sizes.weights)
    theirs: dict[float, float] = {}
    for other in others:
        nominal, chances = nominal_masses(other)
        for allowance, share in _shares(allowances(nominal), chances).items():
            theirs[allowance] = theirs.get(allowance, 0.0) + share / len(others)
    known = sum(theirs.values())
    factor = np.ones(sizes.sizes.size)
    for allowance, share in usual.items():
        said = theirs.get(allowance, 0.0) + (1 - known) * share
        factor[own == allowance] = (1 - HOUSE_SHARE) + HOUSE_SHARE * said / max(share, 1e-3)
    return factor


def _shares(allowance: Array, weights: Array) -> dict[float, float]:
    """Weight of each allowance, relative to all."""
    known = ~np.isnan(allowance)
    total = weights.sum()
    return {float(each): float(weights[known & (allowance == each)].sum() / total) for each in np.unique(allowance[known])}


def for_plate(sizes: Lattice, plate: float) -> Array:
    """What a plate or an advertisement says of each nominal: the size it names, to a fraction, believed four times in five."""
    away = np.abs(sizes.sizes - plate)
    factor: Array = 0.05 + 0.8 * np.exp(-0.5 * (away / (0.002 * INCH)) ** 2)
    return factor
