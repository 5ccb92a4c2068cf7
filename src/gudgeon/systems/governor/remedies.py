"""What could be done about the governor: joints, spring, detent, each its own matter."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.prospect import PossibleReading, Prospect
from gudgeon.engine.remedy import Remedy
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.detent_ways import detent_matter, detent_ways
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.governor.joint_ways import joint_matter, joint_ways
from gudgeon.systems.governor.joints import GAP, GRIP, PIN_PLAY, ROLLER_PLAY
from gudgeon.systems.governor.running import FULL, SPREAD, WANDER
from gudgeon.systems.governor.spring_ways import spring_matter, spring_ways
from gudgeon.systems.proposing import Matter, Way, could_be_read, prospect_of, remedy_of

_READ_FOR = {
    WANDER: (d.GOVERNOR, d.TRAVEL.name),
    FULL: (d.SPRING, d.FITTED.name),
    SPREAD: (d.SPRING, d.FREE.name),
    PIN_PLAY: (d.WEIGHT, d.HOLE.name),
    ROLLER_PLAY: (d.WEIGHT, d.ROLLER_BORE.name),
    GAP: (d.DETENT, d.GAP.name),
    GRIP: (d.DETENT, d.OVERLAP.name),
}


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where nothing of it was read or noted."""
    one = GovernorSet.of(bench)
    if "matters" not in one.worked_out:
        found: list[tuple[Matter, tuple[Way, ...]]] = []
        if any(bench.items(kind) for kind in (d.GOVERNOR, d.WEIGHT, d.SLEEVE)):
            joints = joint_matter(one)
            found.append((joints, joint_ways(one, joints)))
        if bench.items(d.SPRING) or bench.items(d.GOVERNOR):
            spring = spring_matter(one)
            found.append((spring, spring_ways(one, spring)))
        if bench.items(d.DETENT):
            detent = detent_matter(one)
            found.append((detent, detent_ways(one, detent)))
        one.worked_out["matters"] = tuple(found)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], one.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(prospect_of(matter, ways, _could_be_read(matter)) for matter, ways in matters(bench))


def _could_be_read(matter: Matter) -> tuple[PossibleReading, ...]:
    return could_be_read(matter, _READ_FOR, "it was not read, and decides whether the governor may stay as it is")
