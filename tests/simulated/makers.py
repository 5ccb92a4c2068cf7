"""How a maker dimensioned an engine: his units, his taste in sizes, and how true his shop worked.

Of the sizes: common practice. Fractions for anything that a man ordered a reamer or a bar for, coarse ones first; decimals
where one of a pair had to clear the other or where a grinder was in the shop; whole and half millimetres on the Continent. The
shop's truth: limits of the time allowed a one-inch hole .0007 in fine work and .0012 in good work, and a four-inch one about
twice as much (from memory of the limit tables of 1902 to 1914), so the deviations here are a fifth of that, and more in plain
shops.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from numpy.random import Generator

INCH = 0.0254
THOU = INCH / 1000
MM = 1e-3

Units = Literal["inch", "millimetre", "mixed"]
STYLES = ("fraction", "beside a fraction", "to a thou", "to half a thou")


@dataclass(frozen=True)
class Maker:
    """``truth`` is the standard deviation of one-inch work [m], ``setting`` that of a whole batch made to one setting [m],
    ``inch`` the inch that his fractions are of."""

    units: Units
    styles: tuple[float, ...]
    truth: float
    setting: float
    decimal_mates: float
    wild: str = ""
    inch: float = INCH


def draw_maker(rng: Generator) -> Maker:
    """A maker at random: three in four work in inches, one in six in millimetres, the others in both."""
    units: Units = ("inch", "millimetre", "mixed")[rng.choice(3, p=(0.74, 0.16, 0.10))]
    truth = float(rng.choice((0.15, 0.25, 0.45, 1.0), p=(0.25, 0.40, 0.25, 0.10)) * rng.uniform(0.8, 1.25)) * THOU
    likes = rng.dirichlet((7.0, 1.4, 1.0, 0.6))
    return Maker(
        units=units,
        styles=tuple(float(share) for share in likes),
        truth=truth,
        setting=truth * float(rng.uniform(0.2, 0.8)),
        decimal_mates=float(rng.uniform(0.5, 1.0)),
    )


def draw_size(maker: Maker, rng: Generator, about: float) -> float:
    """A size for the drawing near what the designer reckoned [m]."""
    metric = maker.units == "millimetre" or (maker.units == "mixed" and rng.random() < 0.5)
    style = STYLES[rng.choice(4, p=maker.styles)]
    return _metric(style, rng, about) if metric else _inches(style, rng, about, maker.inch)


def _inches(style: str, rng: Generator, about: float, inch: float) -> float:
    inches = about / inch
    if style == "to a thou":
        return round(inches, 3) * inch
    if style == "to half a thou":
        return round(inches * 2000) / 2000 * inch
    whole = Fraction(round(inches * (steps := _steps(rng, inches))), steps)
    off = 0.0 if style == "fraction" else float(rng.choice((1, 1.5, 2, 3, 4, 5, 7)) * rng.choice((-1, 1, -1)))
    return float(whole) * inch + off * THOU


def _steps(rng: Generator, inches: float) -> int:
    """Into how many parts the designer cut his inch."""
    if inches > 2.5:
        return int(rng.choice((4, 8, 16, 32), p=(0.36, 0.42, 0.18, 0.04)))
    if inches > 0.9:
        return int(rng.choice((4, 8, 16, 32), p=(0.16, 0.42, 0.34, 0.08)))
    if inches > 0.2:
        return int(rng.choice((8, 16, 32, 64), p=(0.18, 0.46, 0.28, 0.08)))
    return int(rng.choice((16, 32, 64), p=(0.40, 0.42, 0.18)))


def _metric(style: str, rng: Generator, about: float) -> float:
    millimetres = about / MM
    if style == "fraction":
        step = 5.0 if millimetres > 60 and rng.random() < 0.55 else 1.0
        step = 0.5 if millimetres < 12 and rng.random() < 0.4 else step
        return max(step, round(millimetres / step) * step) * MM
    if style == "beside a fraction":
        off = float(rng.choice((0.02, 0.03, 0.05, 0.08, 0.1)) * rng.choice((-1, 1)))
        return (round(millimetres) + off) * MM
    return round(millimetres, 1 if style == "to a thou" else 2) * MM


def mated(maker: Maker, rng: Generator, size: float, allowance: float) -> float:
    """The size of a part that runs in or on another: the other's size and an allowance (negative for a shaft) [m]."""
    thou = abs(allowance) / THOU
    if maker.units == "millimetre":
        step = 0.01 * MM if rng.random() < 0.7 else 0.05 * MM
        return size + math.copysign(max(step, round(abs(allowance) / step) * step), allowance)
    step = 1.0 if rng.random() < maker.decimal_mates else 0.5
    return size + math.copysign(max(step, round(thou / step) * step) * THOU, allowance)


def work(maker: Maker, rng: Generator, size: float, *, hole: bool, care: float = 1.0) -> Batch:
    """The batch in which a maker produced one size of part."""
    scale = care * (max(size, 0.25 * INCH) / INCH) ** 0.37
    return Batch(size + float(rng.normal(0, maker.setting * scale)), maker.truth * scale, hole)


@dataclass(frozen=True)
class Batch:
    """Parts made to one setting: a man bores until the gauge goes and turns until it drops over, so most pieces lie to the
    side of more metal with a tail to the other (common practice)."""

    centre: float
    spread: float
    hole: bool

    def piece(self, rng: Generator) -> float:
        """The size of one piece [m]: a gamma's tail towards less metal, of mean nought and deviation ``spread``."""
        tail = (float(rng.gamma(4.0)) - 4.0) / 2.0
        return self.centre + (tail if self.hole else -tail) * self.spread
