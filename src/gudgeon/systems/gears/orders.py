"""The cutting sheet: every size that whoever cuts the gears needs, held until nothing is left to guess."""

from __future__ import annotations

import math

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.verdict import Verdict
from gudgeon.systems.drafting import Limits, asked_size, band, both, readings_behind
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.cutting import BORE_TOLERANCE, NewTeeth, centres_used, from_parameters
from gudgeon.systems.gears.drawings import gear_drawing
from gudgeon.systems.gears.load import material_words
from gudgeon.systems.gears.train import GearTrain, RunningSet
from gudgeon.systems.gears.ways import GEAR_CUT, order_needs, short, subject_of
from gudgeon.systems.judging import known_rules
from gudgeon.systems.proposing import listed, warned

LEAVE_ALONE = ("The old gears: they go with the order as patterns, marks untouched, and come back.",)
RUN_OUT = 0.002 * d.INCH
_STOCK = {
    "cast iron": ("close-grained grey cast iron", "none; stress relieved if the blank was welded or chilled"),
    "steel": ("medium carbon steel, .40 carbon", "normalised before cutting; not hardened against an iron mate"),
    "bronze": ("phosphor bronze", "none"),
    "fibre": ("fabric-reinforced phenolic on a steel hub", "none; keep it dry of fuel"),
    "fiber": ("fabric-reinforced phenolic on a steel hub", "none; keep it dry of fuel"),
}


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The cutting sheet of a verdict on a set of gears; none where no gear is cut."""
    one = next((each for each in GearTrain.of(bench).sets if subject_of(each) == verdict.subject), None)
    if one is None:
        return ()
    teeth = [from_parameters(item, verdict.chosen.parameters) for item in one.items]
    wanted = [each for each in teeth if each is not None]
    return (_sheet(one, verdict, wanted),) if wanted else ()


def _sheet(one: RunningSet, verdict: Verdict, wanted: list[NewTeeth]) -> OrderDraft:
    items = tuple(each.item for each in wanted)
    asked: list[AskedSize] = []
    drawn: list[Drawing] = []
    for each in wanted:
        bore = bore_limits(one, each.item)
        asked += _asked(each, bore)
        drawing = gear_drawing(one, each, bore=bore, material=stock(one, each.item)[0], treatment=stock(one, each.item)[1])
        if drawing is not None:
            drawn.append(drawing)
    return OrderDraft(
        key=f"{d.KEY}/{short(one)}-cut",
        system=d.KEY,
        verdict=verdict.id,
        title=f"Cutting sheet: {listed(items)}",
        to="gear cutter",
        lines=tuple(_line(one, each, verdict.chosen.parameters.get("target backlash", 0.0)) for each in wanted),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=LEAVE_ALONE,
        needs=order_needs(one, items),
        rests_on=readings_behind(one.bench, (*one.items, one.pair_item), (d.GEAR,)),
        cautions=warned("pressing"),
        priced=GEAR_CUT,
    )


def stock(one: RunningSet, item: str) -> tuple[str, str]:
    """Material and heat treatment of a new gear: as the old one, with a smaller steel gear on an iron mate unhardened."""
    return _STOCK[material_words(one, item)[0]]


def bore_limits(one: RunningSet, item: str) -> Limits | None:
    """Limits of the new bore [m]: the drawing's size where it can be told, else the old bore where least worn."""
    size = one.reader.nominal(d.BORE, item)
    read = one.reader.smallest(d.BORE, item)
    if size is None and read is not None:
        size = read.value
    return None if size is None else (size, size + BORE_TOLERANCE)


def _asked(each: NewTeeth, bore: Limits | None) -> list[AskedSize]:
    found = [
        asked_size(d.OUTSIDE, each.item, each.outside),
        asked_size(d.SPAN, each.item, each.span, name=f"span over {each.spanned} teeth", note="at three places round"),
        asked_size(d.RUNOUT, each.item, (0.0, RUN_OUT), note="on a mandrel, over a pin in the spaces"),
    ]
    if bore is not None:
        found.append(asked_size(d.BORE, each.item, bore))
    return found


def _line(one: RunningSet, each: NewTeeth, backlash: float) -> OrderLine:
    material, treatment = stock(one, each.item)
    mate = next((gear for gear in one.gears if gear.item != each.item), None)
    detail = [
        ("teeth", f"{each.teeth}, spur"),
        ("pitch and form", one.likeliest.written),
        ("pressure angle", f"{each.angle:g}°"),
        ("cutter", each.cutter),
        ("blank", band(each.outside)),
        ("whole depth", both(each.whole_depth)),
        ("thickness at the pitch line", f"{band(each.thickness)} along the arc"),
        ("with the gear-tooth calliper", f"{band(each.chord)} across, set {both(each.chordal_addendum)} deep"),
        (f"span over {each.spanned} teeth", band(each.span)),
        ("bore", _bore_words(one, each.item)),
        ("keyway", _keyway_words(one, each.item)),
        ("face", _size_words(one, each.item)),
        ("material", material),
        ("heat treatment", treatment),
        ("timing marks", _mark_words(one, each.item)),
    ]
    if mate is not None:
        run = f"{mate.item}, {mate.count} teeth, at centres of {both(centres_used(one))}, backlash {both(backlash)}"
        detail.insert(10, ("runs with", run))
    return OrderLine(1, f"{each.item}, {each.teeth} teeth", material, tuple(detail))


def _bore_words(one: RunningSet, item: str) -> str:
    bore = bore_limits(one, item)
    return f"{band(bore)}, tried on its own shaft" if bore is not None else "not read yet"


def _keyway_words(one: RunningSet, item: str) -> str:
    width, depth = (one.reader.size(feature, item) for feature in (d.KEYWAY, d.KEYWAY_DEPTH))
    if width is None:
        bore = bore_limits(one, item)
        rule = known_rules("key width")[0].at(bore[0])[0] if bore is not None else None
        by_rule = f"; by the old rule a shaft of that size has {both(rule)}" if rule is not None else ""
        return f"not read yet{by_rule}"
    deep = f", {both(depth.value)} deep at its side" if depth is not None else ", depth as the old one"
    return f"{both(width.value)} wide{deep}, a key fitted to it and not filed loose"


def _size_words(one: RunningSet, item: str) -> str:
    face, through, hub = (one.reader.size(feature, item) for feature in (d.FACE, d.THROUGH, d.HUB))
    pieces = [f"{both(face.value)} wide" if face is not None else "width not read yet"]
    if through is not None:
        pieces.append(f"{both(through.value)} through the bore")
    if hub is not None:
        pieces.append(f"hub {both(hub.value)}")
    return ", ".join(pieces)


def _mark_words(one: RunningSet, item: str) -> str:
    words, _ = one.reader.words(d.MARKS, item)
    if not words:
        return "not noted yet: they are copied from the old gear, tooth for keyway"
    place = math.degrees(2 * math.pi / next(gear.count for gear in one.gears if gear.item == item))
    return (
        f"stamped as on the old gear ({words}); one tooth is {place:.2f}° from the next, so the keyway must sit as the old one"
    )
