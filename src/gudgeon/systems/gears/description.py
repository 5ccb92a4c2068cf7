"""What can be measured on gears and on pairs of gears: parts, features, places round and on the flank."""

from __future__ import annotations

import re

from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Level

INCH = 0.0254
KEY = "gears"
GEAR = "gear"
PAIR_WORDS = ("pair", "train", "mesh")
GEAR_WORDS = ("gear", "pinion", "idler", "wheel")


def is_pair(item: str) -> bool:
    """Does a name mean two gears together ("timing pair")?"""
    return any(word in item.lower() for word in PAIR_WORDS)


def _none(_: Outline) -> int | None:
    return None


def gear_names(outline: Outline) -> tuple[str, ...]:
    """The gears that the outline names ("crank 24, cam 48"), else crank and cam gear, with the pair that they make."""
    named = [f"{word} gear" for word in re.findall(r"([a-z]+)\s+\d+", outline.gears.lower())]
    found = list(dict.fromkeys(named)) or (["crank gear", "cam gear"] if outline.cylinders else [])
    if "gear" in outline.magneto.lower() and "magneto gear" not in found and found:
        found.append("magneto gear")
    return (*found, "timing pair") if found else ()


PARTS = (PartKind(kind=GEAR, title="Gear", count=_none, item="gear {n}", material="grey cast iron", names=gear_names),)

ROUND = (
    Level(name="P", hint="one place, with a chalk mark"),
    Level(name="Q", hint="a third of the way round"),
    Level(name="R", hint="two thirds round"),
)
FOUR = (
    Level(name="at the marks", words=("marks", "0", "top"), hint="timing marks together"),
    Level(name="a quarter on", words=("quarter", "90"), hint="cam gear turned a quarter on"),
    Level(name="half on", words=("half", "180"), hint="half a turn on"),
    Level(name="three quarters on", words=("three quarters", "270"), hint="three quarters on"),
)
FLANK = (
    Level(name="at the pitch line", words=("pitch line", "middle"), hint="half way up the tooth: the usual place of pits"),
    Level(name="above it", words=("addendum", "above the pitch line", "towards the tip"), hint="between pitch line and tip"),
    Level(name="below it", words=("dedendum", "below the pitch line", "towards the root"), hint="between pitch line and root"),
)

_GEAR = {"part": GEAR, "of": GEAR_WORDS}
_PAIR = {"part": GEAR, "of": PAIR_WORDS}

TEETH = Feature(
    name="tooth count",
    title="Teeth",
    dimension="count",
    unit="1",
    gauges=("count",),
    aliases=("teeth", "number of teeth", "count of teeth"),
    how="Twice, from a chalk mark.",
    **_GEAR,  # type: ignore[arg-type]
)
OUTSIDE = Feature(
    name="outside diameter",
    title="Outside diameter",
    wear="takes",
    gauges=("outside_mic", "vernier"),
    directions=(0.0, 90.0),
    aliases=("od", "diameter over teeth", "tip diameter"),
    how="On an edge of the face that never ran. An odd count has no tooth opposite: read from the bore to a tip, twice that.",
    **_GEAR,  # type: ignore[arg-type]
)
ROOT = Feature(
    name="root diameter",
    title="Root diameter",
    wear="none",
    gauges=("vernier", "outside_mic"),
    aliases=("bottom diameter", "diameter at the roots"),
    how="Space to space opposite, knife jaws; the roots never touched the mate.",
    **_GEAR,  # type: ignore[arg-type]
)


def _span(spanned: int, *, of: tuple[str, ...]) -> Feature:
    return Feature(
        part=GEAR,
        of=of,
        name=f"span over {spanned} teeth",
        title=f"Span over {spanned} teeth",
        wear="takes",
        levels=ROUND,
        gauges=("disc micrometer", "vernier"),
        how="Flat jaws on the flanks, near the middle of their height; this number and the next tell the pressure angle.",
    )


_SMALL, _LARGE = ("crank", "pinion", "magneto", "small"), ("cam", "idler", "large")
ASKED_SPANS = (_span(2, of=_SMALL), _span(3, of=_SMALL), _span(4, of=_LARGE), _span(5, of=_LARGE))
SPAN = Feature(
    name="span over",
    title="Span over some teeth",
    wear="takes",
    levels=ROUND,
    gauges=("disc micrometer", "vernier"),
    sized=True,
    how="Teeth x angle / 180, and one more.",
    **_GEAR,  # type: ignore[arg-type]
)
PINS = Feature(
    name="over pins of",
    title="Over pins",
    wear="takes",
    gauges=("wires", "outside_mic"),
    sized=True,
    how="Pins of about 1.7 times the module in opposite spaces.",
    **_GEAR,  # type: ignore[arg-type]
)
CHORD = Feature(
    name="chordal thickness",
    title="Thickness of a tooth at the pitch line, straight across",
    wear="takes",
    levels=ROUND,
    gauges=("gear tooth caliper", "vernier"),
    aliases=("tooth thickness", "chordal tooth thickness"),
    how="Gear-tooth calliper, its blade on the tip: say what depth it was set to in the note.",
    **_GEAR,  # type: ignore[arg-type]
)
FACE = Feature(
    name="face width",
    title="Width of face",
    family="length",
    gauges=("vernier", "rule"),
    aliases=("face", "width"),
    **_GEAR,  # type: ignore[arg-type]
)
TOUCHING = Feature(
    name="width in contact",
    title="How much of the face has been running",
    gauges=("rule", "vernier"),
    aliases=("contact width", "bright width"),
    how="The bright band; less than the face where the gears stand out of line.",
    **_GEAR,  # type: ignore[arg-type]
)
BORE = Feature(
    name="bore diameter",
    title="Bore",
    wear="adds",
    family="hole",
    directions=(0.0, 90.0),
    gauges=("telescoping_gauge", "inside_mic", "vernier"),
    aliases=("bore", "hub bore"),
    **_GEAR,  # type: ignore[arg-type]
)
HUB = Feature(
    name="hub diameter",
    title="Hub diameter",
    family="length",
    gauges=("vernier",),
    aliases=("hub", "boss diameter"),
    **_GEAR,  # type: ignore[arg-type]
)
THROUGH = Feature(
    name="hub length",
    title="Length through the bore",
    family="length",
    gauges=("vernier", "rule"),
    aliases=("length through bore", "hub width"),
    **_GEAR,  # type: ignore[arg-type]
)
KEYWAY = Feature(
    name="keyway width",
    title="Keyway, width",
    wear="adds",
    family="ring width",
    gauges=("vernier", "feeler"),
    aliases=("key width", "keyway"),
    **_GEAR,  # type: ignore[arg-type]
)
KEYWAY_DEPTH = Feature(
    name="keyway depth",
    title="Keyway, depth at its side",
    family="gap",
    gauges=("depth_gauge", "vernier"),
    **_GEAR,  # type: ignore[arg-type]
)
RUNOUT = Feature(
    name="pitch-line run-out",
    title="Run-out, over a pin laid in the spaces",
    wear="adds",
    family="gap",
    gauges=("dial_indicator",),
    aliases=("run-out", "runout", "eccentricity"),
    how="On its own shaft; the whole movement of the pointer.",
    **_GEAR,  # type: ignore[arg-type]
)
CHIPPED = Feature(
    name="chipped share of face",
    title="Chips: share of the face gone on the worst tooth",
    dimension="ratio",
    unit="%",
    gauges=("rule",),
    aliases=("chip", "chips", "chipped"),
    how="Length of the largest chip over the width of face; 0 where there is none.",
    **_GEAR,  # type: ignore[arg-type]
)
PITTED = Feature(
    name="pitted share of face",
    title="Pits: share of the flank pitted on the worst tooth",
    dimension="ratio",
    unit="%",
    levels=FLANK,
    gauges=("rule",),
    aliases=("pitting", "pits", "pitted"),
    how="By eye, a tenth at a time; say where on the flank.",
    **_GEAR,  # type: ignore[arg-type]
)
CRACK = Feature(
    name="crack",
    title="Cracks: tooth roots, web, hub at the keyway",
    dimension="words",
    unit="",
    aliases=("cracks", "crack test"),
    how="Kerosene and chalk, or ring it; none seen is a reading.",
    **_GEAR,  # type: ignore[arg-type]
)
MATERIAL = Feature(
    name="material",
    title="Material",
    dimension="words",
    unit="",
    how="Cast iron, steel, bronze, fibre: spark, chip and magnet.",
    **_GEAR,  # type: ignore[arg-type]
)
HARDNESS = Feature(
    name="hardness",
    title="Hardness of a flank",
    dimension="hardness",
    unit="HB",
    how="A file that bites says soft.",
    **_GEAR,  # type: ignore[arg-type]
)
TORQUE = Feature(
    name="torque to turn",
    title="Torque that it takes to drive",
    dimension="torque",
    unit="lb in",
    gauges=("spring balance",),
    aliases=("torque", "drive torque", "torque carried"),
    how="A spring balance on an arm, springs and followers fitted, magneto and pump on: the most in one turn of this gear.",
    **_GEAR,  # type: ignore[arg-type]
)
MARKS = Feature(
    name="timing marks",
    title="Timing marks",
    dimension="words",
    unit="",
    aliases=("marks",),
    how="Which tooth, which space, stamped how; none found is a reading.",
    **_GEAR,  # type: ignore[arg-type]
)
CENTRE = Feature(
    name="centre distance",
    title="Distance of the shafts' centres",
    wear="none",
    gauges=("vernier", "outside_mic", "inside_mic"),
    aliases=("center distance", "centres", "centers"),
    how="Over mandrels in the bearings as they will run, less half of each.",
    **_PAIR,  # type: ignore[arg-type]
)
BACKLASH = Feature(
    name="backlash at pitch line",
    title="Backlash at the pitch line",
    wear="adds",
    family="gap",
    levels=FOUR,
    gauges=("dial_indicator", "feeler", "lead"),
    aliases=("backlash", "back lash", "play at the pitch line"),
    how="One gear held, pointer square to a tooth at the pitch line of the other; four places round the larger gear.",
    **_PAIR,  # type: ignore[arg-type]
)

FEATURES = (
    TEETH, OUTSIDE, ROOT, *ASKED_SPANS, SPAN, PINS, CHORD, FACE, TOUCHING, BORE, HUB, THROUGH, KEYWAY, KEYWAY_DEPTH, RUNOUT,
    CHIPPED, PITTED, CRACK, MATERIAL, HARDNESS, TORQUE, MARKS, CENTRE, BACKLASH,
)  # fmt: skip
