"""The network of steps: what waits for what, checked; early and late times, slack and the critical path."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.step import StepDraft


@dataclass(frozen=True, kw_only=True)
class Network:
    """Steps in an order in which nothing stands before what it waits for.

    Attributes
    ----------
    keys : the steps, in that order; every other row here is by place in it.
    before : places of the steps that each step waits for.
    after : places of the steps that wait for each step.
    """

    keys: tuple[str, ...]
    before: tuple[tuple[int, ...], ...]
    after: tuple[tuple[int, ...], ...]

    def __len__(self) -> int:
        return len(self.keys)

    def place(self, key: str) -> int:
        """Place of a step; raises KeyError for a key that is not in the network."""
        try:
            return self.keys.index(key)
        except ValueError:
            raise KeyError(key) from None

    @property
    def links(self) -> int:
        """How many links there are."""
        return sum(len(row) for row in self.before)


@dataclass(frozen=True, kw_only=True)
class Checked:
    """A network with what was wrong with it: ``remarks`` in words; ``unknown`` and ``loops`` name the steps at fault."""

    network: Network
    remarks: tuple[str, ...] = ()
    unknown: tuple[tuple[str, str], ...] = ()
    loops: tuple[tuple[str, ...], ...] = ()


def network_of(links: Mapping[str, Sequence[str]]) -> Network:
    """The network of ``step -> steps it waits for``. Raises ValueError naming an unknown step or a loop, step by step."""
    unknown = [(key, wanted) for key, row in links.items() for wanted in row if wanted not in links]
    if unknown:
        key, wanted = unknown[0]
        raise ValueError(f"Step “{key}” waits for “{wanted}”, which is not on the plan; a step of the plan would be right.")
    loop = _loop({key: tuple(row) for key, row in links.items()})
    if loop:
        raise ValueError(_loop_words(loop))
    return _ordered({key: tuple(dict.fromkeys(row)) for key, row in links.items()})


def network_of_rows(keys: tuple[str, ...], before: tuple[tuple[int, ...], ...]) -> Network:
    """A network whose rows are in order already: nothing stands before what it waits for."""
    after: list[list[int]] = [[] for _ in keys]
    for place, row in enumerate(before):
        for wanted in row:
            if wanted >= place:
                raise ValueError(f"“{keys[place]}” stands before “{keys[wanted]}”, which it waits for.")
            after[wanted].append(place)
    return Network(keys=keys, before=before, after=tuple(map(tuple, after)))


def checked(drafts: Sequence[StepDraft]) -> Checked:
    """The network of a plan, whatever is wrong with it.

    A step that is there twice counts once, the later one holding (the owner's own steps come last). A link to a step that
    is not on the plan is left out. Of a loop the link that closes it is left out. Each of these is a remark.
    """
    remarks: list[str] = []
    links: dict[str, tuple[str, ...]] = {}
    for draft in drafts:
        if draft.key in links:
            remarks.append(f"Step “{draft.key}” is on the plan twice; the later one holds.")
        links[draft.key] = tuple(dict.fromkeys(draft.after))
    unknown = tuple((key, wanted) for key, row in links.items() for wanted in row if wanted not in links)
    remarks += [
        f"Step “{key}” waits for “{wanted}”, which is not on the plan; that wait is not counted." for key, wanted in unknown
    ]
    links = {key: tuple(wanted for wanted in row if wanted in links) for key, row in links.items()}
    loops: list[tuple[str, ...]] = []
    while loop := _loop(links):
        loops.append(loop)
        remarks.append(_loop_words(loop))
        links[loop[0]] = tuple(wanted for wanted in links[loop[0]] if wanted != loop[1 % len(loop)])
    return Checked(network=_ordered(links), remarks=tuple(remarks), unknown=unknown, loops=tuple(loops))


def _loop_words(loop: tuple[str, ...]) -> str:
    chain = ", which waits for ".join(f"“{key}”" for key in (*loop[1:], loop[0]))
    return f"These steps wait for each other in a circle: “{loop[0]}” waits for {chain}. Take one of these waits out."


def _loop(links: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """A loop as steps of which each waits for the next and the last for the first; empty when there is none."""
    state: dict[str, int] = {}
    for first in links:
        if first in state:
            continue
        path, rows = [first], [iter(links[first])]
        state[first] = 1
        while path:
            wanted = next(rows[-1], None)
            if wanted is None:
                state[path.pop()] = 2
                rows.pop()
            elif state.get(wanted) == 1:
                return tuple(path[path.index(wanted) :])
            elif wanted not in state:
                state[wanted] = 1
                path.append(wanted)
                rows.append(iter(links[wanted]))
    return ()


def _ordered(links: Mapping[str, tuple[str, ...]]) -> Network:
    """Topological order (Kahn 1962), steps as early as they stood."""
    left = {key: len(row) for key, row in links.items()}
    followers: dict[str, list[str]] = {key: [] for key in links}
    for key, row in links.items():
        for wanted in row:
            followers[wanted].append(key)
    ready = [key for key, count in left.items() if count == 0]
    keys: list[str] = []
    while ready:
        key = ready.pop(0)
        keys.append(key)
        for follower in followers[key]:
            left[follower] -= 1
            if left[follower] == 0:
                ready.append(follower)
    place = {key: number for number, key in enumerate(keys)}
    return Network(
        keys=tuple(keys),
        before=tuple(tuple(place[wanted] for wanted in links[key]) for key in keys),
        after=tuple(tuple(place[follower] for follower in followers[key]) for key in keys),
    )


@dataclass(frozen=True, kw_only=True)
class Passes:
    """Early and late starts and finishes, in the unit of the durations, with the slack and the length of the whole."""

    early_start: NDArray[np.float64]
    early_finish: NDArray[np.float64]
    late_start: NDArray[np.float64]
    late_finish: NDArray[np.float64]
    length: float

    @property
    def slack(self) -> NDArray[np.float64]:
        """How much later each step may start without moving the end (total float)."""
        return self.late_start - self.early_start

    @property
    def critical(self) -> NDArray[np.bool_]:
        """Which steps have no slack (to a billionth of the length)."""
        return self.slack <= 1e-9 * max(self.length, 1.0)


def passes(network: Network, durations: Sequence[float] | NDArray[np.float64], *, deadline: float | None = None) -> Passes:
    """Forward and backward pass of the critical path method (Kelley and Walker 1959), hands and shops unlimited.

    Parameters
    ----------
    durations : by place in the network, one unit throughout, none negative.
    deadline : what the late times are counted back from; the early end if None.
    """
    took = np.asarray(durations, dtype=float)
    if took.shape != (len(network),) or (took < 0).any():
        raise ValueError(
            f"{took.shape} durations were given for {len(network)} steps; one each, none negative, would be right."
        )
    start, finish = np.zeros_like(took), np.zeros_like(took)
    for place, row in enumerate(network.before):
        start[place] = max((finish[wanted] for wanted in row), default=0.0)
        finish[place] = start[place] + took[place]
    length = float(finish.max(initial=0.0))
    late_start, late_finish = np.zeros_like(took), np.zeros_like(took)
    for place in range(len(network) - 1, -1, -1):
        end = length if deadline is None else deadline
        late_finish[place] = min((late_start[follower] for follower in network.after[place]), default=end)
        late_start[place] = late_finish[place] - took[place]
    return Passes(early_start=start, early_finish=finish, late_start=late_start, late_finish=late_finish, length=length)
