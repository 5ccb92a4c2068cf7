"""What like features measured when new: the four bores of one block, the eight stems of one engine, taken together.

Model, in the direction in which wear adds (for a shaft all sizes change sign):

    nominal N      a size of the family's lattice
    rework R       0 as made; all instances re-sized alike; or each its own (bored over, ground under)
    set size       S = N + R
    machine        u = S + d,          d ~ Normal(0, spread): the machine was set a little off, alike for all siblings
    instance       x = u + e,          e ~ Normal(0, 0.7 spread)
    reading        y = x + wear + g + own error,   g the offset shared by all readings of one gauge

spread itself is known only to a factor of two either way and is summed over, as is the wear. Everything is summed exactly on a
grid of sizes; nothing is sampled.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.reckoning.lattice import INCH, THOU, Lattice
from gudgeon.reckoning.wear import BASE_SHARES, Spot, likelihoods

Array = NDArray[np.float64]

SPREADS = np.array([0.5, 1.0, 2.0])
SPREAD_SHARES = np.array([0.3, 0.45, 0.25])
OFFSETS = np.array([0.8, 1.0, 1.7])
"""Doubt of a gauge's offset beside each spread, as a multiple of its standard uncertainty: a shop that works loosely may have
set its gauge loosely too, and a stated doubt is itself doubtful."""
DOUBLE_DOUBT = 1.15
"""The same on the whole, for taking the offset out again."""
OWN_SHARE = 0.7
"""Spread of one instance about its machine's setting, as a fraction of the spread of settings."""
MOST_POINTS = 900


@dataclass(frozen=True, slots=True)
class Resizing:
    """Ways a feature is re-sized: amounts by which metal was taken off [m, positive], their shares, and how often at all."""

    amounts: Array
    shares: Array
    chance: float
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Siblings:
    """Evidence on one group of like features.

    Attributes
    ----------
    instances : the spots of each instance; sizes in the direction in which wear adds (negative sizes for shafts).
    sign : +1 where wear adds, -1 where it takes.
    offset : standard uncertainty of the gauge offset shared by the readings [m].
    spread : standard deviation of manufacture [m].
    usual_wear : median of the greatest wear of an instance [m].
    """

    instances: tuple[tuple[Spot, ...], ...]
    sign: int
    offset: float
    spread: float
    usual_wear: float


@dataclass(frozen=True, kw_only=True)
class Groundwork:
    """The part of the sum that needs no sizes of the lattice: likelihoods on the grid."""

    siblings: Siblings
    grid: Array
    new: Array
    """Likelihood of each instance's size when new, shape (bases, instances, grid)."""
    setting: Array
    """The same smeared by an instance's own spread, shape (spreads, bases, instances, grid)."""
    alike: Array
    """Likelihood of one common set size, machine and gauge summed out, shape (spreads, bases, grid)."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Reconstructed:
    """The posterior of a group.

    Attributes
    ----------
    nominal, written_of : candidate nominals [m] (true sign), with ``chances`` (sum 1 over nominal and rework together).
    rework : amount of the common re-sizing of each candidate [m, as it changes the size], 0 as made.
    grid : sizes when new or last re-sized [m, true sign, rising]; ``density`` per instance on it (sums to 1).
    raised : the same on the gauge's own scale, before the shared offset is taken out; for draws that share the offset.
    """

    nominal: Array
    rework: Array
    chances: Array
    grid: Array
    density: Array
    raised: Array


def grid_of(siblings: Siblings) -> Array:
    """Evenly spaced sizes that hold every size when new that the readings leave open."""
    spots = [spot for instance in siblings.instances for spot in instance]
    least = min(spot.uncertainty for spot in spots)
    trusted = [spot for spot in spots if spot.trust > 0.5] or spots
    smear = 5 * max(spot.uncertainty for spot in trusted) + 4 * (siblings.spread + siblings.offset)
    low = min(spot.size for spot in trusted) - smear - 5 * siblings.usual_wear
    high = max(spot.size for spot in trusted) + smear
    step = max(min(least / 2, siblings.spread / 3), (high - low) / MOST_POINTS)
    # steps a quarter octave apart and counts in thirties let groups share their curves
    step = 2.0 ** (math.floor(4 * math.log2(step)) / 4)
    count = 30 * math.ceil(((high - low) / step + 2) / 30)
    grid: Array = low + step * np.arange(count, dtype=np.float64)
    return grid


def groundwork(siblings: Siblings) -> Groundwork:
    """Likelihoods on the grid for one group."""
    grid = grid_of(siblings)
    new = likelihoods(siblings.instances, grid=grid, usual_wear=siblings.usual_wear)
    own = OWN_SHARE * siblings.spread * SPREADS
    setting = _smear(new[None], own[:, None, None, None], grid)
    product = _product(setting)
    machine = np.hypot(siblings.spread * SPREADS, siblings.offset * OFFSETS)
    alike = _smear(product, machine[:, None, None], grid)
    return Groundwork(siblings=siblings, grid=grid, new=new, setting=setting, alike=alike)


def _product(setting: Array) -> Array:
    """Product over instances (axis -2), scaled so that its largest value is 1 with the scale common to spreads and bases."""
    logs = np.log(np.maximum(setting, 1e-300)).sum(axis=-2)
    product: Array = np.exp(logs - logs.max())
    return product


def _smear(values: Array, sigma: Array, grid: Array) -> Array:
    """Convolution along the last axis with normal curves of the given widths (broadcast), padded so that nothing wraps."""
    count, step = grid.size, grid[1] - grid[0]
    length = _fast_length(2 * count - 1)
    frequency = np.fft.rfftfreq(length, d=step)
    curve = np.exp(-2 * (np.pi * frequency * sigma) ** 2)
    smeared: Array = np.fft.irfft(np.fft.rfft(values, n=length, axis=-1) * curve, n=length, axis=-1)[..., :count]
    return np.maximum(smeared, 0.0)


def _smeared_together(values: Array, sigma: Array, shares: Array, grid: Array) -> Array:
    """The same for values whose first axis goes with the widths, summed over that axis with the given shares."""
    count, step = grid.size, grid[1] - grid[0]
    length = _fast_length(2 * count - 1)
    frequency = np.fft.rfftfreq(length, d=step)
    curves = shares[:, None] * np.exp(-2 * (np.pi * frequency * sigma[:, None]) ** 2)
    whole = np.einsum("sf,s...f->...f", curves, np.fft.rfft(values, n=length, axis=-1))
    smeared: Array = np.fft.irfft(whole, n=length, axis=-1)[..., :count]
    return np.maximum(smeared, 0.0)


def _fast_length(least: int) -> int:
    """The smallest length of the form 2^a, 3 2^a or 5 2^a that is no less."""
    power = 1 << max(least - 1, 1).bit_length()
    return min(each for each in (power, 3 * power // 4, 5 * power // 8) if each >= least)


@dataclass(frozen=True, kw_only=True)
class Outside:
    """What is known from outside the group, as factors on the prior.

    Attributes
    ----------
    on_nominal : one factor per size of the lattice (a plate, groups of the same sort).
    at, on_set : factors on the set size [m, true sign] at evenly spaced sizes, joined by straight lines (mates: a bore was
        re-sized together with its piston, so the fit holds for the sizes as last set).
    """

    on_nominal: Array | None = None
    at: Array | None = None
    on_set: Array | None = None


def candidates(
    work: Groundwork, sizes: Lattice, resizing: Resizing, outside: Outside | None = None
) -> tuple[Array, Array, Array]:
    """Nominal, rework and prior weight of every candidate set size, sizes in the direction in which wear adds."""
    weights = sizes.weights
    if outside is not None and outside.on_nominal is not None:
        weights = weights * outside.on_nominal
    nominal, rework, weight = _crossed(work, sizes.sizes, weights, resizing)
    if outside is not None and outside.at is not None and outside.on_set is not None:
        weight = weight * np.interp(work.siblings.sign * (nominal + rework), outside.at, outside.on_set)
    return nominal, rework, weight


def _crossed(work: Groundwork, sizes: Array, weights: Array, resizing: Resizing) -> tuple[Array, Array, Array]:
    """Every size with every way of re-sizing it, as far as the set size lies within the grid."""
    sign = work.siblings.sign
    ways = np.concatenate([[0.0], resizing.amounts])
    shares = np.concatenate([[1 - resizing.chance], resizing.chance * resizing.shares])
    sets = sign * sizes[None, :] + ways[:, None]
    way, size = np.nonzero((sets > work.grid[0]) & (sets < work.grid[-1]))
    return sign * sizes[size], ways[way], weights[size] * shares[way]


def nominal_chances(work: Groundwork, nominal: Array, rework: Array, prior: Array) -> Array:
    """Posterior of each candidate, spread and base summed out, shape (candidates,)."""
    place = (nominal + rework - work.grid[0]) / (work.grid[1] - work.grid[0])
    left = np.clip(place.astype(int), 0, work.grid.size - 2)
    part = place - left
    shares = SPREAD_SHARES[:, None] * BASE_SHARES[None, :]
    alike = np.einsum("sb,sbx->x", shares, work.alike)
    joint = (alike[left] * (1 - part) + alike[left + 1] * part) * prior
    total = joint.sum()
    chances: Array = joint / total if total > 0 else prior / prior.sum()
    return chances


def reconstruct(work: Groundwork, sizes: Lattice, resizing: Resizing, *, outside: Outside | None = None) -> Reconstructed:
    """The posterior of a group over the sizes of a lattice, with what is known from outside."""
    nominal, rework, prior = candidates(work, sizes, resizing, outside)
    chances = nominal_chances(work, nominal, rework, prior)
    raised = _instances(work, nominal, rework, prior)
    density = _without_offset(work, raised, nominal + rework, chances)
    sign = work.siblings.sign
    order = slice(None, None, sign)
    return Reconstructed(
        nominal=sign * nominal,
        rework=sign * rework,
        chances=chances,
        grid=(sign * work.grid)[order],
        density=density[:, order],
        raised=raised[:, order],
    )


def _instances(work: Groundwork, nominal: Array, rework: Array, prior: Array) -> Array:
    """Posterior of each instance's size when new or last re-sized, on the gauge's scale, shape (instances, grid)."""
    step, count = work.grid[1] - work.grid[0], work.grid.size
    masses = np.zeros(count)
    place = (nominal + rework - work.grid[0]) / step
    left = np.clip(place.astype(int), 0, count - 2)
    np.add.at(masses, left, prior * (1 - (place - left)))
    np.add.at(masses, left + 1, prior * (place - left))
    machine = np.hypot(work.siblings.spread * SPREADS, work.siblings.offset * OFFSETS)
    expected = _smear(masses[None, None], machine[:, None, None], work.grid)
    logs = np.log(np.maximum(work.setting, 1e-300))
    others = logs.sum(axis=-2, keepdims=True) - logs
    others = np.exp(others - others.max(axis=(0, 1, 3), keepdims=True)) * expected[:, :, None, :]
    own = OWN_SHARE * work.siblings.spread * SPREADS
    arriving = _smeared_together(others, own, SPREAD_SHARES, work.grid)
    raised: Array = np.einsum("b,bix,bix->ix", BASE_SHARES, arriving, work.new)
    raised /= np.maximum(raised.sum(axis=1, keepdims=True), 1e-300)
    return raised


def _without_offset(work: Groundwork, raised: Array, sets: Array, chances: Array) -> Array:
    """Take the gauge's offset out: where the readings stand off the lattice, part of that is the gauge's."""
    siblings = work.siblings
    if siblings.offset <= 0:
        return raised
    doubt = DOUBLE_DOUBT * siblings.offset
    share = doubt**2 / (doubt**2 + siblings.spread**2)
    mean_set = float((chances * sets).sum())
    mean_raised = float((raised.mean(axis=0) * work.grid).sum())
    shift = share * (mean_raised - mean_set)
    blur = doubt * np.sqrt(1 - share)
    step = work.grid[1] - work.grid[0]
    moved = np.stack([np.interp(work.grid + shift, work.grid, row, left=0, right=0) for row in raised])
    density = _smear(moved, np.array(max(blur, 0.05 * step)), work.grid)
    density /= np.maximum(density.sum(axis=1, keepdims=True), 1e-300)
    return density


def interval(grid: Array, density: Array, coverage: float = 0.9) -> tuple[float, float]:
    """Central interval of a density on a grid."""
    below = np.cumsum(density)
    below /= below[-1]
    low, high = np.interp([(1 - coverage) / 2, (1 + coverage) / 2], below, grid)
    half = (grid[1] - grid[0]) / 2
    return float(low - half), float(high + half) if high > low else float(low + half)


__all__ = ["INCH", "THOU", "Groundwork", "Reconstructed", "Resizing", "Siblings", "groundwork", "interval", "reconstruct"]
