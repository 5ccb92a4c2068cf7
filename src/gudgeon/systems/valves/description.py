"""What can be measured on valves, their guides, seats and springs: parts, features, levels.

A valve's guide, seat and lash are read under the valve that belongs there ("exhaust 2, guide bore"), as people write them.
"""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit, Level
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "valves"
VALVE, SPRING = "valve", "valve_spring"

_SPREAD = 0.0005 * INCH
_SPREAD_ORIGIN = Origin("F", "from memory", "stems ground and guides reamed to about half a thou")


def valve_names(outline: Outline) -> tuple[str, ...]:
    """Names of the valves to expect: "intake 1", "exhaust 1", "intake 2" ..., one of each to a cylinder; common practice."""
    return tuple(f"{kind} {n}" for n in range(1, (outline.cylinders or 0) + 1) for kind in ("intake", "exhaust"))


def spring_names(outline: Outline) -> tuple[str, ...]:
    """Names of the springs to expect: "intake 1 spring" ..."""
    return tuple(f"{valve} spring" for valve in valve_names(outline))


def _count(outline: Outline) -> int | None:
    return None if outline.cylinders is None else 2 * outline.cylinders


PARTS = (
    PartKind(kind=VALVE, title="Valve", count=_count, item="valve {n}", material="steel 1040", names=valve_names),
    PartKind(kind=SPRING, title="Valve spring", count=_count, item="spring {n}", material="steel 1040", names=spring_names),
)

STEM_LEVELS = (
    Level(
        name="top of guide",
        wear="most",
        words=("head end", "near the head", "under the head", "top"),
        hint="where the head's end of the guide rubs, carbon off",
    ),
    Level(name="middle", wear="some", words=("middle of guide", "mid"), hint="half way down the guide"),
    Level(
        name="keeper end",
        wear="unworn",
        words=("below the guide", "spring end", "tappet end", "cotter end", "out of the guide"),
        hint="between guide and keeper, where nothing rubs: the size when new",
    ),
)
GUIDE_LEVELS = (
    Level(name="top", wear="most", words=("head end", "top of guide"), hint="head end, a stem's width in"),
    Level(name="middle", wear="some", words=("mid",), hint="half way"),
    Level(name="bottom", wear="some", words=("spring end", "keeper end", "bottom of guide"), hint="spring end"),
)

STEM = Feature(
    part=VALVE,
    name="stem diameter",
    title="Stem diameter",
    wear="takes",
    family="stem",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    levels=STEM_LEVELS,
    gauges=("outside_mic", "outside_mic_coarse", "vernier"),
    aliases=("stem", "valve stem"),
    material="steel 1040",
    how="At three heights; turn it and take the least. The keeper end was never in the guide.",
)
GUIDE = Feature(
    part=VALVE,
    name="guide bore",
    title="Guide bore",
    wear="adds",
    family="guide",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    levels=GUIDE_LEVELS,
    gauges=("telescoping_gauge", "inside_mic", "vernier"),
    rework="bushed",
    aliases=("guide", "guide diameter", "valve guide bore"),
    material="grey cast iron",
    how="Cleaned of carbon; along and across the rocker's pull, take the most. A small-hole gauge is best.",
)
GUIDE_LENGTH = Feature(
    part=VALVE,
    name="guide length",
    title="Length of the guide",
    gauges=("depth_gauge", "rule"),
    how="A bush is made to it.",
)
LASH = Feature(
    part=VALVE,
    name="lash",
    title="Lash, cold",
    wear="adds",
    family="gap",
    gauges=("feeler",),
    aliases=("tappet clearance", "tappet gap", "valve clearance", "lash cold"),
    how="Engine cold, follower on the heel of its cam; turn the engine and take the least.",
)
LASH_HOT = Feature(
    part=VALVE,
    name="lash hot",
    title="Lash, hot",
    family="gap",
    gauges=("feeler",),
    aliases=("hot lash",),
    how="As soon as it is stopped after a run under load.",
)
HEAD = Feature(
    part=VALVE,
    name="head diameter",
    title="Head diameter",
    family="valve head",
    gauges=("vernier", "outside_mic"),
    aliases=("valve head", "head"),
)
PORT = Feature(
    part=VALVE,
    name="port diameter",
    title="Port diameter, at the throat",
    family="valve head",
    gauges=("vernier", "inside_mic"),
    aliases=("port", "throat diameter", "throat"),
)
FACE_ANGLE = Feature(
    part=VALVE,
    name="face angle",
    title="Face angle, from flat",
    dimension="angle",
    unit="deg",
    gauges=("protractor",),
    aliases=("valve face angle",),
    how="From square across the stem: 45 or 30 is usual.",
)
SEAT_ANGLE = Feature(
    part=VALVE, name="seat angle", title="Seat angle, from flat", dimension="angle", unit="deg", gauges=("protractor",)
)
SEAT_WIDTH = Feature(
    part=VALVE,
    name="seat width",
    title="Seat width",
    wear="adds",
    family="gap",
    gauges=("vernier", "rule"),
    aliases=("width of seat",),
    how="Of the blue ring that the seat leaves on the face, at its widest.",
)
SEAT_PLACE = Feature(
    part=VALVE,
    name="blue ring from edge of face",
    title="Blue ring, from the outer edge of the face",
    family="gap",
    gauges=("vernier", "rule"),
    aliases=("seat place", "contact from edge"),
    how="Blue the seat lightly, turn the valve a little: how far the ring stands from the outer edge of the face.",
)
MARGIN = Feature(
    part=VALVE,
    name="margin",
    title="Margin: the upright edge above the face",
    wear="takes",
    family="gap",
    gauges=("vernier", "rule"),
    aliases=("head margin", "edge", "rim"),
    how="At its thinnest.",
)
FACE_PITS = Feature(
    part=VALVE,
    name="face pit depth",
    title="Depth of pits and groove in the face",
    wear="adds",
    family="gap",
    gauges=("depth_gauge", "dial_indicator", "feeler"),
    aliases=("pit depth", "face groove depth", "face wear"),
    how="The deepest, square to the face; nought where it is clean.",
)
SEAT_PITS = Feature(
    part=VALVE,
    name="seat pit depth",
    title="Depth of pits in the seat",
    wear="adds",
    family="gap",
    gauges=("depth_gauge", "dial_indicator", "feeler"),
    aliases=("pits in seat",),
    how="The deepest, square to the seat; nought where it is clean.",
)
POCKET = Feature(
    part=VALVE,
    name="pocket depth",
    title="How deep the head lies in its pocket",
    wear="adds",
    family="gap",
    gauges=("depth_gauge", "vernier"),
    aliases=("sunk depth", "head below face", "recession"),
    how="From the casting's face by the pocket down to the top of the closed valve's head.",
)
FACE_RUNOUT = Feature(
    part=VALVE,
    name="face run-out",
    title="Run-out of the face",
    wear="adds",
    family="gap",
    gauges=("dial_indicator",),
    aliases=("face runout", "head run-out"),
    how="Stem turned in vee blocks, indicator square to the face.",
)
SEAT_RUNOUT = Feature(
    part=VALVE,
    name="seat run-out",
    title="Run-out of the seat",
    wear="adds",
    family="gap",
    gauges=("dial_indicator",),
    aliases=("seat runout",),
    how="Indicator on a pilot in the guide.",
)
SEAT_METAL = Feature(
    part=VALVE,
    name="metal under seat",
    title="Metal under the seat",
    gauges=("ultrasonic", "depth_gauge"),
    aliases=("wall under seat",),
    how="Only where a seat insert is thought of: sounded all round, down to the water.",
)
LIFT = Feature(
    part=VALVE,
    name="valve lift",
    title="Lift of the valve",
    family="gap",
    wear="takes",
    gauges=("dial_indicator", "vernier"),
    aliases=("lift",),
    how="From seat to fully open, with the lash as it is.",
)
STEM_LENGTH = Feature(
    part=VALVE,
    name="stem length",
    title="Length over all",
    wear="takes",
    family="length",
    gauges=("vernier", "rule"),
    aliases=("valve length", "length"),
)
MASS = Feature(
    part=VALVE,
    name="mass",
    title="Weight, with keeper and washer",
    dimension="mass",
    unit="oz",
    gauges=("balance",),
    aliases=("weight",),
)
KEEPER = Feature(
    part=VALVE,
    name="keeper",
    title="How the spring is kept",
    dimension="words",
    unit="",
    how="Cotter through a slot, nut, split collar, pin; with its sizes in words.",
)
LEAK = Feature(
    part=VALVE,
    name="leak test",
    title="Leak test of the seat",
    dimension="words",
    unit="",
    aliases=("kerosene test", "paraffin test"),
    how="Spring fitted, kerosene in the port or on the head: tight, or how soon it weeps.",
)
CONDITION = Feature(
    part=VALVE,
    name="condition",
    title="Cracks, burning, bends",
    dimension="words",
    unit="",
    aliases=("crack", "state"),
    how="Sound, or what: burnt edge, crack from the head, bent stem, cracked seat bridge.",
)
ROCKER = Feature(
    part=VALVE,
    name="rocker ratio",
    title="Ratio of the rocker, valve side over cam side",
    dimension="ratio",
    unit="ratio",
    aliases=("rocker arm ratio",),
    how="1 where the tappet pushes the valve.",
)

FREE = Feature(
    part=SPRING,
    name="free length",
    title="Free length",
    wear="takes",
    family="spring length",
    gauges=("rule", "vernier"),
    how="Standing loose.",
)
FITTED = Feature(
    part=SPRING,
    name="fitted length",
    title="Length with the valve shut",
    family="length",
    gauges=("rule", "vernier"),
    aliases=("closed length", "installed height"),
    how="Between its seats.",
)
OPEN = Feature(
    part=SPRING,
    name="open length",
    title="Length with the valve open",
    family="length",
    gauges=("rule", "vernier"),
    how="Fitted length less the lift.",
)
_FORCE = {"part": SPRING, "dimension": "force", "unit": "lbf", "gauges": ("spring_tester_lbf",)}
FORCE_FITTED = Feature(
    name="force at fitted length",
    title="Force at the fitted length",
    aliases=("force closed", "fitted force"),
    how="Come to the length from above and from below.",
    **_FORCE,  # type: ignore[arg-type]
)
FORCE_OPEN = Feature(name="force at open length", title="Force at the open length", aliases=("force open",), **_FORCE)  # type: ignore[arg-type]
FORCE_AT = Feature(name="force at", title="Force at a length", sized=True, **_FORCE)  # type: ignore[arg-type]
WIRE = Feature(
    part=SPRING,
    name="wire diameter",
    title="Wire",
    family="wire",
    gauges=("outside_mic", "vernier"),
    aliases=("wire",),
    how="Over clean metal, paint and rust off: one thou is 2 or 3 % of the force.",
)
OUTSIDE = Feature(
    part=SPRING,
    name="outside diameter",
    title="Outside diameter",
    family="length",
    gauges=("vernier", "outside_mic"),
    aliases=("coil diameter",),
)
COILS = Feature(
    part=SPRING,
    name="total coils",
    title="Coils, all of them",
    dimension="ratio",
    unit="ratio",
    gauges=("count",),
    aliases=("coils", "number of coils", "turns"),
    how="From tip to tip of the wire, to a quarter: 6.25.",
)
ENDS = Feature(
    part=SPRING,
    name="ends",
    title="Ends",
    dimension="words",
    unit="",
    how="Closed or open, ground flat or not.",
)
LEAN = Feature(
    part=SPRING,
    name="out of square",
    title="Out of square, at the top",
    wear="adds",
    family="gap",
    gauges=("feeler", "rule"),
    aliases=("lean", "squareness"),
    how="Stood on a plate against a square, turned to its worst.",
)
STATE = Feature(
    part=SPRING,
    name="condition",
    title="Rust, cracks, rubbed coils",
    dimension="words",
    unit="",
    aliases=("state",),
    how="A rust pit is where it will break.",
)

FEATURES: tuple[Feature, ...] = (
    STEM, GUIDE, GUIDE_LENGTH, LASH, LASH_HOT, LIFT, ROCKER, HEAD, PORT, FACE_ANGLE, SEAT_ANGLE, SEAT_WIDTH, SEAT_PLACE,
    MARGIN, FACE_PITS, SEAT_PITS, POCKET, SEAT_METAL, FACE_RUNOUT, SEAT_RUNOUT, STEM_LENGTH, MASS, KEEPER, LEAK, CONDITION,
    FREE, FITTED, FORCE_FITTED, OPEN, FORCE_OPEN, FORCE_AT, WIRE, OUTSIDE, COILS, ENDS, LEAN, STATE,
)  # fmt: skip

FITS = (Fit(name="stem in guide", hole=(VALVE, GUIDE.name), shaft=(VALVE, STEM.name), rules=as_rules("stem clearance")),)
