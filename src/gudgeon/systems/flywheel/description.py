"""What can be measured on flywheel, its key and hub, on a clutch and on a pulley."""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit, Level
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "flywheel"
WHEEL, CLUTCH, PULLEY = "flywheel", "clutch", "pulley"
KINDS = (WHEEL, CLUTCH, PULLEY)

_SPREAD = 0.0007 * INCH
_SPREAD_ORIGIN = Origin("E", "Turning and Boring (1914), ch. III, Newall limits", "holes of 1 to 3 in: about .00075 wide")


def wheel_names(outline: Outline) -> tuple[str, ...]:
    """One flywheel, or one at each end."""
    return ("flywheel 1", "flywheel 2") if outline.flywheels == "both ends" else ("flywheel",)


def _one(_: Outline) -> int | None:
    return 1


def _unknown(_: Outline) -> int | None:
    return None


PARTS = (
    PartKind(kind=WHEEL, title="Flywheel, its hub and key", count=_one, item="flywheel", names=wheel_names),
    PartKind(kind=CLUTCH, title="Clutch", count=_unknown, item="clutch"),
    PartKind(kind=PULLEY, title="Pulley", count=_unknown, item="pulley"),
)

OUTSIDE = Feature(
    part=WHEEL, name="outside diameter", title="Outside diameter", family="length", gauges=("rule",), aliases=("diameter",),
    how="By tape round the rim over 3.1416, or by rule across.",
)  # fmt: skip
RIM_WIDTH = Feature(
    part=WHEEL, name="rim width", title="Width of the rim", family="length", gauges=("rule", "vernier"), aliases=("face width",)
)
RIM_THICKNESS = Feature(
    part=WHEEL, name="rim thickness", title="Thickness of the rim, along the radius", family="length",
    gauges=("rule", "vernier"), how="Mean of inside and outside edge where it tapers.",
)  # fmt: skip
MASS = Feature(
    part=WHEEL, name="weight", title="Weight", dimension="mass", unit="lb", gauges=("balance",), aliases=("mass",),
    how="Weighed as it came off, before anyone lifts it.",
)  # fmt: skip
HUB = Feature(
    part=WHEEL,
    name="hub bore",
    title="Bore of the hub",
    wear="adds",
    family="hole",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    levels=(
        Level(name="inner end", wear="most", words=("engine side", "inside end"), hint="next to the engine"),
        Level(name="outer end", wear="some", words=("outside end", "free end"), hint="the outer end"),
    ),
    directions=(0.0, 90.0),
    gauges=("telescoping_gauge", "inside_mic", "vernier"),
    rework="bushed",
    aliases=("flywheel hub bore", "bore"),
    how="Beside the keyway and across it: a loose wheel wears the hub bell-mouthed.",
)
SEAT = Feature(
    part=WHEEL,
    name="shaft diameter",
    title="Shaft where the wheel sits",
    wear="takes",
    family="shaft",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    directions=(0.0, 90.0),
    gauges=("outside_mic", "vernier"),
    aliases=("seat diameter", "shaft end diameter"),
    material="steel 1040",
)
CRANK_HUB = Feature(part="crankshaft", name="flywheel hub bore", title="Bore of the hub, as read with the crankshaft")
CRANK_SEAT = Feature(part="crankshaft", name="flywheel seat diameter", title="Seat, as read with the crankshaft")
"""The same sizes under the crankshaft's name; they serve where the flywheel's own were not read."""
HUB_LENGTH = Feature(part=WHEEL, name="hub length", title="Length of the hub", family="length", gauges=("rule", "vernier"))
HUB_OUTSIDE = Feature(
    part=WHEEL, name="hub outside diameter", title="Outside of the hub", family="length", gauges=("vernier", "rule")
)
KEY_WIDTH = Feature(
    part=WHEEL, name="key width", title="Width of the key", wear="takes", family="length", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("outside_mic", "vernier"),
)  # fmt: skip
KEY_HEIGHT = Feature(
    part=WHEEL, name="key height", title="Height of the key, at its thick end", family="length", gauges=("vernier",),
    aliases=("key thickness",), how="A taper key: at the thick end, where it leaves the hub.",
)  # fmt: skip
KEY_LENGTH = Feature(
    part=WHEEL, name="key length", title="Length of the key in the hub", family="length", gauges=("rule", "vernier")
)
SHAFT_WAY = Feature(
    part=WHEEL, name="shaft keyway width", title="Keyway of the shaft", wear="adds", family="length", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("slip_gauge", "vernier", "feeler"), aliases=("keyway in shaft",),
)  # fmt: skip
HUB_WAY = Feature(
    part=WHEEL, name="hub keyway width", title="Keyway of the hub", wear="adds", family="length", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("slip_gauge", "vernier", "feeler"), aliases=("keyway in hub",),
)  # fmt: skip
KEY_KIND = Feature(
    part=WHEEL,
    name="key",
    title="What key it has",
    dimension="words",
    unit="",
    how="Gib head, plain taper, flat, Woodruff, none.",
)
FACE_RUNOUT = Feature(
    part=WHEEL, name="face run-out", title="Run-out of the rim's side", wear="adds", family="gap", gauges=("dial_indicator",),
    aliases=("wobble", "side run-out"), how="End play pushed one way while it turns.",
)  # fmt: skip
RIM_RUNOUT = Feature(
    part=WHEEL, name="rim run-out", title="Run-out of the rim's face", wear="adds", family="gap", gauges=("dial_indicator",),
    aliases=("radial run-out", "eccentricity"),
)  # fmt: skip
SOUND = Feature(
    part=WHEEL, name="condition", title="Cracks at spokes, hub and rim; repairs", dimension="words", unit="",
    aliases=("crack", "cracks"), how="Clean, chalk or dye, a light tap: sound rings. Look at the keyway's corners first.",
)  # fmt: skip
ROCK = Feature(
    part=WHEEL, name="rock at the rim", title="Rock on the shaft, at the rim", wear="adds", family="gap",
    gauges=("dial_indicator", "rule"), how="Crank held, wheel pushed to and fro.",
)  # fmt: skip

FORM = Feature(
    part=CLUTCH, name="form", title="What clutch it is", dimension="words", unit="", aliases=("kind",), how="Plate, cone, band."
)
LINING = Feature(
    part=CLUTCH, name="lining", title="What it is lined with", dimension="words", unit="",
    how="Woven, moulded, leather, cork, bare iron; dry or oily. Touch nothing dusty: treat it as asbestos.",
)  # fmt: skip
LINED_OUTSIDE = Feature(
    part=CLUTCH, name="lining outside diameter", title="Lining, outside diameter", family="length", gauges=("rule", "vernier"),
    aliases=("outside diameter",),
)  # fmt: skip
LINED_INSIDE = Feature(
    part=CLUTCH, name="lining inside diameter", title="Lining, inside diameter", family="length", gauges=("rule", "vernier"),
    aliases=("inside diameter",), how="Of a cone: the diameter at its small end.",
)  # fmt: skip
FACES = Feature(
    part=CLUTCH, name="rubbing faces", title="Faces that rub", dimension="count", unit="count", gauges=("count",),
    aliases=("faces",), how="Two to a plate lined on both sides.",
)  # fmt: skip
ANGLE = Feature(
    part=CLUTCH, name="cone angle", title="Cone: face from the axis", dimension="angle", unit="deg", gauges=("protractor",)
)
PRESSING = Feature(
    part=CLUTCH, name="pressing force", title="Force that presses it together, all springs", dimension="force", unit="lbf",
    gauges=("spring_tester_lbf",), aliases=("spring force",), how="Each spring at its fitted length, added up.",
)  # fmt: skip
THICKNESS = Feature(
    part=CLUTCH, name="lining thickness", title="Lining, at its thinnest", wear="takes", family="length", gauges=("vernier",)
)
OVER_RIVETS = Feature(
    part=CLUTCH, name="lining over rivets", title="Lining over its rivet heads", wear="takes", family="gap",
    gauges=("depth_gauge", "vernier"), aliases=("rivet depth",), how="How deep the heads lie under the face; wet it, no dust.",
)  # fmt: skip
CLUTCH_SOUND = Feature(
    part=CLUTCH, name="condition", title="Oil, scores, broken springs, slip", dimension="words", unit="", aliases=("state",)
)

PULLEY_OUTSIDE = Feature(
    part=PULLEY, name="outside diameter", title="Outside diameter", family="length", gauges=("rule",), aliases=("diameter",)
)
PULLEY_RUNOUT = Feature(
    part=PULLEY, name="rim run-out", title="Run-out of the rim", wear="adds", family="gap", gauges=("dial_indicator", "rule")
)
PULLEY_SPEED = Feature(
    part=PULLEY, name="turns per turn of the crank", title="Turns for one of the crank", dimension="ratio", unit="ratio",
    gauges=("count",), how="1 on the crankshaft.",
)  # fmt: skip
PULLEY_SOUND = Feature(
    part=PULLEY, name="condition", title="Cracks, loose arms, repairs", dimension="words", unit="", aliases=("crack", "cracks")
)

FEATURES: tuple[Feature, ...] = (
    OUTSIDE, RIM_WIDTH, RIM_THICKNESS, MASS, HUB, SEAT, HUB_LENGTH, HUB_OUTSIDE, KEY_WIDTH, KEY_HEIGHT, KEY_LENGTH, SHAFT_WAY,
    HUB_WAY, KEY_KIND, FACE_RUNOUT, RIM_RUNOUT, ROCK, SOUND, FORM, LINING, LINED_OUTSIDE, LINED_INSIDE, FACES, ANGLE, PRESSING,
    THICKNESS, OVER_RIVETS, CLUTCH_SOUND, PULLEY_OUTSIDE, PULLEY_RUNOUT, PULLEY_SPEED, PULLEY_SOUND,
)  # fmt: skip

FITS = (
    Fit(name="hub on its shaft", hole=(WHEEL, HUB.name), shaft=(WHEEL, SEAT.name), rules=as_rules("hub clearance"),
        purpose="holding"),
)  # fmt: skip
