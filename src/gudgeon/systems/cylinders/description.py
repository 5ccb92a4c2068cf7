"""What can be measured on cylinders, pistons and rings: parts, features, levels and directions.

The words are those of the bench sheet and the CSV. Stations may also be plain numbers with a depth; they are then ordered by
depth, and a note such as "below ring travel" marks the unworn one.
"""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit, Level
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "cylinders"
RING_PLACES = ("top", "second", "third", "fourth", "fifth", "sixth")

_NEWALL = "Turning and Boring (1914), ch. III, Newall limits"
_HOLE_SPREAD = 0.0022 / 12**0.5 * INCH
_HOLE_ORIGIN = Origin("E", _NEWALL, "class B hole, 3 1/16 to 4 in: .0022 wide, taken as even over its width")
_SHAFT_SPREAD = 0.0025 / 12**0.5 * INCH
_SHAFT_ORIGIN = Origin("E", _NEWALL, "running fit X, 3 1/16 to 4 in: .0025 wide, taken as even over its width")


def _cylinders(outline: Outline) -> int | None:
    return outline.cylinders


def ring_names(outline: Outline) -> tuple[str, ...]:
    """Names of the rings to expect: "cyl 1 top ring", "cyl 1 second ring" ...; only the top ones where no count is known."""
    each = RING_PLACES[: outline.rings_per_piston or 1]
    return tuple(f"cyl {n} {place} ring" for n in range(1, (outline.cylinders or 0) + 1) for place in each)


PARTS = (
    PartKind(kind="cylinder", title="Cylinder", count=_cylinders, item="cyl {n}", material="grey cast iron"),
    PartKind(kind="piston", title="Piston", count=_cylinders, item="piston {n}", material="grey cast iron"),
    PartKind(kind="ring", title="Ring", count=_cylinders, item="cyl {n} top ring", material="grey cast iron", names=ring_names),
)

BORE_LEVELS = (
    Level(
        name="top land, above ring travel",
        wear="unworn",
        words=("above ring travel", "top land", "above the ridge", "above the rings"),
        hint="in the belt above the ridge, carbon scraped off; unworn unless the head end was bored out",
    ),
    Level(name="ridge", wear="little", words=("on the ridge", "at the ridge"), hint="on the lip itself"),
    Level(
        name="top of ring travel",
        wear="most",
        words=("just below the ridge", "below the ridge", "under the ridge", "top of travel", "top ring position"),
        hint="just below the ridge, where the top ring turns back; most wear is here",
    ),
    Level(
        name="upper ring travel",
        wear="some",
        words=("a quarter down", "upper third", "upper middle"),
        hint="about a quarter down the travel",
    ),
    Level(
        name="middle of ring travel",
        wear="some",
        words=("middle", "mid travel", "mid stroke", "half way", "centre of travel"),
        hint="half way down the travel",
    ),
    Level(
        name="bottom of ring travel",
        wear="little",
        words=("bottom of travel", "lower ring travel", "lowest ring position"),
        hint="where the lowest ring turns back",
    ),
    Level(
        name="below ring travel",
        wear="unworn",
        words=("below the rings", "below travel", "unworn belt", "unworn bottom", "bottom skirt"),
        hint="below the lowest ring at the crank end: the best witness of the size when new",
    ),
)

TRAVEL = ("top of ring travel", "upper ring travel", "middle of ring travel", "bottom of ring travel")
_IN_TRAVEL = tuple(level for level in BORE_LEVELS if level.name in TRAVEL)
_WALL_LEVELS = tuple(level for level in BORE_LEVELS if level.name in (TRAVEL[0], TRAVEL[2], TRAVEL[3]))

_SKIRT_LEVELS = (
    Level(name="skirt bottom", wear="some", words=("bottom", "bottom of skirt", "open end"), hint="just above the open end"),
    Level(
        name="skirt middle",
        wear="some",
        words=("middle", "skirt mid", "mid skirt"),
        hint="level with the pin, clear of the bosses",
    ),
)

_GROOVE_LEVELS = tuple(
    Level(name=f"{place} groove", wear="most" if place == "top" else "some", words=(place, f"{place} ring groove"))
    for place in ("top", "second", "third", "oil")
)

_CYLINDER = (
    Feature(
        part="cylinder",
        name="bore diameter",
        title="Bore diameter",
        wear="adds",
        family="bore",
        spread=_HOLE_SPREAD,
        spread_origin=_HOLE_ORIGIN,
        levels=BORE_LEVELS,
        directions=(0.0, 45.0, 90.0, 135.0),
        gauges=("dial_bore_gauge", "telescoping_gauge", "inside_mic", "vernier"),
        rework="bored over",
        aliases=("bore", "diameter", "cylinder bore", "bore dia"),
        how="0 lies along the crank, 90 across it. Two readings of each, the gauge set again between them.",
    ),
    Feature(
        part="cylinder",
        name="wall thickness",
        title="Wall between bore and jacket",
        wear="takes",
        levels=_WALL_LEVELS,
        directions=tuple(float(degree) for degree in range(0, 360, 45)),
        gauges=("ultrasonic", "caliper", "depth_gauge"),
        aliases=("wall", "cylinder wall"),
        how="Old cores shifted: go right round. Directions here are places on the wall, 0 to 315 degree, 0 towards the "
        "front along the crank.",
    ),
    Feature(
        part="cylinder",
        name="pit depth",
        title="Depth of rust pits",
        wear="adds",
        levels=_IN_TRAVEL,
        gauges=("depth_gauge", "dial_indicator"),
        aliases=("pitting", "pit", "pits"),
        how="The deepest pit at each level, with its depth down the bore and its direction where you can.",
    ),
    Feature(
        part="cylinder",
        name="scratch depth",
        title="Depth of scores and scratches",
        wear="adds",
        levels=_IN_TRAVEL,
        gauges=("depth_gauge", "dial_indicator"),
        aliases=("score depth", "scratch", "score", "scoring"),
        how="The deepest score; a wandering wrist pin cuts one full length.",
    ),
    Feature(
        part="cylinder",
        name="ridge height",
        title="Height of the ridge",
        wear="adds",
        gauges=("depth_gauge", "dial_indicator", "feeler"),
        aliases=("ridge", "ridge step", "wear step", "step"),
        how="The step from the worn bore up to the lip, on one side.",
    ),
    Feature(
        part="cylinder",
        name="top of ring travel depth",
        title="Depth to the top of the ring travel",
        gauges=("depth_gauge", "rule"),
        aliases=("ring travel top", "depth of top of ring travel"),
        how="From the top face, or the head end of the bore, to the upper edge of the top ring at inner dead centre.",
    ),
    Feature(
        part="cylinder",
        name="bottom of ring travel depth",
        title="Depth to the bottom of the ring travel",
        gauges=("depth_gauge", "rule"),
        aliases=("ring travel bottom", "depth of bottom of ring travel"),
        how="From the same face to the lower edge of the lowest ring at outer dead centre.",
    ),
    Feature(
        part="cylinder",
        name="bore length",
        title="Length of the bore",
        gauges=("depth_gauge", "rule"),
        aliases=("length of bore", "cylinder length"),
        how="From the top face to the crank end; a sleeve is ordered from it.",
    ),
    Feature(
        part="cylinder",
        name="head clearance",
        title="Crown to head at inner dead centre",
        gauges=("lead_wire", "depth_gauge"),
        aliases=("crown to head",),
        how="A lump of soft lead or clay, squeezed by turning over by hand.",
    ),
    Feature(
        part="cylinder",
        name="crack",
        title="Cracks",
        dimension="words",
        unit="",
        aliases=("cracks", "crack test"),
        how="None, or where and how long. Look from the valve seats to the bore and along the jacket.",
    ),
    Feature(
        part="cylinder",
        name="leak test",
        title="Leak test of the water jacket",
        dimension="words",
        unit="",
        aliases=("pressure test", "water test", "jacket test"),
        how="Filled with water, never with air alone: tight, or where it weeps. Note pressure and time.",
    ),
)

_PISTON = (
    Feature(
        part="piston",
        name="skirt diameter",
        title="Skirt diameter",
        wear="takes",
        family="piston",
        spread=_SHAFT_SPREAD,
        spread_origin=_SHAFT_ORIGIN,
        levels=_SKIRT_LEVELS,
        directions=(0.0, 90.0),
        gauges=("outside_mic", "outside_mic_coarse", "vernier"),
        rework="turned under",
        aliases=("skirt", "piston diameter", "diameter"),
        how="90 lies across the pin, on the thrust line; 0 along the pin, where many skirts are relieved.",
    ),
    Feature(
        part="piston",
        name="top land diameter",
        title="Top land diameter",
        wear="none",
        directions=(0.0, 90.0),
        gauges=("outside_mic", "outside_mic_coarse", "vernier"),
        aliases=("top land", "crown diameter"),
    ),
    Feature(
        part="piston",
        name="ring groove width",
        title="Ring groove width",
        wear="adds",
        family="ring width",
        levels=_GROOVE_LEVELS,
        directions=(0.0, 90.0, 180.0, 270.0),
        gauges=("slip_gauge", "feeler", "vernier"),
        rework="turned wider",
        aliases=("groove width", "groove"),
        how="At four places round; carbon picked out first. A bell-mouthed groove reads wider at its edge.",
    ),
    Feature(
        part="piston",
        name="groove depth",
        title="Ring groove depth",
        levels=_GROOVE_LEVELS,
        gauges=("depth_gauge", "vernier"),
        aliases=("ring groove depth",),
        how="From the land to the floor; the ring's radial wall is ordered from it.",
    ),
    *(
        Feature(
            part="piston",
            name=f"side clearance, {place} ring, new ring",
            title=f"Side clearance of the {place} ring, with a new ring",
            wear="adds",
            gauges=("feeler",),
            aliases=(f"side clearance, {place} ring", f"side clearance {place} ring", f"{place} ring side clearance"),
            how="The longest feeler that enters between ring and groove side, all the way round.",
        )
        for place in ("top", "second", "third", "oil")
    ),
    Feature(
        part="piston",
        name="compression height",
        title="Pin centre to crown",
        gauges=("vernier", "depth_gauge"),
        how="From the top of the pin to the crown, and add half the pin.",
    ),
    Feature(part="piston", name="length", title="Length over all", gauges=("vernier", "rule")),
    Feature(
        part="piston",
        name="material",
        title="What it is made of",
        dimension="words",
        unit="",
        how="Does a magnet hold? Cast iron or aluminium.",
    ),
    Feature(
        part="piston",
        name="crack",
        title="Cracks",
        dimension="words",
        unit="",
        aliases=("cracks", "crack test"),
        how="None, or where: at the pin bosses, the oil-ring groove, the crown.",
    ),
)

_RING = (
    Feature(
        part="ring",
        name="end gap in unworn belt",
        title="End gap in the unworn belt",
        wear="adds",
        gauges=("feeler",),
        aliases=("end gap", "end gap below ring travel", "ring gap"),
        how="Ring squared with the piston in the least worn part of the bore, below the ring travel.",
    ),
    Feature(
        part="ring",
        name="end gap under the ridge",
        title="End gap at the top of the ring travel",
        wear="adds",
        gauges=("feeler",),
        aliases=("end gap at top of ring travel", "end gap at the top"),
        how="Ring squared just under the ridge.",
    ),
    Feature(
        part="ring", name="free gap", title="Free gap", wear="takes", gauges=("rule", "vernier"), how="Ring loose on the bench."
    ),
    Feature(
        part="ring",
        name="width",
        title="Width, along the bore",
        wear="takes",
        family="ring width",
        spread=0.0005 * INCH,
        spread_origin=Origin("F", "from memory", "rings ground to half a thou"),
        gauges=("outside_mic", "vernier"),
        aliases=("ring width",),
        how="At four places round; the least counts.",
    ),
    Feature(
        part="ring",
        name="radial wall",
        title="Radial wall",
        wear="takes",
        family="ring thickness",
        gauges=("outside_mic", "vernier"),
        aliases=("radial thickness", "ring thickness"),
    ),
    Feature(
        part="ring",
        name="joint",
        title="Joint",
        dimension="words",
        unit="",
        aliases=("joint type",),
        how="Butt (straight), mitre (angle) or step (lap); and is it pegged?",
    ),
)

FEATURES: tuple[Feature, ...] = (*_CYLINDER, *_PISTON, *_RING)
BORE = _CYLINDER[0]
WALL = _CYLINDER[1]
SKIRT = _PISTON[0]

FITS = (
    Fit(
        name="piston in bore",
        hole=("cylinder", BORE.name),
        shaft=("piston", SKIRT.name),
        rules=as_rules("piston skirt clearance, cast iron", "piston skirt clearance, aluminium", "piston skirt clearance"),
    ),
    Fit(
        name="ring in groove",
        hole=("piston", "ring groove width"),
        shaft=("ring", "width"),
        rules=as_rules("ring side clearance"),
    ),
)
