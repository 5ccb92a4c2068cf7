"""The orders that a verdict on the rods leads to: the re-pour and bore sheet, and the shim sets."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.order import OrderDraft, OrderLine
from gudgeon.engine.verdict import Verdict
from gudgeon.systems.bearings import description as d
from gudgeon.systems.bearings.remedies import KIND, RODS, STRAIGHT, STRAIGHTEN
from gudgeon.systems.bearings.rods import Rods
from gudgeon.systems.poured_ways import pour_order, shim_order
from gudgeon.systems.proposing import warned


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict on the rods; none for another subject, or where nothing is sent out."""
    rods = Rods.of(bench)
    if verdict.subject == RODS and "/rods-pour" in verdict.chosen.key:
        return (pour_order(rods.bearings, KIND, verdict, letter="BR"), shim_order(rods.bearings, KIND, verdict))
    if verdict.subject == STRAIGHT and verdict.chosen.key.endswith("/straighten"):
        return (_straighten(verdict),)
    return ()


def _straighten(verdict: Verdict) -> OrderDraft:
    lines = tuple(
        OrderLine(1, f"straighten {rod} cold", "as it is", (("true to", "a thou in six inches, both ways, at both ends"),))
        for rod in verdict.chosen.items
    )
    return OrderDraft(
        key=f"{d.KEY}/straighten",
        system=d.KEY,
        verdict=verdict.id,
        title="Straighten the rods",
        to="rod shop",
        lines=lines,
        asked=(),
        leave_alone=("No heat on a rod with babbitt in it.", "Match marks, caps and bolts."),
        rests_on=verdict.readings,
        cautions=warned("pressing"),
        priced=STRAIGHTEN,
    )
