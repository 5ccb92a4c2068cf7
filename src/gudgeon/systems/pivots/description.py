"""What can be measured on pins, bushes and levers, anywhere on an engine.

One set of features serves every pivot. A pin's size and its bush's bore may be read under one name ("governor arm pivot"), or
under two of one number ("pin 1", "rod bush 1") or one place ("throttle pin", "throttle bush").
"""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit, Level
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "pivots"
KINDS = ("pin", "pivot", "lever")

_SPREAD = 0.0005 * INCH
_SPREAD_ORIGIN = Origin(
    "E", "Turning and Boring (1914), ch. III, Newall limits", "push and running fits up to 1 in: about .0005 wide"
)


def pin_names(outline: Outline) -> tuple[str, ...]:
    """A piston pin and a rod bush to each cylinder."""
    return tuple(name for n in range(1, (outline.cylinders or 0) + 1) for name in (f"pin {n}", f"rod bush {n}"))


def _none(_: Outline) -> int | None:
    return None


PARTS = (
    PartKind(kind="pin", title="Pin and its bush", count=_none, item="pin {n}", material="steel 1020", names=pin_names),
    PartKind(kind="pivot", title="Pivot", count=_none, item="pivot {n}", material="steel 1020"),
    PartKind(kind="lever", title="Lever and its pins", count=_none, item="lever {n}", material="steel 1020"),
)

PIN_LEVELS = (
    Level(
        name="boss end",
        wear="unworn",
        words=("end", "one end", "front boss", "unworn", "in the boss", "outside the bush"),
        hint="where nothing turned on it: the size when new",
    ),
    Level(name="rod", wear="most", words=("in the bush", "middle", "wear zone", "worn", "bush"), hint="where the bush rubs"),
    Level(name="other boss end", wear="unworn", words=("other end", "rear boss"), hint="the other unworn end"),
)
BORE_LEVELS = (
    Level(name="one end", wear="most", words=("front", "mouth"), hint="a pin's width in from one end"),
    Level(name="other end", wear="most", words=("rear", "back"), hint="the same from the other"),
)
_PIN_SIDE, _BUSH_SIDE = (
    ("pin", "pivot", "shaft", "stud", "lever", "arm", "roller", "spindle"),
    ("bush", "pivot", "lever", "arm", "boss", "roller", "eye", "joint"),
)


def _features(part: str) -> tuple[Feature, ...]:
    return (
        Feature(
            part=part,
            name="diameter",
            title="Pin diameter",
            wear="takes",
            family="pin",
            spread=_SPREAD,
            spread_origin=_SPREAD_ORIGIN,
            levels=PIN_LEVELS,
            directions=(0.0, 90.0),
            gauges=("outside_mic", "outside_mic_coarse", "vernier"),
            aliases=("pin diameter", "pin", "shaft diameter at bush"),
            material="steel 1020",
            of=_PIN_SIDE,
            how="Two ways across at each place; the unworn ends say what size it was.",
        ),
        Feature(
            part=part,
            name="bush bore",
            title="Bore of the bush, or of the eye where there is none",
            wear="adds",
            family="bush",
            spread=_SPREAD,
            spread_origin=_SPREAD_ORIGIN,
            levels=BORE_LEVELS,
            directions=(0.0, 90.0),
            gauges=("telescoping_gauge", "inside_mic", "vernier"),
            rework="bushed",
            aliases=("bore", "hole", "eye", "bush inside diameter", "bush diameter"),
            material="bronze C93200",
            of=_BUSH_SIDE,
            how="Along the pull and across it; a worn eye is oval.",
        ),
        Feature(
            part=part,
            name="bush outside diameter",
            title="Outside of the bush",
            family="length",
            gauges=("outside_mic", "vernier"),
            aliases=("bush od",),
            of=_BUSH_SIDE,
            how="0 where there is no bush.",
        ),
        Feature(
            part=part,
            name="boss outside diameter",
            title="Outside of the boss round the eye",
            family="length",
            gauges=("vernier",),
            aliases=("boss diameter", "eye outside", "boss"),
            of=_BUSH_SIDE,
            how="At its thinnest if the hole stands off its middle.",
        ),
        Feature(
            part=part, name="bush length", title="Length of the bush", family="length", gauges=("vernier", "rule"),
            aliases=("boss length", "length of bush", "eye width"), of=_BUSH_SIDE,
        ),
        Feature(
            part=part, name="length", title="Length of the pin", family="length", gauges=("vernier", "rule"),
            aliases=("pin length", "length over all"), of=_PIN_SIDE,
        ),
        Feature(
            part=part, name="load", title="Greatest load on the pin", dimension="force", unit="lbf", gauges=("spring balance",),
            aliases=("force",), of=_PIN_SIDE, how="By spring balance, or as reckoned; leave it where nobody knows.",
        ),
        Feature(
            part=part, name="arm", title="Arm from this pin to where play shows", family="length", gauges=("rule",),
            aliases=("lever arm", "arm length"), of=_PIN_SIDE, how="To the lever's working end.",
        ),
        Feature(
            part=part, name="bearing length", title="Distance of the two bearings of the pin", family="length",
            gauges=("rule",), of=_PIN_SIDE, how="Middle to middle, where play lets the lever swing.",
        ),
        Feature(
            part=part, name="driven shaft diameter", title="Shaft that a shear pin drives", family="shaft", gauges=("vernier",),
            of=_PIN_SIDE, how="For a pin that drives across a shaft, and for no other.",
        ),
        Feature(
            part=part, name="use", title="What it does", dimension="words", unit="",
            how="Swings, turns, held fast, drives and must shear; governor, valve gear, throttle, piston.",
        ),
        Feature(
            part=part, name="material", title="Material of the pin", dimension="words", unit="", of=_PIN_SIDE,
            how="Soft or hard, by a file.",
        ),
        Feature(
            part=part, name="condition", title="Ridges, scores, cracks", dimension="words", unit="", aliases=("crack", "state"),
            how="A ring felt with the nail, a score, a bent pin; sound is a reading.",
        ),
    )  # fmt: skip


BY_KIND = {kind: {feature.name: feature for feature in _features(kind)} for kind in KINDS}
FEATURES = tuple(feature for kind in KINDS for feature in BY_KIND[kind].values())

FITS = tuple(
    Fit(
        name="pin in bush",
        hole=(kind, "bush bore"),
        shaft=(kind, "diameter"),
        rules=as_rules("pin in rod bush clearance" if kind == "pin" else "linkage pin clearance"),
    )
    for kind in KINDS
)
