"""What can be measured on crankpins, rod bearings and rods: parts, features, levels and directions.

The words are those of the bench sheet and the CSV: crankpin 1, journal diameter; crankpin bearing 1, vertical clearance; rod 1,
rod side play.
"""

from __future__ import annotations

from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit
from gudgeon.systems.journals import CRANKPIN
from gudgeon.systems.judging import as_rules
from gudgeon.systems.poured import bearing_features

KEY = "bearings"
ROD_BEARING, ROD = "crankpin bearing", "rod"


def _cylinders(outline: Outline) -> int | None:
    return outline.cylinders


def bearing_names(outline: Outline) -> tuple[str, ...]:
    """Names of the rod bearings and rods to expect: "crankpin bearing 1", "rod 1" ..."""
    numbers = range(1, (outline.cylinders or 0) + 1)
    return tuple(name for n in numbers for name in (f"{ROD_BEARING} {n}", f"{ROD} {n}"))


PARTS = (
    PartKind(kind="crankpin", title="Crankpin", count=_cylinders, item="crankpin {n}", material="steel"),
    PartKind(
        kind="bearing",
        title="Rod bearing",
        count=_cylinders,
        item="crankpin bearing {n}",
        material="tin babbitt grade 2",
        names=bearing_names,
    ),
    PartKind(kind="rod", title="Connecting rod", count=_cylinders, item="rod {n}", material="steel"),
)

PIN = CRANKPIN

_CRANKPIN = (
    PIN,
    Feature(
        part="crankpin",
        name="length",
        title="Length between the cheeks",
        gauges=("vernier", "inside_mic", "rule"),
        aliases=("pin length", "journal length"),
    ),
    Feature(
        part="crankpin",
        name="fillet radius",
        title="Fillet at the cheeks",
        gauges=("rule",),
        aliases=("fillet",),
        how="By radius gauge; the least of both ends. A shaft breaks where a fillet was ground away.",
    ),
    Feature(
        part="crankpin",
        name="surface",
        title="Surface: scores, rust, cracks",
        dimension="words",
        unit="",
        aliases=("condition", "crack", "cracks", "scores"),
        how="None, or what and where. A finger nail feels half a thou.",
    ),
)

_ROD = (
    Feature(
        part="bearing",
        of=(ROD,),
        name="rod side play",
        family="gap",
        title="Side play of the rod on its pin",
        wear="adds",
        gauges=("feeler",),
        aliases=("side play", "side clearance", "rod side clearance", "side float"),
        how="Feeler between rod and cheek, rod pushed over.",
    ),
    Feature(
        part="rod",
        name="bend",
        family="gap",
        title="Bend: difference between the ends of the pin arbor",
        gauges=("dial_indicator", "feeler"),
        aliases=("rod bend", "out of parallel"),
        how="Arbors in both ends, big end in vee blocks, rod upright: height of the small arbor at one end less the other.",
    ),
    Feature(
        part="rod",
        name="twist",
        family="gap",
        title="Twist: feeler under one block",
        gauges=("feeler", "dial_indicator"),
        aliases=("rod twist",),
        how="Rod laid level, both arbors on matched blocks: what goes under the one that does not touch.",
    ),
    Feature(
        part="rod",
        name="arbor span",
        family="gap",
        title="Distance between the two places read, or the blocks",
        gauges=("rule", "vernier"),
        aliases=("span", "block spacing"),
        how="Bend and twist mean nothing without it.",
    ),
    Feature(
        part="rod",
        name="length between centres",
        title="Length between centres",
        gauges=("vernier", "rule"),
        aliases=("rod length", "centres"),
    ),
    Feature(
        part="rod",
        name="dip",
        family="gap",
        title="Depth that the dipper goes into the oil",
        gauges=("rule", "depth_gauge"),
        aliases=("dipper depth", "dipper dip", "depth of dip"),
        how="Crank at outer dead centre, oil at its working level: wipe the dipper, turn once, see how far it is wet.",
    ),
)

BEARING_FEATURES = bearing_features(of=ROD_BEARING, journal="pin")
FEATURES: tuple[Feature, ...] = (*_CRANKPIN, *BEARING_FEATURES, *_ROD)
BY_NAME = {feature.name: feature for feature in BEARING_FEATURES}
SIDE_PLAY, BEND, TWIST, SPAN, CENTRES, DIP = _ROD
PIN_LENGTH, FILLET, SURFACE = _CRANKPIN[1:]

FITS = (
    Fit(
        name="rod on its pin",
        hole=("bearing", "bore"),
        shaft=("crankpin", PIN.name),
        rules=as_rules("babbitt bearing clearance"),
    ),
)
