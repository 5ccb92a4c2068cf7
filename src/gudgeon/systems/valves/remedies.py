"""What could be done about stems and guides, seats, springs and lash, each its own matter."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.prospect import PossibleReading, Prospect
from gudgeon.engine.remedy import Remedy
from gudgeon.systems.proposing import Matter, Way, could_be_read, prospect_of, remedy_of
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.lash import HOT, LASH
from gudgeon.systems.valves.lash_ways import lash_matter, lash_ways
from gudgeon.systems.valves.seat_ways import seat_matter, seat_ways
from gudgeon.systems.valves.seats import FACE_RUNOUT, MARGIN, SEAT_RUNOUT, WIDTH
from gudgeon.systems.valves.spring_findings import LEAN, LEFT
from gudgeon.systems.valves.spring_ways import spring_matter, spring_ways
from gudgeon.systems.valves.stem_ways import stem_matter, stem_ways
from gudgeon.systems.valves.stems import MIDDLE, TOP
from gudgeon.systems.valves.valve_set import ValveSet

_READ_FOR = {
    TOP: (d.VALVE, d.STEM.name),
    MIDDLE: (d.VALVE, d.GUIDE.name),
    WIDTH: (d.VALVE, d.SEAT_WIDTH.name),
    MARGIN: (d.VALVE, d.MARGIN.name),
    FACE_RUNOUT: (d.VALVE, d.FACE_RUNOUT.name),
    SEAT_RUNOUT: (d.VALVE, d.SEAT_RUNOUT.name),
    LEFT: (d.SPRING, d.FORCE_FITTED.name),
    LEAN: (d.SPRING, d.LEAN.name),
    LASH: (d.VALVE, d.LASH.name),
    HOT: (d.VALVE, d.STEM_LENGTH.name),
}


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where nothing of it was read or noted."""
    valves = ValveSet.of(bench)
    if "matters" not in valves.worked_out:
        found: list[tuple[Matter, tuple[Way, ...]]] = []
        if valves.items:
            stems, seats, lash = stem_matter(valves), seat_matter(valves), lash_matter(valves)
            found += [(stems, stem_ways(valves, stems)), (seats, seat_ways(valves, seats))]
            if lash.items:
                found.append((lash, lash_ways(valves, lash)))
        if valves.springs:
            springs = spring_matter(valves)
            found.append((springs, spring_ways(valves, springs)))
        valves.worked_out["matters"] = tuple(found)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], valves.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(prospect_of(matter, ways, _could_be_read(matter)) for matter, ways in matters(bench))


def _could_be_read(matter: Matter) -> tuple[PossibleReading, ...]:
    return could_be_read(matter, _READ_FOR, "it was not read, and decides whether the part may stay")
