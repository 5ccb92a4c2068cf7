"""The orders that verdicts on the governor lead to: lugs, sleeve, pins, rollers, balls, spring, detent."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.verdict import Verdict
from gudgeon.systems.drafting import Limits, asked_for, asked_size, band, both, reading_need, readings_behind
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor import drawings
from gudgeon.systems.governor.curve import as_found
from gudgeon.systems.governor.detent_ways import EDGES_MADE
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.governor.joint_ways import (
    BALL,
    DETENTS,
    JOINTS,
    LUG_BUILT,
    PIN_MADE,
    ROLLER_MADE,
    SLEEVE_FACED,
    SPRINGS,
    play_made,
)
from gudgeon.systems.governor.spring_ways import FORCE_TOLERANCE, SPRING_MADE, spring_asked
from gudgeon.systems.judging import middle
from gudgeon.systems.proposing import warned

PIN_TOLERANCE, ROLLER_TOLERANCE, BORE_TOLERANCE, LENGTH_TOLERANCE = (
    0.0003 * d.INCH,
    0.0005 * d.INCH,
    0.0005 * d.INCH,
    0.005 * d.INCH,
)
ROLLER_CLEARANCE = (0.0008 * d.INCH, 0.0018 * d.INCH)
"""Clearance of a new roller on its pin [m]; common practice for small slow rollers."""
LEAVE_ALONE = ("Teeth of the gear that carries the weights, and timing marks.", "The weights themselves: no metal on or off.")


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none for another's, or where nothing is sent out."""
    one = GovernorSet.of(bench)
    drafts: tuple[OrderDraft | None, ...] = ()
    if verdict.subject == JOINTS:
        drafts = (_lugs(one, verdict), _face(one, verdict), _pins(one, verdict), _rollers(one, verdict), _balls(one, verdict))
    elif verdict.subject == SPRINGS:
        drafts = (_spring(one, verdict),)
    elif verdict.subject == DETENTS:
        drafts = (_edges(one, verdict),)
    return tuple(draft for draft in drafts if draft is not None)


def _bought(verdict: Verdict, name: str) -> bool:
    return any(item.name == name for item in verdict.chosen.priced)


def _draft(one: GovernorSet, verdict: Verdict, *, key: str, title: str, to: str, **more: object) -> OrderDraft:
    items = {item for kind in d.KINDS for item in one.bench.items(kind)}
    return OrderDraft(
        key=f"{d.KEY}/{key}",
        system=d.KEY,
        verdict=verdict.id,
        title=title,
        to=to,
        rests_on=readings_behind(one.bench, items, d.KINDS),
        **more,  # type: ignore[arg-type]
    )


def _lugs(one: GovernorSet, verdict: Verdict) -> OrderDraft | None:
    sizes = asked_for(verdict, "lug")
    if not _bought(verdict, LUG_BUILT):
        return None
    play = play_made()
    lines, asked = [], list[AskedSize]()
    for item, size in sizes.items():
        bore = size + play[0], size + play[0] + BORE_TOLERANCE
        lines.append(
            OrderLine(
                1,
                f"build up lug and weight of {item} and bore them in line to {band(bore)}",
                "as the part; say which rod or wire",
                (
                    ("heat", "as little as will do, gear teeth wrapped wet or kept cool; slow cooling"),
                    ("in line with", "the other lug's hole and the gear's face, within .002 in over the pin's length"),
                    ("weld", "sounded and looked over with dye before it is bored"),
                ),
            )
        )
        asked.append(asked_size(d.HOLE, item, bore, note="after boring"))
    needs = [reading_need(one.reader, d.PIN, item, why="the hole is bored to the pin as it was made") for item in one.weights]
    return _draft(
        one,
        verdict,
        key="lugs",
        title="Governor lugs built up and bored",
        to="welder and turner",
        lines=tuple(lines),
        asked=tuple(asked),
        leave_alone=LEAVE_ALONE,
        needs=tuple(needs),
        cautions=warned("cast-iron welding", "governor work"),
        priced=LUG_BUILT,
    )


def _face(one: GovernorSet, verdict: Verdict) -> OrderDraft | None:
    if not _bought(verdict, SLEEVE_FACED):
        return None
    item, groove = one.only(d.SLEEVE), middle(as_found(one).groove)
    bore, shaft = one.one(d.BORE), one.one(d.SHAFT)
    off = groove + 0.002 * d.INCH
    drawn: tuple[Drawing, ...] = ()
    if bore is not None and shaft is not None and groove > 0:
        outside = 1.6 * bore.value
        drawn = (
            drawings.collar_ring(
                one,
                item,
                outside=(outside - LENGTH_TOLERANCE, outside),
                bore=(shaft.value + 0.002 * d.INCH, shaft.value + 0.005 * d.INCH),
                thickness=(off - 0.0005 * d.INCH, off + 0.0005 * d.INCH),
            ),
        )
    line = OrderLine(
        1,
        f"face the sleeve clean of its groove, about {both(off)} off",
        "the old sleeve",
        (
            ("true to", "its bore within .001 in on the face"),
            ("leave", "the hard skin where it has one: say before it is cut through"),
            ("ring", f"make a ring of {both(off)} to go behind it, to the drawing" if drawn else "as thick as what comes off"),
        ),
    )
    return _draft(
        one,
        verdict,
        key="sleeve",
        title="Face the governor sleeve",
        to="turner",
        lines=(line,),
        asked=(asked_size(d.GROOVE, item, (0.0, 0.0005 * d.INCH), note="no groove left"),),
        drawings=drawn,
        leave_alone=("Collar groove and bore.",),
        needs=(reading_need(one.reader, d.GROOVE, item, why="it says how much comes off"),),
        cautions=warned("governor work"),
        priced=SLEEVE_FACED,
    )


def _finished_hole(item: str, one: GovernorSet) -> float | None:
    """The hole as read after reaming or boring, at its smallest [m]."""
    for stage in ("fitted", "returned"):
        spots = one.reader.spots(d.HOLE, item, stage=stage)
        if spots:
            return min(spot.value for spot in spots)
    return None


def pin_limits(item: str, one: GovernorSet, verdict: Verdict) -> tuple[Limits, str] | None:
    """Limits of a new pin [m] and what they are made to: the finished hole where it is read, else the size chosen."""
    play, hole = play_made(), _finished_hole(item, one)
    if hole is not None:
        upper = hole - play[0]
        return (upper - PIN_TOLERANCE, upper), f"the finished hole, {both(hole)}"
    size = asked_for(verdict, "pin").get(item)
    return None if size is None else ((size - PIN_TOLERANCE, size), "the size chosen; the hole is not finished yet")


def _pins(one: GovernorSet, verdict: Verdict) -> OrderDraft | None:
    if not _bought(verdict, PIN_MADE):
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item in one.weights:
        limits = pin_limits(item, one, verdict)
        length = one.reader.size(d.PIN_LENGTH, item)
        needs += [
            reading_need(one.reader, d.PIN_LENGTH, item, why="the pin is made from its drawing"),
            Need(
                kind="reading",
                what=f"finished hole of {item}, read after reaming or boring",
                met=_finished_hole(item, one) is not None,
                why="the pin is made to the hole",
                part=d.WEIGHT,
                item=item,
                feature=d.HOLE.name,
            ),
        ]
        if limits is None:
            continue
        size, made_to = limits
        detail = (
            ("diameter", f"{band(size)}, to {made_to}"),
            ("length", both(length.value) if length else "not read yet"),
            ("hardness", "case-hardened, core left soft; ground or lapped after"),
        )
        lines.append(OrderLine(1, f"governor pin for {item}", "mild steel, case-hardened", detail))
        asked.append(asked_size(d.PIN, item, size, note="over its whole length"))
        if length is not None:
            span = length.value - LENGTH_TOLERANCE, length.value + LENGTH_TOLERANCE
            drawn.append(drawings.pin(item, one, diameter=size, length=span))
    return _draft(
        one,
        verdict,
        key="pins",
        title="Governor pins",
        to="turner",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=("The old pins: they go with the order as patterns and come back.",),
        needs=tuple(needs),
        cautions=warned("governor work"),
        priced=PIN_MADE,
    )


def _rollers(one: GovernorSet, verdict: Verdict) -> OrderDraft | None:
    outsides, pins = asked_for(verdict, "roller"), asked_for(verdict, "roller pin")
    if not _bought(verdict, ROLLER_MADE) or not outsides:
        return None
    largest = max(outsides.values())  # both to one size, or the sleeve cocks
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for item in outsides:
        outside = largest - ROLLER_TOLERANCE, largest
        pin = pins[item] - PIN_TOLERANCE, pins[item]
        bore = pins[item] + ROLLER_CLEARANCE[0], pins[item] + ROLLER_CLEARANCE[1] - PIN_TOLERANCE
        width = one.reader.size(d.ROLLER_WIDTH, item)
        needs.append(reading_need(one.reader, d.ROLLER_WIDTH, item, why="the roller is made from its drawing"))
        detail = (
            ("outside", f"{band(outside)}, both alike"),
            ("bore", band(bore)),
            ("pin", band(pin)),
            ("width", both(width.value) if width else "not read yet"),
        )
        lines.append(OrderLine(1, f"roller and pin for {item}", "mild steel, case-hardened", detail))
        asked += [
            asked_size(d.ROLLER, item, outside, note="no flat anywhere round"),
            asked_size(d.ROLLER_BORE, item, bore),
            asked_size(d.ROLLER_PIN, item, pin),
        ]
        if width is not None:
            span = width.value - LENGTH_TOLERANCE, width.value
            drawn.append(drawings.roller(item, one, outside=outside, bore=bore, width=span))
            through = width.value + 2 * pins[item], width.value + 2 * pins[item]
            drawn.append(drawings.roller_pin(item, one, diameter=pin, length=through))
    return _draft(
        one,
        verdict,
        key="rollers",
        title="Governor rollers and their pins",
        to="turner",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=("The old rollers and pins: they go with the order as patterns and come back.",),
        needs=tuple(needs),
        cautions=warned("governor work"),
        priced=ROLLER_MADE,
    )


def _balls(one: GovernorSet, verdict: Verdict) -> OrderDraft | None:
    parameters = verdict.chosen.parameters
    if not _bought(verdict, BALL) or "sleeve ball" not in parameters:
        return None
    size, count = parameters["sleeve ball"], round(parameters["sleeve balls"])
    item = one.only(d.SLEEVE)
    line = OrderLine(
        count,
        f"bearing ball, {both(size)}",
        "chrome steel, hardened, one batch",
        (
            ("grade", "all from one lot, alike within .0001 in"),
            ("with", "no old ball left among them"),
        ),
    )
    return _draft(
        one,
        verdict,
        key="balls",
        title="Balls of the governor thrust",
        to="bearing dealer",
        lines=(line,),
        asked=(asked_size(d.BALL, item, (size - 0.0001 * d.INCH, size + 0.0001 * d.INCH), note="any of them"),),
        needs=(
            reading_need(one.reader, d.BALL_COUNT, item, why="so many are ordered"),
            reading_need(one.reader, d.RACE, item, why="it says how many go in"),
        ),
        cautions=warned("governor work"),
        priced=BALL,
    )


def _spring(one: GovernorSet, verdict: Verdict) -> OrderDraft | None:
    if not _bought(verdict, SPRING_MADE):
        return None
    asked, item = spring_asked(one), one.only(d.SPRING)
    detail = [("wire", f"{asked.wire.name}{', ' + asked.written if asked.written else ''}")]
    sizes: list[AskedSize] = []
    for words, pair in (("sleeve down", asked.down), ("sleeve right up", asked.up)):
        if pair is None:
            detail.append((words, "not known yet"))
            continue
        detail.append((words, f"{both(pair[1], 'force')} at {both(pair[0])}, within 5 %"))
        limits = pair[1] * (1 - FORCE_TOLERANCE), pair[1] * (1 + FORCE_TOLERANCE)
        name = f"{d.FORCE_AT.name} {pair[0] / d.INCH:.3f} in"
        sizes.append(asked_size(d.FORCE_AT, item, limits, name=name, note=words))
    detail.append(("outside diameter", f"{both(asked.outside)} at most" if asked.outside else "not known yet"))
    detail.append(("ends", "hooks or eyes as the old spring" if asked.drawn_out else "closed and ground square"))
    drawn: tuple[Drawing, ...] = ()
    if asked.made is not None and asked.down and asked.up and asked.outside:
        drawn = (
            drawings.spring_sheet(
                item,
                one,
                asked.made,
                outside=(asked.outside - 0.020 * d.INCH, asked.outside),
                wire=asked.written,
                material=asked.wire.name,
                pairs=(asked.down, asked.up),
            ),
        )
    needs = [
        Need(
            kind="reading",
            what=what,
            met=False,
            why="the spring is made to two forces at two lengths",
            part=d.SPRING,
            item=item,
        )
        for what in asked.missing
    ]
    needs.append(
        Need(
            kind="decision",
            what=f"{JOINTS} decided",
            met=one.bench.snapshot.verdict_on(JOINTS) is not None,
            why="flats, groove and pins move the sleeve and so the spring",
        )
    )
    return _draft(
        one,
        verdict,
        key="spring",
        title="Governor spring sheet",
        to="spring maker",
        lines=(OrderLine(asked.springs, "governor spring", asked.wire.name, tuple(detail)),),
        asked=tuple(sizes),
        drawings=drawn,
        leave_alone=("The old spring: it goes with the order as a pattern and comes back.",),
        needs=tuple(needs),
        cautions=warned("governor work"),
        priced=SPRING_MADE,
    )


def _edges(one: GovernorSet, verdict: Verdict) -> OrderDraft | None:
    if not _bought(verdict, EDGES_MADE):
        return None
    item = one.only(d.DETENT)
    line = OrderLine(
        1,
        "detent blade and catch block as the old ones, edges sharp and square",
        "tool steel, hardened and drawn to straw",
        (
            ("edges", f"rounding {both(0.005 * d.INCH)} at most"),
            ("holes and bends", "as the old parts"),
        ),
    )
    return _draft(
        one,
        verdict,
        key="detent",
        title="Detent blade and catch block",
        to="toolmaker",
        lines=(line,),
        asked=(asked_size(d.EDGE, item, (0.0, 0.005 * d.INCH)),),
        leave_alone=("The old blade and block: patterns, they come back.",),
        cautions=warned("governor work"),
        priced=EDGES_MADE,
    )
