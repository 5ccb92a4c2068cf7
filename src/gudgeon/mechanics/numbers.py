"""What formulas take and give back: one number or an array of them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Number = float | Array
"""A float, or a float array of any shape; the arguments of one call broadcast against each other."""


def plain(value: np.ndarray[tuple[int, ...], np.dtype[np.float64]] | np.float64 | float) -> Number:
    """A float where one number came out, the array otherwise."""
    array = np.asarray(value, dtype=np.float64)
    return float(array) if array.ndim == 0 else array
