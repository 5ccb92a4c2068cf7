"""What can be measured on camshaft, lobes, followers and the timing of the valves: parts, features, levels."""

from __future__ import annotations

from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature, Fit
from gudgeon.systems.judging import as_rules

INCH = 0.0254
KEY = "camshaft"
CAM, LOBE, FOLLOWER, TIMING = "cam", "cam lobe", "follower", "valve timing"

_NEWALL = Origin(
    "E", "Turning and Boring (1914), ch. III, Newall limits", "running fit X, 1 1/16 to 2 in: .0018 wide, taken as even"
)


def _driven(outline: Outline) -> tuple[str, ...]:
    """The valves that a cam opens; an automatic inlet has no lobe."""
    kinds = ("exhaust",) if outline.inlet == "automatic" else ("intake", "exhaust")
    return tuple(f"{kind} {n}" for n in range(1, (outline.cylinders or 0) + 1) for kind in kinds)


def cam_names(outline: Outline) -> tuple[str, ...]:
    """Journals, bearings and the shaft itself; a bearing beside each main where nothing is known of them; common practice."""
    count = range(1, (outline.main_bearings or 0) + 1)
    return (*(f"cam journal {n}" for n in count), *(f"cam bearing {n}" for n in count), "camshaft")


def lobe_names(outline: Outline) -> tuple[str, ...]:
    """Names of the lobes to expect: "intake 1 lobe" ..."""
    return tuple(f"{valve} lobe" for valve in _driven(outline))


def follower_names(outline: Outline) -> tuple[str, ...]:
    """Names of the followers to expect: "intake 1 follower" ..."""
    return tuple(f"{valve} follower" for valve in _driven(outline))


def _cylinders(outline: Outline) -> int | None:
    return outline.cylinders


def _unknown(_: Outline) -> int | None:
    return None


PARTS = (
    PartKind(kind=CAM, title="Camshaft", count=_unknown, item="cam journal {n}", material="steel 1040", names=cam_names),
    PartKind(kind=LOBE, title="Cam lobe", count=_unknown, item="lobe {n}", material="steel 1020", names=lobe_names),
    PartKind(kind=FOLLOWER, title="Follower", count=_unknown, item="follower {n}", material="steel 1020", names=follower_names),
    PartKind(kind=TIMING, title="Valve timing", count=_cylinders, item="cyl {n}", material="steel 1040"),
)

JOURNAL = Feature(
    part=CAM,
    name="journal diameter",
    title="Journal diameter",
    wear="takes",
    family="shaft",
    spread=0.0018 / 12**0.5 * INCH,
    spread_origin=_NEWALL,
    directions=(0.0, 90.0),
    gauges=("outside_mic", "outside_mic_coarse", "vernier"),
    rework="ground under",
    aliases=("journal", "cam journal diameter", "diameter"),
    material="steel 1040",
    how="90 is in line with the nose of lobe 1.",
    of=("journal",),
)
BORE = Feature(
    part=CAM,
    name="bore",
    title="Bearing bore",
    wear="adds",
    family="bush",
    directions=(0.0, 90.0),
    gauges=("telescoping_gauge", "inside_mic", "dial_bore_gauge"),
    rework="bushed",
    aliases=("bearing bore", "cam bearing bore", "bush bore"),
    material="bronze C93200",
    how="90 is in line with the followers' push; wear lies on the far side.",
    of=("bearing", "bush"),
)
END_PLAY = Feature(
    part=CAM,
    name="end play",
    title="End play",
    wear="adds",
    family="gap",
    gauges=("feeler", "dial_indicator"),
    aliases=("cam end play", "end float"),
    of=("camshaft",),
)
RUNOUT = Feature(
    part=CAM,
    name="run-out",
    title="Run-out at the middle",
    family="gap",
    wear="adds",
    gauges=("dial_indicator",),
    aliases=("runout", "bow"),
    how="Ends in vee blocks; half of it is the bow.",
    of=("camshaft",),
)

LIFT = Feature(
    part=LOBE,
    name="lobe lift",
    title="Lift of the lobe",
    wear="takes",
    family="length",
    gauges=("dial_indicator", "outside_mic", "vernier"),
    aliases=("cam lift", "lift"),
    how="By indicator on the follower over one turn; or height over nose less base circle.",
)
HEIGHT = Feature(
    part=LOBE,
    name="height over nose",
    title="Height over the nose",
    wear="takes",
    family="length",
    gauges=("outside_mic", "vernier"),
    aliases=("lobe height", "cam height", "height"),
)
BASE = Feature(
    part=LOBE,
    name="base circle diameter",
    title="Base circle",
    wear="takes",
    family="length",
    gauges=("outside_mic", "vernier"),
    aliases=("base circle", "heel diameter", "cam width across the heel"),
    how="Across the heel, square to the nose, clear of the flanks.",
)
WIDTH = Feature(
    part=LOBE, name="lobe width", title="Width of the lobe", gauges=("vernier", "rule"), aliases=("width", "face width")
)
NOSE = Feature(
    part=LOBE,
    name="nose radius",
    title="Radius of the nose",
    gauges=("vernier", "rule"),
    how="By radius gauges against the light.",
)
LIFT_AT = Feature(
    part=LOBE,
    name="lift at",
    title="Lift at an angle of the cam",
    wear="takes",
    family="gap",
    gauges=("dial_indicator",),
    sized=True,
    how="Degrees of the cam from the nose, negative before it, in even steps of 10 or less: a lift table.",
)
HARDNESS = Feature(part=LOBE, name="hardness", title="Hardness", dimension="hardness", unit="HB", gauges=("hardness_tester",))
CASE = Feature(
    part=LOBE,
    name="case depth",
    title="Depth of the hard case",
    gauges=("vernier", "rule"),
    how="Where a chip or a broken edge shows it; a file that bites says there is none left.",
)
LOBE_STATE = Feature(
    part=LOBE,
    name="condition",
    title="Pits, grooves, edges of the case",
    dimension="words",
    unit="",
    aliases=("state", "file test"),
    how="Sound, pitted, grooved, file bites or skates.",
)

KIND = Feature(
    part=FOLLOWER,
    name="kind",
    title="Flat or roller",
    dimension="words",
    unit="",
    aliases=("type",),
    how="Roller, flat, curved shoe, lever.",
)
BODY = Feature(
    part=FOLLOWER,
    name="body diameter",
    title="Body, in its guide",
    wear="takes",
    family="shaft",
    gauges=("outside_mic", "vernier"),
    aliases=("follower diameter", "tappet diameter", "stem diameter"),
)
GUIDE = Feature(
    part=FOLLOWER,
    name="guide bore",
    title="Guide of the follower",
    wear="adds",
    family="hole",
    gauges=("telescoping_gauge", "inside_mic", "vernier"),
    rework="bushed",
    aliases=("tappet bore", "follower guide"),
    material="grey cast iron",
)
ROLLER = Feature(
    part=FOLLOWER,
    name="roller diameter",
    title="Roller, outside",
    wear="takes",
    family="length",
    directions=(0.0, 45.0, 90.0, 135.0),
    gauges=("outside_mic", "vernier"),
    aliases=("roller",),
    how="0 is over the flattest place; turn it and find the least and the most.",
)
ROLLER_WIDTH = Feature(part=FOLLOWER, name="roller width", title="Width of the roller", gauges=("vernier", "outside_mic"))
FLAT = Feature(
    part=FOLLOWER,
    name="roller flat depth",
    title="Depth of a flat on the roller",
    wear="adds",
    family="gap",
    gauges=("dial_indicator", "feeler"),
    aliases=("flat", "flat depth"),
    how="Roller turned on its pin under an indicator.",
)
EYE = Feature(
    part=FOLLOWER,
    name="roller bore",
    title="Hole of the roller",
    wear="adds",
    family="hole",
    gauges=("telescoping_gauge", "inside_mic", "vernier"),
    aliases=("roller hole",),
)
PIN = Feature(
    part=FOLLOWER,
    name="roller pin diameter",
    title="Pin of the roller",
    wear="takes",
    family="pin",
    gauges=("outside_mic", "vernier"),
    aliases=("roller pin",),
    how="Where the roller ran, and beside it.",
)
PLAY = Feature(
    part=FOLLOWER,
    name="roller play",
    title="Play of the roller on its pin",
    wear="adds",
    family="gap",
    gauges=("dial_indicator", "feeler"),
    aliases=("roller on pin",),
)
ROCKER_PLAY = Feature(
    part=FOLLOWER,
    name="rocker pin play",
    title="Play of lever or rocker on its pin",
    wear="adds",
    family="gap",
    gauges=("dial_indicator", "feeler"),
    aliases=("rocker play", "lever play"),
)
SLOT = Feature(
    part=FOLLOWER,
    name="guide slot width",
    title="Slot that stops it turning",
    wear="adds",
    family="hole",
    gauges=("slip_gauge", "vernier", "feeler"),
    aliases=("slot width", "slot"),
)
SLOT_PIN = Feature(
    part=FOLLOWER,
    name="guide pin width",
    title="Pin or key in that slot",
    wear="takes",
    family="shaft",
    gauges=("outside_mic", "vernier"),
    aliases=("slot pin", "guide pin"),
)
DISH = Feature(
    part=FOLLOWER,
    name="face wear",
    title="Hollow worn in a flat face",
    wear="adds",
    family="gap",
    gauges=("feeler", "dial_indicator"),
    aliases=("dish", "hollow"),
)
MASS = Feature(
    part=FOLLOWER,
    name="mass",
    title="Weight, with push rod and roller",
    dimension="mass",
    unit="oz",
    gauges=("balance",),
    aliases=("weight",),
)
FOLLOWER_STATE = Feature(
    part=FOLLOWER, name="condition", title="Cracks, chips, seized roller", dimension="words", unit="", aliases=("state",)
)


def _event(valve: str, does: str, datum: str) -> Feature:
    other = valve.replace("intake", "inlet")
    return Feature(
        part=TIMING,
        name=f"{valve} {does}",
        title=f"{valve.capitalize()} valve {does}",
        dimension="angle",
        unit=f"deg {datum}",
        gauges=("degree_wheel",),
        aliases=(f"{other} {does}",) if other != valve else (),
        how="Lash as it is; turn the way it runs until a slip of thin paper under the stem just frees or grips.",
    )


EVENTS = (
    _event("intake", "opens", "BTDC"),
    _event("intake", "closes", "ABDC"),
    _event("exhaust", "opens", "BBDC"),
    _event("exhaust", "closes", "ATDC"),
)

FEATURES: tuple[Feature, ...] = (
    JOURNAL, BORE, END_PLAY, RUNOUT, LIFT, HEIGHT, BASE, WIDTH, NOSE, LIFT_AT, HARDNESS, CASE, LOBE_STATE, KIND, BODY, GUIDE,
    ROLLER, ROLLER_WIDTH, FLAT, EYE, PIN, PLAY, ROCKER_PLAY, SLOT, SLOT_PIN, DISH, MASS, FOLLOWER_STATE, *EVENTS,
)  # fmt: skip

VALVE_LASH = Feature(
    part="valve", name="lash", title="Lash", aliases=("tappet clearance", "tappet gap", "valve clearance", "lash cold")
)
"""The lash as it is read under the valve: it moves the timing."""
VALVE_MASS = Feature(part="valve", name="mass", title="Weight", aliases=("weight",))
VALVE_ROCKER = Feature(part="valve", name="rocker ratio", title="Rocker ratio", aliases=("rocker arm ratio",))

FITS = (
    Fit(
        name="cam journal in bearing", hole=(CAM, BORE.name), shaft=(CAM, JOURNAL.name), rules=as_rules("cam bearing clearance")
    ),
    Fit(name="follower in guide", hole=(FOLLOWER, GUIDE.name), shaft=(FOLLOWER, BODY.name), rules=as_rules("tappet clearance")),
    Fit(name="roller on pin", hole=(FOLLOWER, EYE.name), shaft=(FOLLOWER, PIN.name), rules=as_rules("roller on pin clearance")),
)
