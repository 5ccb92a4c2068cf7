"""What could be done about springs: run on, washers under them, new springs to measure."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from gudgeon.engine.remedy import Need, PricedItem
from gudgeon.handbook.sizes import named_sizes
from gudgeon.handbook.spring_wires import SpringWire, spring_wire
from gudgeon.mechanics import springs as mechanics
from gudgeon.mechanics.springs import SpringMade
from gudgeon.quantity import Said
from gudgeon.systems.judging import Practice, middle
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import Matter, Quantity, Way, hours, listed, worn
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.spring_findings import (
    CLASH,
    LEAN,
    LEFT,
    SOLID,
    clash_of,
    force_left,
    lean_rules,
    left_rules,
    spring,
)
from gudgeon.systems.valves.steps import SPRING_MADE, SPRINGS, step
from gudgeon.systems.valves.valve_set import ValveSet

WIRE_TO_ORDER = "oil-tempered wire"
NEW_FORCE = 0.05
"""How far a spring maker's force may lie off what was asked, either way [1]; the usual tolerance, from memory."""
NEW_LEAN = (0.0, 0.03 * d.INCH)
"""How far a new spring leans at its top [m]; from memory."""
ROOM = 0.10
"""Room to solid that a new spring is given, over the travel to open [1]; Shigley 10-6 asks 15 % of the travel to solid."""


def spring_matter(valves: ValveSet) -> Matter:
    """All springs together."""
    now: dict[str, dict[str, Draws]] = {LEFT: {}, LEAN: {}, CLASH: {}}
    inputs: list[str] = []
    for item in valves.springs:
        one = spring(item, valves)
        lean = valves.size(d.LEAN, item)
        found = {LEFT: force_left(one), CLASH: clash_of(one), LEAN: None if lean is None else (lean.draws, lean.inputs)}
        for name, read in found.items():
            if read is not None:
                now[name][item] = read[0]
                inputs += read[1]
    practices: dict[str, dict[str, Practice]] = {
        LEFT: {item: left_rules(spring(item, valves)) for item in valves.springs},
        LEAN: {item: lean_rules(spring(item, valves)) for item in valves.springs},
        CLASH: {item: Practice(limits=(SOLID,)) for item in valves.springs if item in now[CLASH]},
    }
    dimensions = {LEFT: "ratio", LEAN: "length", CLASH: "length"}
    return Matter(
        system=d.KEY,
        subject=SPRINGS,
        bench=valves.bench,
        items=valves.springs,
        quantities=tuple(
            Quantity(name=name, part=d.SPRING, dimension=dimensions[name], practices=practices[name]) for name in practices
        ),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def spring_ways(valves: ValveSet, matter: Matter) -> tuple[Way, ...]:
    """Every way: washers only where the force lost and the rate are known."""
    items = worn(matter, LEFT, LEAN, CLASH) or matter.items
    found = [_run_on(matter)]
    if (washers := _washers(valves, matter)) is not None:
        found.append(washers)
    return (*found, _new(valves, items))


def _run_on(matter: Matter) -> Way:
    past = worn(matter, LEFT, LEAN, CLASH)
    return Way(
        name="springs-run-on",
        title=Said("Run the springs on"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                "springs-look",
                "Clean the springs and look for rust pits, cracks and rubbed coils",
                hours=hours(0.1, 0.1, 0.2, len(matter.items)),
                works=("valve work",),
            ),
        ),
        works=("valve work",),
        for_it=(Said("A spring that has only set goes on for years at the speed of a slow engine."),),
        against_it=(Said(f"{listed(past)} stay past a limit."),) if past else (),
    )


@dataclass(frozen=True, kw_only=True)
class Washer:
    """A washer under a spring: its thickness [m], and room to solid afterwards [m] where it is known."""

    thickness: float
    force_after: Draws
    clash_after: Draws | None


def washer(item: str, valves: ValveSet) -> Washer | None:
    """The washer that brings a spring's force back [m], to the nearest 1/64 in; None where none is needed or it is not known.

    Thickness = force lost / rate: it presses the spring as much further together as it has set.
    """
    one = spring(item, valves)
    left, rate = force_left(one), one.rate
    if left is None or rate is None or not one.forces:
        return None
    force = one.forces[-1][1].draws
    lost = force / np.maximum(left[0], 0.05) - force
    thickness = round(middle(lost / rate[0]) / (d.INCH / 64)) * d.INCH / 64
    if thickness <= 0:
        return None
    room = clash_of(one)
    return Washer(
        thickness=thickness,
        force_after=left[0] * (force + rate[0] * thickness) / force,
        clash_after=None if room is None else room[0] - thickness,
    )


def _washers(valves: ValveSet, matter: Matter) -> Way | None:
    found = {item: made for item in matter.items if (made := washer(item, valves)) is not None}
    if not found:
        return None
    allowed = np.ones(valves.bench.count, dtype=bool)
    rooms = {item: made.clash_after for item, made in found.items() if made.clash_after is not None}
    for room in rooms.values():
        allowed &= room > 0
    return Way(
        name="spring-washers",
        title=Said(f"Washers under {listed(tuple(found))}"),
        action="adjust",
        intervention="removable",
        original="The springs stay; the washers come out again.",
        items=tuple(found),
        after={LEFT: {item: made.force_after for item, made in found.items()}, CLASH: rooms},
        allowed=allowed if rooms else None,
        why="a spring would be pressed solid before its valve is open",
        parameters={f"{item} washer": made.thickness for item, made in found.items()},
        steps=(
            step(
                "washers",
                "Turn washers and fit them under the springs, at the fixed end",
                hours=hours(0.2, 0.3, 0.6, len(found)),
                hold="force at the fitted length read of every spring, and room to solid seen with the valve open",
                works=("valve work",),
            ),
        ),
        needs=tuple(_solid_need(item) for item in found if item not in rooms),
        works=("valve work",),
        for_it=(Said("Brings the force back for the price of a washer."),),
        against_it=(Said("A washer cures no fatigue and no rust pit, and takes from the room to solid."),),
    )


def _solid_need(item: str) -> Need:
    return Need(
        kind="reading",
        what=f"{item}: open length, wire and coils",
        met=False,
        why="a washer may press it solid",
        part=d.SPRING,
        item=item,
        feature=d.OPEN.name,
    )


@dataclass(frozen=True, kw_only=True)
class SpringAsked:
    """A spring to be ordered, or what is missing to draw it up."""

    made: SpringMade | None
    wire: SpringWire
    written: str
    closed: tuple[float, float] | None
    opened: tuple[float, float] | None
    outside: float | None
    missing: tuple[str, ...]


def spring_asked(item: str, valves: ValveSet) -> SpringAsked:
    """The spring to order: its forces when new at the fitted and open length, in the old outside diameter.

    Of the wires made, the thinnest that is stressed when pressed solid to no more than its kind bears and leaves room to solid.
    """
    one = spring(item, valves)
    kind = spring_wire(WIRE_TO_ORDER)
    outside = valves.size(d.OUTSIDE, item)
    left = force_left(one)
    share = middle(left[0]) if left is not None else 1.0
    pairs: list[tuple[float, float] | None] = []
    missing = [] if outside is not None else ["outside diameter"]
    for feature in (d.FITTED, d.OPEN):
        length, force = one.length(feature), one.force(feature)
        if length is None or force is None:
            missing.append(feature.name if length is None else f"force at {feature.name}")
            pairs.append(None)
        else:
            pairs.append((middle(length[0]), middle(force[0])))
    closed, opened = pairs
    if closed is None or opened is None or outside is None:
        return SpringAsked(
            made=None,
            wire=kind,
            written="",
            closed=closed,
            opened=opened,
            outside=outside.value if outside else None,
            missing=tuple(missing),
        )
    more = closed[1] * (1 / max(share, 0.3) - 1)  # what has been lost is lost alike at both lengths: the rate has not changed
    closed, opened = (closed[0], closed[1] + more), (opened[0], opened[1] + more)
    made, written = _thinnest(closed, opened, outside.value, kind)
    return SpringAsked(
        made=made,
        wire=kind,
        written=written,
        closed=closed,
        opened=opened,
        outside=outside.value,
        missing=() if made else ("a wire that bears it",),
    )


def _thinnest(
    closed: tuple[float, float], opened: tuple[float, float], outside: float, kind: SpringWire
) -> tuple[SpringMade | None, str]:
    for size in sorted(named_sizes("washburn and moen wire"), key=lambda each: each.nominal):
        if not 3.5 < (outside - size.nominal) / size.nominal < 14 or closed[0] <= opened[0]:
            continue
        made = mechanics.spring_to_order(
            closed_force=closed[1],
            closed_length=closed[0],
            open_force=opened[1],
            open_length=opened[0],
            outside_diameter=outside,
            wire=size.nominal,
            shear_modulus=kind.shear_modulus,
        )
        strength = mechanics.wire_strength(wire=size.nominal, constant=kind.constant, exponent=kind.exponent)
        borne = float(np.asarray(made.stress_solid)) <= kind.torsion * float(np.asarray(strength))
        if borne and float(np.asarray(made.clash)) >= ROOM * (closed[0] - opened[0]) and float(np.asarray(made.active)) >= 2:
            return made, size.written
    return None, ""


def _new(valves: ValveSet, items: tuple[str, ...]) -> Way:
    parameters: dict[str, float] = {}
    needs = []
    for item in items:
        asked = spring_asked(item, valves)
        if asked.made is not None and asked.closed is not None and asked.opened is not None:
            parameters |= {
                f"{item} fitted length": asked.closed[0],
                f"{item} fitted force": asked.closed[1],
                f"{item} open length": asked.opened[0],
                f"{item} open force": asked.opened[1],
            }
        for what in asked.missing:
            needs.append(
                Need(
                    kind="reading",
                    what=f"{item}: {what}",
                    met=False,
                    why="a spring is made to two forces at two lengths",
                    part=d.SPRING,
                    item=item,
                    feature=what,
                )
            )
    normal = {item: 1 + NEW_FORCE / 1.645 * valves.bench.named(f"force of the new {item}") for item in items}
    lean = {item: valves.reader.even(f"lean of the new {item}", *NEW_LEAN) for item in items}
    return Way(
        name="new-springs",
        title=Said(f"New springs: {listed(items)}"),
        action="buy in",
        intervention="removable",
        original="The old springs go on the shelf.",
        items=items,
        after={LEFT: normal, LEAN: lean, CLASH: _new_rooms(items, valves)},
        parameters=parameters,
        priced=(PricedItem(SPRING_MADE, len(items)),),
        steps=(
            step("springs", "Springs made", shop=SPRING_MADE),
            step(
                "read-springs",
                "Inspect the springs in: free length, force at both lengths",
                hours=hours(0.1, 0.15, 0.3, len(items)),
                after=("springs",),
                hold="force of every spring read at its fitted and open length",
                works=("valve work",),
            ),
        ),
        needs=tuple(needs),
        works=("valve work",),
        for_it=(Said("Full force, square, of known wire; the old ones stay as patterns."),),
        against_it=(Said("A stiffer spring than the old wears cam and follower: ask for the old force, not for more."),),
    )


def _new_rooms(items: tuple[str, ...], valves: ValveSet) -> dict[str, Draws]:
    rooms = {}
    for item in items:
        made = spring_asked(item, valves).made
        if made is not None:
            rooms[item] = valves.reader.full(float(np.asarray(made.clash)))
    return rooms
