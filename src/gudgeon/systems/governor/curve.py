"""From what was read to the speed at each place of the sleeve, and what play, friction and wear make of it.

A condition is a state of the governor's joints: as found, freed, re-pinned, rebuilt. The speed curve and the dead band of every
condition are worked out on the same draws.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from gudgeon.engine.system import Feature
from gudgeon.handbook.spring_wires import spring_wire
from gudgeon.mechanics import governors, springs
from gudgeon.mechanics.numbers import plain
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.measured import Draws, Measured

DRY, OILED = (0.12, 0.30), (0.08, 0.15)
"""Friction of small steel joints, gummed or dry as found, and cleaned and oiled; from memory."""
WIRE_TAKEN = "hard-drawn wire"
FREE_PLAY = 0.001 * d.INCH
"""Play that a joint is left with when it is made good [m]; common practice."""
NEW_COLLAR = (0.001 * d.INCH, 0.003 * d.INCH)
"""End play of a collar that is shimmed or new [m]; common practice."""


@dataclass(frozen=True, kw_only=True)
class Condition:
    """A state of the joints.

    Attributes
    ----------
    friction : coefficient at pins and rollers. drag : friction at the sleeve as read [N], or None: then it is reckoned.
    pin_play, roller_play : clearances on the diameter, the mean of the weights [m]. flat, groove : depths [m].
    collar, thrust : end play [m]. turns : do the rollers turn? raised : how much more the spring is pressed than as found [m].
    """

    friction: Draws
    drag: Draws | None
    pin_play: Draws
    roller_play: Draws
    flat: Draws
    groove: Draws
    collar: Draws
    thrust: Draws
    turns: bool
    raised: Draws


@dataclass(frozen=True, kw_only=True)
class Spring:
    """The spring as it works: rate [N/m] and how far it is pressed or drawn with the sleeve down [m], and the readings."""

    rate: Draws
    pressed: Draws
    inputs: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Curve:
    """The governor's working, condition by condition. Made by ``curve_of`` only where nothing is missing."""

    governor: GovernorSet

    @cached_property
    def travel(self) -> Measured:
        """Travel of the sleeve."""
        return _read(self.governor, d.TRAVEL)

    @cached_property
    def mass(self) -> Draws:
        """Mass of one weight, the mean of them [kg]."""
        return np.asarray(np.mean([each.draws for each in self.governor.of_weights(d.MASS)], axis=0))

    @cached_property
    def gravity(self) -> float:
        """Gravity, where the shaft stands upright."""
        return governors.GRAVITY if self.governor.upright else 0.0

    @cached_property
    def gearing(self) -> Draws:
        """Turns of the governor for one of the crank."""
        found = self.governor.gearing
        assert found is not None
        return found[0]

    @cached_property
    def inputs(self) -> tuple[str, ...]:
        """The readings that the curve rests on."""
        features = (d.TRAVEL, *_geometry(self.governor), d.SLEEVE_ANGLE, d.SLEEVE_MASS, d.SPRING_RATIO)
        read = [self.governor.one(feature) for feature in features]
        found = [identity for each in read if each is not None for identity in each.inputs]
        found += [identity for each in self.governor.of_weights(d.MASS) for identity in each.inputs]
        gearing, spring = self.governor.gearing, spring_of(self.governor)
        return tuple(dict.fromkeys([*found, *(gearing[1] if gearing else ()), *(spring.inputs if spring else ())]))

    def motion(self, share: float) -> governors.Motion:
        """Weights and sleeve at a share of the travel."""
        name = f"motion at {share}"
        if name not in self.governor.worked_out:
            self.governor.worked_out[name] = self._motion(share * self.travel.draws)
        kept = self.governor.worked_out[name]
        assert isinstance(kept, governors.Motion)
        return kept

    def _motion(self, travel: Draws) -> governors.Motion:
        one = self.governor
        if one.hung:
            low, upper, lower = (_read(one, each).draws for each in (d.WEIGHT_RADIUS, d.UPPER_ARM, d.LOWER_ARM))
            above, below = (_or(one, each, 0.0) for each in (d.UPPER_OFFSET, d.LOWER_OFFSET))
            arms = {"upper_arm": upper, "lower_arm": lower, "upper_offset": above, "lower_offset": below}
            radius = governors.hung_radius(travel=travel, lowest_radius=low, **arms)
            return governors.hung_arms(radius=radius, lowest_radius=low, **arms)
        pivot, ball, arm, radius = (
            _read(one, each).draws for each in (d.PIVOT_RADIUS, d.WEIGHT_ARM, d.SLEEVE_ARM, d.WEIGHT_RADIUS)
        )
        angle = one.one(d.SLEEVE_ANGLE)
        start = angle.draws if angle is not None else -np.arcsin(np.clip(self.travel.draws / 2 / arm, -1, 1))
        return governors.bell_crank(
            travel=travel,
            pivot_radius=pivot,
            weight_arm=ball,
            sleeve_arm=arm,
            weight_angle=np.arcsin(np.clip((radius - pivot) / ball, -1, 1)),
            sleeve_angle=start,
        )

    def speed(self, share: float, condition: Condition, spring: Spring | None = None) -> Draws:
        """Speed of the crank [rad/s] at a share of the travel; another spring may be tried."""
        motion = self.motion(share)
        load, pull = self._loads(share, condition, spring or spring_of(self.governor))
        turning = governors.speed(
            motion=motion, sleeve_load=load, mass=self.mass, count=self.governor.count, pull=pull, gravity=self.gravity
        )
        return np.asarray(turning / self.gearing)

    def _loads(self, share: float, condition: Condition, spring: Spring | None) -> tuple[Draws, Draws]:
        """Load on the sleeve and pull between the weights [N]."""
        one = self.governor
        dead = _or(one, d.SLEEVE_MASS, 0.0) * self.gravity
        ratio = _or(one, d.SPRING_RATIO, 1.0)
        if spring is None:
            return dead, np.zeros_like(dead)
        if between_weights(one):
            rest, here = np.asarray(self.motion(0.0).radius), np.asarray(self.motion(share).radius)
            slack = rest - spring.pressed / (2 * ratio)
            pull = governors.cross_spring_pull(
                radius=here, slack_radius=slack, rate=spring.rate, share=ratio, springs=_pair(one)
            )
            return dead, np.asarray(pull)
        pressed = spring.pressed + ratio * (condition.raised + share * self.travel.draws)
        return dead + ratio * spring.rate * np.maximum(pressed, 0.0), np.zeros_like(dead)

    def spread(self, condition: Condition, spring: Spring | None = None) -> Draws:
        """Speed at no load over speed at full load, over their mean."""
        low, high = (self.speed(share, condition, spring) for share in (0.0, 1.0))
        return np.asarray(governors.sensitiveness(low=low, high=high))

    def holding(self, condition: Condition, spring: Spring | None = None) -> Draws:
        """Force of the weights at the sleeve, half way [N]."""
        turning = self.speed(0.5, condition, spring) * self.gearing
        found = governors.holding_force(speed=turning, motion=self.motion(0.5), mass=self.mass, count=self.governor.count)
        return np.asarray(found)

    def drag(self, condition: Condition) -> Draws:
        """Friction at the sleeve, half way [N]: as read, else of pins and rollers; that of the throttle is added."""
        beyond = self.governor.linkage_drag
        more = 0.0 if beyond is None else beyond[0]
        if condition.drag is not None:
            return np.asarray(condition.drag + more)
        return np.asarray(self._reckoned_drag(condition) + more)

    def _reckoned_drag(self, condition: Condition) -> Draws:
        one, motion, held = self.governor, self.motion(0.5), self.holding(condition)
        outward = held * np.asarray(motion.sleeve) / one.count
        pins = one.of_weights(d.PIN)
        size = np.mean([each.draws for each in pins], axis=0) if pins else one.reader.full(0.1875 * d.INCH)
        if one.hung:
            return np.asarray(one.count * governors.pin_drag(
                load=outward, friction=condition.friction, diameter=size, arm=_read(one, d.UPPER_ARM).draws))  # fmt: skip
        load = np.hypot(outward, held / one.count)
        arm = _read(one, d.SLEEVE_ARM).draws
        by_pins = one.count * np.asarray(governors.pin_drag(load=load, friction=condition.friction, diameter=size, arm=arm))
        rollers, bores = one.of_weights(d.ROLLER), one.of_weights(d.ROLLER_PIN)
        roller = np.mean([each.draws for each in rollers], axis=0) if rollers else one.reader.full(1.0)
        pin = np.mean([each.draws for each in bores], axis=0) if bores else roller / 3
        lean = np.maximum(np.abs(self.motion(0.0).lean), np.abs(self.motion(1.0).lean)) / 2
        by_rollers = governors.roller_drag(
            load=held, friction=condition.friction, pin=pin, roller=roller, lean=lean, turns=condition.turns
        )
        return np.asarray(by_pins + by_rollers)

    def slack(self, condition: Condition) -> dict[str, Draws]:
        """Lost motion at the sleeve [m], joint by joint.

        Joints that spring and weights keep pressed one way lose only what friction lets them climb; collar and thrust lose
        their whole play, unless the spring pulls on the lever outside and keeps them pressed as well. A roller stands
        anywhere between round and flat, groove and face.
        """
        one = self.governor
        pins = governors.play_under_load(clearance=np.maximum(condition.pin_play, 0.0), friction=condition.friction)
        if not one.hung:
            pins = governors.pivot_play_at_sleeve(
                play=pins, weight_arm=_read(one, d.WEIGHT_ARM).draws, sleeve_arm=_read(one, d.SLEEVE_ARM).draws
            )
        rollers = governors.play_under_load(clearance=np.maximum(condition.roller_play, 0.0), friction=condition.friction)
        ends = condition.collar + condition.thrust
        if on_lever(one):
            ends = np.asarray(governors.play_under_load(clearance=ends, friction=condition.friction))
        found = {
            "weight pins": np.asarray(pins),
            "rollers on their pins": np.asarray(rollers),
            "flats": condition.flat * one.reader.even("how the rollers stand on their flats", 0.0, 1.0),
            "groove": condition.groove * one.reader.even("how the rollers stand in the groove", 0.0, 1.0),
            "collar and thrust": np.maximum(ends, 0.0),
        }
        beyond = one.linkage_slack
        return {**found, "linkage": beyond[0]} if beyond is not None else found

    def lost(self, condition: Condition) -> Draws:
        """All lost motion at the sleeve [m]."""
        return np.asarray(np.sum(list(self.slack(condition).values()), axis=0))

    def dead_band(self, condition: Condition, spring: Spring | None = None) -> Draws:
        """Dead band half way, over the speed there [1]."""
        low, middle, high = (self.speed(share, condition, spring) for share in (0.0, 0.5, 1.0))
        band = governors.dead_band(
            speed=middle,
            friction=self.drag(condition),
            holding=self.holding(condition, spring),
            slope=(high - low) / self.travel.draws,
            slack=self.lost(condition),
        )
        return np.asarray(band / middle)

    def wander(self, condition: Condition, spring: Spring | None = None) -> Draws:
        """Spread from full load to no load with the dead band on it [1]: what the speed may do in service."""
        return np.asarray(self.spread(condition, spring) + self.dead_band(condition, spring))


def _read(one: GovernorSet, feature: Feature) -> Measured:
    found = one.one(feature)
    assert found is not None, feature.name
    return found


def _or(one: GovernorSet, feature: Feature, default: float) -> Draws:
    read = one.one(feature)
    return one.reader.full(default) if read is None else read.draws


def _pair(one: GovernorSet) -> int:
    return 2 if any(word in one.said(d.PLACE)[0] for word in ("two", "pair", "2 ")) else 1


def between_weights(one: GovernorSet) -> bool:
    """Does the spring pull the weights together?"""
    return "weight" in one.said(d.PLACE)[0]


def on_lever(one: GovernorSet) -> bool:
    """Does the spring pull on a lever outside?"""
    return any(word in one.said(d.PLACE)[0] for word in ("lever", "fork", "outside"))


def _geometry(one: GovernorSet) -> tuple[Feature, ...]:
    if one.hung:
        return d.WEIGHT_RADIUS, d.UPPER_ARM, d.LOWER_ARM
    return d.PIVOT_RADIUS, d.WEIGHT_ARM, d.SLEEVE_ARM, d.WEIGHT_RADIUS


def missing(one: GovernorSet) -> tuple[Feature, ...]:
    """What must still be read before the speed can be worked out."""
    found = [feature for feature in (d.TRAVEL, *_geometry(one)) if one.one(feature) is None]
    if not one.of_weights(d.MASS):
        found.append(d.MASS)
    if one.gearing is None:
        found.append(d.GEARING)
    if not (one.hung and one.one(d.SLEEVE_MASS) is not None) and spring_of(one) is None:
        found += [feature for feature in _spring_wants(one) if one.one(feature) is None]
    return tuple(found)


def _spring_wants(one: GovernorSet) -> tuple[Feature, ...]:
    force = () if one.reader.at_sizes(d.FORCE_AT, one.only(d.SPRING)) else (d.WIRE, d.OUTSIDE, d.COILS)
    return d.FREE, d.FITTED, *force


def spring_of(one: GovernorSet) -> Spring | None:
    """The spring as found; None where its rate or its lengths are not known. Its rate by force where that was read."""
    if "spring" not in one.worked_out:
        one.worked_out["spring"] = _spring(one)
    kept = one.worked_out["spring"]
    assert kept is None or isinstance(kept, Spring)
    return kept


def _spring(one: GovernorSet) -> Spring | None:
    free, fitted, rate = one.one(d.FREE), one.one(d.FITTED), _rate(one)
    if free is None or fitted is None or rate is None:
        return None
    pressed = np.abs(free.draws - fitted.draws)
    return Spring(rate=rate[0], pressed=pressed, inputs=(*rate[1], *free.inputs, *fitted.inputs))


def _rate(one: GovernorSet) -> tuple[Draws, tuple[str, ...]] | None:
    free = one.one(d.FREE)
    forces = one.reader.at_sizes(d.FORCE_AT, one.only(d.SPRING))
    pairs = [(figure * (1e-3 if unit == "mm" else d.INCH), read) for figure, unit, read in forces]
    if len(pairs) >= 2:
        (short, strong), (long, weak) = pairs[0], pairs[-1]
        rate = np.abs(np.asarray(springs.rate_between(
            force_1=weak.draws, length_1=long, force_2=strong.draws, length_2=short)))  # fmt: skip
        return rate, (*weak.inputs, *strong.inputs)
    if pairs and free is not None and abs(free.value - pairs[0][0]) > 1e-3:
        at, force = pairs[0]
        return np.asarray(force.draws / np.abs(free.draws - at)), (*force.inputs, *free.inputs)
    return rate_by_wire(one)


def ends_of(one: GovernorSet) -> springs.Ends:
    """Its ends; closed and ground where nothing was noted, and all coils working where it hangs by hooks."""
    words = one.said(d.ENDS)[0]
    if "hook" in words or "open" in words or "plain" in words:
        return "plain"
    return "closed" if "not ground" in words or "unground" in words else "closed, ground"


def rate_by_wire(one: GovernorSet) -> tuple[Draws, tuple[str, ...]] | None:
    """Rate from wire, diameter and coils [N/m]; None where one of them was not read."""
    wire, outside, coils = (one.one(feature) for feature in (d.WIRE, d.OUTSIDE, d.COILS))
    if wire is None or outside is None or coils is None:
        return None
    active = np.maximum(springs.active_coils(total=coils.draws, ends=ends_of(one)), 0.5)
    rate = springs.rate(
        wire=wire.draws,
        mean_diameter=outside.draws - wire.draws,
        active=plain(active),
        shear_modulus=spring_wire(WIRE_TAKEN).shear_modulus,
    )
    return np.asarray(rate), (*wire.inputs, *outside.inputs, *coils.inputs)


def curve_of(one: GovernorSet) -> Curve | None:
    """The governor's working; None while something is missing."""
    if "curve" not in one.worked_out:
        one.worked_out["curve"] = None if missing(one) else Curve(governor=one)
    kept = one.worked_out["curve"]
    assert kept is None or isinstance(kept, Curve)
    return kept


# ---- conditions


def plays(one: GovernorSet, hole: Feature, pin: Feature) -> dict[str, tuple[Draws, tuple[str, ...]]]:
    """Clearance of a hole on its pin, weight by weight [m], at its worst: largest hole less smallest pin."""
    found = {}
    for item in one.weights:
        big, small = one.reader.largest(hole, item), one.reader.smallest(pin, item)
        if big is not None and small is not None:
            found[item] = (big.draws - small.draws, (*big.inputs, *small.inputs))
    return found


def flats(one: GovernorSet) -> dict[str, tuple[Draws, tuple[str, ...]]]:
    """Depth of the flat of every roller [m] from its width, where both were read."""
    found = {}
    for item in one.weights:
        wide, round_ = one.reader.largest(d.FLAT, item), one.reader.size(d.ROLLER, item)
        if wide is not None and round_ is not None:
            width = np.clip(wide.draws, 0.0, round_.draws)
            depth = governors.flat_depth(width=width, diameter=round_.draws)
            found[item] = (np.asarray(depth), (*wide.inputs, *round_.inputs))
    return found


def drag_read(one: GovernorSet) -> tuple[Draws, tuple[str, ...]] | None:
    """Friction at the sleeve [N] from the forces up and back: half their difference; None where they were not read."""
    up, back = one.one(d.PUSH_UP), one.one(d.COME_BACK)
    if up is None or back is None:
        return None
    return np.maximum((up.draws - back.draws) / 2, 0.0), (*up.inputs, *back.inputs)


def collar_play(one: GovernorSet) -> tuple[Draws, tuple[str, ...]] | None:
    """End play of the fork in its groove [m]."""
    groove, block = one.one(d.COLLAR_GROOVE), one.one(d.BLOCK)
    return None if groove is None or block is None else (groove.draws - block.draws, (*groove.inputs, *block.inputs))


def as_found(one: GovernorSet) -> Condition:
    """The joints as they were read; what was not read counts as nothing, and the findings say so."""
    if "as found" not in one.worked_out:
        one.worked_out["as found"] = _as_found(one)
    kept = one.worked_out["as found"]
    assert isinstance(kept, Condition)
    return kept


def _as_found(one: GovernorSet) -> Condition:
    nothing = one.reader.full(0.0)
    groove, thrust, collar, drag = one.one(d.GROOVE), one.one(d.THRUST_SLACK), collar_play(one), drag_read(one)
    words = " ".join(one.reader.words(d.ROLLER_TURNS, item)[0].lower() for item in one.weights)
    return Condition(
        friction=one.reader.even("friction of the governor's joints as found", *DRY),
        drag=None if drag is None else drag[0],
        pin_play=_mean(plays(one, d.HOLE, d.PIN), nothing),
        roller_play=_mean(plays(one, d.ROLLER_BORE, d.ROLLER_PIN), nothing),
        flat=_mean(flats(one), nothing),
        groove=nothing if groove is None else np.maximum(groove.draws, 0.0),
        collar=nothing if collar is None else np.maximum(collar[0], 0.0),
        thrust=nothing if thrust is None else np.maximum(thrust.draws, 0.0),
        turns="stuck" not in words and "not turn" not in words,
        raised=nothing,
    )


def _mean(found: dict[str, tuple[Draws, tuple[str, ...]]], nothing: Draws) -> Draws:
    return np.asarray(np.mean([np.maximum(each[0], 0.0) for each in found.values()], axis=0)) if found else nothing


def freed(one: GovernorSet) -> Condition:
    """Cleaned and oiled, collar and thrust shimmed; pins, rollers and sleeve as they are."""
    now = as_found(one)
    return replace(
        now,
        friction=one.reader.even("friction of the governor's joints oiled", *OILED),
        drag=None,
        collar=np.minimum(now.collar, one.reader.even("collar shimmed", *NEW_COLLAR)),
        thrust=np.minimum(now.thrust, one.reader.even("thrust shimmed", *NEW_COLLAR)),
        turns=True,
    )


def repinned(one: GovernorSet) -> Condition:
    """Holes reamed and new pins, new rollers, all free; the sleeve's groove stays."""
    play = one.reader.even("play of new governor pins", 0.3 * FREE_PLAY, FREE_PLAY)
    now = as_found(one)
    return replace(freed(one), pin_play=play, roller_play=1.5 * play, flat=np.zeros_like(play), raised=now.flat / 2)


def rebuilt(one: GovernorSet) -> Condition:
    """As re-pinned, with the sleeve faced and brought up again and a new thrust."""
    now = as_found(one)
    return replace(repinned(one), groove=np.zeros_like(now.groove), raised=now.flat / 2 + now.groove)
