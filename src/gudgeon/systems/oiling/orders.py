"""Orders for an oil pump's plunger, with its drawing, or its gears."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.sketching import pin_view
from gudgeon.engine.verdict import Verdict
from gudgeon.systems.drafting import Limits, asked_for, asked_size, band, both, reading_need, readings_behind
from gudgeon.systems.kit import Kit
from gudgeon.systems.oiling import description as d
from gudgeon.systems.oiling.remedies import FITTED, GEARS_MADE, PLUNGER_MADE, PUMP
from gudgeon.systems.proposing import warned

LENGTH_TOLERANCE = 0.005 * d.INCH


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict on the oil pump; none where nothing is made."""
    if verdict.subject != PUMP:
        return ()
    kit = Kit.of(bench, d.KEY)
    drafts = (_plungers(kit, verdict), _gears(kit, verdict))
    return tuple(draft for draft in drafts if draft is not None)


def _limits(kit: Kit, item: str, low: float, high: float) -> tuple[Limits, bool]:
    """Limits of a plunger [m]: to the lapped barrel where it is read, else to the barrel as it was found; is it finished?"""
    for stage in ("fitted", "returned"):
        read = kit.reader.size(d.BARREL, item, stage=stage)
        if read is not None:
            return (read.value - FITTED[1], read.value - FITTED[0]), True
    return (low, high), False


def _plungers(kit: Kit, verdict: Verdict) -> OrderDraft | None:
    lows, highs = asked_for(verdict, "plunger low"), asked_for(verdict, "plunger high")
    if not lows or not any(each.name == PLUNGER_MADE for each in verdict.chosen.priced):
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item, low in lows.items():
        limits, finished = _limits(kit, item, low, highs[item])
        length = kit.size(d.PLUNGER_LENGTH, item)
        detail = (
            ("diameter", f"{band(limits)}, to {'the lapped barrel' if finished else 'the barrel as found; not lapped yet'}"),
            ("length over all", both(length.value) if length is not None else "not read yet"),
            ("ends, eye and notch", "as the old plunger, which goes with the order"),
        )
        lines.append(OrderLine(1, f"plunger for the {item}", "steel, case-hardened and lapped", detail))
        asked.append(asked_size(d.PLUNGER, item, limits, note="over the whole length that runs in the barrel"))
        needs.append(reading_need(kit.reader, d.PLUNGER_LENGTH, item, why="a plunger is made from its drawing"))
        needs.append(
            Need(
                kind="reading", what=f"{item}: barrel read after lapping", met=finished, why="the plunger is made to the hole",
                part=d.PUMP, item=item, feature=d.BARREL.name,
            )
        )  # fmt: skip
        if length is not None:
            drawn.append(
                Drawing(
                    number="L1", title=f"Plunger, {item}", part=d.PUMP, item=item, material="mild steel for case-hardening",
                    finish="ground and lapped",
                    views=(pin_view(diameter=limits, length=(length.value - LENGTH_TOLERANCE, length.value), title="Plunger"),),
                    notes=("Ends, eye and notch as the old plunger, which goes with this sheet.",),
                    job=kit.bench.snapshot.outline.name,
                )
            )  # fmt: skip
    return _draft(kit, verdict, key="plunger", title="Oil pump plunger", lines=tuple(lines), asked=tuple(asked),
                  drawings=tuple(drawn), needs=tuple(needs), priced=PLUNGER_MADE)  # fmt: skip


def _gears(kit: Kit, verdict: Verdict) -> OrderDraft | None:
    if not any(each.name == GEARS_MADE for each in verdict.chosen.priced):
        return None
    lines, asked, needs = [], list[AskedSize](), list[Need]()
    for item in verdict.chosen.items:
        outside, gap = kit.size(d.GEAR_OUTSIDE, item), kit.reader.largest(d.TIP_GAP, item)
        teeth, width, centres = (kit.size(feature, item) for feature in (d.TEETH, d.GEAR_WIDTH, d.GEAR_CENTRES))
        detail = [
            ("teeth", f"{teeth.value:.0f}" if teeth is not None else "not counted yet"),
            ("centre distance", both(centres.value) if centres is not None else "not read yet"),
            ("width", both(width.value) if width is not None else "not read yet"),
            ("pitch and pressure angle", "as the old pair, which goes with the order"),
        ]
        if outside is not None and gap is not None:
            body = outside.value + 2 * gap.value
            limits = (body - 2 * FITTED[1], body - 2 * FITTED[0])
            detail.insert(1, ("outside diameter", f"{band(limits)}, to a body of {both(body)}"))
            asked.append(asked_size(d.GEAR_OUTSIDE, item, limits))
        lines.append(OrderLine(2, f"gear for the {item}", "steel", tuple(detail)))
        needs += [
            reading_need(kit.reader, feature, item, why="a gear is cut to its drawing")
            for feature in (d.TEETH, d.GEAR_OUTSIDE, d.GEAR_CENTRES, d.GEAR_WIDTH, d.TIP_GAP)
        ]
    return _draft(kit, verdict, key="gears", title="Oil pump gears", lines=tuple(lines), asked=tuple(asked),
                  needs=tuple(needs), priced=GEARS_MADE)  # fmt: skip


def _draft(kit: Kit, verdict: Verdict, *, key: str, title: str, **more: object) -> OrderDraft:
    return OrderDraft(
        key=f"{d.KEY}/{key}",
        system=d.KEY,
        verdict=verdict.id,
        title=title,
        to="turner and grinder",
        leave_alone=("The old parts: they go with the order as patterns and come back.",),
        rests_on=readings_behind(kit.bench, verdict.chosen.items, (d.PUMP,)),
        cautions=warned("oil work"),
        **more,  # type: ignore[arg-type]
    )
