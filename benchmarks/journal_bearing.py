"""The finite journal bearing beside a rotordynamics library's fluid film, in one run.

python benchmarks/journal_bearing.py            (the library: pip install ross-rotordynamics "plotly<6")
"""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable

import numpy as np

from gudgeon.mechanics.film_table import film
from gudgeon.mechanics.journal_bearing import film_at

AROUND, ALONG = 90, 30


def median_ms(work: Callable[[], object], repeats: int) -> float:
    """Median wall time [ms]; the first call, which may compile, is not counted."""
    work()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1e3 * statistics.median(times)


def by_the_library() -> Callable[[], object] | None:
    """One fluid film of the library at L/D 1 and e .6 on the same grid, or None where it is not installed."""
    try:
        from ross.bearings.fluid_flow import FluidFlow
    except ImportError:
        try:
            from ross import FluidFlow
        except ImportError:
            return None
    radius, clearance, length, viscosity, omega = 0.0254, 50e-6, 0.0508, 0.02, 2 * math.pi * 7.5

    def work() -> object:
        bearing = FluidFlow(
            nz=ALONG, ntheta=AROUND, length=length, omega=omega, p_in=0.0, p_out=0.0, radius_rotor=radius,
            radius_stator=radius + clearance, viscosity=viscosity, density=860.0, eccentricity=0.6 * clearance,
            attitude_angle=math.radians(50.5),
        )  # fmt: skip
        bearing.calculate_pressure_matrix_numerical()
        return bearing

    return work


def main() -> None:
    """Print one line per sum."""
    one = median_ms(lambda: film_at(eccentricity=0.6, slenderness=1.0, around=AROUND, along=ALONG), 50)
    sweep = np.linspace(0.05, 0.95, 37)
    swept = {
        slender: median_ms(lambda s=slender: film_at(eccentricity=sweep, slenderness=s, around=AROUND, along=ALONG), 20)
        for slender in (1.0, 0.5, 0.25)
    }
    draws = np.exp(np.linspace(-3, 0, 20_000))
    read = median_ms(lambda: film(sommerfeld=draws, slenderness=1.0), 20)
    print(f"one film, {AROUND} x {ALONG}:            {one:9.3f} ms")
    for slender, each in swept.items():
        print(f"37 eccentricities, L/D {slender:<4}:    {each:9.3f} ms   (to be under 12 ms)")
    print(f"20,000 draws from the table:  {read:9.3f} ms")
    library = by_the_library()
    if library is None:
        print("the rotordynamics library is not installed; nothing to set beside it")
        return
    theirs = median_ms(library, 5)
    print(f"fluid film of the library:    {theirs:9.3f} ms   {theirs / one:6.0f} times as long (to be 100 or more)")


if __name__ == "__main__":
    main()
