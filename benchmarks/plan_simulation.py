"""What the plan's speed claims rest on: run `python benchmarks/plan_simulation.py`.

Each line: what was done, the median of five runs after the loops were compiled, and beside it the ordinary way where one was
tried. Also the gap of the list schedule over instances of the j30 kind against optima proved by CP-SAT (extra `plan`).
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from statistics import median

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.planning.calendars import own_hours, shop_days
from gudgeon.planning.durations import Spread, hashed, spread_of, stream
from gudgeon.planning.network import Network, network_of
from gudgeon.planning.schedule import exact_schedule, list_schedule
from gudgeon.planning.simulate import BenchPlan, simulate, simulate_bench


def timed(work: Callable[[], object], *, times: int = 5) -> float:
    """Median seconds, after once for compiling."""
    work()
    taken = []
    for _ in range(times):
        begin = time.perf_counter()
        work()
        taken.append(time.perf_counter() - begin)
    return median(taken)


def random_network(steps: int, links: int) -> tuple[Network, dict[str, Spread]]:
    chance = np.random.default_rng(1)
    rows: dict[str, set[str]] = {str(step): set() for step in range(steps)}
    while sum(map(len, rows.values())) < links:
        a, b = sorted(chance.choice(steps, 2, replace=False))
        rows[str(b)].add(str(a))
    spreads = {key: spread_of(Range(*map(float, np.sort(chance.uniform(0, 20, 3))), "drawn")) for key in rows}
    return network_of({key: sorted(row) for key, row in rows.items()}), spreads


def one_by_one(network: Network, spreads: dict[str, Spread], runs: int) -> float:
    """The ordinary way: a longest path of networkx in each run."""
    import networkx

    took = np.array([spreads[key].at(hashed(stream("", key), np.arange(runs, dtype=np.uint64))) for key in network.keys])
    begin = time.perf_counter()
    graph = networkx.DiGraph()
    for run in range(runs):
        for place, row in enumerate(network.before):
            graph.add_edge(place, "end", weight=took[place, run])
            for wanted in row:
                graph.add_edge(wanted, place, weight=took[wanted, run])
        networkx.dag_longest_path_length(graph)
    return time.perf_counter() - begin


def bench_plan() -> tuple[BenchPlan, np.ndarray, np.ndarray]:
    chance = np.random.default_rng(2)
    links = {str(i): [str(j) for j in range(max(0, i - 6), i) if chance.random() < 0.25] for i in range(60)}
    network, first = network_of(links), date(2027, 1, 4)
    calendars = own_hours(first=first, hours_a_week=10), shop_days(first=first)
    plan = BenchPlan(network=network, calendars=calendars, shop=(1,) * 60, rank=tuple(range(60)), release=(0.0,) * 60)
    hours = chance.uniform(1, 8, (10_000, 60))
    return plan, hours, chance.uniform(10, 60, (10_000, 60)) * (chance.random(60) < 0.25)


def gaps() -> list[float]:
    sys.path.insert(0, str(Path(__file__).parents[1]))
    from tests.published.test_plan_schedule import generated

    found = []
    for number in range(24):
        project = generated(
            number, complexity=(1.5, 1.8, 2.1)[number % 3], factor=(0.25, 0.5, 0.75, 1.0)[number % 4],
            strength=(0.2, 0.5, 0.7)[number % 3],
        )  # fmt: skip
        best = exact_schedule(project, seconds=5)
        if best is not None and best.proved:
            found.append(list_schedule(project).length / best.length - 1)
    return found


def main() -> None:
    """Print the table."""
    network, spreads = random_network(200, 400)
    fast = timed(lambda: simulate(network, spreads, runs=100_000))
    slow = one_by_one(network, spreads, 200)
    print(f"200 steps, 400 links, 100,000 runs, durations drawn: {fast:.3f} s (networkx at its rate: {slow * 500:.0f} s)")
    plan, hours, waits = bench_plan()
    bench = timed(lambda: simulate_bench(plan, hours=hours, waits=waits))
    print(f"60 steps, one pair of hands, calendars, 10,000 runs: {bench:.3f} s")
    found = gaps()
    print(f"list schedule above the proved optimum, {len(found)} instances: mean {np.mean(found):.2%}, worst {max(found):.2%}")


if __name__ == "__main__":
    main()
