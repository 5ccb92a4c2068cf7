"""What can be measured on troughs, dippers, oil pump, oilers and the oil: parts and features."""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "oiling"
TROUGH, PUMP, OILER, OIL = "trough", "oil pump", "oiler", "oil"

_NEWALL = Origin(
    "E",
    "Turning and Boring (1914), ch. III, Newall limits",
    "running fit Z, to 1/2 in: .0007 wide, taken as even over its width",
)


def _troughs(outline: Outline) -> int | None:
    return outline.cylinders if "splash" in outline.oiling.lower() or "trough" in outline.oiling.lower() else None


def _pumps(outline: Outline) -> int | None:
    return 1 if any(word in outline.oiling.lower() for word in ("pump", "plunger", "forced", "pressure")) else None


def _oilers(outline: Outline) -> int | None:
    drips = any(word in outline.oiling.lower() for word in ("drip", "sight", "oiler", "cup"))
    return outline.cylinders if drips else None


def _oil(outline: Outline) -> int | None:
    return 1 if outline.oiling else None


PARTS = (
    PartKind(kind=TROUGH, title="Trough and dipper", count=_troughs, item="trough {n}", material="steel 1020"),
    PartKind(kind=PUMP, title="Oil pump", count=_pumps, item="oil pump", material="grey cast iron"),
    PartKind(kind=OILER, title="Drip oiler", count=_oilers, item="oiler {n}", material="brass C36000"),
    PartKind(kind=OIL, title="Oil", count=_oil, item="oil", material="steel 1020"),
)


def _length(part: str, name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(part=part, name=name, title=title, gauges=("vernier", "rule"), how=how, aliases=aliases)


def _gap(name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(
        part=PUMP, name=name, title=title, wear="adds", family="gap", gauges=("feeler", "depth_gauge"), how=how, aliases=aliases
    )


def _words(part: str, name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(part=part, name=name, title=title, dimension="words", unit="", how=how, aliases=aliases)


DEPTH = _length(
    TROUGH, "oil depth", "Oil in the trough, at its overflow", how="From the floor up to the overflow, engine level.",
    aliases=("overflow height", "trough depth"),
)  # fmt: skip
TIP = _length(
    TROUGH, "dipper tip above floor", "Dipper's tip above the floor, at outer centre",
    how="Crank at its lowest; by a lump of grease on the floor.", aliases=("dipper height", "tip above floor"),
)  # fmt: skip
TROUGH_LONG = _length(TROUGH, "trough length", "Trough, long way")
TROUGH_WIDE = _length(TROUGH, "trough width", "Trough, across")
TROUGH_STATE = _words(
    TROUGH, "condition", "Dipper and trough",
    how="Bent, facing the way it runs, hole through to the bearing clear; trough tight.",
    aliases=("state", "dipper"),
)  # fmt: skip

KIND = _words(PUMP, "kind", "Kind of pump", how="Gear, plunger, vane; what drives it.", aliases=("type",))
GEAR_OUTSIDE = _length(PUMP, "gear outside diameter", "Gears, outside", aliases=("gear diameter",))
GEAR_CENTRES = _length(PUMP, "gear centre distance", "Gears, between centres", aliases=("centre distance",))
GEAR_WIDTH = _length(PUMP, "gear width", "Gears, width", aliases=("face width",))
TEETH = Feature(
    part=PUMP,
    name="gear tooth count",
    title="Teeth of one gear",
    dimension="count",
    unit="1",
    gauges=("count",),
    aliases=("teeth",),
)
TIP_GAP = _gap(
    "oil pump tip clearance", "Gear tips to the body", how="Feeler between tip and body, on the suction side too; the most.",
    aliases=("tip clearance", "gear to body"),
)  # fmt: skip
SIDE_GAP = _gap(
    "oil pump side clearance", "Gears to the cover",
    how="Straight edge across the body, feeler under it, with the gasket that is used.",
    aliases=("cover clearance", "end clearance", "side clearance"),
)  # fmt: skip
PLUNGER = Feature(
    part=PUMP, name="plunger diameter", title="Plunger", wear="takes", family="shaft", spread=0.0007 / 12**0.5 * INCH,
    spread_origin=_NEWALL, gauges=("outside_mic", "vernier"), aliases=("plunger",),
    how="Where it is worn, and where it is not.",
)  # fmt: skip
BARREL = Feature(
    part=PUMP, name="barrel bore", title="Barrel", wear="adds", family="hole", spread=0.0007 / 12**0.5 * INCH,
    spread_origin=_NEWALL, gauges=("telescoping_gauge", "inside_mic", "vernier"), aliases=("pump barrel", "barrel"),
)  # fmt: skip
STROKE = _length(PUMP, "plunger stroke", "Stroke of the plunger", aliases=("stroke",))
PLUNGER_LENGTH = _length(PUMP, "plunger length", "Plunger, length over all")
RATIO = Feature(
    part=PUMP, name="turns per crank turn", title="Turns or strokes for one turn of the crank", dimension="ratio", unit="ratio",
    aliases=("drive ratio", "strokes per crank turn"), how="Half for a pump off the camshaft.",
)  # fmt: skip
DELIVERED = Feature(
    part=PUMP, name="delivery of 100 turns", title="Delivered in 100 turns or strokes of the pump", dimension="volume",
    unit="cc", gauges=("burette_cc",), aliases=("delivery", "oil in 100 strokes"),
    how="Warm thin oil, into a measure, pipe off.",
)  # fmt: skip
PRESSURE = Feature(
    part=PUMP,
    name="pressure",
    title="Pressure, hot, at rated speed",
    dimension="pressure",
    unit="psi",
    aliases=("oil pressure",),
)
VALVES = _words(
    PUMP, "check valves", "Check valves", how="Seat, ball, spring; holds oil or not.", aliases=("check valve", "valves")
)
PUMP_STATE = _words(PUMP, "condition", "Scored, sucked air, gauze", aliases=("state", "strainer"))

DRIP = Feature(
    part=OILER, name="drip", title="Drops a minute", dimension="drip rate", unit="drops/min", gauges=("count",),
    aliases=("drip rate", "drops"), how="At work, oil warm: count for a minute.",
)  # fmt: skip
FEEDS = _words(OILER, "feeds", "What it feeds", how="Cylinder, main bearing, rod by a banjo.", aliases=("use",))
OILER_STATE = _words(OILER, "condition", "Glass, needle, check valve", aliases=("state",))

GRADE = _words(OIL, "grade", "Grade in use", how="SAE 30 and so on, or what the can says.", aliases=("oil grade",))
USED = Feature(
    part=OIL, name="oil used in an hour", title="Used up in an hour at work", dimension="volume", unit="cc",
    gauges=("burette_cc",), aliases=("consumption",),
)  # fmt: skip
WARM = Feature(
    part=OIL, name="oil temperature", title="Oil at work", dimension="temperature", unit="degF", gauges=("thermometer",),
    aliases=("temperature",),
)  # fmt: skip
SMOKE = _words(
    OIL, "smoke", "Smoke at the exhaust", how="None, blue haze, light puffs; from which cylinder.", aliases=("exhaust smoke",)
)

FEATURES: tuple[Feature, ...] = (
    DEPTH, TIP, TROUGH_LONG, TROUGH_WIDE, TROUGH_STATE, KIND, GEAR_OUTSIDE, GEAR_CENTRES, GEAR_WIDTH, TEETH, TIP_GAP, SIDE_GAP,
    PLUNGER, BARREL, STROKE, PLUNGER_LENGTH, RATIO, DELIVERED, PRESSURE, VALVES, PUMP_STATE, DRIP, FEEDS, OILER_STATE, GRADE,
    USED, WARM, SMOKE,
)  # fmt: skip

ROD_DIP = Feature(
    part="rod", name="dip", title="Depth that the dipper goes in", aliases=("dipper depth", "dipper dip", "depth of dip")
)
"""The dip as it is read under the rod, by how far the dipper comes out wet."""

FITS = (
    Fit(
        name="oil pump plunger in its barrel",
        hole=(PUMP, BARREL.name),
        shaft=(PUMP, PLUNGER.name),
        rules=as_rules("oil pump plunger clearance"),
    ),
)
