"""What could be done about the governor's spring: leave it, set it, or order one for the wanted speed and spread."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.remedy import Need, PricedItem
from gudgeon.handbook.sizes import named_sizes
from gudgeon.handbook.spring_wires import SpringWire, spring_wire
from gudgeon.mechanics import governors, springs
from gudgeon.mechanics.springs import SpringMade
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import step
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.curve import Curve, Spring, between_weights, curve_of, missing, spring_of
from gudgeon.systems.governor.governor_set import STOPS, GovernorSet
from gudgeon.systems.governor.joint_ways import JOINTS, SPRINGS, condition_after
from gudgeon.systems.governor.running import FULL, SPREAD
from gudgeon.systems.judging import middle
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import Matter, Quantity, Way, hours, worn

SPRING_MADE = "governor spring made"
WIRE_TO_ORDER = "oil-tempered wire"
WANTED = 0.8
"""Share of the allowed spread that a new spring is made for, so that dead band finds room; chosen by us."""
RATE_TOLERANCE, FORCE_TOLERANCE = 0.07, 0.05
"""How far a maker's rate and force may lie off, either way [1]; the usual tolerances, from memory."""
ROOM = 0.10


def spring_matter(one: GovernorSet) -> Matter:
    """The spring: where the speed stands and how it spreads, with the joints as they will be."""
    item, curve = one.only(d.GOVERNOR), curve_of(one)
    now: dict[str, dict[str, Draws]] = {FULL: {}, SPREAD: {}}
    if curve is not None:
        condition = condition_after(one)
        now = {FULL: {item: curve.speed(0.0, condition)}, SPREAD: {item: curve.spread(condition)}}
    spread = replace(one.spread_rules, limits=(*one.spread_rules.limits, STOPS))
    practices = {FULL: one.rated_rules, SPREAD: spread}
    return Matter(
        system=d.KEY,
        subject=SPRINGS,
        bench=one.bench,
        items=(item,),
        quantities=tuple(
            Quantity(name=name, part=d.GOVERNOR, dimension=dimension, practices={item: practices[name]})
            for name, dimension in ((FULL, "speed"), (SPREAD, "percent"))
            if practices[name].limits
        ),
        now=now,
        inputs=curve.inputs if curve is not None else (),
    )


def spring_ways(one: GovernorSet, matter: Matter) -> tuple[Way, ...]:
    """Every way; setting it only where the speed can be worked out and the spring presses from outside the weights."""
    found = [_leave(matter)]
    if (way := _set(one, matter)) is not None:
        found.append(way)
    return (*found, _new(one, matter))


def _joints_first(one: GovernorSet) -> Need:
    met = one.bench.snapshot.verdict_on(JOINTS) is not None
    return Need(
        kind="decision", what=f"{JOINTS} decided", met=met, why="flats, groove and pins move the sleeve and so the spring"
    )


def _leave(matter: Matter) -> Way:
    past = worn(matter, FULL, SPREAD)
    return Way(
        name="spring-leave",
        title=Said("Leave the spring and its setting"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        for_it=(Said("An old spring that only runs slow does no harm; weak springs lose speed and power (Rathbun, §131)."),),
        against_it=(Said("Speed or spread stays past what its maker's kind allowed."),) if past else (),
    )


def setting(one: GovernorSet) -> float | None:
    """By how much the spring must be pressed further for the rated speed at full load [m], minus for less; None if unknown."""
    curve, spring = curve_of(one), spring_of(one)
    if curve is None or spring is None or one.rated is None or between_weights(one):
        return None
    need = _load(curve, one.rated, 0.0)
    ratio = _ratio(one)
    have = ratio * spring.rate * (spring.pressed + ratio * condition_after(one).raised)
    return middle((need - have) / (ratio * spring.rate))


def _load(curve: Curve, speed: float, share: float) -> Draws:
    """Load of the spring at the sleeve that a speed of the crank [rad/s] asks for [N]."""
    one = curve.governor
    whole = governors.sleeve_load_for(
        speed=speed * curve.gearing, motion=curve.motion(share), mass=curve.mass, count=one.count, gravity=curve.gravity
    )
    read = one.one(d.SLEEVE_MASS)
    return np.asarray(whole - (read.draws if read is not None else 0.0) * curve.gravity)


def _ratio(one: GovernorSet) -> Draws:
    read = one.one(d.SPRING_RATIO)
    return one.reader.full(1.0) if read is None else read.draws


def _set(one: GovernorSet, matter: Matter) -> Way | None:
    change, spring, curve = setting(one), spring_of(one), curve_of(one)
    if change is None or spring is None or curve is None or abs(change) < 0.005 * d.INCH:
        return None
    condition, item = condition_after(one), one.only(d.GOVERNOR)
    changed = replace(spring, pressed=spring.pressed + change)
    words = "Press the spring {0} further" if change > 0 else "Let the spring out by {0}"
    return Way(
        name="spring-set",
        title=Said(f"{words}, for the rated speed at full load", (Amount(abs(change), "length"),)),
        action="adjust",
        intervention="removable",
        original="A washer or a turn of the nut; it goes back.",
        items=matter.items,
        after={FULL: {item: curve.speed(0.0, condition, changed)}, SPREAD: {item: curve.spread(condition, changed)}},
        allowed=spring.pressed + change > 0,
        why="the spring would hang loose with the sleeve down",
        parameters={"pressed further": change},
        steps=(
            step(
                d.KEY,
                "set-spring",
                "Set the spring by nut or washer, first to the slow side; lock it",
                hours=hours(0.3, 0.5, 1.0),
                hold="fitted length read and written down",
                works=("governor work",),
            ),
        ),
        needs=(_joints_first(one),),
        works=("governor work",),
        for_it=(Said("Costs nothing. For slow running at a show it may be let out; the engine then pulls less."),),
        against_it=(Said("Pressing a spring further raises the speed and narrows its spread; too much and it hunts."),),
    )


@dataclass(frozen=True, kw_only=True)
class SpringAsked:
    """A spring to order: forces at two lengths (N, m), sleeve down and right up, and the wire that bears them."""

    down: tuple[float, float] | None
    up: tuple[float, float] | None
    outside: float | None
    made: SpringMade | None
    wire: SpringWire
    written: str
    drawn_out: bool
    springs: int
    missing: tuple[str, ...]


def wanted_spread(one: GovernorSet) -> float:
    """Spread that a new spring is made for."""
    return WANTED * one.spread_rules.limits[0].size


def spring_asked(one: GovernorSet) -> SpringAsked:
    """The spring for rated speed at full load and the wanted spread, with the joints as they will be."""
    if "spring asked" not in one.worked_out:
        one.worked_out["spring asked"] = _spring_asked(one)
    kept = one.worked_out["spring asked"]
    assert isinstance(kept, SpringAsked)
    return kept


def _spring_asked(one: GovernorSet) -> SpringAsked:
    kind, curve, outside, fitted = spring_wire(WIRE_TO_ORDER), curve_of(one), one.one(d.OUTSIDE), one.one(d.FITTED)
    wants = [feature.title.lower() for feature in missing(one)]
    wants += ["rated speed on the outline"] if one.rated is None else []
    wants += [feature.title.lower() for feature, read in ((d.OUTSIDE, outside), (d.FITTED, fitted)) if read is None]
    blank = SpringAsked(
        down=None, up=None, outside=outside.value if outside else None, made=None, wire=kind, written="",
        drawn_out=between_weights(one) or "hook" in one.said(d.ENDS)[0], springs=1, missing=tuple(dict.fromkeys(wants)),
    )  # fmt: skip
    if curve is None or one.rated is None or outside is None or fitted is None:
        return blank
    speeds = one.rated, one.rated * (1 + wanted_spread(one))
    if between_weights(one):
        return _between(curve, speeds, fitted.value, blank)
    ratio = middle(_ratio(one))
    way = 1.0 if blank.drawn_out else -1.0
    length = fitted.value + way * middle(condition_after(one).raised) * ratio
    forces = [middle(_load(curve, speed, share)) / ratio for speed, share in zip(speeds, (0.0, 1.0), strict=True)]
    down, up = (length, forces[0]), (length + way * ratio * curve.travel.value, forces[1])
    made, written = (None, "") if blank.drawn_out else _thinnest(down, up, outside.value, kind)
    short = () if made or blank.drawn_out else ("a wire that bears it in the old outside diameter",)
    return replace(blank, down=down, up=up, made=made, written=written, missing=short)


def _between(curve: Curve, speeds: tuple[float, float], fitted: float, blank: SpringAsked) -> SpringAsked:
    """Springs from weight to weight: force of one at either end, and its length there."""
    one = curve.governor
    count = 2 if "two" in one.said(d.PLACE)[0] else 1
    share = middle(_ratio(one))
    rest = middle(np.asarray(curve.motion(0.0).radius))
    pairs = []
    for speed, at in zip(speeds, (0.0, 1.0), strict=True):
        motion = curve.motion(at)
        pull = curve.mass * np.square(speed * curve.gearing) * motion.radius - curve.mass * curve.gravity * motion.rise
        length = fitted + 2 * share * (middle(np.asarray(motion.radius)) - rest)
        pairs.append((length, middle(np.asarray(pull)) / (count * share)))
    return replace(blank, down=pairs[0], up=pairs[1], springs=count, missing=())


def _thinnest(
    down: tuple[float, float], up: tuple[float, float], outside: float, kind: SpringWire
) -> tuple[SpringMade | None, str]:
    """Of the wires made the thinnest that bears being pressed solid, with room to it and two coils or more at work."""
    for size in sorted(named_sizes("washburn and moen wire"), key=lambda each: each.nominal):
        if not 3.5 < (outside - size.nominal) / size.nominal < 16 or down[0] <= up[0] or up[1] <= down[1]:
            continue
        made = springs.spring_to_order(
            closed_force=down[1],
            closed_length=down[0],
            open_force=up[1],
            open_length=up[0],
            outside_diameter=outside,
            wire=size.nominal,
            shear_modulus=kind.shear_modulus,
        )
        strength = springs.wire_strength(wire=size.nominal, constant=kind.constant, exponent=kind.exponent)
        borne = float(np.asarray(made.stress_solid)) <= kind.torsion * float(np.asarray(strength))
        if borne and float(np.asarray(made.clash)) >= ROOM * (down[0] - up[0]) and float(np.asarray(made.active)) >= 2:
            return made, size.written
    return None, ""


def ordered(one: GovernorSet) -> Spring | None:
    """The ordered spring as it will come, force and rate off by what makers' are [N/m, m]; None where it cannot be drawn up."""
    asked = spring_asked(one)
    if asked.down is None or asked.up is None:
        return None
    rate = abs((asked.up[1] - asked.down[1]) / (asked.up[0] - asked.down[0]))
    off = one.bench.named("rate of the new governor spring"), one.bench.named("force of the new governor spring")
    made = rate * (1 + RATE_TOLERANCE / 1.645 * off[0])
    force = asked.down[1] * (1 + FORCE_TOLERANCE / 1.645 * off[1])
    raised = 0.0 if between_weights(one) else condition_after(one).raised * _ratio(one)
    return Spring(rate=made, pressed=force / made - raised, inputs=())


def _new(one: GovernorSet, matter: Matter) -> Way:
    asked, curve, item = spring_asked(one), curve_of(one), one.only(d.GOVERNOR)
    spring, condition = ordered(one), condition_after(one)
    after: dict[str, dict[str, Draws]] = {}
    parameters: dict[str, float] = {}
    if spring is not None and curve is not None and asked.down and asked.up:
        set_right = replace(spring, pressed=spring.pressed + _nut(curve, spring))
        after = {FULL: {item: curve.speed(0.0, condition, set_right)}, SPREAD: {item: curve.spread(condition, set_right)}}
        parameters = {
            "length sleeve down": asked.down[0],
            "force sleeve down": asked.down[1],
            "length sleeve up": asked.up[0],
            "force sleeve up": asked.up[1],
        }
    needs = tuple(
        Need(kind="reading", what=what, met=False, why="the spring is made to two forces at two lengths", part=d.SPRING)
        for what in asked.missing
    )
    return Way(
        name="spring-new",
        title=Said(f"A new spring, for the rated speed and a spread of {100 * wanted_spread(one):.1f} %"),
        action="buy in",
        intervention="removable",
        original="The old spring goes on the shelf.",
        items=matter.items,
        after=after,
        parameters=parameters,
        priced=(PricedItem(SPRING_MADE, asked.springs),),
        steps=(
            step(d.KEY, "spring", "Governor spring made", shop=SPRING_MADE),
            step(
                d.KEY,
                "read-spring",
                "Inspect the spring in; fit it, nut to the slow side",
                hours=hours(0.5, 0.8, 1.5),
                after=("spring",),
                hold="forces at both lengths read, and fitted length written down",
                works=("governor work",),
            ),
        ),
        needs=(_joints_first(one), *needs),
        works=("governor work",),
        for_it=(Said("Speed and spread both come right; known wire without rust pits."),),
        against_it=(Said("A maker's rate may be 7 % off: keep a washer or the nut for the last of it."),),
    )


def _nut(curve: Curve, spring: Spring) -> Draws:
    """What the nut takes up when it is set by tachometer at full load [m]: all but what a tachometer is off, 1 % or so."""
    one = curve.governor
    assert one.rated is not None
    if between_weights(one):
        return one.reader.full(0.0)
    off = 0.005 * one.bench.named("setting of the governor by tachometer")
    need = np.asarray(_load(curve, one.rated, 0.0)) * (1 + 2 * off) / _ratio(one)
    return np.asarray(need / spring.rate - spring.pressed - _ratio(one) * condition_after(one).raised)
