"""Springs: rate by wire and by force, what is left of the force when new, stress, room to solid, squareness, surge.

What a drawing called for is not known of a spring a century old. What is left is told from the free length when new, as far as
that can be reconstructed, and from the strongest of its like.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.specification import Specification
from gudgeon.engine.system import Feature
from gudgeon.handbook.spring_wires import SpringWire, spring_wire
from gudgeon.mechanics import springs as mechanics
from gudgeon.mechanics.valve_flow import suction_to_open
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Limit, Practice, joined, judged, middle, not_measured, practice
from gudgeon.systems.measured import Draws, Measured
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.valve_set import ValveSet, blank

RATE, RATE_WIRE = "spring rate", "spring rate from wire and coils"
FORCE_FITTED, FORCE_OPEN = "spring force, valve shut", "spring force, valve open"
LEFT, SET = "valve spring force left", "free length lost"
STRESS, CLASH, LEAN, SURGE, SUCTION = (
    "spring stress when open",
    "room to solid when open",
    "spring out of square",
    "surge over lifts",
    "suction to open",
)
WIRE_TAKEN = "hard-drawn wire"
_SHEAR_DOUBT = 0.02
"""Relative standard uncertainty of the wire's shear modulus, between kinds of steel wire; from memory."""
SOLID = Limit(
    size=0.0, most=False, origin=Origin("E", "geometry: coil lies on coil, and the cam lifts against solid steel", "")
)


@dataclass(frozen=True, kw_only=True)
class Spring:
    """What was read of one spring, and what follows from it."""

    item: str
    valves: ValveSet

    @cached_property
    def wire_kind(self) -> SpringWire:
        """The wire that it is taken to be of: the weakest of the usual kinds, since nobody can tell by eye."""
        return spring_wire(WIRE_TAKEN)

    @cached_property
    def free(self) -> Measured | None:
        """Free length."""
        return self.valves.size(d.FREE, self.item)

    @cached_property
    def forces(self) -> tuple[tuple[Draws, Measured], ...]:
        """Lengths [m] and the forces read at them."""
        found = [
            (self.valves.reader.full(figure * (1e-3 if unit == "mm" else d.INCH)), read)
            for figure, unit, read in self.valves.reader.at_sizes(d.FORCE_AT, self.item)
        ]
        for length, force in ((d.FITTED, d.FORCE_FITTED), (d.OPEN, d.FORCE_OPEN)):
            at, read = self.valves.size(length, self.item), self.valves.size(force, self.item)
            if at is not None and read is not None:
                found.append((at.draws, replace(read, inputs=(*read.inputs, *at.inputs))))
        return tuple(sorted(found, key=lambda pair: -middle(pair[0])))

    @cached_property
    def mean_diameter(self) -> tuple[Draws, Draws, tuple[str, ...]] | None:
        """Wire and mean diameter [m] with their readings."""
        wire, outside = self.valves.size(d.WIRE, self.item), self.valves.size(d.OUTSIDE, self.item)
        if wire is None or outside is None:
            return None
        return wire.draws, outside.draws - wire.draws, (*wire.inputs, *outside.inputs)

    @cached_property
    def ends(self) -> tuple[mechanics.Ends, bool]:
        """Its ends, and whether they were noted; closed and ground where not, as springs of engines mostly are."""
        words = self.valves.reader.words(d.ENDS, self.item)[0].lower()
        shut = "open" not in words and "plain" not in words
        ground = "not ground" not in words and "unground" not in words and ("ground" in words or "flat" in words or not words)
        kinds: dict[tuple[bool, bool], mechanics.Ends] = {
            (True, True): "closed, ground",
            (True, False): "closed",
            (False, True): "plain, ground",
            (False, False): "plain",
        }
        return kinds[shut, ground], bool(words)

    @cached_property
    def rate_by_wire(self) -> tuple[Draws, tuple[str, ...]] | None:
        """Rate from wire, diameter and coils [N/m]."""
        coils = self.valves.size(d.COILS, self.item)
        if self.mean_diameter is None or coils is None:
            return None
        wire, mean, inputs = self.mean_diameter
        active = np.maximum(mechanics.active_coils(total=coils.draws, ends=self.ends[0]), 0.5)
        doubt = 1 + _SHEAR_DOUBT * self.valves.bench.named("shear modulus of spring wire")
        rate = mechanics.rate(
            wire=wire, mean_diameter=mean, active=active, shear_modulus=np.asarray(self.wire_kind.shear_modulus * doubt)
        )
        return np.asarray(rate), (*inputs, *coils.inputs)

    @cached_property
    def rate_by_force(self) -> tuple[Draws, tuple[str, ...]] | None:
        """Rate from two forces, or from one and the free length [N/m]."""
        if len(self.forces) >= 2:
            (long, weak), (short, strong) = self.forces[0], self.forces[-1]
            if middle(long - short) > 2e-3:
                rate = mechanics.rate_between(force_1=weak.draws, length_1=long, force_2=strong.draws, length_2=short)
                return np.asarray(rate), (*weak.inputs, *strong.inputs)
        if self.forces and self.free is not None:
            length, force = self.forces[-1]
            travel = np.maximum(self.free.draws - length, 1e-4)
            return np.asarray(force.draws / travel), (*force.inputs, *self.free.inputs)
        return None

    @cached_property
    def rate(self) -> tuple[Draws, tuple[str, ...]] | None:
        """The rate to reckon with: by force where it was read, else by wire."""
        return self.rate_by_force or self.rate_by_wire

    def force(self, length: Feature) -> tuple[Draws, tuple[str, ...]] | None:
        """Force at the fitted or open length [N]: as read there, else from free length and rate."""
        feature = d.FORCE_FITTED if length is d.FITTED else d.FORCE_OPEN
        read = self.valves.size(feature, self.item)
        if read is not None:
            return read.draws, read.inputs
        at = self.length(length)
        if at is None or self.rate is None or self.free is None:
            return None
        force = mechanics.force_at(rate=self.rate[0], free_length=self.free.draws, length=at[0])
        return np.asarray(force), (*self.rate[1], *self.free.inputs, *at[1])

    def length(self, feature: Feature) -> tuple[Draws, tuple[str, ...]] | None:
        """Fitted or open length [m]: as read; the open one else from the fitted one less the lift."""
        read = self.valves.size(feature, self.item)
        if read is not None:
            return read.draws, read.inputs
        valve = self.valves.valve_of(self.item)
        fitted = self.valves.size(d.FITTED, self.item)
        lift = self.valves.size(d.LIFT, valve) if valve else None
        if feature is d.OPEN and fitted is not None and lift is not None:
            return fitted.draws - lift.draws, (*fitted.inputs, *lift.inputs)
        return None

    @cached_property
    def solid(self) -> Draws | None:
        """Length coil on coil [m]."""
        coils = self.valves.size(d.COILS, self.item)
        if self.mean_diameter is None or coils is None:
            return None
        return np.asarray(mechanics.solid_length(wire=self.mean_diameter[0], total=coils.draws, ends=self.ends[0]))


def spring(item: str, valves: ValveSet) -> Spring:
    """One spring, worked out once."""
    kept = valves.worked_out.setdefault(f"spring {item}", Spring(item=item, valves=valves))
    assert isinstance(kept, Spring)
    return kept


def spring_findings(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    """All that one spring says."""
    one = spring(item, valves)
    return (
        *_rates(one),
        *_forces(one),
        *_left(one),
        *_set(one),
        *_stress(one),
        *_clash(one),
        *_lean(one),
        *_surge(one),
        *_suction(one),
        *_state(one),
    )


def _line(one: Spring, quantity: str, dimension: str) -> Finding:
    return blank(one.item, quantity, part=d.SPRING, dimension=dimension)


def _rates(one: Spring) -> tuple[Finding, ...]:
    found: list[Finding] = []
    wire, force = one.rate_by_wire, one.rate_by_force
    if wire is None and force is None:
        settle = f"Read the force of {one.item} at two lengths; or its wire, outside diameter and coils."
        return (not_measured(_line(one, RATE, "stiffness"), settle=settle),)
    if force is not None:
        said = Said(f"{one.item} gives {{0}}.", (Amount(middle(force[0]), "stiffness"),))
        line = replace(_line(one, RATE, "stiffness"), sentence=said, inputs=force[1], formula="force over travel, as read")
        found += judged(line, force[0])
    if wire is not None:
        said = Said(f"By wire and coils {one.item} should give {{0}}.", (Amount(middle(wire[0]), "stiffness"),))
        if not one.ends[1]:
            said = joined(said, Said("Its ends were not noted and are taken as closed and ground."))
        if force is not None:
            said = joined(said, _agree(middle(force[0] / wire[0])))
        line = replace(
            _line(one, RATE_WIRE, "stiffness"),
            sentence=said,
            inputs=wire[1],
            formula="G d⁴ / (8 D³ Na); Shigley, Mechanical Engineering Design, eq. 10-9",
        )
        found += judged(line, wire[0])
    return tuple(found)


def _agree(ratio: float) -> Said:
    if 0.9 < ratio < 1.1:
        return Said("Force and wire agree: it has only set, not softened or lost section.")
    why = (
        "coils miscounted, wire thinned by rust, or the free length not what it was"
        if ratio < 1
        else "a working coil lies dead"
    )
    return Said(f"The force read is {abs(ratio - 1):.0%} {'below' if ratio < 1 else 'above'} that: {why}. Read the wire again.")


def _forces(one: Spring) -> tuple[Finding, ...]:
    found: list[Finding] = []
    for quantity, length, words in ((FORCE_FITTED, d.FITTED, "shut"), (FORCE_OPEN, d.OPEN, "open")):
        read = one.force(length)
        line = _line(one, quantity, "force")
        if read is None:
            settle = f"Read the force of {one.item} at the length it has with the valve {words}, and that length."
            found.append(not_measured(line, settle=settle))
            continue
        said = Said(f"{one.item} presses {{0}} with the valve {words}.", (Amount(middle(read[0]), "force"),))
        line = replace(line, sentence=said, inputs=read[1], formula="as read, or rate × (free length − length)")
        found += judged(line, read[0])
    return (*found, *_known_band(one))


def _known_band(one: Spring) -> tuple[Finding, ...]:
    """A force held against a maker's band where one is known for a spring of that free length at that length (Ford A)."""
    found: list[Finding] = []
    for length, read in one.forces:
        at = middle(length)
        if one.free is None or abs(one.free.value - 2.9375 * d.INCH) > 0.15 * d.INCH or abs(at - 2.25 * d.INCH) > 1e-4:
            continue
        practised = practice("valve spring force", size=at, slow=one.valves.slow)
        said = Said(f"{one.item} gives {{0}} at {{1}}.", (Amount(read.value, "force"), Amount(at, "length")))
        line = replace(
            _line(one, f"spring force at {at / d.INCH:g} in", "force"), sentence=said, inputs=read.inputs, formula="as read"
        )
        found += judged(line, read.draws, Practice(targets=practised.targets))
    return tuple(found)


def force_left(one: Spring) -> tuple[Draws, tuple[str, ...], str] | None:
    """Force now over force when new, its readings, and what "new" rests on; None where nothing tells.

    Where the free length when new is known (as reconstructed), by it; the strongest of its like can only say that no more than
    so much has been lost by comparison.
    """
    pair = one.forces[-1] if one.forces else None
    if pair is None:
        return None
    length, force = pair
    known = _known_new(one)
    if known is not None and known.low is not None and known.high is not None:
        mean, sigma = (known.low + known.high) / 2, (known.high - known.low) / (2 * 1.645)
        new = mean + sigma * one.valves.bench.named(f"force of {one.item} when new")
        return force.draws / np.maximum(new, 1.0), force.inputs, "its free length when new"
    like = [other for name in one.valves.springs if (other := spring(name, one.valves)).forces and _kind(other) == _kind(one)]
    same = [other.forces[-1][1].draws for other in like if abs(middle(other.forces[-1][0] - length)) < 1e-4]
    if len(same) < 2:
        return None
    return np.asarray(force.draws / np.max(same, axis=0)), force.inputs, "the strongest of its like"


def _kind(one: Spring) -> str:
    return "suction" if one.valves.is_automatic(one.item) else "cam"


def _known_new(one: Spring) -> Specification | None:
    """The reconstructed force when new at the shortest length that a name states."""
    sized = one.valves.reader.at_sizes(d.FORCE_AT, one.item)
    if not sized or sized[0][2].inputs != one.forces[-1][1].inputs:
        return None
    place = sized[0][2].estimates[0].place
    return one.valves.bench.specification(place.part, place.item, place.feature)


def left_rules(one: Spring) -> Practice:
    """What authorities say of a spring's force that is left."""
    return practice("valve spring force left", size=0.05, slow=one.valves.slow)


def _left(one: Spring) -> tuple[Finding, ...]:
    practised = left_rules(one)
    read = force_left(one)
    if read is None:
        settle = f"Read the force of {one.item} at one length, and of its like at the same length."
        return (not_measured(_line(one, LEFT, "ratio"), settle=settle, practised=practised),)
    said = Said(f"{one.item} has {middle(read[0]):.0%} of its force left, going by {read[2]}.")
    line = replace(
        _line(one, LEFT, "ratio"),
        sentence=said,
        inputs=read[1],
        formula="force now / force when new at the same length",
        settle="" if read[2] != "the strongest of its like" else f"Read the force of {one.item} at a stated length too.",
    )
    return judged(line, read[0], practised)


def _set(one: Spring) -> tuple[Finding, ...]:
    new = one.valves.reader.original(d.FREE, one.item)
    if one.free is None:
        return (not_measured(_line(one, SET, "length"), settle=f"Read the free length of {one.item}."),)
    if new is None:
        return ()
    draws = new - one.free.draws
    said = Said(f"{one.item} has set {{0}} of its free length.", (Amount(middle(draws), "length"),))
    line = replace(
        _line(one, SET, "length"), sentence=said, inputs=one.free.inputs, formula="free length when new, as reconstructed − now"
    )
    return judged(line, draws)


def _stress(one: Spring) -> tuple[Finding, ...]:
    force = one.force(d.OPEN)
    if force is None or one.mean_diameter is None:
        settle = f"Read wire, outside diameter and open length of {one.item}."
        return (not_measured(_line(one, STRESS, "stress"), settle=settle),)
    wire, mean, inputs = one.mean_diameter
    draws = np.asarray(mechanics.stress(force=force[0], wire=wire, mean_diameter=mean))
    kind = one.wire_kind
    strength = middle(np.asarray(mechanics.wire_strength(wire=wire, constant=kind.constant, exponent=kind.exponent)))
    limit = Limit(
        size=kind.torsion * strength,
        most=True,
        origin=Origin(kind.grade, kind.source, f"{kind.torsion:.0%} of the tensile strength of {kind.name}"),
        decides=not kind.from_memory,
    )
    said = Said(
        f"Open, the wire of {one.item} is twisted to {{0}}; {kind.name} of that size bears {{1}}.",
        (Amount(middle(draws), "stress"), Amount(limit.size, "stress")),
    )
    line = replace(
        _line(one, STRESS, "stress"),
        sentence=said,
        inputs=(*force[1], *inputs),
        formula="Bergsträsser's factor × 8 F D / (π d³); Shigley, eq. 10-3 and 10-5",
    )
    return judged(line, draws, Practice(limits=(limit,)))


def clash_of(one: Spring) -> tuple[Draws, tuple[str, ...]] | None:
    """What is left between the open length and solid [m]."""
    at = one.length(d.OPEN)
    if at is None or one.solid is None or one.mean_diameter is None:
        return None
    return at[0] - one.solid, (*at[1], *one.mean_diameter[2])


def _clash(one: Spring) -> tuple[Finding, ...]:
    read = clash_of(one)
    if read is None:
        settle = f"Read the open length, wire and coils of {one.item}."
        return (not_measured(_line(one, CLASH, "length"), settle=settle),)
    said = Said(f"{one.item} has {{0}} to go to solid when open.", (Amount(middle(read[0]), "length"),))
    line = replace(
        _line(one, CLASH, "length"), sentence=said, inputs=read[1], formula="open length − wire × coils (Shigley, Table 10-1)"
    )
    return judged(line, read[0], Practice(limits=(SOLID,)))


def lean_rules(one: Spring) -> Practice:
    """What authorities say of a leaning spring."""
    return practice("valve spring out of square", size=0.05, slow=one.valves.slow)


def _lean(one: Spring) -> tuple[Finding, ...]:
    read = one.valves.size(d.LEAN, one.item)
    practised = lean_rules(one)
    if read is None:
        settle = f"Stand {one.item} against a square and read the gap at its top."
        return (not_measured(_line(one, LEAN, "length"), settle=settle, practised=practised),)
    said = Said(f"{one.item} leans {{0}} at the top, and pushes its stem to one side.", (Amount(read.value, "length"),))
    line = replace(_line(one, LEAN, "length"), sentence=said, inputs=read.inputs, formula="as read against a square")
    return judged(line, read.draws, practised)


def _surge(one: Spring) -> tuple[Finding, ...]:
    speed = one.valves.bench.snapshot.outline.rated_speed
    coils = one.valves.size(d.COILS, one.item)
    if one.rate_by_wire is None or one.mean_diameter is None or coils is None or speed is None:
        return ()
    wire, mean, inputs = one.mean_diameter
    active = mechanics.active_coils(total=coils.draws, ends=one.ends[0])
    mass = mechanics.active_mass(wire=wire, mean_diameter=mean, active=active, density=one.wire_kind.density)
    own = np.asarray(mechanics.surge_frequency(rate=one.rate_by_wire[0], mass=mass))
    draws = own / (speed / 120.0)
    said = Said(f"{one.item} swings by itself {middle(draws):.0f} times as fast as its valve lifts.")
    limit = Limit(size=15.0, most=False, origin=Origin("E", "Shigley 10-8", "15 to 20 times; from memory"), decides=False)
    line = replace(
        _line(one, SURGE, "ratio"),
        sentence=said,
        inputs=(*inputs, *coils.inputs),
        formula="½ √(k / m of the working coils) over lifts a second at rated speed; Shigley, eq. 10-25",
    )
    return judged(line, draws, Practice(limits=(limit,)))


def _suction(one: Spring) -> tuple[Finding, ...]:
    """Of an automatic inlet: the suction that opens it."""
    valve = one.valves.valve_of(one.item)
    if valve is None or not one.valves.is_automatic(valve):
        return ()
    force = one.force(d.FITTED)
    port = one.valves.size(d.PORT, valve) or one.valves.size(d.HEAD, valve)
    if force is None or port is None:
        settle = f"Read the force of {one.item} with the valve shut, and the port of {valve}."
        return (not_measured(_line(one, SUCTION, "pressure"), settle=settle),)
    draws = np.asarray(suction_to_open(spring_force=force[0], diameter=port.draws))
    said = Said(
        f"{valve} opens itself at a suction of about {{0}}. Only strength of spring and freedom of the guide set it; "
        "too stiff starves the engine, too weak chatters and blows back.",
        (Amount(middle(draws), "pressure"),),
    )
    line = replace(
        _line(one, SUCTION, "pressure"),
        sentence=said,
        inputs=(*force[1], *port.inputs),
        formula="spring force / area of the port; automatic inlets are not timed: Rathbun (1916) §137",
    )
    return judged(line, draws)


def _state(one: Spring) -> tuple[Finding, ...]:
    words, inputs = one.valves.reader.words(d.STATE, one.item)
    if not words:
        return ()
    line = _line(one, "condition", "words")
    return (replace(line, sentence=Said(f"{one.item}: {words}."), inputs=inputs, formula="as noted"),)
