"""Orders for throttle and linkage: bushes, shaft, pins, each with its drawing; what runs in a hole waits for the hole."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing, View
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.sketching import pin_view, plain_bush_section
from gudgeon.engine.system import Feature
from gudgeon.engine.verdict import Verdict
from gudgeon.systems.drafting import Limits, asked_for, asked_size, band, both, reading_need, readings_behind
from gudgeon.systems.intake import description as d
from gudgeon.systems.intake.intake_set import IntakeSet
from gudgeon.systems.intake.ways import BUSHES_MADE, FIT, LINKAGE, PIN_MADE, SHAFT_MADE, THROTTLE, hole_of
from gudgeon.systems.measured import number
from gudgeon.systems.proposing import warned

PIN_TOLERANCE, LENGTH_TOLERANCE = 0.0004 * d.INCH, 0.005 * d.INCH
PRESS = (0.0010 * d.INCH, 0.0018 * d.INCH)
"""Press of a small bush on the diameter [m]; the handbook's rule at 1/2 in, from memory."""
LEFT_SMALL = (0.008 * d.INCH, 0.006 * d.INCH)


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none for another's, or where nothing is sent out."""
    intake = IntakeSet.of(bench)
    drafts: tuple[OrderDraft | None, ...] = ()
    if verdict.subject == THROTTLE:
        drafts = (_bushes(intake, verdict), _shaft(intake, verdict))
    elif verdict.subject == LINKAGE:
        drafts = (_pins(intake, verdict),)
    return tuple(draft for draft in drafts if draft is not None)


def _bought(verdict: Verdict, name: str) -> bool:
    return any(item.name == name for item in verdict.chosen.priced)


def _draft(intake: IntakeSet, verdict: Verdict, items: tuple[str, ...], *, key: str, title: str, **more: object) -> OrderDraft:
    return OrderDraft(
        key=f"{d.KEY}/{key}",
        system=d.KEY,
        verdict=verdict.id,
        title=title,
        to="turner",
        rests_on=readings_behind(intake.bench, items, d.KINDS),
        cautions=warned("throttle work"),
        **more,  # type: ignore[arg-type]
    )


def _sheet(
    intake: IntakeSet, item: str, *, letters: str, title: str, part: str, material: str, view: View, notes: tuple[str, ...]
) -> Drawing:
    return Drawing(
        number=letters,
        title=title,
        part=part,
        item=item,
        material=material,
        finish="turned, running surfaces fine",
        views=(view,),
        notes=notes,
        job=intake.bench.snapshot.outline.name,
    )


def _bushes(intake: IntakeSet, verdict: Verdict) -> OrderDraft | None:
    found, item = verdict.chosen.parameters, intake.throttle
    if not _bought(verdict, BUSHES_MADE) or "throttle bush outside" not in found:
        return None
    outside = found["throttle bush outside"] + PRESS[0], found["throttle bush outside"] + PRESS[1]
    inside = found["throttle shaft"] - LEFT_SMALL[0], found["throttle shaft"] - LEFT_SMALL[1]
    length = intake.one(d.BOSS_LENGTH)
    detail = (
        ("outside", f"{band(outside)}, pressed into {both(found['throttle bush outside'])}"),
        ("inside", f"{band(inside)}, reamed in line when both are in"),
        ("length", both(length.value) if length else "not read yet"),
    )
    drawn: tuple[Drawing, ...] = ()
    if length is not None:
        view = plain_bush_section(outside=outside, inside=inside, length=(length.value, length.value), title="Bush, section")
        note = "Outside a press fit in the bored body. Reamed to the shaft when both are in, not before."
        drawn = (
            _sheet(intake, item, letters="TB1", title="Throttle bush, two off", part="throttle bush", material="bronze",
                   view=view, notes=(note,)),
        )  # fmt: skip
    return _draft(
        intake,
        verdict,
        (item,),
        key="bushes",
        title="Throttle bushes",
        lines=(OrderLine(2, "throttle bush", "bronze", detail),),
        asked=(),
        drawings=drawn,
        needs=(reading_need(intake.reader, d.BOSS_LENGTH, item, why="a bush is made to the length of its boss"),),
        priced=BUSHES_MADE,
    )


def _finished(intake: IntakeSet, feature: Feature, item: str) -> float | None:
    """A hole as it was read after reaming, at its smallest [m]."""
    for stage in ("fitted", "returned"):
        spots = intake.reader.spots(feature, item, stage=stage)
        if spots:
            return min(spot.value for spot in spots)
    return None


def _to(hole: float | None, size: float) -> tuple[Limits, str]:
    if hole is None:
        return (size - PIN_TOLERANCE, size), "the size chosen; the hole is not finished yet"
    upper = hole - FIT[0]
    return (upper - PIN_TOLERANCE, upper), f"the finished hole, {both(hole)}"


def _hole_need(intake: IntakeSet, feature: Feature, item: str) -> Need:
    return Need(
        kind="reading",
        what=f"finished hole of {item}, read after reaming",
        met=_finished(intake, feature, item) is not None,
        why="what runs in a hole is made to it",
        part=feature.part,
        item=item,
        feature=feature.name,
    )


def _shaft(intake: IntakeSet, verdict: Verdict) -> OrderDraft | None:
    size, item = verdict.chosen.parameters.get("throttle shaft"), intake.throttle
    if not _bought(verdict, SHAFT_MADE) or size is None:
        return None
    limits, made_to = _to(_finished(intake, d.HOLE, item), size)
    length = intake.one(d.SHAFT_LENGTH)
    detail = (
        ("diameter", f"{band(limits)}, to {made_to}"),
        ("length", both(length.value) if length else "not read yet"),
        ("slot for the disc, lever end", "as the old shaft, which goes with the order"),
    )
    drawn: tuple[Drawing, ...] = ()
    if length is not None:
        span = length.value - LENGTH_TOLERANCE, length.value + LENGTH_TOLERANCE
        view = pin_view(diameter=limits, length=span, title="Throttle shaft")
        notes = ("Slot, screw holes and lever end as the old shaft, which goes with this sheet. Straight within .001 in.",)
        drawn = (
            _sheet(intake, item, letters="TS1", title="Throttle shaft", part="throttle shaft",
                   material="steel or brass, as the old", view=view, notes=notes),
        )  # fmt: skip
    return _draft(
        intake,
        verdict,
        (item,),
        key="shaft",
        title="Throttle shaft",
        lines=(OrderLine(1, "throttle shaft", "as the old", detail),),
        asked=(asked_size(d.SHAFT, item, limits, note="at both bearings"),),
        drawings=drawn,
        leave_alone=("The old shaft and disc: they go with the order as patterns and come back.",),
        needs=(
            reading_need(intake.reader, d.SHAFT_LENGTH, item, why="the shaft is made from its drawing"),
            _hole_need(intake, d.HOLE, item),
        ),
        priced=SHAFT_MADE,
    )


def _pins(intake: IntakeSet, verdict: Verdict) -> OrderDraft | None:
    sizes = asked_for(verdict, "pin")
    if not _bought(verdict, PIN_MADE) or not sizes:
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item, size in sizes.items():
        hole, pin = hole_of(item, intake), d.FULCRUM_PIN if item in intake.levers else d.PIN
        limits, made_to = _to(_finished(intake, hole, item), size)
        length = intake.reader.size(d.PIN_LENGTH, item) if pin is d.PIN else None
        needs.append(_hole_need(intake, hole, item))
        if pin is d.PIN:
            needs.append(reading_need(intake.reader, d.PIN_LENGTH, item, why="the pin is made from its drawing"))
        detail = (
            ("diameter", f"{band(limits)}, to {made_to}"),
            ("length", both(length.value) if length else "as the old pin"),
            ("ends and cotter holes", "as the old pin, which goes with the order"),
        )
        lines.append(OrderLine(1, f"linkage pin for {item}", "mild steel, case-hardened", detail))
        asked.append(asked_size(pin, item, limits))
        if length is not None:
            span = length.value - LENGTH_TOLERANCE, length.value + LENGTH_TOLERANCE
            view = pin_view(diameter=limits, length=span)
            drawn.append(
                _sheet(
                    intake,
                    item,
                    letters=f"LP{number(item) if number(item).isdecimal() else 0}",
                    title=f"Linkage pin, {item}",
                    part="linkage pin",
                    material="mild steel, case-hardened",
                    view=view,
                    notes=("Ends and cotter holes as the old pin, which goes with this sheet.",),
                )
            )
    return _draft(
        intake,
        verdict,
        tuple(sizes),
        key="pins",
        title="Linkage pins",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=("The old pins: they go with the order as patterns and come back.",),
        needs=tuple(needs),
        priced=PIN_MADE,
    )
