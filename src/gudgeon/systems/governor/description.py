"""What can be measured on a governor: its geometry, weights and rollers, sleeve and thrust, spring, and a detent if it has one.

Geometry is read with the sleeve right down (throttle open). A hung governor (Watt, Porter) has arms and offsets, no pivots.
"""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit, Level
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "governor"
GOVERNOR, WEIGHT, SLEEVE, SPRING, DETENT = "governor", "governor_weight", "governor_sleeve", "governor_spring", "detent"
KINDS = (GOVERNOR, WEIGHT, SLEEVE, SPRING, DETENT)

_SPREAD = 0.0005 * INCH
_SPREAD_ORIGIN = Origin("E", "Turning and Boring (1914), ch. III, Newall limits", "running fits up to 1 in: about .0005 wide")


def _one(outline: Outline) -> int | None:
    return 1 if outline.governor or outline.governing else None


def _two(outline: Outline) -> int | None:
    return 2 if _one(outline) else None


def _detent(outline: Outline) -> int | None:
    return 1 if outline.governing == "hit-and-miss" else 0


PARTS = (
    PartKind(kind=GOVERNOR, title="Governor, as a whole", count=_one, item="governor", material="steel 1020"),
    PartKind(kind=WEIGHT, title="Governor weight, its pin and roller", count=_two, item="weight {n}"),
    PartKind(kind=SLEEVE, title="Governor sleeve, collar and thrust", count=_one, item="sleeve", material="steel 1020"),
    PartKind(kind=SPRING, title="Governor spring", count=_one, item="governor spring", material="steel 1040"),
    PartKind(kind=DETENT, title="Detent blade and catch block", count=_detent, item="detent", material="steel 1040"),
)


def _arm(name: str, title: str, how: str, *aliases: str) -> Feature:
    return Feature(
        part=GOVERNOR, name=name, title=title, family="length", gauges=("vernier", "rule"), aliases=aliases, how=how
    )  # fmt: skip


FORM = Feature(
    part=GOVERNOR,
    name="form",
    title="How it is made",
    dimension="words",
    unit="",
    aliases=("kind", "type"),
    how="Weights on bell-cranks that lift the sleeve, or weights hung in arms; shaft level or upright.",
)
PIVOT_RADIUS = _arm(
    "pivot radius", "Weight pivots, from the shaft's axis", "Half the distance of the two pins.", "pivots from axis"
)
WEIGHT_ARM = _arm(
    "weight arm", "Pivot to the middle of the weight", "Balance the weight on an edge to find its middle.", "ball arm"
)
SLEEVE_ARM = _arm("sleeve arm", "Pivot to the middle of the roller", "Centre to centre.", "roller arm", "toe arm")
WEIGHT_RADIUS = _arm(
    "weight radius, sleeve down",
    "Middle of the weight from the axis, sleeve right down",
    "Half the distance of the two weights' middles.",
    "weight radius",
    "radius of weights",
)
UPPER_ARM = _arm("upper arm", "Hung governor: upper arm", "Joint to the weight's middle.")
LOWER_ARM = _arm("lower arm", "Hung governor: lower arm", "Weight's middle to the joint on the sleeve.")
UPPER_OFFSET = _arm("upper joint offset", "Hung governor: upper joint from the axis", "0 where the arms meet on the axis.")
LOWER_OFFSET = _arm("lower joint offset", "Hung governor: lower joint from the axis", "0 where the arms meet on the axis.")
TRAVEL = Feature(
    part=GOVERNOR,
    name="sleeve travel",
    title="Travel of the sleeve, stop to stop",
    family="length",
    gauges=("vernier", "dial_indicator", "rule"),
    aliases=("travel", "sleeve lift"),
    how="From right down to right up, linkage off.",
)
SLEEVE_ANGLE = Feature(
    part=GOVERNOR,
    name="sleeve arm angle",
    title="Sleeve arm past square to the shaft, sleeve down",
    dimension="angle",
    unit="deg",
    gauges=("protractor",),
    how="Short of square is minus. Where it is not read it is taken as square at half travel.",
)
GEARING = Feature(
    part=GOVERNOR,
    name="turns per turn of the crank",
    title="Turns of the governor for one of the crank",
    dimension="ratio",
    unit="ratio",
    gauges=("count",),
    aliases=("gear ratio", "drive ratio"),
    how="Count teeth; .5 on a camshaft, 1 on the crankshaft.",
)
PUSH_UP = Feature(
    part=GOVERNOR,
    name="force to move the sleeve up",
    title="Force to move the sleeve up, half way",
    dimension="force",
    unit="lbf",
    gauges=("spring_tester_lbf",),
    aliases=("force up",),
    how="Engine still, linkage off, spring in: by spring balance, moving slowly up through half travel.",
)
COME_BACK = Feature(
    part=GOVERNOR,
    name="force at which the sleeve comes back",
    title="Force at which it comes back, half way",
    dimension="force",
    unit="lbf",
    gauges=("spring_tester_lbf",),
    aliases=("force down",),
    how="The same, letting it slowly back. Half the difference is friction.",
)
SLEEVE_MASS = Feature(
    part=GOVERNOR, name="sleeve mass", title="Weight of the sleeve, with any load on it", dimension="mass", unit="oz",
    gauges=("balance",), aliases=("dead weight", "centre weight"),
)  # fmt: skip
RUNS_LIGHT = Feature(
    part=GOVERNOR, name="speed without load", title="Speed of the engine without load", dimension="speed", unit="rpm",
    gauges=("tachometer",), aliases=("no-load speed",), how="As it ran, before it was taken apart.",
)  # fmt: skip
RUNS_LOADED = Feature(
    part=GOVERNOR, name="speed at full load", title="Speed of the engine at full load", dimension="speed", unit="rpm",
    gauges=("tachometer",), aliases=("full-load speed",),
)  # fmt: skip
BEHAVIOUR = Feature(
    part=GOVERNOR, name="behaviour", title="How it governed", dimension="words", unit="", aliases=("hunting",),
    how="Steady, hunts slowly or fast, races, sticks; how many seconds a swing takes.",
)  # fmt: skip

MASS = Feature(
    part=WEIGHT, name="mass", title="Weight of one, with its arm", dimension="mass", unit="oz", gauges=("balance",),
    aliases=("weight",), how="Without pin; the arm's share counted in.",
)  # fmt: skip
PIN = Feature(
    part=WEIGHT,
    name="pin diameter",
    title="Pivot pin",
    wear="takes",
    family="pin",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    levels=(
        Level(name="in the weight", wear="most", words=("in the hole", "wear zone", "middle"), hint="where the weight swings"),
        Level(name="end", wear="unworn", words=("in the lug", "unworn", "outside"), hint="where nothing moved"),
    ),
    gauges=("outside_mic", "vernier"),
    aliases=("pin", "weight pin"),
    material="steel 1020",
    how="Two ways across. 3/16 in was used on one make (Hercules Engine News, April 1995).",
)
HOLE = Feature(
    part=WEIGHT,
    name="pin hole",
    title="Hole of the weight, at its widest",
    wear="adds",
    family="hole",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    gauges=("telescoping_gauge", "vernier"),
    rework="bushed",
    aliases=("hole", "pivot hole", "eye"),
    how="Along the pull and across it.",
)
LUG = Feature(
    part=WEIGHT, name="lug hole", title="Hole of the lug that holds the pin", wear="adds", family="hole", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("telescoping_gauge", "vernier"), rework="bushed", aliases=("bracket hole",),
    how="The ear on the gear or shaft; at its widest.",
)  # fmt: skip
LUG_THICKNESS = Feature(
    part=WEIGHT, name="lug thickness", title="Thickness of the lug at the pin", family="length", gauges=("vernier",),
)  # fmt: skip
ROLLER = Feature(
    part=WEIGHT, name="roller diameter", title="Roller, at its largest", wear="takes", family="shaft", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("outside_mic", "vernier"), aliases=("roller", "roller outside"),
)  # fmt: skip
ROLLER_BORE = Feature(
    part=WEIGHT, name="roller bore", title="Bore of the roller", wear="adds", family="hole", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("telescoping_gauge", "vernier"), aliases=("roller hole",),
)  # fmt: skip
ROLLER_PIN = Feature(
    part=WEIGHT, name="roller pin diameter", title="Pin of the roller", wear="takes", family="pin", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("outside_mic", "vernier"), aliases=("roller pin",),
)  # fmt: skip
ROLLER_WIDTH = Feature(
    part=WEIGHT, name="roller width", title="Width of the roller", family="length", gauges=("vernier", "rule"),
)  # fmt: skip
FLAT = Feature(
    part=WEIGHT, name="roller flat width", title="Widest flat on the roller", wear="adds", gauges=("vernier", "rule"),
    family="gap", aliases=("flat", "flat width"), how="Across the flat, round the roller; 0 where it is round all the way.",
)  # fmt: skip
ROLLER_TURNS = Feature(
    part=WEIGHT, name="roller turns", title="Does the roller turn", dimension="words", unit="",
    how="Freely, stiffly, stuck.",
)  # fmt: skip
PIN_LENGTH = Feature(
    part=WEIGHT, name="pin length", title="Length of the pivot pin", family="length", gauges=("vernier", "rule"),
)  # fmt: skip
WEIGHT_STATE = Feature(
    part=WEIGHT, name="condition", title="Cracks, bends, broken lugs", dimension="words", unit="", aliases=("crack",),
    how="A lug that lets go throws the weight: look with a glass, dye where you can.",
)  # fmt: skip

BORE = Feature(
    part=SLEEVE, name="bore", title="Bore of the sleeve", wear="adds", family="hole", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("telescoping_gauge", "inside_mic", "vernier"), rework="bushed",
    aliases=("sleeve bore",),
)  # fmt: skip
SHAFT = Feature(
    part=SLEEVE, name="shaft diameter", title="Shaft where the sleeve slides", wear="takes", family="shaft", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("outside_mic", "vernier"), aliases=("shaft",),
)  # fmt: skip
GROOVE = Feature(
    part=SLEEVE, name="groove depth", title="Groove worn by the rollers", wear="adds", family="gap",
    gauges=("depth_gauge", "dial_indicator", "feeler"), aliases=("roller groove", "track depth"),
    how="Below the face beside it, at its deepest; 0 where there is none.",
)  # fmt: skip
COLLAR_GROOVE = Feature(
    part=SLEEVE, name="collar groove width", title="Width of the groove that the fork works in", wear="adds",
    family="length", spread=_SPREAD, spread_origin=_SPREAD_ORIGIN, gauges=("vernier", "slip_gauge", "feeler"),
    aliases=("fork groove width",),
)  # fmt: skip
BLOCK = Feature(
    part=SLEEVE, name="fork block width", title="Thickness of the fork's blocks or ring", wear="takes", family="length",
    spread=_SPREAD, spread_origin=_SPREAD_ORIGIN, gauges=("outside_mic", "vernier"), aliases=("shoe width",),
)  # fmt: skip
THRUST_SLACK = Feature(
    part=SLEEVE, name="thrust slack", title="End slack of the thrust bearing", wear="adds", family="gap",
    gauges=("dial_indicator", "feeler"), aliases=("thrust play", "thrust bearing slack"),
    how="Push and pull the collar against the sleeve, indicator on the end.",
)  # fmt: skip
BALL = Feature(
    part=SLEEVE, name="ball diameter", title="Balls of the thrust bearing", wear="takes", family="ball",
    gauges=("outside_mic", "vernier"), aliases=("ball", "thrust ball diameter"), how="Several, washed; the largest tells most.",
)  # fmt: skip
BALL_COUNT = Feature(
    part=SLEEVE, name="ball count", title="Balls, counted", dimension="count", unit="count", gauges=("count",),
    aliases=("number of balls", "balls"),
)  # fmt: skip
RACE = Feature(
    part=SLEEVE, name="race diameter", title="Middle circle of the ball track", family="length", gauges=("vernier", "rule"),
    aliases=("pitch circle of balls", "ball track diameter"),
)  # fmt: skip
CAGE = Feature(
    part=SLEEVE, name="cage", title="Cage, or balls loose", dimension="words", unit="",
    how="Loose, or caged and how many pockets.",
)  # fmt: skip
SLEEVE_STATE = Feature(
    part=SLEEVE, name="condition", title="Scores, rust, sticking", dimension="words", unit="", aliases=("state",),
)  # fmt: skip

FREE = Feature(
    part=SPRING, name="free length", title="Free length", wear="either", family="spring length", gauges=("rule", "vernier"),
    how="Standing loose; of a drawn spring, inside its hooks.",
)  # fmt: skip
FITTED = Feature(
    part=SPRING, name="fitted length", title="Length with the sleeve right down", family="length", gauges=("rule", "vernier"),
    aliases=("length sleeve down",), how="As it was set when found: read before the nut is touched.",
)  # fmt: skip
WIRE = Feature(
    part=SPRING, name="wire diameter", title="Wire", family="wire", gauges=("outside_mic", "vernier"), aliases=("wire",),
)  # fmt: skip
OUTSIDE = Feature(
    part=SPRING, name="outside diameter", title="Outside diameter", family="length", gauges=("vernier", "outside_mic"),
)  # fmt: skip
COILS = Feature(
    part=SPRING, name="total coils", title="Coils, all of them", dimension="ratio", unit="ratio", gauges=("count",),
    aliases=("coils",), how="From tip to tip, to a quarter.",
)  # fmt: skip
ENDS = Feature(part=SPRING, name="ends", title="Ends", dimension="words", unit="", how="Closed or open, ground or not; hooks.")
FORCE_AT = Feature(
    part=SPRING, name="force at", title="Force at a length", dimension="force", unit="lbf", gauges=("spring_tester_lbf",),
    sized=True,
)  # fmt: skip
PLACE = Feature(
    part=SPRING, name="place", title="Where it works", dimension="words", unit="",
    how="On the sleeve; from weight to weight; on the lever outside.",
)  # fmt: skip
SPRING_RATIO = Feature(
    part=SPRING, name="travel per travel of the sleeve", title="Travel of the spring for one of the sleeve", dimension="ratio",
    unit="ratio", gauges=("rule",), aliases=("spring lever ratio",),
    how="1 on the sleeve; lever arms otherwise. Of springs between weights: how far along the arm they hook, 1 at the middle "
    "of the weight.",
)  # fmt: skip

GAP = Feature(
    part=DETENT, name="blade gap at lowest speed", title="Blade off the catch block, at lowest speed", family="gap",
    gauges=("feeler", "rule"), aliases=("detent gap", "blade gap"), how="Exhaust valve wide open, weights in.",
)  # fmt: skip
OVERLAP = Feature(
    part=DETENT, name="catch overlap", title="How far the blade catches", wear="takes", family="gap",
    gauges=("vernier", "rule"), aliases=("latch overlap", "overlap"),
    how="From the edge of the block to the tip of the blade, weights right out.",
)  # fmt: skip
EDGE = Feature(
    part=DETENT, name="edge rounding", title="Rounding of the catching edges", wear="adds", family="gap",
    gauges=("feeler", "rule"), aliases=("edge radius", "worn edge"), how="Radius of the worse edge, by radius gauge or by eye.",
)  # fmt: skip
BLOCK_SIDES = Feature(
    part=DETENT, name="catch block", title="Sides of the catch block used", dimension="words", unit="",
    how="One side used, both used, hard or soft by a file.",
)  # fmt: skip
TURNS = Feature(
    part=DETENT, name="turns between firings", title="Turns of the flywheel between firings, without load",
    dimension="count", unit="count", gauges=("count",), aliases=("coasting turns",),
)  # fmt: skip

FEATURES: tuple[Feature, ...] = (
    FORM, PIVOT_RADIUS, WEIGHT_ARM, SLEEVE_ARM, WEIGHT_RADIUS, SLEEVE_ANGLE, TRAVEL, UPPER_ARM, LOWER_ARM, UPPER_OFFSET,
    LOWER_OFFSET, GEARING, PUSH_UP, COME_BACK, SLEEVE_MASS, RUNS_LIGHT, RUNS_LOADED, BEHAVIOUR,
    MASS, PIN, HOLE, LUG, LUG_THICKNESS, PIN_LENGTH, ROLLER, ROLLER_BORE, ROLLER_PIN, ROLLER_WIDTH, FLAT, ROLLER_TURNS,
    WEIGHT_STATE, BORE, SHAFT, GROOVE, COLLAR_GROOVE, BLOCK, THRUST_SLACK, BALL, BALL_COUNT, RACE, CAGE, SLEEVE_STATE,
    FREE, FITTED, FORCE_AT, WIRE, OUTSIDE, COILS, ENDS, PLACE, SPRING_RATIO, GAP, OVERLAP, EDGE, BLOCK_SIDES, TURNS,
)  # fmt: skip

FITS = (
    Fit(
        name="weight on its pin",
        hole=(WEIGHT, HOLE.name),
        shaft=(WEIGHT, PIN.name),
        rules=as_rules("governor pin clearance", "linkage pin clearance"),
    ),
    Fit(
        name="roller on its pin",
        hole=(WEIGHT, ROLLER_BORE.name),
        shaft=(WEIGHT, ROLLER_PIN.name),
        rules=as_rules("roller on pin clearance"),
    ),
    Fit(
        name="sleeve on its shaft",
        hole=(SLEEVE, BORE.name),
        shaft=(SLEEVE, SHAFT.name),
        rules=as_rules("turning pin clearance"),
    ),
)
