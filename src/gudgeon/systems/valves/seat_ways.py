"""What could be done about faces and seats: run on, grind in, reface and recut, new valves, seat inserts."""

from __future__ import annotations

from typing import cast

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.handbook.rules import rules
from gudgeon.quantity import Said
from gudgeon.systems.judging import Limit, middle
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Flags, Matter, Quantity, Way, hours, listed, worn
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.seats import (
    FACE_RUNOUT,
    MARGIN,
    SEAT_RUNOUT,
    WIDTH,
    face_ground,
    refaced_margin,
    seat_cut,
    seat_rules,
)
from gudgeon.systems.valves.steps import (
    INSERT,
    RECUT,
    REFACE,
    SEATS,
    STEMS,
    VALVE_MADE,
    decided_first,
    last_step,
    step,
)
from gudgeon.systems.valves.valve_set import ValveSet

_FEATURES = {WIDTH: d.SEAT_WIDTH, MARGIN: d.MARGIN, FACE_RUNOUT: d.FACE_RUNOUT, SEAT_RUNOUT: d.SEAT_RUNOUT}
SHOP_RUNOUT = 0.0005 * d.INCH
"""Run-out left by a good refacer or a piloted cutter, as a standard deviation [m]; from memory."""
NEW_MARGIN = 0.0625 * d.INCH
"""Margin of a new valve [m]: 1/16 in, the trade's rule; from memory."""
GUIDES_FIRST = "a seat is cut true to its guide, and changing the guide makes cutting it again compulsory"


def seat_matter(valves: ValveSet) -> Matter:
    """Faces and seats of all valves together."""
    now: dict[str, dict[str, Draws]] = {name: {} for name in _FEATURES}
    inputs: list[str] = []
    for item in valves.items:
        for name, feature in _FEATURES.items():
            read = valves.size(feature, item)
            if read is not None:
                now[name][item] = read.draws
                inputs += read.inputs
    quantities = tuple(
        Quantity(
            name=name,
            part=d.VALVE,
            dimension="length",
            practices={item: seat_rules(name, item, valves) for item in valves.items},
        )
        for name in _FEATURES
    )
    return Matter(
        system=d.KEY,
        subject=SEATS,
        bench=valves.bench,
        items=valves.items,
        quantities=quantities,
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def seat_ways(valves: ValveSet, matter: Matter) -> tuple[Way, ...]:
    """Every way, for all valves; inserts only where a pocket or seat is too far gone to cut again."""
    thin = tuple(item for item in matter.items if _knife(item, valves) and item not in made_elsewhere(valves))
    ways = [_run_on(matter), _grind_in(matter, valves), _reface(matter, valves)]
    if set(matter.items) - set(made_elsewhere(valves)):
        ways.append(_new(matter, valves))
    if thin and len(thin) < len(matter.items):
        ways.insert(3, _reface(matter, valves, remade=thin))
    ways.append(_insert(matter, valves))
    return tuple(ways)


def made_elsewhere(valves: ValveSet) -> tuple[str, ...]:
    """The valves that are made new by what was decided on stems and guides: they need no refacing."""
    verdict = valves.bench.snapshot.verdict_on(STEMS)
    if verdict is None:
        return ()
    return tuple(item for item in verdict.chosen.items if f"{item} stem" in verdict.chosen.parameters)


def _knife(item: str, valves: ValveSet) -> bool:
    left = refaced_margin(item, valves)
    return left is not None and float(_least(item, valves).kept(left[0]).mean()) < 0.9


def _least(item: str, valves: ValveSet) -> Limit:
    """The least margin that may be left: the smallest figure of those that may decide [m]."""
    limits = seat_rules(MARGIN, item, valves).deciding
    return min(limits, key=lambda limit: limit.size)


def _run_on(matter: Matter) -> Way:
    past = worn(matter, WIDTH, MARGIN, FACE_RUNOUT, SEAT_RUNOUT)
    return Way(
        name="seats-run-on",
        title=Said("Run the seats on as they are"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(_leak_test(matter, after=()),),
        works=("valve work",),
        for_it=(Said("Nothing is ground."),),
        against_it=(Said(f"{listed(past)} stay past a limit."),) if past else (),
    )


def _leak_test(matter: Matter, *, after: tuple[str, ...]) -> StepDraft:
    return step(
        "seats-leak-test",
        "Pour kerosene on each valve, its spring fitted, and wait five minutes",
        hours=hours(0.1, 0.2, 0.3, len(matter.items)),
        after=after,
        hold="no seat weeps",
        works=("valve work",),
    )


def _grind_in(matter: Matter, valves: ValveSet) -> Way:
    grind = step(
        "grind-in",
        "Grind each valve in on its own seat with compound, a little at a time, lifting and turning; clear of its follower",
        hours=hours(0.3, 0.7, 1.5, len(matter.items)),
        after=last_step(valves, STEMS),
        hold="an even grey ring all round on face and seat, seen with blue",
        works=("valve grinding",),
    )
    past = worn(matter, FACE_RUNOUT, SEAT_RUNOUT)
    against = [Said("Grinding in hollows the face and widens the seat; it cures neither a bent valve nor deep pits.")]
    if past:
        against.append(Said(f"{listed(past)} run out too far to be ground in."))
    return Way(
        name="grind-in",
        title=Said("Grind the valves in"),
        action="make good",
        intervention="irreversible",
        original="A few thou of face and seat go; nothing is sent out.",
        items=matter.items,
        steps=(grind, _leak_test(matter, after=("grind-in",))),
        needs=(decided_first(valves, STEMS, GUIDES_FIRST),),
        works=("valve grinding", "valve work"),
        for_it=(Said("Least metal, at home, for nothing."),),
        against_it=tuple(against),
    )


def _trued(items: tuple[str, ...], valves: ValveSet) -> dict[str, dict[str, Draws]]:
    """Run-out and seat width after truing, worked out once for all ways."""
    if "trued" not in valves.worked_out:
        valves.worked_out["trued"] = _true(items, valves)
    return dict(cast("dict[str, dict[str, Draws]]", valves.worked_out["trued"]))


def _true(items: tuple[str, ...], valves: ValveSet) -> dict[str, dict[str, Draws]]:
    found: dict[str, dict[str, Draws]] = {
        name: {item: np.abs(SHOP_RUNOUT * valves.bench.named(f"{name} left in {item}")) for item in items}
        for name in (FACE_RUNOUT, SEAT_RUNOUT)
    }
    found[WIDTH] = {item: valves.reader.even(f"seat width made in {item}", *width_target(item, valves)) for item in items}
    return found


def width_target(item: str, valves: ValveSet) -> tuple[float, float]:
    """The seat width to make [m]: within every target that may decide as far as they agree, else the narrowest band."""
    practised = seat_rules(WIDTH, item, valves)
    most = min((limit.size for limit in practised.deciding if limit.most), default=0.125 * d.INCH)
    bands = [(target.low, min(target.high, most)) for target in practised.targets if target.low and target.high]
    fitting = [band for band in bands if band[0] < band[1]]
    return max(fitting, key=lambda band: band[1], default=(0.0625 * d.INCH, 0.075 * d.INCH))


def _margins(items: tuple[str, ...], valves: ValveSet, remade: tuple[str, ...] = ()) -> tuple[dict[str, Draws], Flags | None]:
    """Margins after refacing, those of ``remade`` new; and whether every refaced one keeps enough, None where none was read."""
    margins, allowed, measured = dict[str, Draws](), np.ones(valves.bench.count, dtype=bool), False
    for item in items:
        if item in remade or item in made_elsewhere(valves):
            margins[item] = valves.reader.full(NEW_MARGIN)
        elif (left := refaced_margin(item, valves)) is not None:
            margins[item] = left[0]
            allowed &= _least(item, valves).kept(left[0])
            measured = True
    return margins, np.asarray(allowed, dtype=np.bool_) if measured else None


def _reface(matter: Matter, valves: ValveSet, remade: tuple[str, ...] = ()) -> Way:
    """Reface the valves and cut the seats; ``remade`` get a new valve instead of a refaced one."""
    after = _trued(matter.items, valves)
    after[MARGIN], allowed = _margins(matter.items, valves, remade)
    refaced = tuple(item for item in matter.items if item not in remade and item not in made_elsewhere(valves))
    done = [f"reface {listed(refaced) if remade else 'the valves'}"] if refaced else []
    done += [f"make {listed(remade)} new"] if remade else []
    words = ", ".join([*done, "recut the seats"])
    title = Said(words[0].upper() + words[1:])
    priced, before = _valve_work(refaced, remade)
    priced = (*priced, PricedItem(RECUT, len(matter.items)))
    steps = (*before, *_recut(matter, valves, after=tuple(each.key for each in before)))
    return Way(
        name="reface-recut-some-new" if remade else "reface-recut",
        title=title,
        action="make good",
        intervention="irreversible",
        original="Face and seat lose a few thou each; the valves sink by it.",
        items=matter.items,
        after=after,
        allowed=allowed,
        why="a valve would be left with too thin an edge",
        parameters=_parameters(matter.items, valves) | {f"{item} new valve": 1.0 for item in remade},
        priced=priced,
        steps=steps,
        needs=(decided_first(valves, STEMS, GUIDES_FIRST), *_pit_needs(refaced, valves)),
        risks=(_shroud(),),
        works=("valve grinding", "seat work", "valve work"),
        for_it=(Said("Tight, true seats of a right width, where the leak test will show it."),),
        against_it=(Said("Each time the head sinks deeper into its pocket, and the lash must be set again."),),
    )


def _valve_work(refaced: tuple[str, ...], remade: tuple[str, ...]) -> tuple[tuple[PricedItem, ...], tuple[StepDraft, ...]]:
    """What is paid for and done on the valves themselves."""
    priced = [PricedItem(name, len(items)) for name, items in ((REFACE, refaced), (VALVE_MADE, remade)) if items]
    steps = [step("reface", "Reface the valves", shop=REFACE, works=("valve grinding",))] if refaced else []
    steps += [step("seat-valves", "Valves made", shop=VALVE_MADE)] if remade else []
    return tuple(priced), tuple(steps)


def _recut(matter: Matter, valves: ValveSet, *, after: tuple[str, ...]) -> tuple[StepDraft, ...]:
    return (
        step(
            "recut-seats",
            "Cut the seats from a pilot in the finished guides",
            shop=RECUT,
            after=(*after, *last_step(valves, STEMS)),
            works=("seat work",),
        ),
        step(
            "lap",
            "Touch each valve in with fine compound, clear of its follower, and wash everything",
            hours=hours(0.2, 0.4, 0.8, len(matter.items)),
            after=("recut-seats",),
            hold="blue: an unbroken ring in the middle of the face, of the width asked for",
            works=("valve grinding",),
        ),
        _leak_test(matter, after=("lap",)),
    )


def _new(matter: Matter, valves: ValveSet) -> Way:
    items = tuple(item for item in matter.items if item not in made_elsewhere(valves))
    needy = tuple(item for item in items if _knife(item, valves)) or items
    after = _trued(matter.items, valves)
    after[MARGIN] = {item: valves.reader.full(NEW_MARGIN) for item in matter.items}
    return Way(
        name="new-valves-recut",
        title=Said("New valves throughout and recut the seats"),
        action="remake",
        intervention="irreversible",
        original="The seats lose a few thou; the old valves go on the shelf.",
        items=matter.items,
        after=after,
        parameters=_parameters(matter.items, valves) | {f"{item} new valve": 1.0 for item in items},
        priced=(PricedItem(VALVE_MADE, len(items)), PricedItem(RECUT, len(matter.items))),
        stages=((VALVE_MADE,), (RECUT,)),
        steps=(step("seat-valves", "Valves made", shop=VALVE_MADE), *_recut(matter, valves, after=("seat-valves",))),
        needs=(decided_first(valves, STEMS, GUIDES_FIRST),),
        risks=(_shroud(),),
        works=("valve grinding", "seat work", "valve work"),
        for_it=(Said(f"Full margins again; {listed(needy)} need it most."),),
        against_it=(Said("Dearest, and modern valve steel is not what was there."),),
    )


def _insert(matter: Matter, valves: ValveSet) -> Way:
    elsewhere = made_elsewhere(valves)
    thin = tuple(item for item in matter.items if _knife(item, valves) and item not in elsewhere)
    refaced = tuple(item for item in matter.items if item not in (*thin, *elsewhere))
    after = _trued(matter.items, valves)
    after[MARGIN], allowed = _margins(matter.items, valves, thin)
    valves_too = f", make {listed(thin)} new" if thin else ""
    priced, before = _valve_work(refaced, thin)
    return Way(
        name="seat-inserts",
        title=Said(f"Seat inserts let into the pockets, reface the valves{valves_too}"),
        action="make good",
        intervention="irreversible",
        original="The old seats are bored away for good.",
        items=matter.items,
        after=after,
        allowed=allowed,
        why="a valve would be left with too thin an edge",
        parameters=_parameters(matter.items, valves) | _press(matter.items) | {f"{item} new valve": 1.0 for item in thin},
        priced=(PricedItem(INSERT, len(matter.items)), *priced),
        steps=(
            *before,
            step(
                "inserts",
                "Bore the pockets and fit seat inserts from a pilot in the finished guides",
                shop=INSERT,
                after=(*(each.key for each in before), *last_step(valves, STEMS)),
                may_fail=Range(0.02, 0.06, 0.15, OWN),
                works=("seat work", "shrink fitting"),
            ),
            _leak_test(matter, after=("inserts",)),
        ),
        needs=(
            decided_first(valves, STEMS, GUIDES_FIRST),
            *(
                Need(
                    kind="reading",
                    what=f"{item}: metal under the seat",
                    met=valves.size(d.SEAT_METAL, item) is not None,
                    why="a pocket stands over the water; an insert needs a wall to be pressed into",
                    part=d.VALVE,
                    item=item,
                    feature=d.SEAT_METAL.name,
                )
                for item in matter.items
            ),
        ),
        risks=(
            Risk(
                "the cutter breaks into the jacket, or an insert comes loose hot",
                Range(0.02, 0.06, 0.15, OWN),
                "stitch the casting; an insert that drops wrecks the cylinder",
            ),
        ),
        works=("seat work", "shrink fitting", "valve grinding"),
        for_it=(Said("Brings sunk valves up again, and a cracked or burnt seat back."),),
        against_it=(Said("Most metal, most risk: for a seat that cannot be cut again."),),
    )


def _press(items: tuple[str, ...]) -> dict[str, float]:
    row = rules("valve seat insert interference", purpose="target")[0]
    found: dict[str, float] = {}
    for item in items:
        found |= {f"{item} press low": row.low or 0.0, f"{item} press high": row.high or 0.0}
    return found


def _shroud() -> Risk:
    return Risk(
        "the valve ends up deep in its pocket and the gas is masked",
        Range(0.02, 0.08, 0.2, OWN),
        "open the pocket out above the seat, or fit an insert",
    )


def _parameters(items: tuple[str, ...], valves: ValveSet) -> dict[str, float]:
    """Sizes that the orders are drawn up from [m, rad], with what is likely ground and cut."""
    found: dict[str, float] = {}
    for item in items:
        low, high = width_target(item, valves)
        found |= {
            f"{item} seat angle": middle(valves.angle(item)[0]),
            f"{item} seat width low": low,
            f"{item} seat width high": high,
            f"{item} face ground": middle(face_ground(item, valves)[0]),
            f"{item} seat cut": middle(seat_cut(item, valves)[0]),
        }
    return found


def _pit_needs(items: tuple[str, ...], valves: ValveSet) -> tuple[Need, ...]:
    found = []
    for item in items:
        for feature, why in (
            (d.FACE_PITS, "each thou of pit is more than a thou of margin"),
            (d.MARGIN, "a valve left with a knife edge glows"),
        ):
            found.append(
                Need(
                    kind="reading",
                    what=f"{item}: {feature.title.lower()}",
                    met=valves.size(feature, item) is not None,
                    why=why,
                    part=d.VALVE,
                    item=item,
                    feature=feature.name,
                )
            )
    return tuple(found)
