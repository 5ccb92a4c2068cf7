"""The inner loops of the simulation and of the list schedule. Import it inside functions only: it brings numba in.

Without numba the same loops run as plain Python, some hundred times slower and with the same answers.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from gudgeon.planning.calendars import ROUNDING

numba: Any
try:
    import numba
except ImportError:  # pragma: no cover - numba is in the base install
    numba = None

prange: Any = numba.prange if numba else range


def loop(*, parallel: bool = False) -> Callable[[Any], Any]:
    """Compile a loop, keeping the compiled code beside the source; without numba leave it as it is."""
    if numba is None:
        return lambda function: function
    compiled: Callable[[Any], Any] = numba.njit(cache=True, parallel=parallel, nogil=True, error_model="numpy")
    return compiled


LANES = 128
"""Runs that go through the network together: their finishes stay in the cache."""


@loop()
def _mixed(seed, number):  # type: ignore[no-untyped-def]
    """``durations.hashed`` for one number."""
    mixed = seed + (number + np.uint64(1)) * np.uint64(0x9E3779B97F4A7C15)
    mixed = (mixed ^ (mixed >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    mixed = (mixed ^ (mixed >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    mixed = mixed ^ (mixed >> np.uint64(31))
    return (np.float64(np.int64(mixed >> np.uint64(11))) + 0.5) * 2.0**-53


@loop()
def _trace(first, before, start, finish, lane, on_path):  # type: ignore[no-untyped-def]
    """Count the steps of the path that set the end of one run, from its end back; returns the end."""
    step, end = 0, -1.0
    for other in range(start.shape[0]):
        if finish[other, lane] > end:
            step, end = other, finish[other, lane]
    while step >= 0:
        on_path[step] += 1
        cause = -1
        for link in range(first[step], first[step + 1]):
            if finish[before[link], lane] == start[step, lane]:
                cause = before[link]
                break
        step = cause
    return end


@loop(parallel=True)
def free_runs(first, before, tables, seeds, run0, finishes, on_path):  # type: ignore[no-untyped-def]
    """Runs of a network with unlimited hands. ``finishes`` (runs,) takes the ends, ``on_path`` (blocks, steps) the counts.

    ``before[first[i]:first[i+1]]`` are the steps that step i waits for; ``tables`` (steps, K + 1) are quantiles.
    """
    runs, steps, last = finishes.shape[0], first.shape[0] - 1, tables.shape[1] - 1
    blocks = (runs + LANES - 1) // LANES
    for block in prange(blocks):
        begin = block * LANES
        lanes = min(LANES, runs - begin)
        finish = np.empty((steps, LANES))
        start = np.empty((steps, LANES))
        for step in range(steps):
            for lane in range(lanes):
                start[step, lane] = 0.0
            for link in range(first[step], first[step + 1]):
                wanted = before[link]
                for lane in range(lanes):
                    start[step, lane] = max(start[step, lane], finish[wanted, lane])
            for lane in range(lanes):
                place = _mixed(seeds[step], np.uint64(run0 + begin + lane)) * last
                low = int(place)
                took = tables[step, low] + (place - low) * (tables[step, low + 1] - tables[step, low])
                finish[step, lane] = start[step, lane] + took
        for lane in range(lanes):
            finishes[begin + lane] = _trace(first, before, start, finish, lane, on_path[block])


@loop()
def _done_by(done, beyond, moment):  # type: ignore[no-untyped-def]
    """``WorkCalendar.by``."""
    last = done.shape[0] - 1
    if moment < 0:
        return moment * beyond
    if moment >= last:
        return done[last] + (moment - last) * beyond
    day = int(moment)
    return done[day] + (moment - day) * (done[day + 1] - done[day])


@loop()
def _finish_of(done, beyond, moment, work):  # type: ignore[no-untyped-def]
    """``WorkCalendar.finish``."""
    if work <= ROUNDING or moment == np.inf:
        return moment
    last = done.shape[0] - 1
    wanted = _done_by(done, beyond, moment) + work - ROUNDING
    if wanted > done[last]:
        return last + (wanted - done[last]) / beyond if beyond > 0 else np.inf
    if wanted <= 0:
        return wanted / beyond if beyond > 0 else moment
    day = np.searchsorted(done, wanted) - 1
    return day + (wanted - done[day]) / (done[day + 1] - done[day])


@loop()
def _start_of(done, beyond, moment, work):  # type: ignore[no-untyped-def]
    """``WorkCalendar.start``."""
    if work <= ROUNDING or moment == -np.inf:
        return moment
    last = done.shape[0] - 1
    wanted = _done_by(done, beyond, moment) - work + 2 * ROUNDING
    if wanted >= done[last]:
        return last + (wanted - done[last]) / beyond if beyond > 0 else float(last)
    if wanted < 0:
        return wanted / beyond if beyond > 0 else -np.inf
    day = np.searchsorted(done, wanted, side="right") - 1
    return day + (wanted - done[day]) / (done[day + 1] - done[day])


@loop()
def _next_at_the_bench(open_, ready, rank, free):  # type: ignore[no-untyped-def]
    """The step that the next free hand takes: of those ready by then the one of first rank, else the first to be ready."""
    soonest = np.inf
    for step in range(open_.shape[0]):
        if open_[step] and ready[step] < soonest:
            soonest = ready[step]
    moment = max(free, soonest)
    best = -1
    for step in range(open_.shape[0]):
        if open_[step] and ready[step] <= moment and (best < 0 or rank[step] < rank[best]):
            best = step
    return best


@loop()
def _forward(net, calendars, hands, rank, release, hours, waits, out):  # type: ignore[no-untyped-def]
    """One run forward. Bench work goes to free hands by rank, never idling; whatever needs no hand starts when it may."""
    first_before, _, first_after, after = net
    done, beyond, shop = calendars
    start, sent, finish, cause, turn, follows = out
    steps = release.shape[0]
    left, ready = first_before[1:] - first_before[:-1], release.copy()
    open_ = np.zeros(steps, np.bool_)
    free, holder = np.zeros(hands), np.full(hands, -1)
    queue, queued, taken, turns = np.empty(steps, np.int64), 0, 0, 0
    cause[:], follows[:] = -1, -1
    for begin in np.nonzero(left == 0)[0]:
        queue[queued] = begin
        queued += 1
    while turns < steps:
        step = -1
        while taken < queued and step < 0:
            if hours[queue[taken]] > 0:
                open_[queue[taken]] = True
            else:
                step = queue[taken]
            taken += 1
        if step >= 0:
            start[step] = sent[step] = ready[step]
        else:
            hand = np.argmin(free)
            step = _next_at_the_bench(open_, ready, rank, free[hand])
            open_[step] = False
            start[step] = max(ready[step], free[hand])
            if free[hand] > ready[step]:
                cause[step] = holder[hand]
            if holder[hand] >= 0:
                follows[holder[hand]] = step
            sent[step] = _finish_of(done[0], beyond[0], start[step], hours[step])
            free[hand], holder[hand] = sent[step], step
        finish[step] = _finish_of(done[shop[step]], beyond[shop[step]], sent[step], waits[step])
        turn[turns] = step
        turns += 1
        for link in range(first_after[step], first_after[step + 1]):
            follower = after[link]
            if finish[step] > ready[follower]:
                ready[follower] = finish[step]
                cause[follower] = step
            left[follower] -= 1
            if left[follower] == 0:
                queue[queued] = follower
                queued += 1


@loop()
def _backward(net, calendars, deadline, hours, waits, out, latest_start, latest_sent):  # type: ignore[no-untyped-def]
    """One run backward from a deadline, each hand keeping the order in which it took its steps."""
    _, _, first_after, after = net
    done, beyond, shop = calendars
    turn, follows = out[4], out[5]
    for place in range(turn.shape[0] - 1, -1, -1):
        step = turn[place]
        end = deadline
        for link in range(first_after[step], first_after[step + 1]):
            end = min(end, latest_start[after[link]])
        end = _start_of(done[shop[step]], beyond[shop[step]], end, waits[step])
        latest_sent[step] = end
        if hours[step] > 0 and follows[step] >= 0:
            end = min(end, latest_start[follows[step]])
        latest_start[step] = _start_of(done[0], beyond[0], end, hours[step])


@loop(parallel=True)
def bench_runs(net, calendars, hands, rank, release, hours, waits, deadline, starts, finishes, slacks, sends, on_path):  # type: ignore[no-untyped-def]
    """Runs with limited hands and calendars. All two-dimensional rows are (runs, steps).

    ``sends`` takes the latest moments of sending out that keep the deadline, ``slacks`` the days that each start may slip
    without moving the run's own end.
    """
    runs, steps = hours.shape
    for run in prange(runs):
        sent = np.empty(steps)
        cause, turn, follows = np.empty(steps, np.int64), np.empty(steps, np.int64), np.empty(steps, np.int64)
        latest_start, latest_sent = np.empty(steps), np.empty(steps)
        out = (starts[run], sent, finishes[run], cause, turn, follows)
        _forward(net, calendars, hands, rank, release, hours[run], waits[run], out)
        _backward(net, calendars, deadline, hours[run], waits[run], out, latest_start, sends[run])
        last = 0
        for step in range(steps):
            if finishes[run, step] > finishes[run, last]:
                last = step
        _backward(net, calendars, finishes[run, last], hours[run], waits[run], out, latest_start, latest_sent)
        for step in range(steps):
            slacks[run, step] = latest_start[step] - starts[run, step]
            on_path[run, step] = False
        step = last
        while step >= 0:
            on_path[run, step] = True
            step = cause[step]


@loop()
def serial_schedule(first, before, took, needs, capacity, order, used, start):  # type: ignore[no-untyped-def]
    """Serial schedule generation: each activity in turn at the earliest time its links and all resources allow.

    ``used`` (time, resources) is scratch and is cleared here. Returns the end of the last activity.
    """
    used[:] = 0
    end = 0
    for place in range(order.shape[0]):
        step = order[place]
        begin = 0
        for link in range(first[step], first[step + 1]):
            begin = max(begin, start[before[link]] + took[before[link]])
        moment = begin
        while moment < begin + took[step]:
            for resource in range(capacity.shape[0]):
                if used[moment, resource] + needs[step, resource] > capacity[resource]:
                    begin = moment + 1
                    break
            moment += 1
        for moment in range(begin, begin + took[step]):
            for resource in range(capacity.shape[0]):
                used[moment, resource] += needs[step, resource]
        start[step] = begin
        end = max(end, begin + took[step])
    return end


@loop()
def improved(front, back, took, needs, capacity, order, used, start):  # type: ignore[no-untyped-def]
    """Forward-backward improvement (Li and Willis 1992; Valls, Ballestin and Quintanilla 2005) until it gains no more.

    ``front`` and ``back`` are (first, before) of the network and of its reverse. Leaves the best starts in ``start``.
    """
    mirrored = np.empty_like(start)
    best = serial_schedule(front[0], front[1], took, needs, capacity, order, used, start)
    kept = start.copy()
    while True:
        turn = np.argsort(start + took, kind="mergesort")[::-1].copy()
        serial_schedule(back[0], back[1], took, needs, capacity, turn, used, mirrored)
        turn = np.argsort(-(mirrored + took), kind="mergesort")
        end = serial_schedule(front[0], front[1], took, needs, capacity, turn, used, start)
        if end >= best:
            start[:] = kept
            return best
        best = end
        kept[:] = start
