"""Orders for the flywheel and clutch: key, bushed hub, turned rim, relining, with their drawings."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Dimension, Drawing, Item, Line, Text, View
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.sketching import NEAR, largest_scale, middle, plain_bush_section
from gudgeon.engine.verdict import Verdict
from gudgeon.handbook.rules import rules
from gudgeon.systems.drafting import Limits, asked_for, asked_size, band, both, reading_need, readings_behind
from gudgeon.systems.flywheel import description as d
from gudgeon.systems.flywheel.ways import CLUTCHES, HUB_BUSHED, HUBS, KEY_MADE, NEW_HUB, RELINED, TRUE, TURNED
from gudgeon.systems.flywheel.wheel_set import WheelSet
from gudgeon.systems.measured import number
from gudgeon.systems.proposing import warned

KEY_TOLERANCE, TALL, LENGTH_TOLERANCE = 0.0005 * d.INCH, 0.005 * d.INCH, 0.010 * d.INCH
PRESS_PER_SIZE = (0.0005, 0.001)
"""Press of a hub bush for a size of one [1]: half of a forced fit, since the wall is thin; common practice."""


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none for another's, or where nothing is sent out."""
    wheels = WheelSet.of(bench)
    makers = {HUBS: (_hub, _key), TRUE: (_turn,), CLUTCHES: (_reline,)}.get(verdict.subject, ())
    drafts = (make(wheels, verdict) for make in makers)
    return tuple(draft for draft in drafts if draft is not None)


def _bought(verdict: Verdict, name: str) -> bool:
    return any(item.name == name for item in verdict.chosen.priced)


def _draft(wheels: WheelSet, verdict: Verdict, *, key: str, title: str, **more: object) -> OrderDraft:
    return OrderDraft(
        key=f"{d.KEY}/{key}",
        system=d.KEY,
        verdict=verdict.id,
        title=title,
        rests_on=readings_behind(wheels.bench, verdict.chosen.items, d.KINDS),
        **more,  # type: ignore[arg-type]
    )


def _sheet(
    wheels: WheelSet, item: str, *, letters: str, title: str, part: str, material: str, view: View, note: str
) -> Drawing:
    return Drawing(
        number=f"{letters}{number(item) if number(item).isdecimal() else 1}",
        title=title,
        part=part,
        item=item,
        material=material,
        finish="machined, fitting faces fine",
        views=(view,),
        notes=(note,),
        job=wheels.bench.snapshot.outline.name,
    )


def key_taper() -> float:
    """Taper of a key by the handbook: 1 in 96, an eighth of an inch to the foot."""
    return rules("key taper")[0].high or 1 / 96


def key_view(*, width: Limits, height: Limits, length: Limits, taper: float) -> View:
    """A taper key from the side, thick end to the right, and the width as an end view beside it."""
    wide, tall, long = (middle(size, what=what) for size, what in ((width, "width"), (height, "height"), (length, "length")))
    thin = tall - taper * long
    scale = largest_scale(width=long + 2.5 * wide, height=tall, into=(120, 50))
    points = ((0.0, 0.0), (long, 0.0), (long, tall), (0.0, thin))
    items: list[Item] = [Line(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True)]
    left = long + 26 / scale
    end = ((left, 0.0), (left + wide, 0.0), (left + wide, tall), (left, tall))
    items += [Line(a, b) for a, b in zip(end, (*end[1:], end[0]), strict=True)]
    items.append(Dimension("length", (0.0, 0.0), (long, 0.0), -(NEAR + 2), *length))
    items.append(Dimension("length", (long, 0.0), (long, tall), -NEAR, *height, "thick end"))
    items.append(Dimension("length", (left, 0.0), (left + wide, 0.0), -(NEAR + 2), *width))
    items.append(
        Text((long * 0.1, tall + 6 / scale), f"taper 1 in {1 / taper:.0f}", to=(long * 0.4, thin + taper * long * 0.4))
    )
    return View(title="Key", items=tuple(items), scale=scale)


def _key(wheels: WheelSet, verdict: Verdict) -> OrderDraft | None:
    if not _bought(verdict, KEY_MADE):
        return None
    sizes, lines, asked, drawn, needs = asked_for(verdict, "key"), [], list[AskedSize](), list[Drawing](), []
    for item in verdict.chosen.items:
        height, length = wheels.reader.size(d.KEY_HEIGHT, item), wheels.reader.size(d.KEY_LENGTH, item)
        old = wheels.reader.largest(d.KEY_WIDTH, item)
        size = sizes.get(item, old.value if old is not None else None)
        finished = [
            spot.value
            for feature in (d.SHAFT_WAY, d.HUB_WAY)
            for stage in ("fitted", "returned")
            for spot in wheels.reader.spots(feature, item, stage=stage)
        ]
        size = min(finished) if finished else size
        needs += [
            reading_need(wheels.reader, feature, item, why="the key is made from its drawing")
            for feature in (d.KEY_HEIGHT, d.KEY_LENGTH)
        ]
        if size is None:
            continue
        width = size, size + KEY_TOLERANCE
        made_to = "the finished keyways" if finished else "the width chosen; read the finished keyways first"
        detail = (
            ("width", f"{band(width)}, to {made_to}"),
            ("height at the thick end", both(height.value + TALL) + ", left tall for fitting" if height else "not read yet"),
            ("length", both(length.value) if length else "not read yet"),
            ("taper", f"1 in {1 / key_taper():.0f} on the top"),
            ("head", wheels.reader.words(d.KEY_KIND, item)[0] or "as the old key"),
        )
        lines.append(OrderLine(1, f"taper key for {item}", "key steel, .4 % carbon, not hardened", detail))
        asked.append(asked_size(d.KEY_WIDTH, item, width))
        if height is not None and length is not None:
            view = key_view(
                width=width, height=(height.value + TALL, height.value + 2 * TALL),
                length=(length.value, length.value + 2 * LENGTH_TOLERANCE), taper=key_taper(),
            )  # fmt: skip
            note = "Left tall and long: it is fitted by blue on the engine. Gib head, if any, as the old key."
            drawn.append(
                _sheet(
                    wheels,
                    item,
                    letters="K",
                    title=f"Taper key, {item}",
                    part="key",
                    material="key steel",
                    view=view,
                    note=note,
                )
            )
    return _draft(
        wheels,
        verdict,
        key="key",
        title="Flywheel key",
        to="turner",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=("The old key: it goes with the order as a pattern and comes back.",),
        needs=tuple(needs),
        cautions=warned("flywheel work"),
        priced=KEY_MADE,
    )


def _hub(wheels: WheelSet, verdict: Verdict) -> OrderDraft | None:
    outsides, bores = asked_for(verdict, "bush outside"), asked_for(verdict, "bush bore")
    if not _bought(verdict, HUB_BUSHED) or not outsides:
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), []
    for item, outside in outsides.items():
        bore = bores[item] + NEW_HUB[0], bores[item] + NEW_HUB[1]
        press = outside * (1 + PRESS_PER_SIZE[0]), outside * (1 + PRESS_PER_SIZE[1])
        length = wheels.reader.size(d.HUB_LENGTH, item)
        needs += [
            reading_need(wheels.reader, feature, item, why="the hub must have the metal, and the bush its length")
            for feature in (d.HUB_OUTSIDE, d.HUB_LENGTH)
        ]
        detail = (
            ("set up by", "the outside of the rim and its machined side, within .003 in"),
            ("bore the hub to", both(outside)),
            ("bush", f"steel, outside {band(press)}"),
            ("bore of the bush, pressed in", f"{band(bore)}, to the shaft"),
            ("keyway", "cut through bush and hub in the old place, corners round"),
        )
        lines.append(OrderLine(1, f"bore and bush the hub of {item}", "the old wheel", detail))
        asked.append(asked_size(d.HUB, item, bore, note="pressed in and bored"))
        if length is not None:
            view = plain_bush_section(
                outside=press, inside=(bore[0] - TALL * 4, bore[0] - TALL * 2), length=(length.value, length.value)
            )
            note = "Pressed in, then bored to the shaft true to the rim. Keyway cut after."
            drawn.append(
                _sheet(
                    wheels,
                    item,
                    letters="FB",
                    title=f"Hub bush, {item}",
                    part="hub bush",
                    material="mild steel",
                    view=view,
                    note=note,
                )
            )
    return _draft(
        wheels,
        verdict,
        key="hub",
        title="Flywheel hub bored and bushed",
        to="engine shop",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=(
            "Timing marks on the rim.",
            "The rim: no metal off, no hole, no weight on.",
            "Any crack found: stop and say so.",
        ),
        needs=tuple(needs),
        cautions=warned("flywheel work", "lifting", "pressing"),
        priced=HUB_BUSHED,
    )


def _turn(wheels: WheelSet, verdict: Verdict) -> OrderDraft | None:
    if not _bought(verdict, TURNED):
        return None
    items = tuple(asked_for(verdict, "turned"))
    detail = (
        ("set up by", "its own bore, on an arbor"),
        ("take", "as little as cleans it, the same all round; say before more than .060 in comes off"),
        ("balance", "on knife edges, by drilling the inside of the rim on the heavy side, no weight added"),
        ("timing marks", "carried over to the new surface"),
    )
    asked = [asked_size(d.FACE_RUNOUT, item, (0.0, 0.004 * d.INCH), note="on its own bore") for item in items]
    asked += [asked_size(d.RIM_RUNOUT, item, (0.0, 0.004 * d.INCH), note="on its own bore") for item in items]
    return _draft(
        wheels,
        verdict,
        key="turn",
        title="Flywheel turned true",
        to="engine shop",
        lines=tuple(OrderLine(1, f"turn {item} true, side and face", "the old wheel", detail) for item in items),
        asked=tuple(asked),
        leave_alone=("Hub bore and keyway.", "Spokes. Any crack found: stop and say so."),
        needs=tuple(
            reading_need(wheels.reader, d.SOUND, item, why="a cracked wheel is not put on a machine") for item in items
        ),
        cautions=warned("flywheel work", "lifting"),
        priced=TURNED,
    )


def _reline(wheels: WheelSet, verdict: Verdict) -> OrderDraft | None:
    if not _bought(verdict, RELINED):
        return None
    lines, needs = [], []
    for item in verdict.chosen.items:
        sizes = [wheels.reader.size(feature, item) for feature in (d.LINED_OUTSIDE, d.LINED_INSIDE, d.THICKNESS)]
        named = ("outside", "inside", "old lining at its thinnest")
        detail = [(name, both(read.value) if read else "not read yet") for name, read in zip(named, sizes, strict=True)]
        detail.append(("lining", "free of asbestos, riveted with brass, heads well under the face"))
        detail.append(("old lining", "taken off by you, wet, as asbestos waste; it has not been tested"))
        lines.append(OrderLine(1, f"reline {item}", "the old plate or cone", tuple(detail)))
        needs += [
            reading_need(wheels.reader, feature, item, why="lining is cut to it")
            for feature in (d.LINED_OUTSIDE, d.LINED_INSIDE)
        ]
    asked = [asked_size(d.OVER_RIVETS, item, (0.04 * d.INCH, 0.15 * d.INCH), note="all over") for item in verdict.chosen.items]
    return _draft(
        wheels,
        verdict,
        key="reline",
        title="Clutch relined",
        to="brake and clutch shop",
        lines=tuple(lines),
        asked=tuple(asked),
        leave_alone=("Springs and levers.",),
        needs=tuple(needs),
        cautions=warned("clutch work"),
        priced=RELINED,
    )
