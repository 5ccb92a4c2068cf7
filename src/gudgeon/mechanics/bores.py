"""What diameters of a bore mean: out-of-round, taper, ridge, and the size at which it cleans up."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain


def out_of_round(*, diameters: Array, axis: int = -1) -> Number:
    """Largest difference of the diameters at one level [m], along the axis of directions.

    The trade's definition (FAA handbook; TM and makers' manuals: largest cross difference at one level). Two points see no
    odd lobes: a bore with three lobes reads the same diameter all round (see ``threepoint``). Directions that were not
    read are NaN; fewer than two give NaN.
    """
    return _range(diameters, axis)


def taper(*, diameters: Array, axis: int = -1) -> Number:
    """Largest difference of the diameters along one line [m], along the axis of levels.

    Same sources as ``out_of_round``. It counts a barrel or a waist as well as a cone; levels outside the ring travel are
    the caller's choice. NaN for fewer than two levels.
    """
    return _range(diameters, axis)


def _range(diameters: Array, axis: int) -> Number:
    values = np.asarray(diameters, dtype=np.float64)
    read = np.isfinite(values)
    high = np.where(read, values, -np.inf).max(axis=axis)
    low = np.where(read, values, np.inf).min(axis=axis)
    return plain(np.where(read.sum(axis=axis) > 1, high - low, np.nan))


def ridge(*, at_ring_reversal: Number, above: Number) -> Number:
    """Height of the ridge on the radius [m]: half of what the diameter grows from the unworn belt to the ring travel."""
    return plain(np.subtract(at_ring_reversal, above) / 2)


def clean_up_diameter(
    *,
    worn: Number,
    original: Number,
    one_sided: Number = 0.5,
    shift: Number = 0.0,
    scratch_depth: Number = 0.0,
    allowance: Number = 0.0,
) -> Number:
    """Least diameter [m] at which all marks of wear vanish, for a boring bar set ``shift`` off the original centre.

    Wear has moved the two walls out by ``one_sided`` and ``1 - one_sided`` of the diametral wear ``worn - original``. A cut
    about a centre moved by ``shift`` towards the more worn wall cleans that wall, the other wall, and the unworn ends of
    the bore (derived, plane geometry):

        radius = max(R0 + one_sided w + scratch - shift,  R0 + (1 - one_sided) w + shift,  R0 + |shift|)

    and the diameter is twice that plus the allowance. With ``shift = 0`` the original centre is kept, which the crank and
    the water jacket want; with ``following_shift`` the bar follows the worn hole, takes least metal, and moves the bore.

    Parameters
    ----------
    worn : largest diameter found [m].
    original : diameter when last bored [m].
    one_sided : share of the wear on the more worn wall, 0.5 to 1.
    shift : of the bar's centre towards the more worn wall [m].
    scratch_depth : of the deepest mark, below the worn wall that carries it, on the radius [m].
    allowance : more on the diameter for the bar to find clean metal [m]; honing comes on top.
    """
    wear = np.subtract(worn, original)
    radius = np.divide(original, 2)
    worn_wall = radius + one_sided * wear + scratch_depth - shift
    other_wall = radius + np.subtract(1, one_sided) * wear + shift
    unworn_end = radius + np.abs(shift)
    return plain(2 * np.maximum(np.maximum(worn_wall, other_wall), unworn_end) + allowance)


def following_shift(*, worn: Number, original: Number, one_sided: Number, scratch_depth: Number = 0.0) -> Number:
    """Shift of the centre [m] at which ``clean_up_diameter`` takes least: midway between the two worn walls."""
    wear = np.subtract(worn, original)
    return plain((np.multiply(2, one_sided) - 1) * wear / 2 + np.divide(scratch_depth, 2))


def displacement(*, bore: Number, stroke: Number) -> Number:
    """Swept volume of one cylinder [m3]: pi / 4 x bore squared x stroke."""
    return plain(np.pi / 4 * np.square(bore) * stroke)
