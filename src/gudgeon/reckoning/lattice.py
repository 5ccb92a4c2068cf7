"""The sizes a drawing may have called for, as arrays: what was likely before anything was measured.

The families and their weights stand in the handbook. On top of them lies a thin floor of every thousandth and half thousandth,
so that no size is ever impossible: makers did cut bores a few thousandths off the fraction, and ground pins to thousandths.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from gudgeon.handbook.sizes import family, named_sizes

Array = NDArray[np.float64]
INCH = 0.0254
THOU = INCH * 1e-3

THOUSANDTH_FLOOR = 0.0012
"""Weight of any thousandth of an inch beside a weight of 1 for a whole inch (chosen so that a size off every list is still
found by four good readings; checked by simulation)."""
HALF_THOUSANDTH_FLOOR = 0.0003
TENTH_MM_FLOOR = 0.0003


@dataclass(frozen=True, slots=True)
class Lattice:
    """Candidate sizes in rising order [m], and their weights (sum 1)."""

    sizes: Array
    weights: Array
    family: str


@lru_cache(maxsize=512)
def lattice(name: str, low_thou: int, high_thou: int) -> Lattice:
    """Candidate sizes of a family from ``low_thou`` to ``high_thou`` thousandths of an inch.

    Below one thousandth nothing is a size.
    """
    kind = family(name)
    low, high = max(low_thou, 1) * THOU, high_thou * THOU
    finest = max(kind.fractions, default=1)
    scale = sum(kind.allowances.values())
    pieces: list[tuple[Array, float | Array]] = [
        (_multiples(low, high, THOU), THOUSANDTH_FLOOR),
        (_multiples(low, high, THOU / 2), HALF_THOUSANDTH_FLOOR),
        (_multiples(low, high, 1e-4), TENTH_MM_FLOOR),
    ]
    for allowance, share in kind.allowances.items():
        counts = _counts(low - allowance * INCH, high - allowance * INCH, INCH / finest)
        weights = np.array([kind.fractions.get(Fraction(int(count), finest).denominator, 0.0) for count in counts])
        pieces.append((np.asarray(counts * (INCH / finest) + allowance * INCH, dtype=np.float64), weights * share / scale))
    pieces += [(_multiples(low, high, float(step) * INCH), weight) for step, weight in kind.decimals.items()]
    pieces += [(_multiples(low, high, float(step) * 1e-3), weight) for step, weight in kind.millimetres.items()]
    pieces += [_named(each, weight, low, high) for each, weight in kind.lists.items()]
    return _merged(pieces, name)


def _counts(low: float, high: float, step: float) -> NDArray[np.int64]:
    return np.arange(max(int(np.ceil(low / step - 1e-6)), 1), int(np.floor(high / step + 1e-6)) + 1)


def _multiples(low: float, high: float, step: float) -> Array:
    return np.asarray(_counts(low, high, step) * step, dtype=np.float64)


def _named(name: str, weight: float, low: float, high: float) -> tuple[Array, float]:
    return np.array([each.nominal for each in named_sizes(name) if low <= each.nominal <= high]), weight


def _merged(pieces: list[tuple[Array, float | Array]], name: str) -> Lattice:
    sizes = np.concatenate([piece for piece, _ in pieces])
    weights = np.concatenate([np.broadcast_to(np.asarray(weight, float), piece.shape) for piece, weight in pieces])
    keys, place = np.unique(np.round(sizes * 1e9).astype(np.int64), return_inverse=True)
    total = np.bincount(place, weights=weights, minlength=keys.size)
    keep = total > 0
    return Lattice(sizes=np.asarray(keys[keep] * 1e-9, dtype=np.float64), weights=total[keep] / total.sum(), family=name)
