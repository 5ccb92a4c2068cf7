"""The order in which systems are run: each after those whose findings it wants."""

from __future__ import annotations

from collections.abc import Sequence
from graphlib import CycleError, TopologicalSorter

from gudgeon.engine.system import System


class Loop(ValueError):
    """Systems that cannot be put in an order; the sentence names them."""


def in_order(systems: Sequence[System]) -> tuple[System, ...]:
    """Systems so that each comes after those it wants; otherwise as given.

    Raises ``Loop`` where they want each other in a circle, or want one that is not among them.
    """
    by_key = {system.key: system for system in systems}
    for system in systems:
        for wanted in system.wants:
            if wanted not in by_key:
                raise Loop(
                    f"{system.key} wants the findings of “{wanted}”, and there is no such system; "
                    f"the systems are {', '.join(by_key)}."
                )
    sorter = TopologicalSorter({system.key: system.wants for system in systems})
    try:
        names = tuple(sorter.static_order())
    except CycleError as fault:
        circle = " wants ".join(reversed(fault.args[1]))
        raise Loop(f"The systems want each other's findings in a circle: {circle}. One of these wants must go.") from None
    return tuple(by_key[name] for name in names)
