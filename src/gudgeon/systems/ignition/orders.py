"""The order that a verdict on the magneto leads to."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.order import OrderDraft, OrderLine
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.drafting import asked_size, band, reading_need, readings_behind
from gudgeon.systems.ignition import description as d
from gudgeon.systems.ignition.remedies import GAPS, OVERHAUL, SET_TO
from gudgeon.systems.ignition.spark import magneto, ratio_wanted
from gudgeon.systems.kit import Kit
from gudgeon.systems.proposing import warned


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none where nothing is sent out."""
    if verdict.subject != GAPS or not any(each.name == OVERHAUL for each in verdict.chosen.priced):
        return ()
    kit = Kit.of(bench, d.KEY)
    item, points = magneto(kit), SET_TO[d.POINTS.name]
    lag, wanted = kit.size(d.LAG, item), ratio_wanted(kit)
    detail = (
        ("rotation, seen at the drive end", "as it came; mark it before it is opened"),
        ("state", kit.words(d.MAG_STATE, item) or "not examined"),
        ("impulse", f"lag {show(Amount(lag.value, 'angle'), 'inch')}" if lag is not None else "lag as found; say what it is"),
        ("drive", f"{wanted:g} turns for one of the crank" if wanted is not None else "as found"),
        ("points", f"{band(points)}, or the make's own figure; say which"),
        ("wanted back", "spark of a quarter inch at hand speed, cold and after an hour at 150 °F"),
    )
    return (
        OrderDraft(
            key=f"{d.KEY}/magneto",
            system=d.KEY,
            verdict=verdict.id,
            title="Overhaul the magneto",
            to="magneto shop",
            lines=(OrderLine(1, "overhaul the magneto", "as it is", detail),),
            asked=(asked_size(d.POINTS, item, points, note="fully open"),),
            leave_alone=(
                "Plate, numbers and paint of the body.",
                "Timing marks and the position of the coupling on its taper, unless agreed.",
            ),
            needs=(
                reading_need(kit.reader, d.MAG_STATE, item, why="the shop is asked for what it needs and no more"),
                reading_need(kit.reader, d.SPARKS, item, why="what comes back is held against it"),
            ),
            rests_on=readings_behind(bench, (item,), (d.MAGNETO,)),
            cautions=warned("ignition work"),
            priced=OVERHAUL,
        ),
    )
