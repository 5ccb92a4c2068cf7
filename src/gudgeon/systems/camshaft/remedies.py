"""What could be done about lobes, followers and cam bearings, each its own matter."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import Remedy
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.bearings import CLEARANCE
from gudgeon.systems.camshaft.cam_set import CamSet
from gudgeon.systems.camshaft.follower_ways import bearing_matter, bearing_ways, follower_matter, follower_ways
from gudgeon.systems.camshaft.followers import GUIDE, ROLLER_PLAY, ROLLER_ROUND
from gudgeon.systems.camshaft.lobe_ways import lobe_matter, lobe_ways
from gudgeon.systems.camshaft.lobes import LOST
from gudgeon.systems.proposing import Matter, Way, could_be_read, prospect_of, remedy_of

_READ_FOR = {
    LOST: (d.LOBE, d.LIFT.name),
    GUIDE: (d.FOLLOWER, d.GUIDE.name),
    ROLLER_PLAY: (d.FOLLOWER, d.PLAY.name),
    ROLLER_ROUND: (d.FOLLOWER, d.ROLLER.name),
    CLEARANCE: (d.CAM, d.BORE.name),
}


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where nothing of it was read or noted."""
    cams = CamSet.of(bench)
    if "matters" not in cams.worked_out:
        found: list[tuple[Matter, tuple[Way, ...]]] = []
        if cams.lobes:
            lobes = lobe_matter(cams)
            found.append((lobes, lobe_ways(cams, lobes)))
        if cams.followers:
            followers = follower_matter(cams)
            found.append((followers, follower_ways(cams, followers)))
        if cams.bearings:
            bearings = bearing_matter(cams)
            found.append((bearings, bearing_ways(cams, bearings)))
        cams.worked_out["matters"] = tuple(found)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], cams.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    why = "it was not read, and decides whether the part may stay"
    return tuple(prospect_of(matter, ways, could_be_read(matter, _READ_FOR, why)) for matter, ways in matters(bench))
