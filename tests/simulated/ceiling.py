"""How often the drawing's size could be named at best, by one who knew the true sizes of all pieces when new, this maker's
own habits, and how true his shop worked: no gauge, no wear between. Where pieces scatter by a thou and sizes are drawn to
half a thou, nobody can name the size each time; the demand on the reconstruction is to be read beside this figure.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

import numpy as np
from numpy.typing import NDArray

from tests.simulated.engines import Engine, Truth
from tests.simulated.makers import INCH, MM, THOU, Maker

MATES = {"piston": "bore", "bush": "wrist pin", "cam bearing": "cam journal", "valve guide": "valve stem"}
CARE = {
    "bore": 1.0, "piston": 1.0, "wrist pin": 0.45, "bush": 0.7, "crankpin journal": 0.55, "main journal": 0.55,
    "cam journal": 0.5, "cam bearing": 0.8, "valve stem": 0.7, "valve guide": 0.9, "ring width": 0.5,
}  # fmt: skip
Sizes = NDArray[np.float64]


def best_share(engines: Iterable[Engine], families: Iterable[str] = tuple(CARE)) -> dict[str, tuple[int, int]]:
    """Per family: features whose size the best guess names within .0005 in, and features in all."""
    wanted, tally = set(families), {}
    for engine in engines:
        groups: dict[tuple[str, float], list[Truth]] = {}
        for truth in engine.truths:
            if (
                truth.family in wanted
                and truth.nominal is not None
                and not truth.resized
                and (truth.siblings > 1 or truth.unworn)
            ):
                groups.setdefault((truth.family, truth.nominal), []).append(truth)
        for (family, nominal), pieces in groups.items():
            hit = abs(_best_guess(engine, family, [piece.new for piece in pieces]) - nominal) <= 0.5005 * THOU
            right, every = tally.get(family, (0, 0))
            tally[family] = (right + hit * len(pieces), every + len(pieces))
    return tally


def _best_guess(engine: Engine, family: str, pieces: list[float]) -> float:
    """The middle of the inch's thousandth that most likely holds the drawing's size."""
    mean, maker = float(np.mean(pieces)), engine.maker
    scale = CARE[family] * (max(mean, 0.25 * INCH) / INCH) ** 0.37
    spread = scale * math.sqrt(maker.setting**2 + maker.truth**2 / len(pieces))
    mate = next((truth.nominal for truth in engine.truths if truth.family == MATES.get(family)), None)
    weigh = (lambda sizes: _beside(maker, mate, sizes)) if mate is not None else (lambda sizes: _habits(maker, sizes))
    return _heaviest(weigh, maker, mate, mean, spread)


def _heaviest(weigh: Callable[[Sizes], Sizes], maker: Maker, mate: float | None, mean: float, spread: float) -> float:
    reach = 6 * spread + 2 * THOU
    inch = maker.inch
    grids = [_grid(mean, reach, step) for step in (THOU / 2, inch / 2000, MM / 100)]
    if mate is not None:
        grids += [mate + _grid(mean - mate, reach, step) for step in (THOU / 2, MM / 100)]
    for off in (0.0, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 7.0):
        grids += [_grid(mean, reach + 7 * THOU, inch / 64) + side * off * THOU for side in (-1, 1)]
    sizes = np.unique(np.round(np.concatenate(grids), 9))
    weight = weigh(sizes) * np.exp(-0.5 * ((sizes - mean) / spread) ** 2)
    near = np.abs(sizes[:, None] - sizes[None, :]) <= 0.5005 * THOU
    return float(sizes[np.argmax(near @ weight)])


def _grid(mean: float, reach: float, step: float) -> Sizes:
    """Every multiple of a step within reach of the mean, and the one below."""
    return np.arange(np.floor((mean - reach) / step), np.ceil((mean + reach) / step) + 1) * step


def _on(sizes: Sizes, step: float) -> NDArray[np.bool_]:
    close: NDArray[np.bool_] = np.abs(sizes / step - np.round(sizes / step)) * step < 2e-8
    return close


def _habits(maker: Maker, sizes: Sizes) -> Sizes:
    """How often this maker would have drawn each size, for a designer's wish that is even over the neighbourhood."""
    metric = {"inch": 0.0, "mixed": 0.5, "millimetre": 1.0}[maker.units]
    return (1 - metric) * _inch_habits(maker, sizes * INCH / maker.inch) + metric * _metric_habits(maker, sizes)


def _inch_habits(maker: Maker, sizes: Sizes) -> Sizes:
    plain, beside, thou, half = maker.styles
    weight = _fractions(sizes) * plain + 1.0 * THOU * thou * _on(sizes, THOU) + 0.5 * THOU * half * _on(sizes, THOU / 2)
    for off in (1, 1.5, 2, 3, 4, 5, 7):
        weight += beside / 7 * (2 / 3 * _fractions(sizes + off * THOU) + 1 / 3 * _fractions(sizes - off * THOU))
    return weight


def _fractions(sizes: Sizes) -> Sizes:
    inches = float(np.mean(sizes)) / INCH
    shares: tuple[tuple[int, float], ...] = (
        ((4, 0.36), (8, 0.42), (16, 0.18), (32, 0.04)) if inches > 2.5 else ((4, 0.16), (8, 0.42), (16, 0.34), (32, 0.08))
    )
    if inches <= 0.9:
        shares = ((8, 0.18), (16, 0.46), (32, 0.28), (64, 0.08))
    if inches <= 0.2:
        shares = ((16, 0.40), (32, 0.42), (64, 0.18))
    weight = np.zeros_like(sizes)
    for cut, share in shares:
        weight += share * INCH / cut * _on(sizes, INCH / cut)
    return weight


def _metric_habits(maker: Maker, sizes: Sizes) -> Sizes:
    plain, beside, tenth, hundredth = maker.styles
    weight = plain * MM * _on(sizes, MM) + tenth * 0.1 * MM * _on(sizes, MM / 10) + hundredth * 0.01 * MM * _on(sizes, MM / 100)
    for off in (0.02, 0.03, 0.05, 0.08, 0.1):
        weight += beside / 10 * MM * (_on(sizes - off * MM, MM) + _on(sizes + off * MM, MM))
    return weight + 1e-12


def _beside(maker: Maker, mate: float, sizes: Sizes) -> Sizes:
    """The same for a part whose size was taken from its mate's."""
    if maker.units == "millimetre":
        return 0.7 * 0.01 * _on(sizes - mate, 0.01 * MM) + 0.3 * 0.05 * _on(sizes - mate, 0.05 * MM) + 1e-12
    thou, half = maker.decimal_mates, 1 - maker.decimal_mates
    return thou * 1.0 * _on(sizes - mate, THOU) + half * 0.5 * _on(sizes - mate, THOU / 2) + 1e-12
