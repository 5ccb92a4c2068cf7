"""What could be done about stems and guides: run on, new valves, oversize stems in reamed guides, bushed guides."""

from __future__ import annotations

import math

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Target
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, hours, listed, worn
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.stems import MIDDLE, TOP, clearance, stem_wear
from gudgeon.systems.valves.steps import BUSH_MADE, STEMS, VALVE_MADE, step
from gudgeon.systems.valves.valve_set import ValveSet, kind_of

SIXTY_FOURTH = d.INCH / 64
REAM_STEP = 0.005 * d.INCH
"""Oversize steps of stems: a reamer of the size in hand decides; common practice."""
CLEAN = 0.001 * d.INCH
"""What a reamer must take beyond the largest worn place to cut all round [m]; common practice."""
STEM_TOLERANCE = 0.0005 * d.INCH


def stem_matter(valves: ValveSet) -> Matter:
    """Stems and guides of all valves together."""
    now: dict[str, dict[str, Draws]] = {TOP: {}, MIDDLE: {}}
    inputs: list[str] = []
    for item in valves.items:
        for quantity in (TOP, MIDDLE):
            read = clearance(item, quantity, valves)
            if read is not None:
                now[quantity][item] = read.draws
                inputs += read.inputs
    practices = {item: valves.rules("stem clearance", item=item) for item in valves.items}
    return Matter(
        system=d.KEY,
        subject=STEMS,
        bench=valves.bench,
        items=valves.items,
        quantities=tuple(Quantity(name=name, part=d.VALVE, dimension="length", practices=practices) for name in (TOP, MIDDLE)),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def stem_ways(valves: ValveSet, matter: Matter) -> tuple[Way, ...]:
    """Every way, for the valves that are past a limit, or for all where none is."""
    items = worn(matter, TOP, MIDDLE) or matter.items
    return (
        _run_on(matter),
        _new_valves(valves, items),
        _oversize(valves, items),
        _bush(valves, items, new_valves=False),
        _bush(valves, items, new_valves=True),
    )


def target_clearance(item: str, valves: ValveSet) -> Target:
    """The clearance to make [m].

    The loosest target for its kind among those that are no tight end of fast engines: drip-oiled guides in old iron want room;
    common practice.
    """
    known = [t for t in valves.rules("stem clearance", item=item).targets if t.high is not None and t.low is not None]
    wanted = [target for target in known if kind_of(item) in target.origin.page and "tight end" not in target.origin.page]
    return max(wanted or known, key=lambda target: (target.high or 0.0, target.low or 0.0))


def new_clearance(item: str, valves: ValveSet) -> Draws:
    """Clearance of a new stem in a new hole [m]."""
    target = target_clearance(item, valves)
    return valves.reader.even(f"stem clearance made in {item}", target.low or 0.0, target.high or 0.0)


def new_stem(item: str, valves: ValveSet) -> float:
    """The stem to make for a guide of its old size [m]: the old nominal, else the unworn end to the next half thou."""
    nominal = valves.reader.nominal(d.STEM, item)
    if nominal is not None:
        return nominal
    read = valves.reader.level(d.STEM, item, "keeper end") or valves.reader.largest(d.STEM, item)
    return valves.stem_size(item) if read is None else round(read.value / (d.INCH * 5e-4)) * d.INCH * 5e-4


def reamed_size(item: str, valves: ValveSet) -> float | None:
    """The hole that cleans the worn guide up [m]: the next step of five thou above the old stem that does; None if unread."""
    worst = valves.reader.largest(d.GUIDE, item)
    if worst is None:
        return None
    stem = new_stem(item, valves)
    need = float(np.quantile(worst.draws, 0.95)) + CLEAN
    return stem + max(math.ceil((need - stem) / REAM_STEP - 1e-9), 1) * REAM_STEP


def bush_outside(item: str, valves: ValveSet) -> float:
    """Outside of a bush for a guide [m]: old stem and an eighth of an inch of wall all told, to the next 1/64; from memory."""
    return math.ceil((new_stem(item, valves) + 0.125 * d.INCH) / SIXTY_FOURTH) * SIXTY_FOURTH


def _run_on(matter: Matter) -> Way:
    past = worn(matter, TOP, MIDDLE)
    against = (
        [Said(f"{listed(past)} stay past a limit: a slack guide lets a valve seat askew, and oil and air through.")]
        if past
        else []
    )
    return Way(
        name="stems-run-on",
        title=Said("Run the stems and guides on"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                "stems-clean",
                "Clean stems and guides of carbon, look for bends and cracks",
                hours=hours(0.2, 0.3, 0.5, len(matter.items)),
                works=("valve work",),
            ),
        ),
        works=("valve work",),
        for_it=(Said("Nothing is cut and nothing sent out."),),
        against_it=tuple(against),
    )


def _new_valves(valves: ValveSet, items: tuple[str, ...]) -> Way:
    after: dict[str, dict[str, Draws]] = {TOP: {}, MIDDLE: {}}
    parameters: dict[str, float] = {}
    for item in items:
        stem = new_stem(item, valves)
        parameters[f"{item} stem"] = stem
        for quantity, level in ((TOP, "top"), (MIDDLE, "middle")):
            guide = valves.reader.level(d.GUIDE, item, level)
            if guide is not None:
                after[quantity][item] = guide.draws - valves.reader.even(f"new stem of {item}", stem - STEM_TOLERANCE, stem)
    return Way(
        name="new-valves",
        title=Said(f"New valves in the old guides: {listed(items)}"),
        action="remake",
        intervention="removable",
        original="The old valves go on the shelf; the guides stay.",
        items=items,
        after=after,
        parameters=parameters,
        priced=(PricedItem(VALVE_MADE, len(items)),),
        steps=(
            step("new-valves", "Valves made", shop=VALVE_MADE),
            _inspect(items, after=("new-valves",)),
        ),
        needs=_valve_needs(items, valves),
        for_it=(Said("The old metal of the block is not touched."),),
        against_it=(Said("Wear of the guides stays; a new stem in a belled guide soon wears to it."),),
    )


def _oversize(valves: ValveSet, items: tuple[str, ...]) -> Way:
    parameters: dict[str, float] = {}
    for item in items:
        hole = reamed_size(item, valves)
        if hole is not None:
            target = target_clearance(item, valves)
            parameters |= {f"{item} guide": hole, f"{item} stem": hole - (target.high or 0.0)}
            parameters[f"{item} clearance low"], parameters[f"{item} clearance high"] = target.low or 0.0, target.high or 0.0
    biggest = max((value for name, value in parameters.items() if name.endswith(" guide")), default=0.0)
    title = Said(f"Ream the guides of {listed(items)} and fit valves with larger stems")
    if biggest:
        title = Said(f"{title.text}, up to {{0}}", (Amount(biggest, "length"),))
    return Way(
        name="ream-oversize",
        title=title,
        action="make good",
        intervention="irreversible",
        original="The guides stay, larger in the hole for good; the old valves go on the shelf.",
        items=items,
        after=_new_everywhere(items, valves),
        parameters=parameters,
        priced=(PricedItem(VALVE_MADE, len(items)),),
        steps=(
            step(
                "ream-guides",
                "Ream the guides by hand from a piloted bush, little by little",
                hours=hours(0.5, 1.0, 2.0, len(items)),
                hold="every guide read at three heights; the stems are made to it",
                may_fail=Range(0.02, 0.06, 0.15, OWN),
                works=("guide work",),
            ),
            step("oversize-valves", "Valves made to the reamed guides", shop=VALVE_MADE, after=("ream-guides",)),
            _inspect(items, after=("oversize-valves",)),
        ),
        needs=(*_guide_needs(items, valves), *_valve_needs(items, valves)),
        risks=(
            Risk(
                "the reamer follows the belled hole and the guide leaves the seat's axis",
                Range(0.03, 0.08, 0.2, OWN),
                "the seat must be cut over again, or the guide bushed",
            ),
        ),
        works=("guide work",),
        for_it=(Said("Round, straight guides with stems to suit, and no bush to come loose."),),
        against_it=(Said("No two stems alike afterwards; every spare is made to measure."),),
    )


def _bush(valves: ValveSet, items: tuple[str, ...], *, new_valves: bool) -> Way:
    after = _new_everywhere(items, valves)
    if not new_valves:
        for item in items:
            lost = stem_wear(item, valves)
            if lost is None:
                after[TOP].pop(item, None)
            else:
                after[TOP][item] = after[TOP][item] + np.maximum(lost[0], 0.0)
    parameters: dict[str, float] = {}
    for item in items:
        target = target_clearance(item, valves)
        stem = new_stem(item, valves)
        parameters |= {f"{item} bush outside": bush_outside(item, valves), f"{item} bush bore": stem + (target.low or 0.0)}
        parameters[f"{item} clearance low"], parameters[f"{item} clearance high"] = target.low or 0.0, target.high or 0.0
        if new_valves:
            parameters[f"{item} stem"] = stem
    priced = [PricedItem(BUSH_MADE, len(items))] + ([PricedItem(VALVE_MADE, len(items))] if new_valves else [])
    steps = [
        step("bushes", "Guide bushes made", shop=BUSH_MADE),
        step(
            "bush-guides",
            "Bore the guides true to the seats, press the bushes in, ream to the stems",
            hours=hours(1.0, 2.0, 4.0, len(items)),
            after=("bushes",),
            hold="every bushed guide read at three heights and its seat seen true to it",
            may_fail=Range(0.02, 0.05, 0.12, OWN),
            works=("guide work", "pressing"),
        ),
    ]
    if new_valves:
        made = step("bushed-valves", "Valves made to the bushed guides", shop=VALVE_MADE, after=("bush-guides",))
        steps += [made, _inspect(items, after=("bushed-valves",))]
    words = "and make new valves" if new_valves else "and keep the old valves"
    return Way(
        name="bush-guides-new-valves" if new_valves else "bush-guides",
        title=Said(f"Bush the guides of {listed(items)} {words}"),
        action="make good",
        intervention="re-doable",
        original="The guides are bored out once; the bushes in them can be renewed."
        + (" The old valves go on the shelf." if new_valves else ""),
        items=items,
        after=after,
        parameters=parameters,
        priced=tuple(priced),
        stages=((BUSH_MADE,), (VALVE_MADE,)) if new_valves else (),
        steps=tuple(steps),
        needs=(*_guide_needs(items, valves), *(_valve_needs(items, valves) if new_valves else ())),
        risks=(
            Risk(
                "the drill wanders or breaks out of a thin boss",
                Range(0.02, 0.05, 0.12, OWN),
                "weld or a larger bush, and the seat cut over again",
            ),
        ),
        works=("guide work", "pressing"),
        for_it=(Said("Back to the size it was made to; integral guides were bushed with steel tube in 1917 (Pagé, ch. XI)."),),
        against_it=(
            Said(
                "Bronze grows more than iron and wants more room on an exhaust stem; iron or steel bushes keep the old figure."
            ),
            Said("Every seat whose guide is bushed must be cut again."),
        ),
    )


def _new_everywhere(items: tuple[str, ...], valves: ValveSet) -> dict[str, dict[str, Draws]]:
    return {quantity: {item: new_clearance(item, valves) for item in items} for quantity in (TOP, MIDDLE)}


def _inspect(items: tuple[str, ...], *, after: tuple[str, ...]) -> StepDraft:
    return step(
        "read-valves",
        "Inspect the valves in: stems at three heights, heads, lengths",
        hours=hours(0.2, 0.3, 0.5, len(items)),
        after=after,
        hold="every stem read against its own guide and accepted",
    )


def _guide_needs(items: tuple[str, ...], valves: ValveSet) -> tuple[Need, ...]:
    return tuple(
        Need(
            kind="reading",
            what=f"guide of {item} at top, middle and bottom",
            met=valves.reader.largest(d.GUIDE, item) is not None,
            why="the reamer is chosen by the worst place",
            part=d.VALVE,
            item=item,
            feature=d.GUIDE.name,
        )
        for item in items
    )


def _valve_needs(items: tuple[str, ...], valves: ValveSet) -> tuple[Need, ...]:
    wanted = ((d.HEAD, "head diameter"), (d.STEM_LENGTH, "length over all"), (d.KEEPER, "how the spring is kept"))
    found = []
    for item in items:
        for feature, words in wanted:
            met = bool(valves.reader.words(feature, item)[0]) or valves.size(feature, item) is not None
            found.append(
                Need(
                    kind="reading",
                    what=f"{item}: {words}",
                    met=met,
                    why="a valve is made from its drawing",
                    part=d.VALVE,
                    item=item,
                    feature=feature.name,
                )
            )
    return tuple(found)
