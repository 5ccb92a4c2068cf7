"""The schedule for sure durations and limited hands or machines: a list schedule with its gap to a bound, or the optimum."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from gudgeon.planning.network import Network, passes

Whole = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True)
class Project:
    """Activities with whole durations, renewable resources and links.

    Attributes
    ----------
    durations : by place in the network, whole units of time, none negative.
    needs : units of each resource that an activity holds while it runs, shape (activities, resources).
    capacities : units of each resource that there are at any time.
    """

    network: Network
    durations: tuple[int, ...]
    needs: tuple[tuple[int, ...], ...]
    capacities: tuple[int, ...]

    def __post_init__(self) -> None:
        if len(self.durations) != len(self.network) or len(self.needs) != len(self.network):
            raise ValueError(
                f"{len(self.durations)} durations and {len(self.needs)} needs were given for {len(self.network)} activities; "
                "one of each would be right."
            )
        for key, row in zip(self.network.keys, self.needs, strict=True):
            for need, there in zip(row, self.capacities, strict=True):
                if need > there:
                    raise ValueError(
                        f"Activity “{key}” needs {need} of something of which there are {there}; it can never run."
                    )

    @cached_property
    def arrays(self) -> tuple[tuple[Any, Any], tuple[Any, Any], Whole, Whole, Whole]:
        """Links forward and back in compressed rows, durations, needs and capacities, for the loops."""
        resources = len(self.capacities)
        return (
            compressed(self.network.before),
            compressed(self.network.after),
            np.array(self.durations, dtype=np.int64),
            np.array(self.needs, dtype=np.int64).reshape(len(self.network), resources),
            np.array(self.capacities, dtype=np.int64),
        )


@dataclass(frozen=True, kw_only=True)
class Schedule:
    """Starts by place in the network; ``bound`` is a length that no schedule can beat, ``method`` says how it was found."""

    starts: tuple[int, ...]
    length: int
    bound: int
    method: Literal["list schedule", "exact"]

    @property
    def proved(self) -> bool:
        """Is it proved that none is shorter."""
        return self.length <= self.bound

    @property
    def gap(self) -> float:
        """How much longer than the bound, as a share of the bound."""
        return (self.length - self.bound) / self.bound if self.bound > 0 else 0.0

    @property
    def sentence(self) -> str:
        """How good it is, in words."""
        if self.proved:
            return "No order of the work is shorter: it meets its lower bound."
        return (
            f"The order was found by a list schedule; the best possible one is at most {self.gap:.0%} shorter."
            if self.method == "list schedule"
            else f"The search was stopped; the best possible order is at most {self.gap:.0%} shorter."
        )


def compressed(rows: Sequence[Sequence[int]]) -> tuple[Whole, Whole]:
    """Rows of places as (first, places): row i is ``places[first[i]:first[i+1]]``."""
    first = np.concatenate([[0], np.cumsum([len(row) for row in rows])]).astype(np.int64)
    return first, np.array([place for row in rows for place in row], dtype=np.int64)


def lower_bound(project: Project) -> int:
    """The greatest of: the critical path; per resource, the least head + the work divided by capacity + the least tail over
    the activities that need more than a share of it (Klein and Scholl 1999, the capacity and one-machine bounds)."""
    walked = passes(project.network, np.array(project.durations, dtype=float))
    heads, tails = walked.early_start, walked.length - walked.late_finish
    best = int(walked.length)
    took = np.array(project.durations)
    for resource, there in enumerate(project.capacities):
        needs = np.array([row[resource] for row in project.needs])
        best = max(
            best, _work_bound(heads, tails, took * needs, there), _work_bound(heads, tails, took * (2 * needs > there), 1)
        )
    return best


def _work_bound(heads: NDArray[np.float64], tails: NDArray[np.float64], work: NDArray[Any], capacity: int) -> int:
    """Over all pairs of a head and a tail: both, and between them the work that lies behind both, shared by the capacity."""
    best = 0.0
    for head in np.unique(heads):
        for tail in np.unique(tails):
            inside = work[(heads >= head) & (tails >= tail)].sum()
            if inside:
                best = max(best, head + np.ceil(inside / capacity) + tail)
    return int(np.ceil(best))


def list_schedule(project: Project, *, restarts: int = 300, name: str = "list schedule") -> Schedule:
    """The shortest of many list schedules: latest start first, then the same with chances, each improved forward and back.

    Priority: least latest start (Davis and Patterson 1975), most followers; restarts pick by regret-biased sampling (Drexl
    1991) with draws named ``name``, so that the same project gives the same schedule. Stops early at the lower bound.
    """
    from gudgeon.planning.loops import improved
    from gudgeon.quantity.draws import generator

    front, back, took, needs, capacity = project.arrays
    bound = lower_bound(project)
    used = np.zeros((int(took.sum()) + 1, len(project.capacities)), dtype=np.int64)
    start, best, length = np.zeros(len(took), dtype=np.int64), np.zeros(len(took), dtype=np.int64), -1
    late = passes(project.network, took.astype(float)).late_start
    chance = generator("planning", name)
    for turn in range(restarts + 1):
        order = _order(project.network, late, chance if turn else None)
        end = int(improved(front, back, took, needs, capacity, order, used, start))
        if length < 0 or end < length:
            length, best = end, start.copy()
        if length <= bound:
            break
    return Schedule(starts=tuple(int(s) for s in best), length=max(length, 0), bound=bound, method="list schedule")


def _order(network: Network, late: NDArray[np.float64], chance: np.random.Generator | None) -> Whole:
    """Activities by latest start among those whose forerunners are in; with chances, biased by regret."""
    left = [len(row) for row in network.before]
    ready = [place for place, count in enumerate(left) if count == 0]
    order = []
    while ready:
        times = late[ready]
        if chance is None:
            pick = int(np.argmin(times))
        else:
            weight = np.cumsum(times.max() - times + 1.0)
            pick = int(np.searchsorted(weight, chance.random() * weight[-1], side="right"))
        place = ready.pop(pick)
        order.append(place)
        for follower in network.after[place]:
            left[follower] -= 1
            if left[follower] == 0:
                ready.append(follower)
    return np.array(order, dtype=np.int64)


def exact_schedule(project: Project, *, seconds: float = 10.0, workers: int = 2) -> Schedule | None:
    """The optimum by constraint programming (OR-tools CP-SAT), or the best found in the time with its bound.

    None where OR-tools is not installed (extra ``plan``). Starts from the list schedule.
    """
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        return None
    hint = list_schedule(project, restarts=50)
    model = cp_model.CpModel()
    starts = [model.new_int_var(0, hint.length, key) for key in project.network.keys]
    spans = [model.new_fixed_size_interval_var(s, d, "") for s, d in zip(starts, project.durations, strict=True)]
    end = model.new_int_var(hint.bound, hint.length, "end")
    for place, row in enumerate(project.network.before):
        model.add(end >= starts[place] + project.durations[place])
        model.add_hint(starts[place], hint.starts[place])
        for wanted in row:
            model.add(starts[place] >= starts[wanted] + project.durations[wanted])
    for resource, there in enumerate(project.capacities):
        model.add_cumulative(spans, [row[resource] for row in project.needs], there)
    model.minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = 1
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return hint
    bound = round(solver.objective_value if status == cp_model.OPTIMAL else solver.best_objective_bound)
    found = tuple(int(solver.value(s)) for s in starts)
    return Schedule(starts=found, length=round(solver.objective_value), bound=max(bound, hint.bound), method="exact")


def scheduled(project: Project, *, exact: bool = True, seconds: float = 5.0, restarts: int = 300) -> Schedule:
    """The optimum where OR-tools is there and ``exact`` is asked for, else the list schedule; ``method`` says which."""
    found = list_schedule(project, restarts=restarts)
    if exact and not found.proved:
        return exact_schedule(project, seconds=seconds) or found
    return found


def broken_rules(project: Project, starts: Sequence[int]) -> tuple[str, ...]:
    """What a schedule breaks, in words; empty for a sound one."""
    faults = []
    took = project.durations
    for place, row in enumerate(project.network.before):
        faults += [
            f"“{project.network.keys[place]}” starts before “{project.network.keys[wanted]}” is finished."
            for wanted in row
            if starts[place] < starts[wanted] + took[wanted]
        ]
    for moment in sorted(set(starts)):
        running = [place for place in range(len(took)) if starts[place] <= moment < starts[place] + took[place]]
        for resource, there in enumerate(project.capacities):
            used = sum(project.needs[place][resource] for place in running)
            if used > there:
                faults.append(f"At {moment}, {used} of resource {resource + 1} are in use; there are {there}.")
    return tuple(faults)
