"""Inner loops: compiled where numba is to be had, plain Python otherwise, from one and the same source."""

from __future__ import annotations

import functools
import os
import types
from collections.abc import Callable
from typing import Generic, ParamSpec, TypeVar, cast

P = ParamSpec("P")
R = TypeVar("R")

PLAIN = os.environ.get("GUDGEON_PLAIN", "") == "1"


class Compiled(Generic[P, R]):
    """An inner loop that compiles itself at its first call.

    ``plain`` is the function as written. For a handful of cases it is the quicker of the two, since importing numba alone
    costs some tenths of a second.
    """

    def __init__(self, loop: Callable[P, R]) -> None:
        self._loop = loop
        functools.update_wrapper(self, loop)

    def __call__(self, *arguments: P.args, **named: P.kwargs) -> R:
        """Run the compiled loop."""
        return self.fast(*arguments, **named)

    @functools.cached_property
    def plain(self) -> Callable[P, R]:
        """The loop as written, calling the plain form of every other marked loop."""
        return self._calling("plain")

    @functools.cached_property
    def fast(self) -> Callable[P, R]:
        """The compiled loop, or the plain one where numba is missing or ``GUDGEON_PLAIN=1`` is set."""
        if PLAIN:
            return self.plain
        try:
            import numba
        except ImportError:
            return self.plain
        loop = self._calling("fast")
        try:
            return cast("Callable[P, R]", numba.njit(cache=True, nogil=True)(loop))
        except RuntimeError:  # no folder that the cache could be written to
            return cast("Callable[P, R]", numba.njit(nogil=True)(loop))

    def _calling(self, form: str) -> Callable[P, R]:
        """The loop with every other marked loop that it calls replaced by one form of it."""
        loop = cast(types.FunctionType, self._loop)
        callees = {
            name: getattr(loop.__globals__[name], form)
            for name in loop.__code__.co_names
            if isinstance(loop.__globals__.get(name), Compiled)
        }
        if not callees:
            return self._loop
        twin = types.FunctionType(loop.__code__, {**loop.__globals__, **callees}, loop.__name__, loop.__defaults__)
        twin.__qualname__, twin.__module__, twin.__doc__ = loop.__qualname__, loop.__module__, loop.__doc__
        return cast("Callable[P, R]", twin)


def compiled(loop: Callable[P, R]) -> Compiled[P, R]:
    """Mark an inner loop for compiling at its first call: floats, integers and arrays in, positional arguments only.

    Without numba, or with ``GUDGEON_PLAIN=1`` in the environment, it runs as it is written: the same numbers, more slowly.
    A marked loop may call other marked loops of its own module.
    """
    return Compiled(loop)
