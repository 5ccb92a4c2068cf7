"""What could be done about the gears, set by set, and what each would be worth."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import Remedy
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.load import BENDING
from gudgeon.systems.gears.train import GearTrain
from gudgeon.systems.gears.ways import SetMatter, set_matter, set_ways
from gudgeon.systems.gears.wear import BACKLASH
from gudgeon.systems.proposing import Way, could_be_read, prospect_of, remedy_of

_READ_FOR = {
    BACKLASH: (d.GEAR, d.BACKLASH.name),
    BENDING: (d.GEAR, d.FACE.name),
}


def matters(bench: Bench) -> tuple[tuple[SetMatter, tuple[Way, ...]], ...]:
    """Every set whose teeth are told by something, with its ways."""
    train = GearTrain.of(bench)
    if "matters" not in train.worked_out:
        found = [set_matter(one) for one in train.sets if one.known]
        train.worked_out["matters"] = tuple((each, set_ways(each)) for each in found)
    return cast(tuple[tuple[SetMatter, tuple[Way, ...]], ...], train.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(each.matter, way) for each, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(
        prospect_of(
            each.matter,
            ways,
            could_be_read(each.matter, _READ_FOR, "it was not read, and decides whether the gears may run on"),
        )
        for each, ways in matters(bench)
    )
