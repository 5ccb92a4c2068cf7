"""How parts wear, from what rubs on them and how hard.

A bore: metal goes where the rings press and the oil film fails, so the profile is worked out from gas pressure and ring speed
over one turn of the crank; rings slow to nothing at the ends of the travel. The side thrust and the crank's end float make it
oval. Journals wear on the side that the load comes back to; bushes and guides at their mouths. Amounts: common practice.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.random import Generator

from tests.simulated.makers import INCH, THOU


@dataclass(frozen=True)
class BoreWear:
    """One bore's wear. Depths from the top face as shares of stroke; ``most`` is the wear of the diameter at the worst [m]."""

    most: float
    profile: tuple[float, ...]
    oval: float
    axis: float
    belt: float
    bell: float
    first_ring: float

    def at(self, depth: float, direction: float) -> float:
        """Wear on the diameter at a depth (in strokes below the top ring's turning point) in a direction [degree]."""
        side = 1 + self.oval * math.cos(2 * math.radians(direction - self.axis))
        if depth < -0.02:
            return 0.0
        if depth > 1.0 + self.first_ring:
            return self.belt + self.bell * (depth - 1.0 - self.first_ring)
        places = np.linspace(0, 1.0 + self.first_ring, len(self.profile))
        return self.belt + self.most * side * float(np.interp(depth, places, self.profile))


def bore_wear(rng: Generator, bore: float, *, hardship: float, rings: int) -> BoreWear:
    """The wear of one bore after a working life; ``hardship`` multiplies what is usual."""
    most = float(np.clip(rng.lognormal(math.log(0.0055), 0.6) * hardship * (bore / INCH / 4), 0.0003, 0.045)) * INCH
    dust = float(rng.choice((0.0, 0.4, 1.2), p=(0.6, 0.3, 0.1)))
    return BoreWear(
        most=most,
        profile=_travel(rings, dust, ratio=float(rng.uniform(3.4, 4.6))),
        oval=float(rng.beta(2, 5)),
        axis=float(rng.normal(90, 12)) if rng.random() < 0.85 else float(rng.uniform(0, 180)),
        belt=float(rng.exponential(0.10)) * THOU,
        bell=float(rng.exponential(3.0)) * THOU if rng.random() < 0.15 else 0.0,
        first_ring=0.10 * rings,
    )


def _travel(rings: int, dust: float, *, ratio: float) -> tuple[float, ...]:
    """Wear along the travel of the whole ring pack, worst = 1: pressure over film strength, added up over the crank's turn."""
    turn = np.radians(np.arange(0.5, 720.0, 1.0))
    down = (1 - np.cos(turn) + (1 - np.sqrt(1 - (np.sin(turn) / ratio) ** 2)) * ratio) / 2
    speed = np.abs(np.gradient(down, turn))
    firing = (turn < math.pi) | (turn > 3 * math.pi)
    pressure = np.where(firing, 1 + 14 / (1 + 9 * down) ** 1.3, 1.0)
    worn = np.zeros(61)
    reach = 1.0 + 0.10 * rings
    for ring in range(rings):
        share = pressure * 0.5**ring + 0.4
        place = np.clip(((down + 0.10 * ring) / reach * 60).astype(int), 0, 60)
        np.add.at(worn, place, share * speed / (0.05 + speed / 0.12))
        np.add.at(worn, place, dust * speed)
    smooth = np.convolve(np.pad(worn, 1, mode="edge"), (0.25, 0.5, 0.25), mode="valid")
    return tuple(float(value) for value in smooth / smooth.max())


@dataclass(frozen=True)
class JournalWear:
    """A shaft or hole worn to one side: ``most`` on the diameter through the load [m], ``least`` square to it."""

    most: float
    least: float
    axis: float
    ends: tuple[float, float]

    def at(self, along: float, direction: float) -> float:
        """Wear on the diameter at ``along`` (0 to 1) in a direction; straight-sided flats, not an ellipse."""
        turned = abs((direction - self.axis + 90) % 180 - 90) / 90
        round_it = self.least + (self.most - self.least) * max(0.0, 1 - turned**1.5)
        return round_it * (self.ends[0] * (1 - along) + self.ends[1] * along)


def journal_wear(rng: Generator, usual: float, *, axis: float, even: float = 0.3) -> JournalWear:
    """Wear of one journal; ``usual`` is the median at the worst [m]."""
    most = usual * float(rng.lognormal(0, 0.45))
    taper = float(np.clip(rng.normal(0, 0.25), -0.7, 0.7))
    if rng.random() < 0.1:
        axis = float(rng.uniform(0, 180))
    return JournalWear(most, most * float(np.clip(rng.beta(2, 2 / even - 2), 0, 1)), axis, (1 + taper, 1 - taper))


def mouths(rng: Generator, usual: float, shares: Sequence[float]) -> tuple[float, ...]:
    """Wear at levels along a guide or stem, each its share of the usual with its own luck [m]."""
    life = usual * float(rng.lognormal(0, 0.45))
    return tuple(life * share * float(rng.uniform(0.7, 1.3)) for share in shares)
