"""Throttle and linkage on the bench, and what their wear comes to: leak, drag, lost motion."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.system import Feature
from gudgeon.mechanics import gas_flow, governors, linkage
from gudgeon.systems.intake import description as d
from gudgeon.systems.judging import Limit, Practice, practice, slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader, number

RPM = math.pi / 30
FRICTION = (0.12, 0.30)
"""Friction of small joints, gummed or dry; from memory."""
DISCHARGE = (0.55, 0.75)
"""Discharge of a narrow slot; from memory."""
AIR, WARM = 293.15, 310.0
"""Air outside and in the manifold [K]; from memory."""
IDLE_PRESSURE, IDLE_FILLING = (35e3, 55e3), 0.75
"""Pressure in the manifold when idling [Pa], and filling against it; from memory."""
WORKING_SUCTION = (5e3, 30e3)
"""Suction on the disc at part load [Pa]; from memory."""
TOO_MUCH = Limit(
    size=1.0,
    most=True,
    origin=Origin("E", "continuity: shut, it must pass less air than the engine idles on, or nothing can slow it"),
)

Read = tuple[Draws, tuple[str, ...]]


@dataclass(frozen=True, kw_only=True)
class IntakeSet:
    """Throttle, joints and levers that were read or noted. ``worked_out`` keeps what was computed of them."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> IntakeSet:
        """The intake as it stands on the bench; the one asked for last is kept."""
        kept = _LAST.get("set")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["set"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def throttle(self) -> str:
        """The throttle's name."""
        names = self.bench.items(d.THROTTLE)
        return names[0] if names else "throttle"

    @cached_property
    def joints(self) -> tuple[str, ...]:
        """Names of the joints, from the governor on."""
        return self.bench.items(d.JOINT)

    @cached_property
    def levers(self) -> tuple[str, ...]:
        """Names of the levers."""
        return self.bench.items(d.LEVER)

    @cached_property
    def slow(self) -> bool:
        """Is it a slow engine?"""
        return slow_engine(self.bench.snapshot.outline.rated_speed)

    def one(self, feature: Feature) -> Measured | None:
        """A feature of the throttle as one size."""
        return self.reader.size(feature, self.throttle)

    def shaft_rules(self) -> Practice:
        """What authorities say of the shaft in its body."""
        shaft = self.one(d.SHAFT)
        size = shaft.value if shaft is not None else 0.375 * d.INCH
        return practice("throttle shaft clearance", size=size, slow=self.slow)

    def joint_rules(self, item: str) -> Practice:
        """What authorities say of one joint or fulcrum of a linkage."""
        pin = self.reader.size(d.FULCRUM_PIN if item in self.levers else d.PIN, item)
        return practice("linkage pin clearance", size=pin.value if pin is not None else 0.1875 * d.INCH, slow=self.slow)

    # ---- the shaft

    def end_clearance(self, level: str) -> Read | None:
        """Clearance of the shaft at one end [m]."""
        hole, shaft = (self.reader.level(feature, self.throttle, level) for feature in (d.HOLE, d.SHAFT))
        return None if hole is None or shaft is None else (hole.draws - shaft.draws, (*hole.inputs, *shaft.inputs))

    @cached_property
    def clearances(self) -> dict[str, Read]:
        """Clearance of the shaft at each end that was read; from sizes without a level as "both ends"."""
        found = {level.name: read for level in d.ENDS if (read := self.end_clearance(level.name)) is not None}
        hole, shaft = self.reader.largest(d.HOLE, self.throttle), self.reader.smallest(d.SHAFT, self.throttle)
        if not found and hole is not None and shaft is not None:
            found["both ends"] = hole.draws - shaft.draws, (*hole.inputs, *shaft.inputs)
        return found

    def leak_area(self, clearances: dict[str, Draws], gap: Draws | None) -> Draws:
        """Free area round shaft and disc, shut [m2]. An end that was not read leaks as the other does."""
        shaft = self.one(d.SHAFT)
        area = self.reader.full(0.0)
        if shaft is not None and clearances:
            mean = np.mean([np.maximum(each, 0.0) for each in clearances.values()], axis=0)
            area = area + np.asarray(linkage.shaft_leak_area(shaft=shaft.draws, clearance=mean))
        bore = self.one(d.BORE)
        if bore is not None and gap is not None:
            area = area + np.asarray(linkage.disc_leak_area(bore=bore.draws, gap=np.maximum(gap, 0.0)))
        return np.asarray(area)

    @cached_property
    def idle_air(self) -> Read | None:
        """Air that the engine idles on [kg/s], from its size and its slowest speed; None where one is not known.

        Where the slowest speed was not read it is taken as 40 to 60 % of the rated one.
        """
        outline, read = self.bench.snapshot.outline, self.one(d.IDLE)
        if outline.bore is None or outline.stroke is None or outline.cylinders is None:
            return None
        if read is None and outline.rated_speed is None:
            return None
        rated = (outline.rated_speed or 0.0) * RPM
        speed = read.draws if read is not None else rated * self.reader.even("idling over rated speed", 0.4, 0.6)
        swept = math.pi / 4 * outline.bore**2 * outline.stroke * outline.cylinders
        density = self.idle_pressure / (gas_flow.AIR_CONSTANT * WARM)
        charges = speed / (2 * math.pi) / ((outline.strokes or 4) / 2)
        return swept * charges * density * IDLE_FILLING, read.inputs if read is not None else ()

    @cached_property
    def idle_pressure(self) -> Draws:
        """Pressure in the manifold when idling [Pa]."""
        return self.reader.even("pressure in the manifold when idling", *IDLE_PRESSURE)

    def leak_share(self, clearances: dict[str, Draws], gap: Draws | None) -> Draws | None:
        """Air through the shut throttle over what the engine idles on [1]; None where its size is not known."""
        air = self.idle_air
        if air is None:
            return None
        area = self.reader.even("discharge of a throttle's slots", *DISCHARGE) * self.leak_area(clearances, gap)
        flow = gas_flow.mass_flow(area=area, upstream=101_325.0, downstream=self.idle_pressure, temperature=AIR)
        return np.asarray(flow / air[0])

    # ---- the linkage

    @cached_property
    def friction(self) -> Draws:
        """Friction of the joints."""
        return self.reader.even("friction of the throttle's joints", *FRICTION)

    @cached_property
    def pulled(self) -> bool:
        """Does a spring pull the linkage always one way?"""
        words = self.reader.words(d.RETURN, self.throttle)[0].lower()
        return bool(words) and not any(word in words for word in ("none", "no ", "missing", "broken"))

    @cached_property
    def ratios(self) -> tuple[Draws, tuple[Draws, ...], tuple[str, ...]]:
        """Ratio of the fork lever (collar to joint 1), ratios of levers after each joint, and the readings; rods are 1."""
        fork, found, inputs = self.reader.full(1.0), dict[int, Draws](), list[str]()
        for item in self.levers:
            driving, driven = self.reader.size(d.DRIVING, item), self.reader.size(d.DRIVEN, item)
            if driving is None or driven is None:
                continue
            ratio = np.asarray(linkage.lever_ratio(driving=driving.draws, driven=driven.draws))
            inputs += [*driving.inputs, *driven.inputs]
            place = number(item)
            if place.isdecimal():
                found[int(place)] = ratio
            else:
                fork = ratio
        whole = self.reader.full(1.0)
        return fork, tuple(found.get(n, whole) for n in range(1, len(self.joints) + 1)), tuple(inputs)

    def joint_play(self, item: str) -> Read | None:
        """Play of a joint [m]: as read, else hole less pin."""
        play = self.reader.largest(d.PLAY, item)
        if play is not None:
            return play.draws, play.inputs
        hole, pin = self.reader.largest(d.EYE, item), self.reader.smallest(d.PIN, item)
        return None if hole is None or pin is None else (hole.draws - pin.draws, (*hole.inputs, *pin.inputs))

    def fulcrum_clearance(self, item: str) -> Read | None:
        """Clearance of a lever on its fulcrum [m]."""
        hole, pin = self.reader.largest(d.FULCRUM_HOLE, item), self.reader.smallest(d.FULCRUM_PIN, item)
        return None if hole is None or pin is None else (hole.draws - pin.draws, (*hole.inputs, *pin.inputs))

    def plays(self) -> dict[str, Read]:
        """Play of every joint and every fulcrum that was read [m]."""
        found = [(item, self.joint_play(item)) for item in self.joints]
        found += [(item, self.fulcrum_clearance(item)) for item in self.levers]
        return {item: read for item, read in found if read is not None}

    def slack(self, plays: dict[str, Draws]) -> dict[str, Draws]:
        """Lost motion at the governor's collar [m], joint by joint and fulcrum by fulcrum.

        A linkage that a spring pulls one way loses only what friction lets its pins climb.
        """
        fork, ratios, _ = self.ratios

        def lost(play: Draws) -> Draws:
            play = np.maximum(play, 0.0)
            return np.asarray(governors.play_under_load(clearance=play, friction=self.friction)) if self.pulled else play

        found = {}
        for place, item in enumerate(self.joints, 1):
            if item in plays:
                before = fork * linkage.ratio_before(ratios=ratios, joint=place)
                found[item] = np.asarray(lost(plays[item]) / before)
        for item in self.levers:
            if item in plays:
                place = int(number(item)) if number(item).isdecimal() else 0
                before = fork * linkage.ratio_before(ratios=ratios, joint=place) if place else self.reader.full(1.0)
                driving, driven = (self.reader.size(arm, item) for arm in (d.DRIVING, d.DRIVEN))
                share = 1.0 if driving is None or driven is None else driving.draws / driven.draws
                play = linkage.fulcrum_play(clearance=lost(plays[item]), driving=share, driven=1.0)
                found[item] = np.asarray(play / before)
        return found

    @cached_property
    def drag(self) -> tuple[Draws, tuple[str, ...], bool] | None:
        """Drag of throttle and disc at the governor's collar [N], its readings, and whether it was read at the lever."""
        fork, ratios, inputs = self.ratios
        whole = fork * linkage.ratio_before(ratios=ratios, joint=len(ratios) + 1)
        read = self.one(d.DRAG)
        if read is not None:
            force = np.maximum(read.draws, 0.0)
            return np.asarray(linkage.force_at_start(force=force, ratio=whole)), (*read.inputs, *inputs), True
        bore, shaft, arm = self.one(d.BORE), self.one(d.SHAFT), self.one(d.ARM)
        if bore is None or shaft is None or arm is None:
            return None
        suction = self.reader.even("suction on the throttle at part load", *WORKING_SUCTION)
        torque = linkage.shaft_drag(suction=suction, bore=bore.draws, shaft=shaft.draws, friction=self.friction)
        force = np.asarray(torque) / arm.draws
        return force * whole, (*bore.inputs, *shaft.inputs, *arm.inputs, *inputs), False


_LAST: dict[str, IntakeSet] = {}


def blank(item: str, quantity: str, *, part: str = d.THROTTLE, dimension: str = "length") -> Finding:
    """A finding of this system with its names only."""
    return Finding(system=d.KEY, part=part, item=item, quantity=quantity, dimension=dimension)
