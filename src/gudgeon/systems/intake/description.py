"""What can be measured on a throttle and on the linkage that works it.

The linkage runs from the governor's collar: fork lever, joint 1, lever 1, joint 2, ... to the throttle's lever. Lever 1 stands
between joint 1 and joint 2; where only a rod stands between two joints there is no lever to read.
"""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit, Level
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "intake"
THROTTLE, JOINT, LEVER = "throttle", "throttle_joint", "throttle_lever"
KINDS = (THROTTLE, JOINT, LEVER)
LINKAGE = "linkage"
"""Name of the chain as a whole in findings."""

_SPREAD = 0.0005 * INCH
_SPREAD_ORIGIN = Origin("E", "Turning and Boring (1914), ch. III, Newall limits", "running fits up to 1 in: about .0005 wide")


def _one(outline: Outline) -> int | None:
    return 1 if outline.governing == "throttling" else None


def _joints(outline: Outline) -> int | None:
    return 2 if outline.governing == "throttling" else None


PARTS = (
    PartKind(kind=THROTTLE, title="Throttle: body, shaft and disc", count=_one, item="throttle"),
    PartKind(kind=JOINT, title="Joint of the throttle linkage", count=_joints, item="joint {n}", material="steel 1020"),
    PartKind(kind=LEVER, title="Lever of the throttle linkage", count=_one, item="fork lever", material="steel 1020"),
)

ENDS = (
    Level(name="lever end", wear="most", words=("lever side", "driven end", "near end"), hint="where the lever pulls it over"),
    Level(name="far end", wear="some", words=("other end", "blind end", "plain end"), hint="the other end"),
)
SHAFT_LEVELS = (
    *ENDS,
    Level(name="under the disc", wear="unworn", words=("middle", "unworn", "at the disc"), hint="beside the disc: unworn"),
)

SHAFT = Feature(
    part=THROTTLE,
    name="shaft diameter",
    title="Throttle shaft",
    wear="takes",
    family="shaft",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    levels=SHAFT_LEVELS,
    gauges=("outside_mic", "vernier"),
    aliases=("shaft", "spindle diameter", "spindle"),
    material="steel 1020",
    how="At both bearings and beside the disc; turn it and take the least.",
)
HOLE = Feature(
    part=THROTTLE,
    name="shaft hole",
    title="Hole of the body for the shaft",
    wear="adds",
    family="hole",
    spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN,
    levels=ENDS,
    gauges=("telescoping_gauge", "vernier"),
    rework="bushed",
    aliases=("body hole", "shaft bore", "spindle hole"),
    how="At the mouth of each end, along the pull of the lever.",
)
BORE = Feature(
    part=THROTTLE, name="bore", title="Bore of the throttle", family="length", gauges=("vernier", "inside_mic"),
    aliases=("throttle bore", "throat"),
)  # fmt: skip
GAP = Feature(
    part=THROTTLE, name="disc gap", title="Gap at the disc's edge, shut", wear="adds", family="gap", gauges=("feeler",),
    aliases=("butterfly gap",), how="Held against the light; the widest, screw backed off.",
)  # fmt: skip
DRAG = Feature(
    part=THROTTLE, name="force to move the lever", title="Force at the lever's end to move it", dimension="force", unit="lbf",
    gauges=("spring_tester_lbf",), aliases=("drag", "lever force"), how="Rod and return spring off, engine still; the most.",
)  # fmt: skip
ARM = Feature(
    part=THROTTLE, name="lever arm", title="Lever: shaft to the rod's joint", family="length", gauges=("rule", "vernier"),
    aliases=("throttle lever",),
)  # fmt: skip
IDLE = Feature(
    part=THROTTLE, name="idle speed", title="Slowest speed it ran at", dimension="speed", unit="rpm", gauges=("tachometer",),
    aliases=("idling speed",), how="Without load, as it was before it came apart.",
)  # fmt: skip
BOSS = Feature(
    part=THROTTLE, name="boss outside diameter", title="Boss round the shaft, at its thinnest", family="length",
    gauges=("vernier",), aliases=("boss",),
)  # fmt: skip
BOSS_LENGTH = Feature(
    part=THROTTLE, name="boss length", title="Length of a bearing of the shaft", family="length", gauges=("vernier", "rule"),
    aliases=("bearing length",),
)  # fmt: skip
SHAFT_LENGTH = Feature(
    part=THROTTLE, name="shaft length", title="Length of the shaft", family="length", gauges=("rule", "vernier"),
)  # fmt: skip
RETURN = Feature(
    part=THROTTLE, name="return spring", title="Return spring", dimension="words", unit="", aliases=("pulled one way",),
    how="Pulls the linkage always one way, which way; or none.",
)  # fmt: skip
STATE = Feature(
    part=THROTTLE, name="condition", title="Sticks, cracks, bent disc", dimension="words", unit="", aliases=("state",),
    how="Turn it shut and open: where does it catch? Does it shut by itself?",
)  # fmt: skip

PIN = Feature(
    part=JOINT, name="pin diameter", title="Pin of the joint", wear="takes", family="pin", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("outside_mic", "vernier"), aliases=("pin", "ball diameter"), material="steel 1020",
    how="Where it is worn least round; take the least.",
)  # fmt: skip
EYE = Feature(
    part=JOINT, name="hole", title="Hole of the joint, at its widest", wear="adds", family="hole", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("telescoping_gauge", "vernier"), rework="bushed", aliases=("eye", "pin hole"),
    how="Along the pull.",
)  # fmt: skip
PLAY = Feature(
    part=JOINT, name="play", title="Play of the joint, pushed and pulled", wear="adds", family="gap",
    gauges=("dial_indicator", "feeler"), aliases=("slack", "lost motion"), how="Where pin and hole cannot be read.",
)  # fmt: skip
PIN_LENGTH = Feature(part=JOINT, name="pin length", title="Length of the pin", family="length", gauges=("vernier", "rule"))
DRIVING = Feature(
    part=LEVER, name="driving arm", title="Fulcrum to the joint on the governor's side", family="length",
    gauges=("rule", "vernier"),
    aliases=("arm on the governor's side",), how="Of the fork lever: fulcrum to the middle of the collar.",
)  # fmt: skip
DRIVEN = Feature(
    part=LEVER, name="driven arm", title="Fulcrum to the joint on the throttle's side", family="length",
    gauges=("rule", "vernier"),
    aliases=("arm on the throttle's side",),
)  # fmt: skip
FULCRUM_PIN = Feature(
    part=LEVER, name="fulcrum pin diameter", title="Pin of the fulcrum", wear="takes", family="pin", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("outside_mic", "vernier"), aliases=("fulcrum pin",),
)  # fmt: skip
FULCRUM_HOLE = Feature(
    part=LEVER, name="fulcrum hole", title="Hole of the fulcrum", wear="adds", family="hole", spread=_SPREAD,
    spread_origin=_SPREAD_ORIGIN, gauges=("telescoping_gauge", "vernier"), rework="bushed", aliases=("fulcrum bore",),
)  # fmt: skip

FEATURES: tuple[Feature, ...] = (
    SHAFT, HOLE, BORE, GAP, DRAG, ARM, IDLE, BOSS, BOSS_LENGTH, SHAFT_LENGTH, RETURN, STATE, PIN, EYE, PLAY, PIN_LENGTH,
    DRIVING, DRIVEN, FULCRUM_PIN, FULCRUM_HOLE,
)  # fmt: skip

FITS = (
    Fit(name="throttle shaft in its body", hole=(THROTTLE, HOLE.name), shaft=(THROTTLE, SHAFT.name),
        rules=as_rules("throttle shaft clearance")),
    Fit(name="joint on its pin", hole=(JOINT, EYE.name), shaft=(JOINT, PIN.name), rules=as_rules("linkage pin clearance")),
)  # fmt: skip
