"""Does a governed engine hunt? The loop of engine, flywheel, governor, slack and friction, run through in time.

In shares: speed y over rated speed, sleeve x over its travel (0 lowest, throttle open; 1 highest, shut).

    governor   T_g^2 x'' = (y - y_low - D x) - f sign(x') - c x'     stops at 0 and 1
    linkage    u follows x only when the play b is taken up
    engine     T_m m' = (1 - u) - m,    T_a y' = m - load

T_g^2 = M travel / (2 Q): mass at the sleeve, holding force; D spread of speed over the travel; f half the friction's band; b
slack over travel; T_a run-up time of the wheel; T_m the wait for the next charge. Without f, b and T_m it is the case of
Vyshnegradskii (1877), steady if c D > T_g^2 / T_a.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from gudgeon.mechanics.compiled import compiled
from gudgeon.mechanics.numbers import Array, Number

STILL = 1e-3
"""A sleeve that swings less than this share of its travel stands still."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hunt:
    """What the loop does long after a disturbance: swing of speed from low to high over rated speed, of the sleeve over its
    travel, and time of one swing there and back [s], NaN where it stands still. All of one shape."""

    speed_swing: Array
    sleeve_swing: Array
    period: Array


def hunt(
    *,
    governor_time: Number,
    spread: Number,
    friction: Number,
    slack: Number,
    damping: Number,
    run_up: Number,
    charge_wait: Number,
    load: Number = 0.5,
    step_of_load: float = 0.1,
    seconds: float = 40.0,
    steps: int | None = None,
) -> Hunt:
    """Run the loop through a step of load and look at the last third.

    Parameters
    ----------
    governor_time : T_g [s]. spread : D [1]. friction : f [1]. slack : b [1]. damping : c [s]. run_up : T_a [s].
    charge_wait : T_m [s]. load : steady load as a share of full, before a fall of ``step_of_load``.
    seconds, steps : time run through, and in how many steps; none given takes twelve to the shortest T_g, 4000 at least.

    Semi-implicit Euler. Friction holds the sleeve while the force is less than it. A swing of the sleeve under ``STILL``
    counts as none. Raises ValueError for steps longer than a tenth of T_g.
    """
    given = np.broadcast_arrays(governor_time, spread, friction, slack, damping, run_up, charge_wait, load)
    rows = np.stack([np.asarray(each, dtype=np.float64).ravel() for each in given], axis=1)
    steps = steps or max(4000, int(12 * seconds / float(rows[:, 0].min(initial=1.0))))
    step = seconds / steps
    if rows.size and step > 0.1 * float(rows[:, 0].min()):
        raise ValueError(
            f"A step of {step:.2g} s is too long for a governor that answers in {rows[:, 0].min():.2g} s; "
            "ten steps in that time or more would be right."
        )
    speeds, sleeves = np.empty((2, rows.shape[0], steps - 2 * steps // 3))
    _run(np.ascontiguousarray(rows), step, step_of_load, 2 * steps // 3, speeds, sleeves)
    shape = given[0].shape
    swing = np.ptp(sleeves, axis=1)
    return Hunt(
        speed_swing=np.ptp(speeds, axis=1).reshape(shape),
        sleeve_swing=swing.reshape(shape),
        period=np.where(swing > STILL, _period(speeds, step), np.nan).reshape(shape),
    )


def _period(speeds: Array, step: float) -> Array:
    """Mean time between upward crossings of the mean [s]; NaN for fewer than two."""
    above = speeds > speeds.mean(axis=1, keepdims=True)
    up = above[:, 1:] & ~above[:, :-1]
    count = up.sum(axis=1)
    first, last = up.argmax(axis=1), up.shape[1] - 1 - up[:, ::-1].argmax(axis=1)
    return np.asarray(np.where(count > 1, (last - first) * step / np.maximum(count - 1, 1), np.nan))


@compiled
def _run(rows: Array, step: float, fall: float, start: int, speeds: Array, sleeves: Array) -> None:
    for n in range(rows.shape[0]):
        wait, spread, friction, slack = rows[n, 0], rows[n, 1], rows[n, 2], rows[n, 3]
        damping, run_up, charge, load = rows[n, 4], rows[n, 5], rows[n, 6], rows[n, 7]
        x = 1.0 - load
        u, moment, y = x, load, spread * x
        velocity = 0.0
        for k in range(start + speeds.shape[1]):
            push = y - spread * x
            if velocity == 0.0 and abs(push) <= friction:
                push = 0.0
            else:
                way = velocity if velocity != 0.0 else push
                push -= friction if way > 0.0 else -friction
            before = velocity
            velocity = (velocity + step * push / wait**2) / (1.0 + step * damping / wait**2)
            if before * velocity < 0.0 and friction > 0.0:
                velocity = 0.0
            x += step * velocity
            if x < 0.0 or x > 1.0:
                x = min(max(x, 0.0), 1.0)
                velocity = 0.0
            u = min(max(u, x - slack / 2), x + slack / 2)
            shut = min(max(u, 0.0), 1.0)
            moment = moment + step / charge * ((1.0 - shut) - moment) if charge > step else 1.0 - shut
            y += step * (moment - (load - fall)) / run_up
            if k >= start:
                speeds[n, k - start] = y
                sleeves[n, k - start] = x
