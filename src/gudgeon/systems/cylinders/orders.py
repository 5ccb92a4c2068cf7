"""The orders that a verdict on the bores leads to: castings to the shop, then pistons, then rings, each held until its time."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.remedy import Need
from gudgeon.engine.sketching import Joint
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.cylinders import drawings
from gudgeon.systems.cylinders.block import Block
from gudgeon.systems.cylinders.clearances import material_of
from gudgeon.systems.cylinders.description import BORE, INCH, KEY, RING_PLACES
from gudgeon.systems.cylinders.outcomes import BORING_TOLERANCE
from gudgeon.systems.cylinders.plan import BORE as BORE_ITEM
from gudgeon.systems.cylinders.plan import HONE, PISTON, RING, SLEEVE, warned
from gudgeon.systems.cylinders.remedies import SUBJECT, casting_needs, groove_need
from gudgeon.systems.cylinders.spots import rings_of, size_of
from gudgeon.systems.cylinders.wear import words_read
from gudgeon.systems.judging import known_rules

Limits = tuple[float, float]

LEAVE_ALONE = (
    "Casting numbers, stamps and match marks.",
    "The outside, its paint and the joint faces.",
    "The centre of the bore: do not set the bar to the worn hole.",
    "Bearings and crankcase faces.",
)

HONE_MOST = 0.0015 * INCH
RADIAL_TOLERANCE = 0.005 * INCH
SKIRT_TOLERANCE = 0.001 * INCH
WIDTH_TOLERANCE = 0.0005 * INCH


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict on the bores; none for another subject, or where the engine is run on."""
    if verdict.subject != SUBJECT:
        return ()
    block = Block.of(bench)
    drafts = [_bore(block, verdict), _sleeve(block, verdict), _hone(block, verdict), _pistons(block, verdict)]
    return tuple(draft for draft in (*drafts, _rings(block, verdict)) if draft is not None)


def _asked(verdict: Verdict, word: str) -> dict[str, float]:
    """Per cylinder the parameter that ends in a word."""
    found = verdict.chosen.parameters
    return {item: found[f"{item} {word}"] for item in verdict.chosen.items if f"{item} {word}" in found}


def _both(value: float) -> str:
    amount = Amount(value, "length", fine=value > INCH / 16)
    return f"{show(amount, 'inch')} ({show(amount, 'millimetre')})"


def _band(low: float, high: float) -> str:
    return f"{_both(low)} to {_both(high)}"


def _bore(block: Block, verdict: Verdict) -> OrderDraft | None:
    sleeved = _asked(verdict, "sleeve hole")
    sizes = {item: size for item, size in _asked(verdict, "bore").items() if item not in sleeved}
    if not sizes:
        return None
    lines = tuple(
        OrderLine(1, f"bore and hone {item} to {_band(size, size + BORING_TOLERANCE)}", "grey cast iron", _how_to_bore())
        for item, size in sizes.items()
    )
    return _castings(block, verdict, "bore", "Bore the cylinders", sizes, lines, priced=BORE_ITEM, works=("boring", "honing"))


def _how_to_bore() -> tuple[tuple[str, str], ...]:
    hone = known_rules("hone allowance")[0]
    return (
        ("centre", "the original one: set from the unworn belt at the crank end, square to the crank's axis"),
        ("leave for honing", f"{hone.typed} on the diameter"),
        ("round and straight", f"within {_both(0.0005 * INCH)} over the whole length"),
    )


def _sleeve(block: Block, verdict: Verdict) -> OrderDraft | None:
    holes = _asked(verdict, "sleeve hole")
    if not holes:
        return None
    sizes = {item: size for item, size in _asked(verdict, "bore").items() if item in holes}
    low, high = _asked(verdict, "press low"), _asked(verdict, "press high")
    lines = tuple(
        OrderLine(
            1,
            f"sleeve {item}, finished bore {_band(size, size + BORING_TOLERANCE)}",
            "close-grained grey cast iron sleeve",
            (
                (
                    "hole in the casting",
                    f"about {_both(holes[item])}, to suit the sleeve in hand; leave a step at the bottom as a stop",
                ),
                ("press on the diameter", _band(low[item], high[item])),
                ("sleeve length", "over the whole ring travel; see the drawing"),
                *_how_to_bore(),
            ),
        )
        for item, size in sizes.items()
    )
    in_hand = Need(
        kind="order",
        what="sleeves in hand, or their outside, inside and length confirmed",
        met=_sleeves_known(block),
        why="the hole is bored to the sleeve, not the sleeve found for the hole",
    )
    return _castings(
        block,
        verdict,
        "sleeve",
        "Sleeve the cylinders",
        sizes,
        lines,
        priced=SLEEVE,
        works=("sleeve fitting",),
        more=(in_hand,),
    )


def _sleeves_known(block: Block) -> bool:
    """Was a sleeve noted as a part of the job, or read?"""
    return bool(block.bench.items("sleeve"))


def _hone(block: Block, verdict: Verdict) -> OrderDraft | None:
    honed = tuple(_asked(verdict, "honed"))
    if not honed:
        return None
    most = f"take no more than {_both(HONE_MOST)} off the diameter"
    lines = tuple(
        OrderLine(
            1, f"break the glaze of {item}", "grey cast iron", (("metal", most), ("do not", "chase the taper or the oval"))
        )
        for item in honed
    )
    asked = []
    for bore in block.bores:
        values = [spot.estimate.value for spot in bore.spots if spot.in_travel]
        if bore.item in honed and values:
            asked.append(
                AskedSize(
                    part="cylinder",
                    item=bore.item,
                    feature=BORE.name,
                    dimension="length",
                    lower=min(values),
                    upper=max(values) + HONE_MOST,
                    note="anywhere in the ring travel",
                )
            )
    return OrderDraft(
        key=f"{KEY}/hone",
        system=KEY,
        verdict=verdict.id,
        title="Hone the cylinders",
        to="cylinder shop",
        lines=lines,
        asked=tuple(asked),
        leave_alone=LEAVE_ALONE,
        needs=casting_needs(block, honed, cut=False),
        rests_on=_rests_on(block, honed),
        cautions=warned("honing"),
        priced=HONE,
    )


def _castings(
    block: Block,
    verdict: Verdict,
    name: str,
    title: str,
    sizes: Mapping[str, float],
    lines: tuple[OrderLine, ...],
    *,
    priced: str,
    works: tuple[str, ...],
    more: tuple[Need, ...] = (),
) -> OrderDraft:
    asked = tuple(
        AskedSize(
            part="cylinder",
            item=item,
            feature=BORE.name,
            dimension="length",
            lower=size,
            upper=size + BORING_TOLERANCE,
            note="at every level and in every direction",
        )
        for item, size in sizes.items()
    )
    drawn = [
        drawings.bored_cylinder(block, item, bore=(size, size + BORING_TOLERANCE), sleeved=name == "sleeve")
        for item, size in sizes.items()
    ]
    if name == "sleeve":
        found = verdict.chosen.parameters
        drawn += [
            drawings.sleeve(
                block,
                item,
                size=size,
                hole=found[f"{item} sleeve hole"],
                press=(found[f"{item} press low"], found[f"{item} press high"]),
            )
            for item, size in sizes.items()
        ]
    return OrderDraft(
        key=f"{KEY}/{name}",
        system=KEY,
        verdict=verdict.id,
        title=title,
        to="cylinder shop",
        lines=lines,
        asked=asked,
        drawings=tuple(drawing for drawing in drawn if drawing is not None),
        leave_alone=LEAVE_ALONE,
        needs=(*casting_needs(block, tuple(sizes), cut=True), *more),
        rests_on=_rests_on(block, tuple(sizes)),
        cautions=warned(*works),
        priced=priced,
    )


def _rests_on(block: Block, items: tuple[str, ...]) -> tuple[str, ...]:
    """Identities of the readings that sizes rest on: the bores and the walls."""
    found = [identity for bore in block.bores if bore.item in items for identity in bore.inputs]
    found += [identity for item in items if (wall := block.walls.get(item)) is not None for identity in wall.inputs]
    return tuple(dict.fromkeys(found))


def finished(block: Block, item: str) -> float | None:
    """The finished bore of a cylinder as read on its return, at its smallest spot [m]; None while it was not read."""
    for stage in (block.bench.returned, block.bench.fitted):
        if spots := stage.get(FeatureKey("cylinder", item, BORE.name)):
            return min(spot.value for spot in spots)
    return None


def _finished_needs(block: Block, items: tuple[str, ...]) -> tuple[Need, ...]:
    return tuple(
        Need(
            kind="reading",
            what=f"finished bore of {item}, read when the block is inspected in",
            met=finished(block, item) is not None,
            why="pistons and rings are made to the hole, not the hole to them",
            part="cylinder",
            item=item,
            feature=BORE.name,
        )
        for item in items
    )


def _pistons(block: Block, verdict: Verdict) -> OrderDraft | None:
    kept = _asked(verdict, "old piston")
    sizes = {item: size for item, size in _asked(verdict, "bore").items() if item not in kept}
    if not sizes:
        return None
    low, high = _asked(verdict, "clearance low"), _asked(verdict, "clearance high")
    skirts = {item: _skirt(block, item, size, (low[item], high[item])) for item, size in sizes.items()}
    lines = tuple(_piston_line(block, item, skirts[item], (low[item], high[item])) for item in sizes)
    asked = tuple(
        AskedSize(
            part="piston",
            item=block.piston(item),
            feature="skirt diameter",
            dimension="length",
            lower=skirt[0],
            upper=skirt[1],
            note="across the pin, at the bottom of the skirt",
        )
        for item, skirt in skirts.items()
    )
    drawn = [
        drawings.turned_piston(block, item, skirt=skirt, material=material_of(block.bench, item)[0])
        for item, skirt in skirts.items()
    ]
    return OrderDraft(
        key=f"{KEY}/pistons",
        system=KEY,
        verdict=verdict.id,
        title="Pistons turned to the holes",
        to="piston maker",
        lines=lines,
        asked=asked,
        drawings=tuple(drawing for drawing in drawn if drawing is not None),
        leave_alone=("The old pistons: they go with the order as patterns and come back.",),
        needs=_finished_needs(block, tuple(sizes)),
        rests_on=_rests_on(block, tuple(sizes)),
        priced=PISTON,
    )


def _skirt(block: Block, item: str, size: float, clearance: Limits) -> Limits:
    """Limits of size of a skirt: the finished bore where it was read, else the size asked of it, less the mean clearance."""
    middle = (finished(block, item) or size) - sum(clearance) / 2
    return middle - SKIRT_TOLERANCE / 2, middle + SKIRT_TOLERANCE / 2


def _piston_line(block: Block, item: str, skirt: Limits, clearance: Limits) -> OrderLine:
    material, noted = material_of(block.bench, item)
    hole = finished(block, item)
    target = block.clearance_target(item)
    return OrderLine(
        1,
        f"{block.piston(item)}, skirt {_band(*skirt)}",
        material if noted else f"{material}, as the period's; the old one was not tried with a magnet",
        (
            (
                "hole",
                _both(hole) if hole is not None else "not finished yet; the skirt is worked out from the size asked of it",
            ),
            ("clearance at the skirt", f"the middle of {_band(*clearance)}, {target.origin}"),
            ("lands, grooves, pin hole, compression height", "as the old piston, which goes with the order"),
            ("weight", "all of one set alike; say what each weighs"),
        ),
    )


def _rings(block: Block, verdict: Verdict) -> OrderDraft | None:
    low, high = _asked(verdict, "gap low"), _asked(verdict, "gap high")
    if not low:
        return None
    each = int(verdict.chosen.parameters.get("rings each", block.rings_each))
    sizes = _asked(verdict, "bore")
    lines, asked, drawn = [], list[AskedSize](), list[Drawing]()
    for item in low:
        sheet = RingSheet(block, item, asked_bore=sizes.get(item), gap=(low[item], high[item]))
        lines.append(sheet.line(each))
        asked += sheet.asked(each)
        if sheet.bore is not None:
            drawn.append(sheet.drawing(sheet.bore))
    return OrderDraft(
        key=f"{KEY}/rings",
        system=KEY,
        verdict=verdict.id,
        title="Ring order sheet",
        to="ring maker",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        needs=(*_finished_needs(block, tuple(low)), groove_need(block)),
        rests_on=_rests_on(block, tuple(low)),
        cautions=warned("ring fitting"),
        priced=RING,
    )


class RingSheet:
    """What is asked of the rings of one cylinder."""

    def __init__(self, block: Block, item: str, *, asked_bore: float | None, gap: Limits) -> None:
        self.block, self.item, self.gap = block, item, gap
        self.finished = finished(block, item)
        self.bore = self.finished or asked_bore or _present_bore(block, item)

    @property
    def side(self) -> Limits:
        """Side clearance to leave [m]: the period's figure at the tight end, the ring trade's at the loose."""
        rows = [row for row in known_rules("ring side clearance") if row.purpose == "target" and not row.from_memory]
        lows = sorted(row.low for row in rows if row.low is not None)
        return lows[0] if lows[0] >= 0.001 * INCH else 0.001 * INCH, 0.0015 * INCH

    @property
    def groove(self) -> tuple[float | None, bool]:
        """Width of the top groove [m], and whether it was read after truing."""
        key = FeatureKey("piston", self.block.piston(self.item), "ring groove width")
        for stage in (self.block.bench.returned, self.block.bench.fitted):
            if spots := stage.get(key):
                return min(spot.value for spot in spots), True
        read = size_of(self.block.bench, "piston", key.item, "ring groove width", aliases=("groove width", "groove"))
        return (max(spot.value for spot in read.estimates) if read else None), False

    @property
    def width(self) -> Limits | None:
        """Limits of the ring's width [m]: groove less side clearance."""
        groove, _ = self.groove
        if groove is None:
            return None
        upper = groove - self.side[0]
        return upper - WIDTH_TOLERANCE, upper

    @property
    def wall(self) -> tuple[Limits | None, str]:
        """Limits of the radial wall [m], and where they come from."""
        for name in rings_of(self.block.bench, self.item):
            read = size_of(self.block.bench, "ring", name, "radial wall", aliases=("radial thickness", "ring thickness"))
            if read is not None:
                return (read.value - RADIAL_TOLERANCE, read.value), f"the old {name}"
        if self.bore is None:
            return None, ""
        rule = known_rules("ring radial thickness")[0]
        low, high = rule.at(self.bore)
        middle = ((low or 0.0) + (high or 0.0)) / 2
        return (middle - RADIAL_TOLERANCE / 2, middle + RADIAL_TOLERANCE / 2), f"between D/30 and D/25, {rule.source}"

    @property
    def joint(self) -> tuple[Joint, str]:
        """The joint to ask for, and why: as the old rings, else the step, which the books of the time approve."""
        for name in rings_of(self.block.bench, self.item):
            noted = words_read(self.block.bench, name, "joint", part="ring")[0].lower()
            for joint, words in _JOINTS.items():
                if any(word in noted for word in words):
                    return joint, f"as the old {name}"
        return "step", "lap or step is the approved joint: Pagé, Aviation Engines (1917), ch. IX"

    def line(self, count: int) -> OrderLine:
        """The line of the order."""
        joint, why = self.joint
        wall, source = self.wall
        groove, trued = self.groove
        state = (
            "read after truing" if trued else "as found, not trued yet: do not make to it" if groove is not None else "not read"
        )
        detail = [
            ("bore", (_both(self.bore) if self.bore else "not known yet") + ("" if self.finished else " (not finished yet)")),
            ("width", _band(*self.width) if self.width else "not known yet"),
            ("groove", f"{_both(groove)}, {state}" if groove is not None else state),
            ("side clearance", _band(*self.side)),
            ("radial wall", f"{_band(*wall)}, {source}" if wall else "not known yet"),
            ("joint", f"{joint}, {why}"),
            ("end gap, closed in that bore", f"{_band(*self.gap)}, {self.block.gap_target(self.item).origin}"),
        ]
        return OrderLine(count, f"piston rings for {self.item}", "close-grained grey cast iron", tuple(detail))

    def asked(self, count: int) -> list[AskedSize]:
        """Sizes to inspect in, ring by ring."""
        found = []
        for place in RING_PLACES[:count]:
            name = f"{self.item} {place} ring"
            sizes = (("width", self.width), ("radial wall", self.wall[0]), ("end gap in unworn belt", self.gap))
            found += [
                AskedSize(
                    part="ring",
                    item=name,
                    feature=feature,
                    dimension="length",
                    lower=limits[0],
                    upper=limits[1],
                    note="closed in the finished bore" if feature.startswith("end gap") else "",
                )
                for feature, limits in sizes
                if limits is not None
            ]
        return found

    def drawing(self, bore: float) -> Drawing:
        """The drawing of the rings of this cylinder; sizes not known yet are taken as the period's, and the order is held."""
        rule = known_rules("ring width")[0]
        width = self.width or ((rule.low or 0.1875 * INCH) - WIDTH_TOLERANCE, rule.low or 0.1875 * INCH)
        wall = self.wall[0] or (bore / 30.0, bore / 25.0)
        return drawings.ring(
            self.block, self.item, bore=(bore, bore), width=width, wall=wall, gap=self.gap, joint=self.joint[0]
        )


_JOINTS: dict[Joint, tuple[str, ...]] = {
    "step": ("step", "lap"),
    "mitre": ("mitre", "miter", "angle", "diagonal"),
    "butt": ("butt", "straight", "square"),
}


def _present_bore(block: Block, item: str) -> float | None:
    """The bore of a cylinder that is not cut, where it is least worn [m]."""
    bore = next(each for each in block.bores if each.item == item)
    if bore.original is not None:
        return float(np.median(bore.original))
    return min((spot.estimate.value for spot in bore.spots), default=None)
