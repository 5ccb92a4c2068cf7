"""Answers that take long, worked out beside the pages: whoever is in a hurry gets the last one and is told that it is old."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from datetime import date
from typing import Any


class BeingReckoned(Exception):
    """There is no answer yet, not even an old one, and the caller did not want to wait longer."""


@dataclass
class Hurry:
    """How long a caller wants to wait for each answer [s]; ``old`` turns True when it was given one from before a change."""

    patience: float
    old: bool = False


_hurry: ContextVar[Hurry | None] = ContextVar("hurry", default=None)


@contextmanager
def in_a_hurry(patience: float | None) -> Iterator[Hurry]:
    """Within this block, no answer is waited for longer than ``patience`` [s] (None: as long as it takes)."""
    hurry = Hurry(patience if patience is not None else float("inf"))
    token = _hurry.set(hurry if patience is not None else None)
    try:
        yield hurry
    finally:
        _hurry.reset(token)


def given_an_old_one() -> bool:
    """Was this caller, in a hurry, given an answer from before a change?"""
    hurry = _hurry.get()
    return hurry is not None and hurry.old


@dataclass
class _Task:
    """One answer being made from ``of``."""

    name: str
    of: tuple[object, ...]
    make: Callable[[Any], Any]
    ready: threading.Event = field(default_factory=threading.Event)
    value: Any = None
    fault: BaseException | None = None

    def is_of(self, of: tuple[object, ...]) -> bool:
        return len(of) == len(self.of) and all(
            mine is other or (isinstance(mine, date) and mine == other) for mine, other in zip(self.of, of, strict=True)
        )


class Answers:
    """The answers of one job, made one at a time by a thread that ends when there is nothing left to do.

    An answer is known by a name and by what it was made ``of``, compared with ``is`` (days by value): a snapshot hands out
    again whatever did not change. Only the newest of each name is kept, and of those waiting only the newest is made.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._done: dict[str, _Task] = {}
        self._under_way: _Task | None = None
        self._next: dict[str, _Task] = {}
        self._maker: threading.Thread | None = None

    def ask(self, name: str, of: tuple[object, ...], make: Callable[[Any], Any]) -> Any:
        """The answer of that name. ``make`` is given the last one, or None, and works on ``of`` alone.

        Raises BeingReckoned where there is none yet and the caller is in a hurry, and whatever ``make`` raised.
        """
        if threading.current_thread() is self._maker:
            return self._made_here(name, of, make)
        task = self._task(name, of, make)
        hurry = _hurry.get()
        if task.ready.wait(None if hurry is None else hurry.patience):
            if task.fault is not None:
                raise task.fault
            return task.value
        assert hurry is not None
        hurry.old = True
        return self.last(name)

    def last(self, name: str) -> Any:
        """The last answer of that name, old or not. Raises BeingReckoned where there is none."""
        task = self._done.get(name)
        if task is None or task.fault is not None:
            raise BeingReckoned(name)
        return task.value

    def busy(self) -> bool:
        """Is anything being made?"""
        return self._under_way is not None or bool(self._next)

    def _task(self, name: str, of: tuple[object, ...], make: Callable[[Any], Any]) -> _Task:
        with self._lock:
            for known in (self._done.get(name), self._under_way, self._next.get(name)):
                if known is not None and known.name == name and known.is_of(of):
                    return known
            task = self._next[name] = _Task(name, of, make)
            if self._maker is None:
                self._maker = threading.Thread(target=self._work, name="answers", daemon=True)
                self._maker.start()
            return task

    def _work(self) -> None:
        while True:
            with self._lock:
                if not self._next:
                    self._maker = None
                    return
                name = next(iter(self._next))
                task = self._under_way = self._next.pop(name)
            self._carry_out(task)
            with self._lock:
                self._done[name], self._under_way = task, None
            task.ready.set()

    def _carry_out(self, task: _Task) -> None:
        last = self._done.get(task.name)
        try:
            task.value = task.make(last.value if last else None)
        except Exception as fault:
            task.fault = fault

    def _made_here(self, name: str, of: tuple[object, ...], make: Callable[[Any], Any]) -> Any:
        last = self._done.get(name)
        if last is not None and last.is_of(of) and last.fault is None:
            return last.value
        task = _Task(name, of, make)
        self._carry_out(task)
        if task.fault is not None:
            raise task.fault
        with self._lock:
            self._done[name] = task
        task.ready.set()
        return task.value
