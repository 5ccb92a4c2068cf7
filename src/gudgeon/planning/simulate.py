"""The plan run many thousand times with drawn durations: when it ends, what it hangs on, how late a step may be sent."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.planning.calendars import WorkCalendar
from gudgeon.planning.durations import Floats, Spread, stream
from gudgeon.planning.network import Network
from gudgeon.planning.schedule import compressed

Progress = Callable[[int, int], bool | None]
"""Called with runs done and runs asked for; returning False stops the simulation with what it has."""

BLOCK = 2_000
"""Runs between two calls of progress."""


@dataclass(frozen=True, kw_only=True)
class FreeOutcome:
    """Ends of the runs, shape (runs,), and per step the share of runs in which it lay on the path that set the end."""

    ends: Floats
    criticality: Floats

    def chance_by(self, deadline: float) -> float:
        """Share of the runs that end by a deadline."""
        return float(np.mean(self.ends <= deadline))


def simulate(
    network: Network, spreads: Mapping[str, Spread], *, runs: int, name: str = "", progress: Progress | None = None
) -> FreeOutcome:
    """Runs of the network with hands and shops unlimited, all durations independent.

    The draw of a step depends on ``name``, the step's key and the number of the run only, so that two plans are compared
    on the same chances. At most one block of 16 ``BLOCK`` runs is held at a time besides the ends. Raises ValueError for
    fewer than 100 runs (the chance would be told worse than to 1 in 10) and names a step without duration.
    """
    if runs < 100:
        raise ValueError(f"{runs} runs were asked for; a chance to one in ten takes at least 100.")
    if len(network) == 0:
        return FreeOutcome(ends=np.zeros(runs), criticality=np.zeros(0))
    missing = [key for key in network.keys if key not in spreads]
    if missing:
        raise ValueError(f"Step “{missing[0]}” has no duration; a spread for each step would be right.")
    from gudgeon.planning.loops import LANES, free_runs

    first, before = compressed(network.before)
    tables = np.array([spreads[key].table for key in network.keys])
    seeds = np.array([stream(name, key) for key in network.keys], dtype=np.uint64)
    ends, counts, done = np.empty(runs), np.zeros(len(network), dtype=np.int64), 0
    while done < runs:
        block = min(16 * BLOCK, runs - done)
        on_path = np.zeros(((block + LANES - 1) // LANES, len(network)), dtype=np.int64)
        free_runs(first, before, tables, seeds, done, ends[done : done + block], on_path)
        counts += on_path.sum(axis=0)
        done += block
        if progress is not None and progress(done, runs) is False:
            break
    return FreeOutcome(ends=ends[:done].copy(), criticality=counts / done)


@dataclass(frozen=True, kw_only=True)
class BenchPlan:
    """What a run with limited hands needs beside the network. Rows are by place in it.

    Attributes
    ----------
    calendars : the owner's hours first, then those that waits go by.
    shop : which of the calendars each step's wait goes by.
    rank : which step a free hand takes first (least first).
    release : moment before which a step cannot start [days].
    hands : how many can work at the bench at once.
    """

    network: Network
    calendars: tuple[WorkCalendar, ...]
    shop: tuple[int, ...]
    rank: tuple[int, ...]
    release: tuple[float, ...]
    hands: int = 1


@dataclass(frozen=True, kw_only=True)
class BenchOutcome:
    """Moments in days, shape (runs, steps) each.

    Attributes
    ----------
    sends : latest moment of sending out, or of going on from bench to what comes after, that keeps the deadline.
    slacks : days that each start may slip without moving the end of its run.
    on_path : did the step lie on the chain of links and hands that set the end of the run.
    """

    starts: Floats
    finishes: Floats
    sends: Floats
    slacks: Floats
    on_path: NDArray[np.bool_]

    @property
    def ends(self) -> Floats:
        """The end of each run, shape (runs,)."""
        return np.asarray(self.finishes.max(axis=1, initial=0.0))

    @property
    def criticality(self) -> Floats:
        """Per step, the share of runs whose end it set."""
        return np.asarray(self.on_path.mean(axis=0))


def simulate_bench(
    plan: BenchPlan, *, hours: Floats, waits: Floats, deadline: float = np.inf, progress: Progress | None = None
) -> BenchOutcome:
    """Runs with limited hands: a free hand takes, of the steps it could begin, the first by rank; waits run side by side.

    That rule looks no further than the person at the bench could, so drawn durations are not known before they happen.
    Each run is then walked backward with the hands keeping their order, which gives slack and the latest sending.

    Parameters
    ----------
    hours, waits : own work [h] and then wait [days by the shop's calendar], shape (runs, steps); 0 for none.
    deadline : moment [days]; latest sendings are infinite without it.
    """
    from gudgeon.planning.loops import bench_runs

    steps, runs = len(plan.network), len(hours)
    if hours.shape != waits.shape or hours.shape != (runs, steps):
        raise ValueError(f"Hours {hours.shape} and waits {waits.shape} were given; (runs, {steps}) each would be right.")
    if steps == 0:
        none = np.zeros((runs, 0))
        return BenchOutcome(starts=none, finishes=none, sends=none, slacks=none, on_path=none.astype(np.bool_))
    net = (*compressed(plan.network.before), *compressed(plan.network.after))
    calendars = (
        np.array([calendar.done for calendar in plan.calendars]),
        np.array([calendar.beyond for calendar in plan.calendars]),
        np.array(plan.shop, dtype=np.int64),
    )
    rank, release = np.array(plan.rank, dtype=np.int64), np.array(plan.release, dtype=float)
    starts, finishes, slacks, sends = (np.empty((runs, steps)) for _ in range(4))
    on_path = np.empty((runs, steps), dtype=np.bool_)
    done = 0
    while done < runs:
        part = slice(done, min(done + BLOCK, runs))
        out = starts[part], finishes[part], slacks[part], sends[part], on_path[part]
        bench_runs(net, calendars, plan.hands, rank, release, hours[part], waits[part], deadline, *out)
        done = part.stop
        if progress is not None and progress(done, runs) is False:
            break
    return BenchOutcome(
        starts=starts[:done], finishes=finishes[:done], sends=sends[:done], slacks=slacks[:done], on_path=on_path[:done]
    )


def latest_send(outcome: BenchOutcome, place: int, *, deadline: float, level: float) -> float | None:
    """The latest moment at which a step may go out with the deadline still kept in ``level`` of all runs.

    All else goes as drawn and the hands keep their order; where they would better change it, the true moment is a little
    later. None where the deadline is kept in fewer runs even if nothing is delayed.
    """
    kept = outcome.sends[outcome.ends <= deadline, place]
    wanted = int(np.ceil(level * len(outcome.ends)))
    if len(kept) < wanted or wanted == 0:
        return None
    return float(np.sort(kept)[::-1][wanted - 1])


def ranked_by(values: Sequence[float]) -> tuple[int, ...]:
    """Rank of each value, least first, ties as they stand."""
    order = np.argsort(np.asarray(values, dtype=float), kind="stable")
    rank = np.empty(len(order), dtype=np.int64)
    rank[order] = np.arange(len(order))
    return tuple(int(value) for value in rank)
