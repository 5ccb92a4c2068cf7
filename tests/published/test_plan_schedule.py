"""Resource-limited schedules: a published instance with its optimum, and instances of the same kind proved by CP-SAT."""

import re
from pathlib import Path

import numpy as np
import pytest

from gudgeon.planning.network import network_of, passes
from gudgeon.planning.schedule import Project, broken_rules, exact_schedule, list_schedule, lower_bound

PSPLIB = Path(__file__).parent / "psplib"


def rows(text, heading):
    """The lines of whole numbers under a heading."""
    block = text.split(heading)[1].split("***")[0]
    return [list(map(int, line.split())) for line in block.splitlines() if re.match(r"\s*\d", line)]


def read_sm(path):
    """A single-mode PSPLIB file."""
    text = path.read_text()
    followers = {row[0]: row[3:] for row in rows(text, "PRECEDENCE RELATIONS:")}
    work = {row[0]: (row[2], tuple(row[3:])) for row in rows(text, "REQUESTS/DURATIONS:")}
    capacities = tuple(rows(text, "RESOURCEAVAILABILITIES:")[0])
    network = network_of({str(job): tuple(str(j) for j, f in followers.items() if job in f) for job in work})
    return Project(
        network=network,
        durations=tuple(work[int(key)][0] for key in network.keys),
        needs=tuple(work[int(key)][1] for key in network.keys),
        capacities=capacities,
    )


# Optimum 43 (PSPLIB j30 optima, Kolisch and Sprecher); length without resources 38 ("MPM-Time" in the file's own header).
def test_psplib_j301_1():
    project = read_sm(PSPLIB / "j301_1.sm")
    assert project.capacities == (12, 13, 4, 12)
    assert passes(project.network, np.array(project.durations, float)).length == 38
    found = list_schedule(project)
    assert broken_rules(project, found.starts) == ()
    assert 43 <= found.length <= 45
    assert lower_bound(project) <= 43


def test_psplib_j301_1_proved():
    pytest.importorskip("ortools")
    project = read_sm(PSPLIB / "j301_1.sm")
    best = exact_schedule(project, seconds=20)
    assert (best.length, best.proved, best.method) == (43, True, "exact")
    assert broken_rules(project, best.starts) == ()


def generated(number, *, jobs=30, complexity=1.5, factor=0.5, strength=0.5):
    """An instance with the j30 parameters (NC links a job, RF share of resources used, RS between the least capacity that
    can run at all and the peak of the early schedule), after Kolisch, Sprecher and Drexl, Management Science 41 (1995)."""
    chance = np.random.default_rng(number)
    links = {str(job): set() for job in range(jobs)}
    while sum(map(len, links.values())) < complexity * jobs:
        a, b = sorted(chance.choice(jobs, 2, replace=False))
        if b - a <= 12:
            links[str(b)].add(str(a))
    network = network_of({key: tuple(sorted(row, key=int)) for key, row in links.items()})
    took = chance.integers(1, 11, jobs)
    needs = np.where(chance.random((jobs, 4)) < factor, chance.integers(1, 11, (jobs, 4)), 0)
    early = passes(network, took.astype(float))
    running = [(early.early_start <= t) & (t < early.early_finish) for t in range(int(early.length))]
    peak = np.max([needs[now].sum(axis=0) for now in running], axis=0)
    least = needs.max(axis=0)
    return Project(
        network=network,
        durations=tuple(map(int, took)),
        needs=tuple(tuple(map(int, row)) for row in needs),
        capacities=tuple(map(int, np.maximum(1, np.round(least + strength * (peak - least))))),
    )


def test_list_schedule_gap_over_generated_instances():
    """The list schedule stays within 3 % on average of optima that CP-SAT proved, over 24 instances, and never beats one."""
    pytest.importorskip("ortools")
    gaps = []
    for number in range(24):
        project = generated(number, complexity=(1.5, 1.8, 2.1)[number % 3], factor=(0.25, 0.5, 0.75, 1.0)[number % 4],
                            strength=(0.2, 0.5, 0.7)[number % 3])  # fmt: skip
        found, best = list_schedule(project), exact_schedule(project, seconds=5)
        assert broken_rules(project, found.starts) == ()
        assert broken_rules(project, best.starts) == ()
        assert lower_bound(project) <= best.length
        if best.proved:
            assert found.length >= best.length
            gaps.append(found.length / best.length - 1)
    assert len(gaps) >= 20
    assert np.mean(gaps) < 0.03


def test_broken_rules_are_found():
    project = Project(
        network=network_of({"a": (), "b": ("a",), "c": ()}), durations=(2, 2, 3), needs=((1,), (1,), (1,)), capacities=(1,)
    )
    order = [project.network.place(key) for key in "abc"]
    starts = [0, 0, 0]
    starts[order[1]] = 1
    assert any("starts before" in fault for fault in broken_rules(project, starts))
    assert any("in use" in fault for fault in broken_rules(project, starts))


def test_one_machine_in_a_row():
    """Six jobs that all need the one machine take the sum of their times, whatever the order."""
    project = Project(
        network=network_of({str(j): () for j in range(6)}), durations=(3, 1, 4, 1, 5, 9), needs=((1,),) * 6, capacities=(1,)
    )
    found = list_schedule(project)
    assert (found.length, found.proved) == (23, True)
