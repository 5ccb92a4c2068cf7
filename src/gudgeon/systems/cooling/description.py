"""What can be measured on water pump, hopper and the water itself: parts, features, levels."""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit, Level
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "cooling"
PUMP, HOPPER, WATER = "water pump", "hopper", "cooling water"

_NEWALL = Origin(
    "E", "Turning and Boring (1914), ch. III, Newall limits", "running fit X, to 1 in: .0012 wide, taken as even over its width"
)


def _pumps(outline: Outline) -> int | None:
    named = f"{outline.cooling} {outline.pump}".lower()
    return None if "hopper" in named else 1 if "pump" in named or outline.pump else None


def _hoppers(outline: Outline) -> int | None:
    return 1 if "hopper" in outline.cooling.lower() else None


def _waters(outline: Outline) -> int | None:
    return 1 if outline.cooling and "air" not in outline.cooling.lower().split() else None


PARTS = (
    PartKind(kind=PUMP, title="Water pump", count=_pumps, item="water pump", material="grey cast iron"),
    PartKind(kind=HOPPER, title="Hopper", count=_hoppers, item="hopper", material="grey cast iron"),
    PartKind(kind=WATER, title="Cooling water", count=_waters, item="water", material="grey cast iron"),
)

SHAFT_LEVELS = (
    Level(name="in the bush", wear="most", words=("bush", "front bush", "drive end", "journal"), hint="where the bush rubs"),
    Level(name="in the other bush", wear="some", words=("rear bush", "impeller end", "other bush"), hint="the other bush"),
    Level(name="under the packing", wear="some", words=("packing", "gland", "stuffing box"), hint="where packing rubs"),
    Level(
        name="unworn",
        wear="unworn",
        words=("between", "outside", "never ran"),
        hint="between, where nothing rubs: the size when new",
    ),
)
BUSH_LEVELS = (
    Level(name="in the bush", wear="most", words=("front bush", "drive end", "bush"), hint="half way in"),
    Level(name="in the other bush", wear="some", words=("rear bush", "impeller end", "other bush"), hint="half way in"),
)
_RUN = {"part": PUMP, "spread": 0.0012 / 12**0.5 * INCH, "spread_origin": _NEWALL, "directions": (0.0, 90.0)}
SHAFT = Feature(
    name="shaft diameter",
    title="Shaft",
    wear="takes",
    family="shaft",
    levels=SHAFT_LEVELS,
    gauges=("outside_mic", "outside_mic_coarse", "vernier"),
    aliases=("pump shaft", "shaft", "pump shaft diameter"),
    material="steel 1020",
    how="In each bush, under the packing, and where nothing rubs.",
    **_RUN,  # type: ignore[arg-type]
)
BUSH = Feature(
    name="bush bore",
    title="Bushes",
    wear="adds",
    family="bush",
    levels=BUSH_LEVELS,
    gauges=("telescoping_gauge", "inside_mic", "vernier"),
    rework="bushed",
    aliases=("bush", "bushing bore", "pump bush", "bearing bore"),
    material="bronze C93200",
    how="90 is in line with the pull of gear or belt.",
    **_RUN,  # type: ignore[arg-type]
)


def _length(name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(
        part=PUMP,
        name=name,
        title=title,
        family="length",
        gauges=("vernier", "rule"),
        how=how,
        aliases=aliases,
    )


def _gap(name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(
        part=PUMP,
        name=name,
        title=title,
        wear="adds",
        family="gap",
        gauges=("feeler", "dial_indicator"),
        how=how,
        aliases=aliases,
    )


def _words(part: str, name: str, title: str, *, how: str = "", aliases: tuple[str, ...] = ()) -> Feature:
    return Feature(part=part, name=name, title=title, dimension="words", unit="", how=how, aliases=aliases)


BUSH_OUTSIDE = _length("bush outside diameter", "Bush, outside", aliases=("bush od",))
BUSH_LENGTH = _length("bush length", "Bush, length", aliases=("length of bush",))
SHAFT_LENGTH = _length("shaft length", "Shaft, length over all", aliases=("length of shaft",))
SCORE = _gap(
    "score depth under packing", "Groove that the packing wore", how="On a side, the deepest; nought where smooth.",
    aliases=("score depth", "groove under packing"),
)  # fmt: skip
END_PLAY = _gap("end play", "End play of the shaft", aliases=("shaft end play", "end float"))
IMPELLER = _length("impeller diameter", "Impeller, outside", aliases=("impeller", "rotor diameter"))
EYE = _length("impeller eye diameter", "Eye of the impeller, where water enters", aliases=("eye diameter", "eye"))
VANE = _length("vane height", "Height of the vanes at the rim", aliases=("vane width", "impeller width"))
CLEARANCE = _gap(
    "impeller clearance", "Vanes to the case", how="Axial, shaft pushed away from the face and no gasket missing; the most.",
    aliases=("impeller to case", "face clearance", "impeller gap"),
)  # fmt: skip
RATIO = Feature(
    part=PUMP, name="turns per crank turn", title="Turns of the pump for one turn of the crank", dimension="ratio",
    unit="ratio",
    aliases=("drive ratio", "pump ratio"), how="Chalk both, turn the crank ten times, count.",
)  # fmt: skip
PIN = Feature(
    part=PUMP, name="drive pin diameter", title="Drive pin", wear="takes", family="pin", gauges=("outside_mic", "vernier"),
    aliases=("drive pin", "shear pin", "cross pin", "pin"), how="Beside the step that wear has left, and at it; the least.",
)  # fmt: skip
PIN_SHAFT = _length("shaft at drive pin", "Shaft where the drive pin goes through", aliases=("shaft at pin",))
PIN_LENGTH = _length("drive pin length", "Drive pin, length")
PIN_MATERIAL = _words(PUMP, "drive pin material", "Drive pin: of what", how="Brass, soft steel, a nail, a hardened bolt.")
PACKING = _words(
    PUMP, "packing", "Packing: kind and state", how="Graphited, flax, lead; hard, dry, over-tight. Old packing may be asbestos."
)
BOX = _length("packing box bore", "Bore of the packing box", aliases=("stuffing box bore", "gland bore"))
BOX_DEPTH = _length("packing box depth", "Depth of the packing box", aliases=("stuffing box depth",))
DRIPS = Feature(
    part=PUMP, name="gland drip", title="Drip at the gland, running", dimension="drip rate", unit="drops/min",
    gauges=("count",),
    aliases=("drips", "packing drip"),
)  # fmt: skip
CUP = _words(
    PUMP, "grease cup", "Grease or oil cups", how="Filled, turned down, blocked passage or clear.", aliases=("cups", "oil cup")
)
BODY_OF, IMPELLER_OF, SHAFT_OF, BUSH_OF = (
    _words(PUMP, f"{what} material", f"{what.capitalize()}: of what metal") for what in ("body", "impeller", "shaft", "bush")
)
STATE = _words(PUMP, "condition", "Cracks, rust, worn vanes", aliases=("state", "crack"))

LEVEL = Feature(
    part=HOPPER, name="water below top", title="Water below the top of the hopper", gauges=("rule",),
    aliases=("water level", "level"),
    how="As it is run.",
)  # fmt: skip
AREA_LONG = Feature(part=HOPPER, name="opening length", title="Opening, long way", gauges=("rule",))
AREA_WIDE = Feature(part=HOPPER, name="opening width", title="Opening, across", gauges=("rule",))
COVER = Feature(
    part=HOPPER, name="water over cylinder", title="Water over the top of the cylinder, when full", gauges=("rule",),
    aliases=("depth over cylinder",), how="From the full mark down to the casting over the bore.",
)  # fmt: skip
HOPPER_STATE = _words(HOPPER, "condition", "Cracks, scale, frost damage", aliases=("state", "crack"))

OUTLET = Feature(
    part=WATER, name="outlet temperature", title="Water coming out, at work", dimension="temperature", unit="degF",
    gauges=("thermometer",), aliases=("temperature out", "hot side"),
)  # fmt: skip
INLET = Feature(
    part=WATER, name="inlet temperature", title="Water going in, at work", dimension="temperature", unit="degF",
    gauges=("thermometer",), aliases=("temperature in", "cold side"),
)  # fmt: skip
SCALE = _words(
    WATER, "scale", "Scale and mud in the jacket", how="Through the plugs; soft, hard, how thick.", aliases=("jacket", "mud")
)

FEATURES: tuple[Feature, ...] = (
    SHAFT, BUSH, BUSH_OUTSIDE, BUSH_LENGTH, SHAFT_LENGTH, SCORE, END_PLAY, IMPELLER, EYE, VANE, CLEARANCE, RATIO, PIN,
    PIN_SHAFT,
    PIN_LENGTH, PIN_MATERIAL, PACKING, BOX, BOX_DEPTH, DRIPS, CUP, BODY_OF, IMPELLER_OF, SHAFT_OF, BUSH_OF, STATE, LEVEL,
    AREA_LONG, AREA_WIDE, COVER, HOPPER_STATE, OUTLET, INLET, SCALE,
)  # fmt: skip

FITS = (
    Fit(
        name="water pump shaft in its bush",
        hole=(PUMP, BUSH.name),
        shaft=(PUMP, SHAFT.name),
        rules=as_rules("water pump shaft clearance"),
    ),
)
