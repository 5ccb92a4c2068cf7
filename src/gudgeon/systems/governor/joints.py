"""What wears on weights, rollers, sleeve, collar and thrust, and on a detent; balls identified and counted."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.system import Feature
from gudgeon.handbook.sizes import named_sizes
from gudgeon.quantity import Amount, Said
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.curve import between_weights, collar_play, flats, on_lever, plays, rate_by_wire, spring_of
from gudgeon.systems.governor.governor_set import GovernorSet, blank
from gudgeon.systems.judging import Limit, Practice, Target, authorities_differ, joined, judged, middle, not_measured, practice
from gudgeon.systems.measured import Draws

PIN_PLAY, LUG_PLAY, ROLLER_PLAY = "weight on its pin", "pin in its lug", "roller on its pin"
FLAT, GROOVE, SLEEVE_PLAY, COLLAR, THRUST = (
    "flat of the roller",
    "groove of the sleeve",
    "sleeve on its shaft",
    "fork in its collar",
    "slack of the thrust",
)
BALL, BALLS = "ball of the thrust", "balls of the thrust"
RATE, RATE_WIRE = "governor spring rate", "governor spring rate from wire and coils"
GAP, GRIP, TURNS = "blade off the block at lowest speed", "hold of the blade on the block", "turns between firings"
HOLDS = Limit(size=0.0, most=False, origin=Origin("E", "geometry: an edge rounded as deep as it catches slips off"))
CLEARS = Limit(size=0.0, most=False, origin=Origin("E", "geometry: a blade that touches the block holds the valve open always"))


def pin_rules(one: GovernorSet, item: str) -> Practice:
    """What authorities say of play at a governor's pin, at its size."""
    read = one.reader.size(d.PIN, item)
    size = read.value if read is not None else 0.1875 * d.INCH
    return practice("governor pin clearance", "linkage pin clearance", size=size, slow=one.slow)


def roller_rules(one: GovernorSet, item: str) -> Practice:
    """What authorities say of play of a roller on its pin."""
    read = one.reader.size(d.ROLLER_PIN, item)
    return practice("roller on pin clearance", size=read.value if read is not None else 0.25 * d.INCH, slow=one.slow)


def joint_findings(one: GovernorSet) -> tuple[Finding, ...]:
    """Weights and rollers, then sleeve, collar and thrust, then spring, then the detent."""
    weights = [finding for item in one.weights for finding in _weight(item, one)]
    return (*weights, *_sleeve(one), *_balls(one), *_spring(one), *_detent(one))


def _weight(item: str, one: GovernorSet) -> tuple[Finding, ...]:
    return (
        *_play(item, one, PIN_PLAY, d.HOLE, d.PIN, pin_rules(one, item), "Play here turns with the weights and chatters."),
        *_play(item, one, LUG_PLAY, d.LUG, d.PIN, pin_rules(one, item), "The pin should stand still in its lug.", ask=False),
        *_play(item, one, ROLLER_PLAY, d.ROLLER_BORE, d.ROLLER_PIN, roller_rules(one, item), "", ask=not one.hung),
        *_flat(item, one),
        *_words(item, one, d.WEIGHT_STATE),
    )


def _play(
    item: str, one: GovernorSet, quantity: str, hole: Feature, pin: Feature, practised: Practice, why: str, *, ask: bool = True
) -> tuple[Finding, ...]:
    read = plays(one, hole, pin).get(item)
    line = blank(item, quantity, part=d.WEIGHT)
    if read is None:
        settle = f"Read {hole.title.lower()} and {pin.title.lower()} of {item}."
        return (not_measured(line, settle=settle, practised=practised),) if ask else ()
    said = joined(
        Said(f"{item[0].upper()}{item[1:]}: {quantity} {{0}} at the widest.", (Amount(middle(read[0]), "length"),)), Said(why)
    )
    line = replace(line, sentence=said, inputs=read[1], formula="largest hole − smallest pin")
    return judged(line, read[0], practised)


def _flat(item: str, one: GovernorSet) -> tuple[Finding, ...]:
    if one.hung:
        return ()
    read = flats(one).get(item)
    line = blank(item, FLAT, part=d.WEIGHT)
    if read is None:
        return (not_measured(line, settle=f"Read the roller of {item} and the width of its flat; 0 where it is round."),)
    depth = middle(read[0])
    said = Said(f"The roller of {item} is round.")
    if depth > 2e-6:
        said = Said(
            f"The roller of {item} has a flat {{0}} deep: the sleeve stands that much lower on it, and a roller with a flat "
            "slides and does not roll.",
            (Amount(depth, "length"),),
        )
    line = replace(line, sentence=said, inputs=read[1], formula="R − √(R² − w²/4), w the width of the flat")
    return judged(line, read[0])


def _words(item: str, one: GovernorSet, feature: Feature) -> tuple[Finding, ...]:
    words, inputs = one.reader.words(feature, item)
    if not words:
        return ()
    text = f"{item}: {words}.".replace("{", "(").replace("}", ")")
    if any(word in words.lower() for word in ("crack", "broken", "bent")) and "no crack" not in words.lower():
        text += " Do not run it so: a weight that lets go is thrown, and the engine runs away."
    line = blank(item, "condition", part=feature.part, dimension="words")
    return (replace(line, sentence=Said(text), inputs=inputs, formula="as noted"),)


def _sleeve(one: GovernorSet) -> tuple[Finding, ...]:
    if not one.bench.items(d.SLEEVE):
        return ()
    item = one.only(d.SLEEVE)
    found: list[Finding] = []
    bore, shaft = one.one(d.BORE), one.one(d.SHAFT)
    size = shaft.value if shaft is not None else 0.75 * d.INCH
    rules = practice("turning pin clearance", size=size, slow=one.slow)
    if bore is None or shaft is None:
        settle = "Read the bore of the sleeve and its shaft."
        found.append(not_measured(blank(item, SLEEVE_PLAY, part=d.SLEEVE), settle=settle, practised=rules))
    else:
        said = Said(
            f"{item} has {{0}} on its shaft; slack here lets it cock and stick.", (Amount(bore.value - shaft.value, "length"),)
        )
        line = replace(
            blank(item, SLEEVE_PLAY, part=d.SLEEVE), sentence=said, inputs=(*bore.inputs, *shaft.inputs), formula="bore − shaft"
        )
        found += judged(line, bore.draws - shaft.draws, rules)
    found += _end_play(item, one)
    return (*found, *_words(item, one, d.SLEEVE_STATE))


def _end_play(item: str, one: GovernorSet) -> list[Finding]:
    """Groove, collar and thrust: each lost travel of the sleeve."""
    groove, thrust = one.one(d.GROOVE), one.one(d.THRUST_SLACK)
    rows: tuple[tuple[str, tuple[Draws, tuple[str, ...]] | None, str, str], ...] = (
        (
            GROOVE,
            None if groove is None else (groove.draws, groove.inputs),
            "the rollers drop into it, and the sleeve stands lower by so much",
            "the depth of the groove that the rollers have worn",
        ),
        (
            COLLAR,
            collar_play(one),
            "kept pressed one way by the spring outside"
            if on_lever(one)
            else "all of it is travel lost each time it turns back",
            "the collar's groove and the fork's blocks",
        ),
        (
            THRUST,
            None if thrust is None else (thrust.draws, thrust.inputs),
            "lost like the collar's",
            "the slack of the thrust",
        ),
    )
    found: list[Finding] = []
    for quantity, read, why, what in rows:
        line = blank(item, quantity, part=d.SLEEVE)
        if read is None:
            if not (quantity == GROOVE and one.hung):
                found.append(not_measured(line, settle=f"Read {what}."))
            continue
        said = Said(f"{quantity.capitalize()}: {{0}}; {why}.", (Amount(middle(read[0]), "length"),))
        found += judged(replace(line, sentence=said, inputs=read[1], formula="as read"), read[0])
    return found


# ---- balls


@dataclass(frozen=True, kw_only=True)
class Balls:
    """The balls of the thrust: candidates with their chance, likeliest first; how many were counted and how many go in."""

    sizes: tuple[tuple[str, float, float], ...]
    counted: int | None
    room: int | None
    caged: bool
    inputs: tuple[str, ...]

    @property
    def wanted(self) -> int | None:
        """How many to order: as counted where they are caged; else as many as go in, less none for play."""
        return self.counted if self.caged or self.room is None else self.room


def balls_of(one: GovernorSet) -> Balls | None:
    """Which balls they are; None where none was measured.

    Old balls wear and rust, they do not grow: a listed size counts by how well it explains the reading with up to two thou
    gone. A full ring of loose balls holds floor(pi / asin(d / D)), D the middle circle of the track (geometry).
    """
    read = one.reader.largest(d.BALL, one.only(d.SLEEVE))
    if read is None:
        return None
    sigma = max(float(np.std(read.draws)), 0.0002 * d.INCH)
    chances = []
    for size in named_sizes("bearing balls"):
        over = size.nominal - read.value
        chances.append((size.written.removeprefix("ball "), size.nominal, _explained(over, sigma)))
    total = sum(chance for *_, chance in chances)
    ranked = sorted(((w, n, c / total) for w, n, c in chances if total > 0 and c / total > 0.01), key=lambda each: -each[2])
    count, race = one.one(d.BALL_COUNT), one.one(d.RACE)
    room = None
    if ranked and race is not None and race.value > ranked[0][1]:
        room = int(math.pi / math.asin(ranked[0][1] / race.value) + 1e-9)
    return Balls(
        sizes=tuple(ranked),
        counted=None if count is None else round(count.value),
        room=room,
        caged="cage" in one.said(d.CAGE)[0] and "loose" not in one.said(d.CAGE)[0],
        inputs=(*read.inputs, *(count.inputs if count else ()), *(race.inputs if race else ())),
    )


def _explained(over: float, sigma: float) -> float:
    """How well a ball larger than the reading by so much explains it: even wear, nought to two thou, the gauge's doubt."""
    from scipy.special import ndtr

    return float(ndtr(over / sigma) - ndtr((over - 0.002 * d.INCH) / sigma))


def _balls(one: GovernorSet) -> tuple[Finding, ...]:
    found = balls_of(one)
    if found is None:
        return ()
    item = one.only(d.SLEEVE)
    read = one.reader.largest(d.BALL, item)
    assert read is not None
    if not found.sizes:
        said = Said(
            "Its balls read {0}, which is no size of the list within two thou of wear.", (Amount(read.value, "length"),)
        )
    else:
        others = ", ".join(f"{name} in, {{{place}}}" for place, (name, *_) in enumerate(found.sizes[1:], 1))
        said = Said(
            f"Its balls are {found.sizes[0][0]} in, {{0}}" + (f"; or {others}." if others else "."),
            tuple(Amount(chance, "probability") for *_, chance in found.sizes),
        )
    origin = Origin("C", "list of bearing balls; from memory")
    targets = tuple(Target(low=size, high=size, origin=origin, authority="list") for _, size, _ in found.sizes[:1])
    line = replace(
        blank(item, BALL, part=d.SLEEVE),
        sentence=joined(said, _counted(found)),
        inputs=found.inputs,
        formula="listed balls, less up to .002 in of wear; a ring holds floor(π / asin(d/D))",
    )
    return judged(line, read.draws, Practice(targets=targets))


def _counted(found: Balls) -> Said:
    if found.counted is None:
        return Said("They were not counted." if found.room is None else f"A full ring holds {found.room}.")
    if found.room is None or found.caged:
        return Said(f"{found.counted} counted.")
    if found.counted < found.room:
        short = found.room - found.counted
        text = "one is missing or was" if short == 1 else f"{short} are missing or were"
        return Said(f"{found.counted} counted, {found.room} go in: {text} left out for room.")
    if found.counted > found.room:
        return Said(f"{found.counted} counted, but only {found.room} go into such a ring: read ball and track again.")
    return Said(f"{found.counted} counted, a full ring.")


# ---- spring


def _spring(one: GovernorSet) -> tuple[Finding, ...]:
    if not one.bench.items(d.SPRING):
        return ()
    item = one.only(d.SPRING)
    working, wire = spring_of(one), rate_by_wire(one)
    found: list[Finding] = []
    if working is None:
        settle = "Read free and fitted length of the spring, and its force at a length, or its wire, outside and coils."
        found.append(not_measured(blank(item, RATE, part=d.SPRING, dimension="stiffness"), settle=settle))
    else:
        where = "between the weights" if between_weights(one) else "on the lever" if on_lever(one) else "on the sleeve"
        said = Said(f"The spring, {where}, gives {{0}}.", (Amount(middle(working.rate), "stiffness"),))
        line = replace(
            blank(item, RATE, part=d.SPRING, dimension="stiffness"), sentence=said, inputs=working.inputs,
            formula="force over travel, as read; else G d⁴ / (8 D³ Na), Shigley 10-9",
        )  # fmt: skip
        found += judged(line, working.rate)
    if wire is not None and working is not None and wire[1] != working.inputs[: len(wire[1])]:
        ratio = middle(working.rate / wire[0])
        text = "By wire and coils it should give {0}."
        if not 0.9 < ratio < 1.1:
            text += f" The force read is {ratio:.0%} of that: count the coils and read the wire again."
        said = Said(text, (Amount(middle(wire[0]), "stiffness"),))
        line = replace(
            blank(item, RATE_WIRE, part=d.SPRING, dimension="stiffness"), sentence=said, inputs=wire[1],
            formula="G d⁴ / (8 D³ Na); Shigley 10-9",
        )  # fmt: skip
        found += judged(line, wire[0])
    return tuple(found)


# ---- detent


def grip_of(one: GovernorSet) -> tuple[Draws, tuple[str, ...]] | None:
    """What holds the blade: overlap less rounding of the edges [m]; None where one was not read."""
    overlap, edge = one.one(d.OVERLAP), one.reader.largest(d.EDGE, one.only(d.DETENT))
    return None if overlap is None or edge is None else (overlap.draws - edge.draws, (*overlap.inputs, *edge.inputs))


def gap_rules(one: GovernorSet) -> Practice:
    """What makers ask of the blade's gap; that it clears decides."""
    return replace(practice("detent blade gap", size=0.0, slow=one.slow), limits=(CLEARS,))


def _detent(one: GovernorSet) -> tuple[Finding, ...]:
    if not one.bench.items(d.DETENT):
        return ()
    item = one.only(d.DETENT)
    found: list[Finding] = []
    gap, grip, turns = one.one(d.GAP), grip_of(one), one.one(d.TURNS)
    line = blank(item, GAP, part=d.DETENT)
    if gap is None:
        found.append(
            not_measured(line, settle="Read the blade off the block, weights in, valve wide open.", practised=gap_rules(one))
        )
    else:
        said = joined(
            Said("At the lowest speed the blade stands {0} off the block: it sets how far the speed falls before it fires.",
                 (Amount(gap.value, "length"),)), authorities_differ(gap_rules(one)))  # fmt: skip
        found += judged(replace(line, sentence=said, inputs=gap.inputs, formula="as read"), gap.draws, gap_rules(one))
    line = blank(item, GRIP, part=d.DETENT)
    if grip is None:
        found.append(not_measured(line, settle="Read how far the blade catches, and the rounding of its edges.",
                                  practised=Practice(limits=(HOLDS,))))  # fmt: skip
    else:
        said = joined(
            Said("Its edges hold by {0} beyond what is rounded off.", (Amount(middle(grip[0]), "length"),)),
            Said("A worn edge slips and the engine overspeeds (Rathbun, about 1916, §131)."),
        )
        line = replace(line, sentence=said, inputs=grip[1], formula="overlap − rounding of the worse edge")
        found += judged(line, grip[0], Practice(limits=(HOLDS,)))
    if turns is not None:
        rules = practice("turns between firings, idle", size=0.0, slow=one.slow)
        said = Said(f"It coasts {turns.value:.0f} turns between firings without load.")
        if turns.value < 8:
            said = joined(said, Said("Fewer than eight say that something drags or leaks, or that its wheel is light."))
        line = blank(item, TURNS, part=d.DETENT, dimension="count")
        found += judged(replace(line, sentence=said, inputs=turns.inputs, formula="as counted"), turns.draws, rules)
    words, inputs = one.said(d.BLOCK_SIDES)
    if words:
        fresh = "one side" in words and "both" not in words
        text = (
            "Its catch block has a side left: turn it round (Hercules-built, instruction book)."
            if fresh
            else f"Catch block: {words}."
        )
        line = blank(item, "catch block", part=d.DETENT, dimension="words")
        found.append(replace(line, sentence=Said(text.replace("{", "(").replace("}", ")")), inputs=inputs, formula="as noted"))
    return tuple(found)
