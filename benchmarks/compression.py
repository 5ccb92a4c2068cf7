"""A thousand compression strokes with leak and heat at a tenth of a degree: compiled lanes beside scipy's solve_ivp.

python -m benchmarks.compression

Both follow the same physics; here it is written once more, apart, on temperature and mass. Error is that of the peak against
a run of solve_ivp at rtol 1e-10.
"""

from __future__ import annotations

import math
import time

import numpy as np
from scipy.integrate import solve_ivp

from gudgeon.mechanics import compression as c

IN, RPM, R = 0.0254, math.pi / 30, 287.05


def peak_by_solve_ivp(lane: np.ndarray, *, rtol: float, method: str = "RK45") -> float:
    """Peak absolute pressure of one case by a general solver [Pa]."""
    (bore, throw, rod, _, clearance, speed, closes, open_for, valve, leak, ambient, _, charge, wall, film, surface, _) = lane
    piston = math.pi / 4 * bore**2

    def volume(x: float) -> float:
        angle = math.pi + x
        height = throw * math.cos(angle) + math.sqrt(rod**2 - (throw * math.sin(angle)) ** 2)
        return clearance + piston * (rod + throw - height)

    def growth(x: float) -> float:
        sine, cosine = math.sin(math.pi + x), math.cos(math.pi + x)
        return piston * throw * (sine + throw * sine * cosine / math.sqrt(rod**2 - (throw * sine) ** 2))

    def opening(x: float) -> float:
        return valve * math.sin(math.pi * (closes - x) / open_for) ** 2 if x < closes else 0.0

    def nozzle(ratio: float) -> float:
        r = max(ratio, 0.5282817877)
        return math.sqrt(7.0 * (r ** (10 / 7) - r ** (12 / 7))) if r < 1 else 0.0

    def slope(x: float, state: np.ndarray) -> tuple[float, float]:
        t, m = state
        v, dv = volume(x), growth(x)
        p = m * R * t / v
        cv = 718.0 + 0.0495 * (t - 300) + 3.45e-4 * (t - 300) ** 2
        out = (leak + opening(x)) * p * nozzle(ambient / p) / math.sqrt(R * t) / speed
        conductivity, viscosity = 0.02638 * (t / 300) ** 0.80, 1.854e-5 * (t / 300) ** 0.72
        reynolds = m / v * (2 * throw * speed / math.pi) * bore / viscosity
        wet = surface * 2 * piston + 4 * v / bore
        heat = film * conductivity / bore * reynolds**0.7 * wet * (t - wall) / speed
        return (-p * dv - heat - R * t * out) / (m * cv), -out

    start = 0.0
    rise = 0.0
    while start < closes:  # free breathing until the intake throttles by half a percent
        area = max(opening(start), 1e-12)
        rise = 0.5 * ambient / (R * charge) * (-growth(start) * speed / area) ** 2
        if rise > 0.005 * ambient:
            break
        start += c.TENTH_DEGREE / 50
    first = ambient + rise if start > 0 else ambient
    found = solve_ivp(
        slope,
        (start, math.pi + 0.02),
        (charge, first * volume(start) / (R * charge)),
        method=method,
        rtol=rtol,
        atol=rtol * 1e-6,
        dense_output=True,
    )
    late = np.linspace(math.pi - 0.4, math.pi + 0.02, 800)
    t, m = found.sol(late)
    height = -throw * np.cos(late) + np.sqrt(rod**2 - (throw * np.sin(late)) ** 2)
    return float(np.max(m * R * t / (clearance + piston * (rod + throw - height))))


def lanes(count: int) -> np.ndarray:
    """Cases of one engine over a range of leaks, films and speeds."""
    draw = np.random.default_rng(1)
    bore, stroke = 3.875 * IN, 4.25 * IN
    return c.cases(
        bore=bore,
        stroke=stroke,
        rod=7.5 * IN,
        clearance_volume=math.pi / 4 * bore**2 * stroke / 3.22,
        speed=draw.uniform(60, 250, count) * RPM,
        leak_area=np.exp(draw.uniform(math.log(1e-8), math.log(5e-6), count)),
        film=draw.uniform(0.35, 0.8, count),
        intake_closes=math.radians(48.5),
        intake_open_for=math.radians(236.0),
    )


def main() -> None:
    """Print both times, their errors, and the time of one inverse's lanes."""
    cases = lanes(1000)
    c.peak_pressures(cases)
    some = cases[::50]
    exact = np.array([peak_by_solve_ivp(each, rtol=1e-10) for each in some])
    for degree in (0.1, 1.0, 2.0):
        times = []
        for _ in range(5):
            began = time.perf_counter()
            peaks, _ = c.peak_pressures(cases, step=math.radians(degree))
            times.append(time.perf_counter() - began)
        error = float(np.abs(peaks[::50, 0] / exact - 1).max())
        print(f"lanes at {degree:3.1f} degree, 1,000 cases   {1e3 * sorted(times)[2]:9.1f} ms   peak within {error:.1e}")
    for rtol in (1e-4, 1e-5, 1e-6):
        began = time.perf_counter()
        found = np.array([peak_by_solve_ivp(each, rtol=rtol) for each in some])
        spent = (time.perf_counter() - began) * 1000 / len(some)
        error = float(np.abs(found / exact - 1).max())
        print(f"solve_ivp RK45, rtol {rtol:.0e}, times 50 {1e3 * spent:10.0f} ms   peak within {error:.1e}")


if __name__ == "__main__":
    main()
