"""What can be measured on crankshaft and mains: parts, features, levels and directions.

The words are those of the bench sheet and the CSV: main 1, journal diameter; main bearing 1, vertical clearance; crankshaft,
crank end play. Run-out is written with the direction of its high spot, 0 being the throw of the first crank.
"""

from __future__ import annotations

from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit
from gudgeon.systems.journals import MAIN as MAIN_JOURNAL
from gudgeon.systems.judging import as_rules
from gudgeon.systems.poured import bearing_features

KEY = "crankshaft"
MAIN_BEARING, SHAFT = "main bearing", "crankshaft"


def _mains(outline: Outline) -> int | None:
    """Main bearings: as the outline says; one more than there are throws is not taken for granted."""
    return outline.main_bearings


def _cylinders(outline: Outline) -> int | None:
    return outline.cylinders


def _one(outline: Outline) -> int | None:
    return 1 if outline.cylinders else None


def bearing_names(outline: Outline) -> tuple[str, ...]:
    """Names of the mains to expect, and the crankshaft for its end play."""
    names = tuple(f"{MAIN_BEARING} {n}" for n in range(1, (outline.main_bearings or 0) + 1))
    return (*names, SHAFT) if outline.cylinders else names


PARTS = (
    PartKind(kind="main", title="Main journal", count=_mains, item="main {n}", material="steel"),
    PartKind(
        kind="bearing",
        title="Main bearing",
        count=_mains,
        item="main bearing {n}",
        material="tin babbitt grade 2",
        names=bearing_names,
    ),
    PartKind(kind="throw", title="Throw", count=_cylinders, item="throw {n}", material="steel"),
    PartKind(kind="crankshaft", title="Crankshaft", count=_one, item="crankshaft", material="steel"),
)

MAIN = MAIN_JOURNAL
RUN_OUT = Feature(
    part="main",
    name="run-out",
    title="Run-out, low to high, and where it is high",
    family="gap",
    gauges=("dial_indicator",),
    aliases=("runout", "run out", "total indicator reading", "tir"),
    how="Crank in vee blocks at its end mains, or between centres. Write what the dial moves in one turn, in the direction "
    "column where it is high (0 at the first throw), and how far along the crank the place is as its depth. Without "
    "the direction a bow cannot be told from a shaft that lies askew.",
)
DIAL = Feature(
    part="main",
    name="dial reading",
    title="Dial round one turn",
    family="gap",
    gauges=("dial_indicator",),
    aliases=("dial",),
    how="Instead of run-out: what the dial shows at each of three directions or more, from one zero.",
)
MAIN_SURFACE = Feature(
    part="main",
    name="surface",
    title="Surface: scores, rust, cracks",
    dimension="words",
    unit="",
    aliases=("condition", "crack", "cracks", "scores"),
    how="None, or what and where.",
)
MAIN_LENGTH = Feature(
    part="main", name="length", title="Length of the journal", gauges=("vernier", "rule"), aliases=("journal length",),
)  # fmt: skip
MAIN_FILLET = Feature(
    part="main", name="fillet radius", title="Fillet at the cheeks", gauges=("rule",), aliases=("fillet",),
    how="By radius gauge; the least of both ends.",
)  # fmt: skip

END_PLAY = Feature(
    part="bearing",
    of=(SHAFT,),
    name="crank end play",
    title="End play of the crankshaft",
    wear="adds",
    family="gap",
    gauges=("feeler", "dial_indicator"),
    aliases=("end play", "end float", "crankshaft end play"),
    how="Pushed to and fro by the flywheel, feeler at the thrust faces or a dial at the end.",
)
BAR_GAP = Feature(
    part="bearing",
    of=(MAIN_BEARING,),
    name="gap under the bar",
    title="Gap under a straight bar",
    family="gap",
    gauges=("feeler",),
    aliases=("bar gap", "alignment", "gap under bar", "line"),
    how="Caps off, a true bar along the beds or linings: the feeler that goes under it at each. How far along as its depth.",
)

HEIGHT_TOP = Feature(
    part="throw", name="height at top", title="Height of the pin at its top", gauges=("depth_gauge", "vernier"),
    aliases=("top height",), how="Crank level in blocks on a surface plate: over the pin at the top of its turn.",
)  # fmt: skip
HEIGHT_BOTTOM = Feature(
    part="throw", name="height at bottom", title="Height of the pin at its bottom", gauges=("depth_gauge", "vernier"),
    aliases=("bottom height",), how="The same pin at the bottom of its turn. Half the difference is the throw.",
)  # fmt: skip
HEIGHT_LEVEL = Feature(
    part="throw", name="height level", title="Height of the pin when it should be level with its mate",
    gauges=("depth_gauge", "vernier"), aliases=("level height",),
    how="First pin level with the crank's axis and clamped: over every pin that should stand level with it.",
)  # fmt: skip

SEAT = Feature(
    part="crankshaft",
    name="flywheel seat diameter",
    title="Flywheel seat",
    wear="takes",
    family="shaft",
    levels=MAIN.levels[:2],
    directions=(0.0, 90.0),
    gauges=("outside_mic", "outside_mic_coarse", "vernier"),
    rework="ground under",
    aliases=("flywheel seat", "seat diameter", "seat for flywheel"),
    material="steel",
    how="Where the hub sits, clear of the keyway.",
)
HUB = Feature(
    part="crankshaft",
    name="flywheel hub bore",
    title="Bore of the flywheel's hub",
    wear="adds",
    family="hole",
    directions=(0.0, 90.0),
    gauges=("telescoping_gauge", "inside_mic", "vernier"),
    rework="bushed",
    aliases=("hub bore", "flywheel bore"),
    material="grey cast iron",
)
WHEEL_RUN_OUT = Feature(
    part="crankshaft",
    name="flywheel run-out",
    title="Run-out of the flywheel's rim",
    family="gap",
    gauges=("dial_indicator", "feeler"),
    aliases=("flywheel wobble", "rim run-out"),
    how="Face of the rim against a pointer, one turn, end play pushed one way.",
)
CRACK = Feature(
    part="crankshaft",
    name="crack test",
    title="Cracks, by dye or magnetic powder",
    dimension="words",
    unit="",
    aliases=("crack", "cracks", "dye test", "magnetic test"),
    how="None, or where: at the fillets, the oil holes, the keyway. A glass alone does not find them.",
)

BEARING_FEATURES = bearing_features(of=MAIN_BEARING, journal="journal")
BY_NAME = {feature.name: feature for feature in BEARING_FEATURES}
FEATURES: tuple[Feature, ...] = (
    MAIN, RUN_OUT, DIAL, MAIN_SURFACE, MAIN_LENGTH, MAIN_FILLET, *BEARING_FEATURES, BAR_GAP, END_PLAY,
    HEIGHT_TOP, HEIGHT_BOTTOM, HEIGHT_LEVEL, SEAT, HUB, WHEEL_RUN_OUT, CRACK,
)  # fmt: skip

FITS = (
    Fit(name="main in its bearing", hole=("bearing", "bore"), shaft=("main", MAIN.name),
        rules=as_rules("babbitt bearing clearance")),
    Fit(name="flywheel on its seat", hole=("crankshaft", HUB.name), shaft=("crankshaft", SEAT.name), rules=(),
        purpose="holding"),
)  # fmt: skip
