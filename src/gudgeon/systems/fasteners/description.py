"""What can be measured on threads, fasteners, plugs, loose balls and keys."""

from __future__ import annotations

from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit

INCH = 0.0254
KEY = "fasteners"
THREADED = ("thread", "fastener", "plug")


def _none(_: Outline) -> int | None:
    return None


PARTS = (
    PartKind(kind="thread", title="Thread", count=_none, item="thread {n}", material="steel 1020"),
    PartKind(kind="fastener", title="Stud, bolt, screw or nut", count=_none, item="stud {n}", material="steel 1020"),
    PartKind(kind="plug", title="Plug or union", count=_none, item="plug {n}", material="brass C36000"),
    PartKind(kind="ball", title="Set of loose balls", count=_none, item="ball set {n}", material="steel 1040"),
    PartKind(kind="key", title="Key", count=_none, item="key {n}", material="steel 1020"),
)


def _threaded(part: str) -> tuple[Feature, ...]:
    return (
        Feature(
            part=part,
            name="outside diameter",
            title="Diameter over the crests",
            wear="takes",
            gauges=("outside_mic", "vernier"),
            aliases=("major diameter", "thread diameter", "diameter"),
            how="Where it was never in a nut; of a hole read the hole instead.",
        ),
        Feature(
            part=part,
            name="length over 10 pitches",
            title="Length over ten pitches",
            gauges=("vernier", "rule"),
            how="Crest to crest, ten on; fewer where there are not so many, and say how many.",
        ),
        Feature(
            part=part,
            name="length over",
            title="Length over some pitches",
            gauges=("vernier", "rule"),
            sized=True,
            aliases=("over",),
            how="Crest to crest.",
        ),
        Feature(
            part=part,
            name="threads per inch",
            title="Threads per inch by gauge",
            dimension="threads per length",
            unit="tpi",
            gauges=("thread gauge",),
            aliases=("tpi", "pitch gauge that fits"),
        ),
        Feature(
            part=part,
            name="flank angle gauge that fits",
            title="Flank angle whose gauge fits",
            dimension="angle",
            unit="deg",
            gauges=("thread gauge",),
            aliases=("flank angle", "thread angle", "flank"),
            how="60, 55 or 47½: hold it to the light.",
        ),
        Feature(
            part=part,
            name="hole diameter",
            title="Hole between the crests of an inside thread",
            wear="adds",
            gauges=("vernier", "inside_mic"),
            aliases=("minor diameter", "tapped hole"),
        ),
        Feature(
            part=part,
            name="taper on the diameter",
            title="Taper: diameter gained over an inch of length",
            dimension="length",
            gauges=("vernier",),
            aliases=("taper",),
            how="Nought for a parallel thread; 1/16 for a pipe thread.",
        ),
        Feature(
            part=part,
            name="length",
            title="Length over all",
            family="length",
            gauges=("rule", "vernier"),
            aliases=("length over all",),
        ),
        Feature(
            part=part,
            name="engaged length",
            title="Length in engagement",
            family="length",
            gauges=("rule", "depth_gauge"),
            aliases=("length of engagement", "thread engaged"),
        ),
        Feature(
            part=part,
            name="hole material",
            title="What it screws into",
            dimension="words",
            unit="",
            how="Cast iron, steel, bronze, aluminium.",
        ),
        Feature(
            part=part,
            name="grade",
            title="What it is made of, any head marks",
            dimension="words",
            unit="",
            aliases=("material", "head marks"),
            how="No marks: take it as soft.",
        ),
        Feature(
            part=part,
            name="lubrication",
            title="How it is tightened",
            dimension="words",
            unit="",
            aliases=("oiled", "lubricant"),
            how="Dry, oiled, anti-seize.",
        ),
        Feature(
            part=part,
            name="condition",
            title="Condition of the thread",
            dimension="words",
            unit="",
            aliases=("state", "crack"),
            how="Sound, stretched, stripped, crossed, rusted in, broken off.",
        ),
    )


BALL = {
    feature.name: feature
    for feature in (
        Feature(
            part="ball",
            name="diameter",
            title="Diameter of a ball",
            wear="takes",
            family="ball",
            gauges=("outside_mic",),
            directions=(0.0, 90.0),
            aliases=("ball diameter",),
            how="Several balls, two ways each; the largest tells the size.",
        ),
        Feature(
            part="ball",
            name="ball count",
            title="Balls found",
            dimension="count",
            unit="1",
            gauges=("count",),
            aliases=("count", "number of balls"),
        ),
        Feature(
            part="ball",
            name="circle of centres",
            title="Circle through the balls' centres",
            family="length",
            gauges=("vernier",),
            aliases=("pitch circle", "race diameter"),
            how="Race's outside less one ball.",
        ),
        Feature(
            part="ball",
            name="condition",
            title="Pits, rust, flats",
            dimension="words",
            unit="",
            aliases=("state",),
        ),
    )
}

KEYS = {
    feature.name: feature
    for feature in (
        Feature(
            part="key",
            name="width",
            title="Width of the key",
            wear="takes",
            family="ring width",
            gauges=("outside_mic", "vernier"),
            aliases=("key width",),
            how="At both ends.",
        ),
        Feature(
            part="key",
            name="thickness",
            title="Thickness at the thick end",
            wear="takes",
            family="ring width",
            gauges=("outside_mic", "vernier"),
            aliases=("key thickness", "height", "thickness at big end"),
        ),
        Feature(
            part="key",
            name="thickness at small end",
            title="Thickness at the thin end",
            wear="takes",
            family="",
            gauges=("outside_mic", "vernier"),
            aliases=("small end",),
            how="The same as the thick end for a key without taper.",
        ),
        Feature(part="key", name="length", title="Length of the key", family="length", gauges=("vernier", "rule")),
        Feature(
            part="key",
            name="keyway width in shaft",
            title="Keyway in the shaft, width",
            wear="adds",
            family="ring width",
            gauges=("vernier", "feeler"),
            aliases=("shaft keyway width", "keyway width"),
        ),
        Feature(
            part="key",
            name="keyway width in hub",
            title="Keyway in the hub, width",
            wear="adds",
            family="ring width",
            gauges=("vernier", "feeler"),
            aliases=("hub keyway width",),
        ),
        Feature(
            part="key",
            name="shaft diameter",
            title="Shaft at the key",
            family="shaft",
            gauges=("outside_mic", "vernier"),
            aliases=("shaft",),
        ),
        Feature(
            part="key",
            name="torque",
            title="Torque that it carries",
            dimension="torque",
            unit="lb ft",
            aliases=("torque carried",),
        ),
        Feature(
            part="key",
            name="condition",
            title="Condition",
            dimension="words",
            unit="",
            aliases=("state", "crack"),
            how="Sheared, rolled, burred, loose; sound is a reading.",
        ),
    )
}

THREAD = {part: {feature.name: feature for feature in _threaded(part)} for part in THREADED}
FEATURES = (*(f for part in THREADED for f in THREAD[part].values()), *BALL.values(), *KEYS.values())
FITS = (
    Fit(
        name="key in its keyway",
        hole=("key", "keyway width in hub"),
        shaft=("key", "width"),
        rules=(),
        purpose="holding",
    ),
)
