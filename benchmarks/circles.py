"""A thousand reference circles of 24 points: compiled lanes beside general libraries, in one run.

python benchmarks/circles.py
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

import miniball
import numpy as np
from scipy.optimize import linprog

from gudgeon.mechanics.circles import (
    largest_circle_within,
    least_squares_circle,
    minimum_zone_circle,
    smallest_circle_round,
)


def median_ms(work: Callable[[], object], repeats: int) -> float:
    """Median wall time [ms]; the first call, which may compile, is not counted."""
    work()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1e3 * statistics.median(times)


def zone_by_linprog(x: np.ndarray, y: np.ndarray) -> float:
    """One linearised minimum zone by scipy's linear programme."""
    u, v = x - x.mean(), y - y.mean()
    r = np.hypot(u, v)
    rows, half = np.column_stack([-u / r, -v / r, -np.ones_like(r)]), -np.ones((len(r), 1))
    constraints = np.vstack([np.hstack([rows, half]), np.hstack([-rows, half])])
    return 2 * float(linprog([0, 0, 0, 1], A_ub=constraints, b_ub=np.concatenate([-r, r]), bounds=(None, None)).fun)


def main() -> None:
    """Print one line per kind of circle."""
    rng = np.random.default_rng(1)
    angle = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    radius = 50 + 0.01 * rng.standard_normal((1000, 24))
    x, y = radius * np.cos(angle) + 0.3, radius * np.sin(angle) - 0.2
    for fit in (least_squares_circle, smallest_circle_round, minimum_zone_circle, largest_circle_within):
        print(f"{fit.__name__:24} {median_ms(lambda fit=fit: fit(x=x, y=y), 7):9.2f} ms")
    few = list(zip(x[:100], y[:100], strict=True))
    ball = 10 * median_ms(lambda: [miniball.get_bounding_ball(np.column_stack(each)) for each in few], 3)
    programme = 10 * median_ms(lambda: [zone_by_linprog(*each) for each in few], 3)
    print(f"{'miniball':24} {ball:9.0f} ms (a hundred, times ten)")
    print(f"{'linprog, one step':24} {programme:9.0f} ms (a hundred, times ten)")


if __name__ == "__main__":
    main()
