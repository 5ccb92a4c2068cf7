"""The orders that verdicts on valves lead to: bushes, valves, refacing and seats, springs; each held until its time."""

from __future__ import annotations

import math

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.system import Feature
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.proposing import warned
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves import drawings
from gudgeon.systems.valves.seat_ways import NEW_MARGIN, made_elsewhere
from gudgeon.systems.valves.spring_ways import spring_asked
from gudgeon.systems.valves.stem_ways import STEM_TOLERANCE
from gudgeon.systems.valves.steps import (
    BUSH_MADE,
    INSERT,
    RECUT,
    REFACE,
    SEATS,
    SPRING_MADE,
    SPRINGS,
    STEMS,
    VALVE_MADE,
    decided_first,
)
from gudgeon.systems.valves.valve_set import ValveSet

Limits = tuple[float, float]

LEAVE_ALONE = (
    "Numbers and marks that say which valve belongs where.",
    "Joint faces, bores and water spaces of the casting.",
)
PRESS = (0.001, 0.0015, 0.0005)
"""Press of a bush on the diameter: .001 to .0015 in and .0005 per inch of outside; the handbook's rule, from memory."""
LENGTH_TOLERANCE, HEAD_TOLERANCE, MARGIN_TOLERANCE = 0.010 * d.INCH, 0.005 * d.INCH, 0.005 * d.INCH
FORCE_TOLERANCE = 0.05


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none for another's, or where nothing is sent out."""
    valves = ValveSet.of(bench)
    drafts: tuple[OrderDraft | None, ...] = ()
    if verdict.subject == STEMS:
        drafts = (_bushes(valves, verdict), _valves(valves, verdict))
    elif verdict.subject == SEATS:
        drafts = (_reface(valves, verdict), _valves(valves, verdict), _seats(valves, verdict))
    elif verdict.subject == SPRINGS:
        drafts = (_springs(valves, verdict),)
    return tuple(draft for draft in drafts if draft is not None)


def _asked_for(verdict: Verdict, word: str) -> dict[str, float]:
    """Per instance the parameter that ends in a word."""
    found = verdict.chosen.parameters
    return {item: found[f"{item} {word}"] for item in verdict.chosen.items if f"{item} {word}" in found}


def _both(value: float, dimension: str = "length", *, fine: bool = True) -> str:
    amount = Amount(value, dimension, fine=fine and dimension == "length" and value > d.INCH / 16)
    return f"{show(amount, 'inch')} ({show(amount, 'millimetre')})"


def _band(limits: Limits) -> str:
    return f"{_both(limits[0])} to {_both(limits[1])}"


def _size(
    item: str, feature: str, limits: Limits, *, part: str = d.VALVE, dimension: str = "length", note: str = ""
) -> AskedSize:
    return AskedSize(part=part, item=item, feature=feature, dimension=dimension, lower=limits[0], upper=limits[1], note=note)


def _bushes(valves: ValveSet, verdict: Verdict) -> OrderDraft | None:
    outsides, bores = _asked_for(verdict, "bush outside"), _asked_for(verdict, "bush bore")
    if not outsides:
        return None
    lines, drawn = [], list[Drawing]()
    for item, outside in outsides.items():
        inside = (bores[item] - 0.010 * d.INCH, bores[item] - 0.006 * d.INCH)
        press = (PRESS[0] * d.INCH + PRESS[2] * outside, PRESS[1] * d.INCH + PRESS[2] * outside)
        length = valves.size(d.GUIDE_LENGTH, item)
        lines.append(
            OrderLine(
                1,
                f"guide bush for {item}, outside {_band((outside + press[0], outside + press[1]))}",
                "close-grained grey cast iron",
                (
                    ("inside", f"{_band(inside)}, reamed when it is in to {_both(bores[item])}"),
                    ("length", _both(length.value) if length else "as the guide; read it first"),
                    ("hole it is pressed into", f"bored to {_both(outside)}"),
                ),
            )
        )
        if length is not None:
            drawn.append(
                drawings.guide_bush(
                    item, valves, outside=(outside + press[0], outside + press[1]), inside=inside, length=length.value
                )
            )
    return OrderDraft(
        key=f"{d.KEY}/bushes",
        system=d.KEY,
        verdict=verdict.id,
        title="Guide bushes",
        to="turner",
        lines=tuple(lines),
        asked=(),
        drawings=tuple(drawn),
        needs=tuple(_need(item, d.GUIDE_LENGTH, valves, "a bush is made to the length of its guide") for item in outsides),
        rests_on=_rests_on(valves, tuple(outsides)),
        cautions=warned("guide work", "pressing"),
        priced=BUSH_MADE,
    )


def _need(item: str, feature: Feature, valves: ValveSet, why: str) -> Need:
    met = valves.size(feature, item) is not None or bool(valves.reader.words(feature, item)[0])
    return Need(
        kind="reading",
        what=f"{item}: {feature.title.lower()}",
        met=met,
        why=why,
        part=feature.part,
        item=item,
        feature=feature.name,
    )


def _finished_guide(item: str, valves: ValveSet) -> float | None:
    """The guide as it was read after reaming or bushing, at its smallest place [m]."""
    for stage in ("fitted", "returned"):
        spots = valves.reader.spots(d.GUIDE, item, stage=stage)
        if spots:
            return min(spot.value for spot in spots)
    return None


def _stem_limits(item: str, valves: ValveSet, verdict: Verdict) -> tuple[Limits, str]:
    """Limits of a new stem [m], and what they are made to: the finished guide where it is read, else the size chosen."""
    low, high = _asked_for(verdict, "clearance low"), _asked_for(verdict, "clearance high")
    guide = _finished_guide(item, valves)
    if guide is not None and item in low:
        upper = guide - low[item]
        return (max(upper - STEM_TOLERANCE, guide - high[item]), upper), f"the finished guide, {_both(guide)}"
    stem = _asked_for(verdict, "stem").get(item)
    if stem is None:
        stem = valves.stem_size(item)
    return (stem - STEM_TOLERANCE, stem), "the old size" if item not in low else "the size asked of the guide; not finished yet"


def _valves(valves: ValveSet, verdict: Verdict) -> OrderDraft | None:
    elsewhere = made_elsewhere(valves) if verdict.subject == SEATS else ()
    items = tuple(_asked_for(verdict, "stem")) or tuple(_asked_for(verdict, "new valve"))
    items = tuple(item for item in items if item not in elsewhere)
    if not items:
        return None
    lines, asked, drawn = [], list[AskedSize](), list[Drawing]()
    waits = bool(_asked_for(verdict, "guide") or _asked_for(verdict, "bush bore"))
    for item in items:
        stem, made_to = _stem_limits(item, valves, verdict)
        asked.append(_size(item, d.STEM.name, stem, note="over the whole length that runs in the guide"))
        sizes = _valve_sizes(item, valves, stem)
        angle = math.degrees(float(valves.angle(item)[0].mean()))
        detail = [
            ("stem", f"{_band(stem)}, to {made_to}"),
            ("face", f"{angle:.0f}° from flat"),
            ("keeper", valves.reader.words(d.KEEPER, item)[0] or "as the old valve, which goes with the order"),
        ]
        if sizes is not None:
            detail[1:1] = [
                ("head", _band(sizes.head)),
                ("length over all", _band(sizes.length)),
                ("margin", _band(sizes.margin)),
            ]
            asked += [
                _size(item, d.HEAD.name, sizes.head),
                _size(item, d.STEM_LENGTH.name, sizes.length),
                _size(item, d.MARGIN.name, sizes.margin),
            ]
            drawn.append(drawings.valve(item, valves, sizes, face=0.125 * d.INCH))
        lines.append(OrderLine(1, f"valve for {item}", "valve steel, as on the drawing", tuple(detail)))
    needs = [_need(item, feature, valves, "a valve is made from its drawing") for item in items for feature in _VALVE_READINGS]
    if waits:
        needs += [_guide_need(item, valves) for item in items]
    return OrderDraft(
        key=f"{d.KEY}/seat-valves" if verdict.subject == SEATS else f"{d.KEY}/valves",
        system=d.KEY,
        verdict=verdict.id,
        title="Valves to drawing",
        to="valve maker",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=("The old valves: they go with the order as patterns and come back.",),
        needs=tuple(needs),
        rests_on=_rests_on(valves, items),
        cautions=warned("valve work"),
        priced=VALVE_MADE,
    )


_VALVE_READINGS = (d.HEAD, d.STEM_LENGTH, d.KEEPER)


def _guide_need(item: str, valves: ValveSet) -> Need:
    return Need(
        kind="reading",
        what=f"finished guide of {item}, read after reaming",
        met=_finished_guide(item, valves) is not None,
        why="the stem is made to the hole",
        part=d.VALVE,
        item=item,
        feature=d.GUIDE.name,
    )


def _valve_sizes(item: str, valves: ValveSet, stem: Limits) -> drawings.ValveSizes | None:
    """Sizes of a new valve from the old one; None while head or length are not read."""
    head, length = valves.size(d.HEAD, item), valves.size(d.STEM_LENGTH, item)
    if head is None or length is None:
        return None
    return drawings.ValveSizes(
        stem=stem,
        head=(head.value - HEAD_TOLERANCE, head.value),
        length=(length.value - LENGTH_TOLERANCE, length.value + LENGTH_TOLERANCE),
        margin=(NEW_MARGIN, NEW_MARGIN + MARGIN_TOLERANCE),
        angle=float(valves.angle(item)[0].mean()),
    )


def _reface(valves: ValveSet, verdict: Verdict) -> OrderDraft | None:
    new = _asked_for(verdict, "new valve")
    angles = {
        item: angle
        for item, angle in _asked_for(verdict, "seat angle").items()
        if item not in new and item not in made_elsewhere(valves)
    }
    if not angles or not any(item.name == REFACE for item in verdict.chosen.priced):
        return None
    most = _asked_for(verdict, "face ground")
    lines = tuple(
        OrderLine(
            1,
            f"reface {item} at {math.degrees(angle):.0f}° from flat",
            "the old valve",
            (
                ("take", f"as little as cleans it all round, likely {_both(most[item])} square to the face"),
                ("leave", f"a margin of {_both(1 / 32 * d.INCH)} at least; say before grinding where it will not"),
                ("run-out of the face on the stem", f"{_both(0.001 * d.INCH)} at most"),
            ),
        )
        for item, angle in angles.items()
    )
    asked = [_size(item, d.FACE_RUNOUT.name, (0.0, 0.001 * d.INCH), note="on the stem") for item in angles]
    asked += [_size(item, d.MARGIN.name, (d.INCH / 32, 0.25 * d.INCH), note="at its thinnest") for item in angles]
    return OrderDraft(
        key=f"{d.KEY}/reface",
        system=d.KEY,
        verdict=verdict.id,
        title="Reface the valves",
        to="engine shop",
        lines=lines,
        asked=tuple(asked),
        leave_alone=(*LEAVE_ALONE, "Stems: they are not ground."),
        needs=(decided_first(valves, STEMS, "a valve that is made new is not refaced first"),),
        rests_on=_rests_on(valves, tuple(angles)),
        cautions=warned("valve grinding"),
        priced=REFACE,
    )


def _seats(valves: ValveSet, verdict: Verdict) -> OrderDraft | None:
    priced = {item.name for item in verdict.chosen.priced}
    if not priced & {RECUT, INSERT}:
        return None
    inserts = INSERT in priced
    low, high = _asked_for(verdict, "seat width low"), _asked_for(verdict, "seat width high")
    angles, press_low, press_high = (
        _asked_for(verdict, "seat angle"),
        _asked_for(verdict, "press low"),
        _asked_for(verdict, "press high"),
    )
    lines = []
    for item, angle in angles.items():
        detail = [
            (
                "angle",
                f"{math.degrees(angle):.0f}° from flat, {math.degrees(angle) - 15:.0f}° above and 60° below to narrow it",
            ),
            ("width", f"{_band((low[item], high[item]))}, in the middle of the face"),
            ("true to", f"the finished guide, by a pilot, within {_both(0.002 * d.INCH)} on the indicator"),
        ]
        if inserts:
            detail.append(("press of the insert", _band((press_low[item], press_high[item]))))
        what = f"fit a seat insert for {item} and cut it" if inserts else f"recut the seat of {item}"
        lines.append(OrderLine(1, what, "grey cast iron", tuple(detail)))
    asked = [_size(item, d.SEAT_WIDTH.name, (low[item], high[item]), note="as blued") for item in angles]
    asked += [_size(item, d.SEAT_RUNOUT.name, (0.0, 0.002 * d.INCH), note="on a pilot in the guide") for item in angles]
    needs = [decided_first(valves, STEMS, "the guide is finished before its seat is cut")]
    guides = valves.bench.snapshot.verdict_on(STEMS)
    if guides is not None and guides.chosen.action != "run on":
        needs += [
            _guide_need(item, valves) for item in guides.chosen.items if "new valves in the old" not in guides.chosen.title.text
        ]
    return OrderDraft(
        key=f"{d.KEY}/seats",
        system=d.KEY,
        verdict=verdict.id,
        title="Seat inserts" if inserts else "Recut the valve seats",
        to="engine shop",
        lines=tuple(lines),
        asked=tuple(asked),
        leave_alone=LEAVE_ALONE,
        needs=tuple(needs),
        rests_on=_rests_on(valves, tuple(angles)),
        cautions=warned("seat work"),
        priced=INSERT if inserts else RECUT,
    )


def _springs(valves: ValveSet, verdict: Verdict) -> OrderDraft | None:
    if not any(item.name == SPRING_MADE for item in verdict.chosen.priced):
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item in verdict.chosen.items:
        wanted = spring_asked(item, valves)
        detail = [
            ("wire", f"{wanted.wire.name}{', ' + wanted.written if wanted.written else ''}"),
            ("ends", "closed and ground square"),
        ]
        for words, pair, feature in (
            ("valve shut", wanted.closed, d.FORCE_FITTED),
            ("valve open", wanted.opened, d.FORCE_OPEN),
        ):
            if pair is None:
                detail.append((words, "not known yet"))
                continue
            detail.append((words, f"{_both(pair[1], 'force')} at {_both(pair[0], fine=False)}, within 5 %"))
            asked.append(
                _size(
                    item,
                    feature.name,
                    (pair[1] * (1 - FORCE_TOLERANCE), pair[1] * (1 + FORCE_TOLERANCE)),
                    part=d.SPRING,
                    dimension="force",
                    note=f"at {_both(pair[0], fine=False)}",
                )
            )
        detail.append(("outside diameter", f"{_both(wanted.outside)} at most" if wanted.outside else "not known yet"))
        lines.append(OrderLine(1, f"valve spring, {item}", wanted.wire.name, tuple(detail)))
        needs += [
            Need(
                kind="reading",
                what=f"{item}: {what}",
                met=False,
                why="a spring is made to two forces at two lengths",
                part=d.SPRING,
                item=item,
                feature=what,
            )
            for what in wanted.missing
        ]
        if wanted.made is not None and wanted.closed and wanted.opened and wanted.outside:
            drawn.append(
                drawings.spring_sheet(
                    item,
                    valves,
                    wanted.made,
                    outside=(wanted.outside - 0.020 * d.INCH, wanted.outside),
                    wire=wanted.written,
                    material=wanted.wire.name,
                    closed=wanted.closed,
                    opened=wanted.opened,
                )
            )
    return OrderDraft(
        key=f"{d.KEY}/springs",
        system=d.KEY,
        verdict=verdict.id,
        title="Spring sheet",
        to="spring maker",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=("The old springs: they go with the order as patterns and come back.",),
        needs=tuple(needs),
        rests_on=_rests_on(valves, verdict.chosen.items),
        cautions=warned("valve work"),
        priced=SPRING_MADE,
    )


def _rests_on(valves: ValveSet, items: tuple[str, ...]) -> tuple[str, ...]:
    """Identities of the readings of some instances."""
    snapshot = valves.bench.snapshot
    return tuple(
        reading.id
        for key, readings in snapshot.by_feature.items()
        if key.item in items and key.part in (d.VALVE, d.SPRING)
        for reading in readings
    )
