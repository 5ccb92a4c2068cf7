"""Orders for pump shaft, bushes and drive pin, each with its drawing."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing, View
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.sketching import pin_view, plain_bush_section
from gudgeon.engine.verdict import Verdict
from gudgeon.handbook.rules import rules
from gudgeon.systems.cooling import description as d
from gudgeon.systems.cooling.remedies import BUSH_MADE, PIN, PIN_MADE, SHAFT_MADE, SHAFTS
from gudgeon.systems.drafting import Limits, asked_for, asked_size, band, both, reading_need, readings_behind
from gudgeon.systems.kit import Kit
from gudgeon.systems.proposing import warned

SHAFT_TOLERANCE, PIN_TOLERANCE, LENGTH_TOLERANCE = 0.0005 * d.INCH, 0.001 * d.INCH, 0.005 * d.INCH
LEFT_SMALL = (0.008 * d.INCH, 0.006 * d.INCH)
"""How much smaller a bush's inside is left, to be reamed when it is in [m]; common practice."""


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none for another's, or where nothing is made."""
    kit = Kit.of(bench, d.KEY)
    drafts: tuple[OrderDraft | None, ...] = ()
    if verdict.subject == SHAFTS:
        drafts = (_shaft(kit, verdict), _bushes(kit, verdict))
    elif verdict.subject == PIN:
        drafts = (_pin(kit, verdict),)
    return tuple(draft for draft in drafts if draft is not None)


def _draft(kit: Kit, verdict: Verdict, *, key: str, title: str, **more: object) -> OrderDraft:
    return OrderDraft(
        key=f"{d.KEY}/{key}",
        system=d.KEY,
        verdict=verdict.id,
        title=title,
        to="turner",
        rests_on=readings_behind(kit.bench, verdict.chosen.items, (d.PUMP,)),
        cautions=warned("cooling work"),
        **more,  # type: ignore[arg-type]
    )


def _drawn(kit: Kit, item: str, number: str, title: str, material: str, finish: str, view: View, note: str) -> Drawing:
    return Drawing(
        number=number,
        title=f"{title}, {item}",
        part=d.PUMP,
        item=item,
        material=material,
        finish=finish,
        views=(view,),
        notes=(note,),
        job=kit.bench.snapshot.outline.name,
    )


def _shaft(kit: Kit, verdict: Verdict) -> OrderDraft | None:
    sizes = asked_for(verdict, "shaft")
    if not sizes:
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item, size in sizes.items():
        limits = (size - SHAFT_TOLERANCE, size)
        length, pin = kit.size(d.SHAFT_LENGTH, item), kit.reader.largest(d.PIN, item)
        hole = both(pin.value) if pin is not None else "as the old pin; read it first"
        detail = (
            ("diameter", band(limits)),
            ("length over all", both(length.value) if length is not None else "not read yet"),
            ("under the packing", "ground or lapped smooth, no tool marks"),
            ("cross hole for the drive pin", hole),
            ("ends, thread and keyway", "as the old shaft, which goes with the order"),
        )
        lines.append(OrderLine(1, f"pump shaft for the {item}", "plain steel, ground bar; stainless only where agreed", detail))
        asked.append(asked_size(d.SHAFT, item, limits, note="over the whole length in bushes and packing"))
        if length is not None:
            view = pin_view(diameter=limits, length=(length.value - LENGTH_TOLERANCE, length.value), title="Shaft")
            asked.append(asked_size(d.SHAFT_LENGTH, item, (length.value - LENGTH_TOLERANCE, length.value)))
            drawn.append(
                _drawn(
                    kit, item, "W1", "Pump shaft", "steel, ground bar", "ground", view,
                    "Cross hole, thread and keyway as the old shaft, which goes with this sheet.",
                )
            )  # fmt: skip
        needs.append(reading_need(kit.reader, d.SHAFT_LENGTH, item, why="a shaft is made from its drawing"))
    return _draft(
        kit, verdict, key="shaft", title="Pump shaft", lines=tuple(lines), asked=tuple(asked), drawings=tuple(drawn),
        leave_alone=("The old shaft: it goes with the order as a pattern and comes back.",),
        needs=tuple(needs), priced=SHAFT_MADE,
    )  # fmt: skip


def _bushes(kit: Kit, verdict: Verdict) -> OrderDraft | None:
    low, high = asked_for(verdict, "bush bore low"), asked_for(verdict, "bush bore high")
    if not low:
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item, bore in low.items():
        outside, length = kit.size(d.BUSH_OUTSIDE, item), kit.size(d.BUSH_LENGTH, item)
        inside = (bore - LEFT_SMALL[0], bore - LEFT_SMALL[1])
        press = _press(outside.value) if outside is not None else None
        detail = (
            ("outside", f"{band(press)}, a press fit in the hole as it is read" if press else "not read yet"),
            ("inside", f"{band(inside)}, line reamed when it is in to {band((bore, high[item]))}"),
            ("length", both(length.value) if length is not None else "not read yet"),
            ("oil", "hole and groove as the old bush, drilled through when it is in"),
        )
        lines.append(OrderLine(2, f"bush for the {item}", "bronze, leaded tin (SAE 660)", detail))
        needs += [reading_need(kit.reader, f, item, why="a bush is made to its hole") for f in (d.BUSH_OUTSIDE, d.BUSH_LENGTH)]
        if press is not None and length is not None:
            asked.append(asked_size(d.BUSH_OUTSIDE, item, press))
            view = plain_bush_section(outside=press, inside=inside, length=(length.value - LENGTH_TOLERANCE, length.value))
            drawn.append(
                _drawn(
                    kit, item, "W2", "Pump bush", "bronze, SAE 660", "turned, outside fine", view,
                    "Outside a press fit. Line reamed with its fellow when both are in, not before.",
                )
            )  # fmt: skip
    return _draft(
        kit, verdict, key="bushes", title="Pump bushes", lines=tuple(lines), asked=tuple(asked), drawings=tuple(drawn),
        needs=tuple(needs), priced=BUSH_MADE,
    )  # fmt: skip


def _press(outside: float) -> Limits:
    """Outside of a bush for a hole [m]; ``outside`` is that of the old bush, taken as its hole."""
    low, high = rules("bush press")[0].at(outside)
    return outside + (low or 0.0), outside + (high or 0.0)


def _pin(kit: Kit, verdict: Verdict) -> OrderDraft | None:
    sizes, brass = asked_for(verdict, "pin"), asked_for(verdict, "brass")
    if not sizes:
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item, size in sizes.items():
        limits, length = (size - PIN_TOLERANCE, size), kit.size(d.PIN_LENGTH, item)
        material = "brass rod, half hard" if brass.get(item) else "mild steel, not hardened"
        detail = (
            ("diameter", band(limits)),
            ("length", both(length.value) if length is not None else "not read yet"),
            ("no substitute", "it must shear before the gears do: nothing harder, nothing thicker"),
        )
        lines.append(OrderLine(2, f"drive pin for the {item}, one of them a spare", material, detail))
        asked.append(asked_size(d.PIN, item, limits))
        needs.append(reading_need(kit.reader, d.PIN_LENGTH, item, why="a pin is made from its drawing"))
        if length is not None:
            view = pin_view(diameter=limits, length=(length.value - LENGTH_TOLERANCE, length.value), title="Drive pin")
            drawn.append(_drawn(kit, item, "W3", "Drive pin", material, "turned", view, "Not hardened: it is made to shear."))
    return _draft(
        kit, verdict, key="pin", title="Drive pin", lines=tuple(lines), asked=tuple(asked), drawings=tuple(drawn),
        needs=tuple(needs), priced=PIN_MADE,
    )  # fmt: skip
