"""Run-out of a shaft at several stations, taken apart into how it lies and how it is bent.

Run-out has a direction: two stations that both read four thou may lean the same way or opposite ways. Everything here is
therefore in vectors: the centre of the journal off the axis it turns about, x along the shaft's own zero mark, y a quarter turn
on. A dial shows twice that distance from lowest to highest.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """What one turn under a dial shows [m]: centre of the journal (x, y), its oval as a dial sees it, what is left over.

    ``oval`` and ``left`` are None where fewer than five, or six, places were read.
    """

    x: float
    y: float
    oval: float | None
    left: float | None


def turned(*, angle: Array, reading: Array) -> Turned:
    """First and second harmonic of dial readings round one turn, by least squares.

    Parameters
    ----------
    angle : of the shaft [rad], from its zero mark to the place under the dial. reading : of the dial [m].

    Three places or more, spread round; five or more also tell the journal's own oval from its lying off centre. Raises
    ValueError for fewer than three.
    """
    angle, reading = np.asarray(angle, dtype=np.float64), np.asarray(reading, dtype=np.float64)
    if angle.size < 3:
        raise ValueError(f"{angle.size} dial readings were given; three or more round one turn would be right.")
    columns = [np.ones_like(angle), np.cos(angle), np.sin(angle)]
    if angle.size >= 5:
        columns += [np.cos(2.0 * angle), np.sin(2.0 * angle)]
    design = np.stack(columns, axis=1)
    found, *_ = np.linalg.lstsq(design, reading, rcond=None)
    oval = float(np.hypot(found[3], found[4])) * 2.0 if angle.size >= 5 else None
    spare = angle.size - design.shape[1]
    left = float(np.sqrt(np.sum((reading - design @ found) ** 2) / spare)) if spare > 0 else None
    return Turned(x=float(found[1]), y=float(found[2]), oval=oval, left=left)


def centre(*, total: Number, high_at: Number) -> tuple[Number, Number]:
    """Centre off the axis (x, y) [m]: half the total indicator reading [m], towards the high spot [rad]."""
    half = np.asarray(total, dtype=np.float64) / 2.0
    return plain(half * np.cos(high_at)), plain(half * np.sin(high_at))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bow:
    """A shaft's run-out taken apart; arrays of shape (stations, ...).

    Attributes
    ----------
    lie_x, lie_y : the part that a straight shaft would show, lying askew or off its centres [m].
    bow_x, bow_y : the part that is bend: off the straight line between the two stations it is held at [m].
    """

    lie_x: Array
    lie_y: Array
    bow_x: Array
    bow_y: Array

    @property
    def bow(self) -> Array:
        """Size of the bend at each station [m]."""
        return np.asarray(np.hypot(self.bow_x, self.bow_y))

    @property
    def towards(self) -> Array:
        """Direction of the bend at each station [rad]."""
        return np.asarray(np.arctan2(self.bow_y, self.bow_x))


def bow(*, position: Array, x: Array, y: Array, held: tuple[int, int]) -> Bow:
    """Take the centres at several stations apart into a straight line through two of them and the rest.

    Parameters
    ----------
    position : of the stations along the shaft [m], shape (stations,). x, y : centres [m], shape (stations, ...).
    held : which two stations the shaft is meant to turn in, the end mains: the line through their centres is its own axis.

    Raises
    ------
    ValueError
        where the two stations stand at one place.
    """
    position = np.asarray(position, dtype=np.float64)
    first, last = held
    if position[first] == position[last]:
        raise ValueError(f"Both end stations stand at {position[first]:g} m along the shaft; two places apart would be right.")
    share = ((position - position[first]) / (position[last] - position[first])).reshape(-1, *([1] * (np.ndim(x) - 1)))
    x, y = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    lie_x, lie_y = x[first] + share * (x[last] - x[first]), y[first] + share * (y[last] - y[first])
    return Bow(lie_x=lie_x, lie_y=lie_y, bow_x=x - lie_x, bow_y=y - lie_y)


def bow_bounds(*, position: Array, total: Array, held: tuple[int, int]) -> tuple[Array, Array]:
    """Least and most bend at each station [m] where only total readings are known and no direction was noted.

    Each station's centre is half its reading off, any way; the ends' share is added or taken off.
    """
    position, half = np.asarray(position, dtype=np.float64), np.asarray(total, dtype=np.float64) / 2.0
    first, last = held
    share = ((position - position[first]) / (position[last] - position[first])).reshape(-1, *([1] * (half.ndim - 1)))
    ends = np.abs(1.0 - share) * half[first] + np.abs(share) * half[last]
    apart = np.maximum.reduce([
        half - ends, np.abs(1.0 - share) * half[first] - np.abs(share) * half[last] - half,
        np.abs(share) * half[last] - np.abs(1.0 - share) * half[first] - half, np.zeros_like(half),
    ])  # fmt: skip
    most = half + ends
    for end in (first, last):
        apart[end] = most[end] = 0.0
    return np.asarray(apart), np.asarray(most)


def off_line(*, position: Array, gap: Array, held: tuple[int, int]) -> Array:
    """How far bearings stand off the line of two of them [m], from gaps under a straight bar or between stretched feelers.

    The same sum in one plane: gaps less the straight line between those of the two ends; above nought where the bearing is
    lower than the line.
    """
    zero = np.zeros_like(np.asarray(gap, dtype=np.float64))
    return bow(position=position, x=np.asarray(gap, dtype=np.float64), y=zero, held=held).bow_x


def throw(*, top: Number, bottom: Number) -> Number:
    """Throw of a crank [m]: half the difference of the pin's heights at the top and at the bottom of its turn."""
    return plain(np.subtract(top, bottom) / 2.0)


def stroke_from_throw(*, throw: Number) -> Number:
    """Stroke [m] of a cylinder whose axis meets the crank's: twice the throw."""
    return plain(2.0 * np.asarray(throw))


def phase_error(*, height: Number, level_height: Number, throw: Number) -> Number:
    """Angle [rad] by which a pin is out of its place, from its height against that of the pin it should be level with [m].

    Both pins near level with the axis, where the height changes most: asin(difference / throw).
    """
    return plain(np.arcsin(np.clip(np.subtract(height, level_height) / np.asarray(throw), -1.0, 1.0)))
