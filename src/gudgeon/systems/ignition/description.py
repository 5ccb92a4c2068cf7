"""What can be measured on magneto, plugs, igniters and the timing of the crank: parts and features.

Events of the valves belong to the camshaft; here stand what fixes them to the crank: dead centre, rim, noses of the lobes.
"""

from __future__ import annotations

from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature

INCH = 0.0254
KEY = "ignition"
MAGNETO, PLUG, IGNITER, TIMING = "magneto", "spark plug", "igniter", "timing"
LOW_TENSION = ("igniter", "make-and-break", "make and break", "low-tension", "low tension")


def low_tension(outline: Outline) -> bool:
    """Does an igniter inside the cylinder make the spark?"""
    return any(word in outline.ignition.lower() for word in LOW_TENSION)


def _magnetos(outline: Outline) -> int | None:
    return 1 if "magneto" in f"{outline.ignition} {outline.magneto}".lower() else None


def _plugs(outline: Outline) -> int | None:
    return None if low_tension(outline) or not outline.ignition else outline.cylinders


def _igniters(outline: Outline) -> int | None:
    return outline.cylinders if low_tension(outline) else None


def _cylinders(outline: Outline) -> int | None:
    return outline.cylinders


PARTS = (
    PartKind(kind=MAGNETO, title="Magneto and its drive", count=_magnetos, item="magneto", material="steel 1020"),
    PartKind(kind=PLUG, title="Spark plug", count=_plugs, item="plug {n}", material="steel 1020"),
    PartKind(kind=IGNITER, title="Igniter", count=_igniters, item="igniter {n}", material="grey cast iron"),
    PartKind(kind=TIMING, title="Dead centre and rim", count=_cylinders, item="cyl {n}", material="grey cast iron"),
)


def _count(name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(
        part=MAGNETO, name=name, title=title, dimension="count", unit="1", gauges=("count",), how=how, aliases=aliases
    )


def _angle(part: str, name: str, title: str, unit: str = "deg", *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(
        part=part, name=name, title=title, dimension="angle", unit=unit, gauges=("degree_wheel",), how=how, aliases=aliases
    )


def _gap(part: str, name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(part=part, name=name, title=title, wear="adds", family="gap", gauges=("feeler",), how=how, aliases=aliases)


def _words(part: str, name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(part=part, name=name, title=title, dimension="words", unit="", how=how, aliases=aliases)


def _rim(name: str, title: str, *, how: str, aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(part=TIMING, name=name, title=title, gauges=("rule",), how=how, aliases=aliases)


RATIO = Feature(
    part=MAGNETO,
    name="turns per crank turn",
    title="Turns of the magneto for one turn of the crank",
    dimension="ratio",
    unit="ratio",
    aliases=("drive ratio", "magneto ratio"),
    how="Chalk both, turn the crank ten times, count; or by the teeth of the gears.",
)
SPARKS = _count(
    "sparks per turn",
    "Sparks for one turn of the armature",
    how="Turn the armature once by hand and count how often the points open.",
    aliases=("sparks", "points open per turn"),
)
LAG = _angle(
    MAGNETO,
    "impulse lag",
    "Lag of the impulse coupling",
    how="Degrees of the magneto shaft that the coupling holds back before it trips; often stamped on it.",
    aliases=("lag angle", "lag", "coupling lag"),
)
TRIPS = _angle(
    MAGNETO,
    "impulse trips",
    "Impulse trips, cylinder 1",
    "deg ATDC",
    how="Plug out, turned slowly by hand the way it runs, on the rim from true dead centre; negative where it trips before.",
    aliases=("impulse trip", "trips at"),
)
RUNS = _angle(
    MAGNETO,
    "spark when running",
    "Spark, advanced, running",
    "deg BTDC",
    how="Points just opening, lever at full advance, impulse not holding; or by a timing light.",
    aliases=("running advance", "full advance", "spark advanced"),
)
RETARDED = _angle(
    MAGNETO,
    "spark retarded",
    "Spark, fully retarded",
    "deg ATDC",
    how="Points just opening, lever at full retard.",
    aliases=("full retard", "spark fully retarded"),
)
PLAY = _angle(
    MAGNETO,
    "coupling play",
    "Play of the coupling, at the magneto",
    how="Crank held, magneto shaft rocked: the angle it turns free.",
    aliases=("coupling slack", "drive play"),
)
TEETH = _count(
    "coupling teeth",
    "Teeth or serrations of the coupling",
    how="Of the ring by which it can be set over.",
    aliases=("serrations",),
)
POINTS = _gap(
    MAGNETO,
    "contact point gap",
    "Point gap",
    how="Fully open, points dressed flat.",
    aliases=("point gap", "points gap", "points"),
)
AIR = _gap(
    MAGNETO,
    "magneto air gap",
    "Gap of the armature to the pole pieces",
    how="All round; nought on one side means worn bearings.",
    aliases=("air gap", "armature gap"),
)
LATCH = _gap(
    MAGNETO, "magneto latch overlap", "Overlap of the latch", aliases=("latch overlap",), how="Tripping magnetos only."
)
COUPLING = _words(
    MAGNETO, "coupling", "Kind and state of the coupling", how="Oldham, serrated, leather disc, impulse; cracks, worn lugs."
)
MAG_STATE = _words(
    MAGNETO,
    "condition",
    "Spark, windings, bearings, magnet",
    aliases=("state", "spark"),
    how="Spark across a quarter inch when spun by hand or not; rubbed armature; shellac run out.",
)
MAG_FEATURES = (RATIO, SPARKS, LAG, TRIPS, RUNS, RETARDED, PLAY, TEETH, POINTS, AIR, LATCH, COUPLING, MAG_STATE)

PLUG_GAP = _gap(
    PLUG, "plug gap", "Gap of the plug", aliases=("gap", "spark gap"), how="By a wire gauge where the points are worn hollow."
)
PLUG_STATE = _words(PLUG, "condition", "Insulator, soot, thread", aliases=("state",))
STRIKE = _gap(
    IGNITER, "igniter striking gap", "Lever to pin at rest", aliases=("striking gap",), how="Between hammer and pin, at rest."
)
SWING = _angle(IGNITER, "magneto swing", "Swing of the armature", aliases=("swing",), how="From rest to where it is let go.")
IGNITER_STATE = _words(IGNITER, "condition", "Points, mica, spindle", aliases=("state",))

RIM = _rim(
    "rim diameter",
    "Outside of the flywheel's rim",
    how="By tape round it, divided by 3.1416.",
    aliases=("flywheel diameter", "wheel diameter"),
)
STOP_BEFORE = _rim(
    "stop mark before",
    "Rim mark, piston against the stop, turning forward",
    how="Stop in the plug hole; mark the rim at a pointer; distance along the rim from a scratch on it, always one way round.",
    aliases=("stop mark forward",),
)
STOP_AFTER = _rim(
    "stop mark after",
    "Rim mark, piston against the stop, turning back",
    how="The same stop, wheel turned the other way round to it, from the same scratch.",
    aliases=("stop mark back",),
)
STOP_DEPTH = _rim(
    "stop depth",
    "How far down the stop holds the piston",
    how="From where the piston would stand at inner dead centre; about an inch.",
)
OLD_MARK = _rim(
    "old dead centre mark",
    "Mark on the rim that is said to be dead centre",
    how="From the same scratch.",
    aliases=("old mark", "dead centre mark"),
)
THROW = _angle(
    TIMING,
    "comes to inner centre",
    "Comes to inner dead centre after cylinder 1",
    how="Degrees of the crank, 0 to 360, the way it runs.",
    aliases=("throw", "crank throw at"),
)
LOBE_AFTER = _angle(
    TIMING,
    "exhaust lobe after cylinder 1",
    "Exhaust lobe follows that of cylinder 1",
    how="Degrees of the crank, 0 to 720, from cylinder 1's exhaust valve lifting to this one's.",
    aliases=("exhaust lobe after cyl 1",),
)
EXHAUST_NOSE = _angle(
    TIMING,
    "exhaust nose",
    "Exhaust lobe at its nose",
    "deg BTDC",
    how="Equal lifts either side of full lift, half way between; before the dead centre at which its stroke ends.",
    aliases=("exhaust full lift",),
)
INTAKE_NOSE = _angle(
    TIMING,
    "intake nose",
    "Inlet lobe at its nose",
    "deg ATDC",
    how="The same; after the dead centre at which its stroke starts.",
    aliases=("inlet nose", "intake full lift", "inlet full lift"),
)
TIMING_FEATURES = (
    RIM, STOP_BEFORE, STOP_AFTER, STOP_DEPTH, OLD_MARK, THROW, LOBE_AFTER, EXHAUST_NOSE, INTAKE_NOSE,
)  # fmt: skip

FEATURES: tuple[Feature, ...] = (
    *MAG_FEATURES, PLUG_GAP, PLUG_STATE, STRIKE, SWING, IGNITER_STATE, *TIMING_FEATURES,
)  # fmt: skip

GEAR_TEETH = Feature(part="gear", name="tooth count", title="Teeth", dimension="count", aliases=("teeth", "number of teeth"))
"""Teeth as they are counted under the gears: the drive ratio follows from them."""
ROD_LENGTH = Feature(
    part="rod", name="length between centres", title="Length between centres", aliases=("rod length", "centres")
)
LOBE_LIFT_AT = Feature(part="cam lobe", name="lift at", title="Lift at an angle", sized=True)
VALVE_LASH = Feature(
    part="valve", name="lash", title="Lash", aliases=("tappet clearance", "tappet gap", "valve clearance", "lash cold")
)
