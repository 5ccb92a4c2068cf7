"""Screw threads: which they are, how worn, what to drill, how tight, what the hole bears."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.handbook.rules import RuleRow
from gudgeon.handbook.sizes import Size, named_sizes
from gudgeon.handbook.threads import Thread
from gudgeon.mechanics import threads as mechanics
from gudgeon.mechanics import torque as tightening
from gudgeon.metrology.thread_identity import UNDER, ThreadCandidate, same_cut
from gudgeon.metrology.thread_readings import ThreadFound, threads_read
from gudgeon.quantity import Amount, Said
from gudgeon.systems.fasteners import description as d
from gudgeon.systems.judging import Limit, Practice, joined, judged, known_rules, not_measured, origin_of
from gudgeon.systems.measured import Draws, Measured, Reader

IDENTITY, CRESTS, DRILL, CLAMP, STRIP, CONDITION = (
    "thread",
    "crests rubbed off",
    "tapping drill",
    "clamping force at the torque to use",
    "thread engaged against what it needs",
    "condition",
)
SHARE = 0.75
PSI = 6894.757
# Shear strength of what is tapped [Pa], and tensile strength of a soft bolt; from memory, the low end.
_SHEAR = {
    "cast iron": 25e3 * PSI,
    "aluminium": 18e3 * PSI,
    "aluminum": 18e3 * PSI,
    "bronze": 25e3 * PSI,
    "steel": 36e3 * PSI,
}
SOFT_TENSILE = 60e3 * PSI
BAD = ("stripped", "crossed", "stretched", "necked", "broken", "crack", "bent")


@dataclass(frozen=True, kw_only=True)
class Screw:
    """One thread on the bench, with what it may be."""

    reader: Reader
    part: str
    item: str
    found: ThreadFound

    @cached_property
    def candidates(self) -> tuple[ThreadCandidate, ...]:
        """Standard threads that it may be, likeliest first."""
        return self.found.candidates

    @property
    def thread(self) -> Thread | None:
        """The likeliest standard thread."""
        return self.candidates[0].thread if self.candidates else None

    @cached_property
    def settle(self) -> str:
        """The reading that would tell its likely candidates apart."""
        if self.found.outside is None:
            return f"Read {self.item} over its crests, and its length over ten pitches."
        if not self.candidates:
            return f"Nothing in the tables is near {self.item}: read it again, then take it as its maker's own."
        return self.found.settle(self.candidates)

    @cached_property
    def alone(self) -> float:
        """Probability of the likeliest cut: one diameter and pitch, whatever its series."""
        return math.fsum(each.probability for each in same_cut(self.candidates))

    def words(self, name: str) -> str:
        """What was noted in words."""
        return self.reader.words(d.THREAD[self.part][name], self.item)[0]

    def size(self, name: str) -> Measured | None:
        """A size that was read."""
        return self.reader.size(d.THREAD[self.part][name], self.item)

    @property
    def form(self) -> mechanics.Form:
        """The form of its flanks."""
        angle = self.thread.flank_angle if self.thread is not None else 60.0
        return "55" if abs(angle - 55) < 1 else "47.5" if abs(angle - 47.5) < 1 else "60"

    @property
    def stripped_hole(self) -> bool:
        """Is it the hole that was noted as stripped?"""
        words = self.words("condition").lower()
        return "stripped" in words and bool(self.words("hole material") or " in the " in words or "hole" in words)

    @property
    def bad(self) -> bool:
        """Was it noted as stripped, stretched or the like?"""
        words = self.words("condition").lower()
        return any(sign in words for sign in BAD) and not any(sign in words for sign in ("not ", "none", "no "))


def screws(bench: Bench, reader: Reader) -> tuple[Screw, ...]:
    """Every thread that was read or noted, in the order of their parts."""
    found = threads_read({key: spots for key, spots in bench.estimates.items() if key.part in d.THREADED})
    return tuple(
        Screw(reader=reader, part=part, item=item, found=found.get((part, item), ThreadFound((part, item))))
        for part in d.THREADED
        for item in bench.items(part)
    )


def screw_findings(screw: Screw) -> tuple[Finding, ...]:
    """All that the readings of one thread say."""
    if screw.thread is None:
        return (not_measured(_blank(screw, IDENTITY, "words"), settle=screw.settle), *_condition(screw))
    return (*_identity(screw), *_crests(screw), *_drill(screw), *_clamp(screw), *_strip(screw), *_condition(screw))


def _blank(screw: Screw, quantity: str, dimension: str = "length") -> Finding:
    return Finding(system=d.KEY, part=screw.part, item=screw.item, quantity=quantity, dimension=dimension)


def _inputs(screw: Screw) -> tuple[str, ...]:
    told = [each for each in (screw.found.outside, screw.found.flank) if each] + [(k, e) for k, e, _ in screw.found.lengths]
    return tuple(dict.fromkeys(identity for _, estimate in (*told, *screw.found.per_inch) for identity in estimate.readings))


def written(screw: Screw) -> str:
    """The likeliest thread as the trade writes it, with every series that it may be of."""
    first = screw.candidates[0].thread
    series = list(dict.fromkeys(each.thread.series for each in same_cut(screw.candidates) if each.probability > 0.03))
    plain = " or ".join(series)
    return first.written if first.written.endswith(plain) else f"{first.written} {plain}".strip()


def _identity(screw: Screw) -> tuple[Finding, ...]:
    first = screw.candidates[0].thread
    said = Said(
        f"{screw.item} is {written(screw)}, {screw.alone * 100:.0f} in 100: {{0}} over the crests when new, "
        f"{first.per_inch:g} to the inch, {first.flank_angle:g}°; {first.era}.",
        (Amount(first.major, "length"),),
    )
    if screw.settle:
        others = [each.thread.written for each in screw.candidates[1:4] if each.probability > 0.03]
        said = (
            joined(said, Said(f"It may also be {' or '.join(dict.fromkeys(others))}: force no nut on it.")) if others else said
        )
    line = replace(
        _blank(screw, IDENTITY, "words"),
        sentence=said,
        inputs=_inputs(screw),
        settle=screw.settle,
        formula=f"diameter, pitch and flank together against the tables; {first.source}",
    )
    return (line,)


def crest_loss(screw: Screw) -> Draws | None:
    """What the crests have lost beyond the usual allowance, on the diameter [m]; None where they were not read."""
    if screw.thread is None or screw.found.outside is None:
        return None
    read = screw.reader.bench.spot(screw.found.outside[1])
    return np.asarray(np.maximum(screw.thread.major - UNDER - read, 0.0))


def crest_practice(screw: Screw) -> Practice:
    """A tenth of the depth of thread on the diameter, both sides: from memory, so held as the owner's own limit."""
    assert screw.thread is not None
    depth = float(np.asarray(mechanics.depth(pitch=screw.thread.pitch, form=screw.form)))
    row = known_rules("thread wear on the crests")[0]
    most = 2 * (row.at(depth)[1] or 0.0)
    return Practice(limits=(Limit(size=most, most=True, origin=Origin("F", row.applies)),))


def _crests(screw: Screw) -> tuple[Finding, ...]:
    draws = crest_loss(screw)
    if draws is None:
        return ()
    said = Said(f"{screw.item}'s crests have lost {{0}} beyond what is usual.", (Amount(float(np.median(draws)), "length"),))
    line = replace(
        _blank(screw, CRESTS),
        sentence=said,
        inputs=_inputs(screw),
        formula="standard diameter − .003 in − diameter over the crests",
    )
    return judged(line, draws, crest_practice(screw))


def nearest_drill(size: float) -> tuple[str, float] | None:
    """The drill of the number, letter and 1/64 in sets that is nearest above or at a size [m], as it is written."""
    lists: list[Size] = [*named_sizes("number drills"), *named_sizes("letter drills")]
    every = [(each.written, each.nominal) for each in lists]
    sixty_four = d.INCH / 64
    n = math.ceil(size / sixty_four - 0.05)
    over = math.gcd(n, 64)
    every.append((f"{n // over}/{64 // over} in", n * sixty_four))
    near = [each for each in every if size - 0.002 * d.INCH <= each[1] <= size + 0.010 * d.INCH]
    return min(near, key=lambda each: abs(each[1] - size), default=None)


def _drill(screw: Screw) -> tuple[Finding, ...]:
    thread = screw.thread
    assert thread is not None
    size = thread.tapping_drill or float(
        np.asarray(mechanics.drill_for(major=thread.major, pitch=thread.pitch, share=SHARE, form=screw.form))
    )
    share = float(np.asarray(mechanics.share_of_thread(major=thread.major, pitch=thread.pitch, hole=size, form=screw.form)))
    drill = nearest_drill(size)
    name = f" ({drill[0]})" if drill else ""
    said = Said(f"To tap {thread.written} drill {{0}}{name}: {share:.0%} of a full thread.", (Amount(size, "length"),))
    if thread.taper:
        said = joined(said, Said("A taper thread: ream the hole 1/16 on the inch, or drill and let the tap do it."))
    formula = "the table's drill" if thread.tapping_drill else "D − 2 × .75 × depth of thread; ASME B1.1 form"
    line = replace(_blank(screw, DRILL), value=size, low=size, high=size, sentence=said, inputs=_inputs(screw), formula=formula)
    return (line,)


def proof_row(screw: Screw) -> RuleRow:
    """The proof strength to go by: by the grade that was noted, else the softest, as old bolts were."""
    words = screw.words("grade").lower()
    rows = known_rules("bolt proof strength")
    for grade in ("8", "5", "2"):
        if f"grade {grade}" in words or f"sae {grade}" in words:
            return next(row for row in rows if f"grade {grade}" in row.applies)
    return next(row for row in rows if "grade 1" in row.applies)


def coefficient_row(screw: Screw) -> RuleRow:
    """The torque coefficient by how it is tightened; oiled where nobody said."""
    words = screw.words("lubrication").lower()
    name = "anti-seize" if "seize" in words else "dry" if "dry" in words else "oiled"
    return next(row for row in known_rules("torque coefficient") if row.applies == name)


def torque_to_use(screw: Screw) -> tuple[float, Draws, float] | None:
    """Torque [N m], the clamping force that it gives draw by draw [N], and the force that the bolt is proved to [N].

    None for plugs and taper threads, which seal and do not clamp, and under 1/4 in, where feel rules.
    """
    thread = screw.thread
    if thread is None or screw.part == "plug" or thread.taper or thread.major < 0.24 * d.INCH:
        return None
    area = float(np.asarray(mechanics.stress_area(major=thread.major, pitch=thread.pitch)))
    proof = proof_row(screw).high or 0.0
    force = float(np.asarray(tightening.proof_preload(stress_area=area, proof=proof)))
    row = coefficient_row(screw)
    likely = ((row.low or 0.0) + (row.high or 0.0)) / 2
    torque = float(np.asarray(tightening.tightening_torque(force=force, diameter=thread.major, coefficient=likely)))
    scatter = known_rules("preload scatter")[0].high or 0.3
    drawn = tightening.spread(
        likely=likely, scatter=scatter, normal=screw.reader.bench.named(f"friction of {screw.part} {screw.item}")
    )
    clamp = np.asarray(tightening.preload(torque=torque, diameter=thread.major, coefficient=drawn))
    return torque, clamp, proof * area


def _clamp(screw: Screw) -> tuple[Finding, ...]:
    found = torque_to_use(screw)
    if found is None:
        return ()
    torque, clamp, proof = found
    row, used = proof_row(screw), coefficient_row(screw)
    low, high = (float(each) for each in np.quantile(clamp, [0.05, 0.95]))
    said = Said(
        f"{screw.item}, {used.applies}: {{0}} clamps with {{1}}, from {{2}} to {{3}}, since friction is not known better.",
        (Amount(torque, "torque"), Amount(float(np.median(clamp)), "force"), Amount(low, "force"), Amount(high, "force")),
    )
    if not screw.words("grade"):
        said = joined(
            said, Said("Its grade was not noted, so the softest is taken; an old stud in cast iron is pulled up by feel.")
        )
    line = replace(
        _blank(screw, CLAMP, "force"),
        sentence=said,
        inputs=_inputs(screw),
        formula=f"T = K F d, F = .75 proof × stress area ({row.authority}), K {used.typed}; wrench within 30 %",
    )
    limit = Limit(size=proof, most=True, origin=origin_of(row))
    return judged(line, clamp, Practice(limits=(limit,)))


def _strip(screw: Screw) -> tuple[Finding, ...]:
    """Length engaged over the length at which the hole is as strong as the screw."""
    engaged, material = screw.size("engaged length"), screw.words("hole material").lower()
    thread = screw.thread
    if engaged is None or thread is None or thread.taper:
        return ()
    name = next((each for each in _SHEAR if each in material), "cast iron")
    area = float(np.asarray(mechanics.stress_area(major=thread.major, pitch=thread.pitch)))
    hole = screw.size("hole diameter")
    share: Draws | float = SHARE
    if hole is not None:
        share = np.asarray(
            mechanics.share_of_thread(major=thread.major, pitch=thread.pitch, hole=hole.draws, form=screw.form)
        ).clip(0.05, 1.0)
    needed = mechanics.engagement_for(
        stress_area=area, tensile=SOFT_TENSILE, diameter=thread.major, shear=_SHEAR[name], share=share
    )
    draws = np.asarray(engaged.draws / needed)
    said = Said(
        f"{screw.item}'s thread in {name} has {float(np.median(draws)):.0%} of the length at which the hole is as strong as "
        "the screw."
    )
    line = replace(
        _blank(screw, STRIP, "ratio"),
        sentence=said,
        inputs=engaged.inputs,
        formula="length engaged / (A σ / (¾ π D τ share)); strengths from memory, low end",
    )
    limit = Limit(
        size=1.0, most=False, origin=Origin("E", "equal strength of screw and hole", "strengths from memory"), decides=False
    )
    return judged(line, draws, Practice(limits=(limit,)))


def _condition(screw: Screw) -> tuple[Finding, ...]:
    words = screw.words("condition")
    if not words:
        return ()
    return (replace(_blank(screw, CONDITION, "words"), sentence=Said(f"{screw.item}: {words}."), formula="as noted"),)
