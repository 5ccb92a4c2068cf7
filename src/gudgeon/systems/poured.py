"""Poured and shimmed bearings on the bench: their clearance, shims, metal and oil film, and the findings on them.

Shared by the systems that have such bearings; it knows none of them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.picture import Curve
from gudgeon.engine.system import Feature
from gudgeon.mechanics.oil import KELVIN
from gudgeon.mechanics.shims import ShimChange, choose, takings_left
from gudgeon.quantity import Amount, Said
from gudgeon.quantity.shims import Shims, shims_written
from gudgeon.systems.bearing_duty import Duty, FilmFound, film_practice
from gudgeon.systems.journals import INCH, THOU, Journal
from gudgeon.systems.judging import (
    Limit,
    Practice,
    Target,
    authorities_differ,
    joined,
    judged,
    known_rules,
    not_measured,
    origin_of,
    practice,
    slow_engine,
)
from gudgeon.systems.measured import Draws, Measured, Reader

CLEARANCE, SHIMS, OVAL, METAL, FILM, FILM_HELD = (
    "vertical clearance",
    "shims left",
    "oval of the bearing bore",
    "babbitt thickness",
    "oil film, mean load",
    "oil film, greatest load held",
)
STOCK = (1.0 * THOU, 2.0 * THOU)
"""Sheet that is in the shop for adjusting: .001 and .002; babbitt shop, forum.hetclub.org 172786."""

STEP = 1.0 * THOU
"""Taken out at a time; the same source."""

BAD_WORDS = ("crack", "loose", "crumbl", "wiped", "missing", "broken", "melted", "bleed", "dull", "no bond", "lifted")
_GOOD_WORDS = ("no ", "none", "not ", "sound", "good", "rings true", "without")


def bearing_features(*, of: str, journal: str) -> tuple[Feature, ...]:
    """What is read of a poured bearing; ``of`` are words of its instances, ``journal`` what runs in it."""
    return (
        Feature(
            part="bearing",
            of=(of,),
            name=CLEARANCE,
            family="gap",
            title="Vertical clearance",
            wear="adds",
            gauges=("plastic_thread", "lead_wire", "feeler"),
            aliases=("clearance", "oil clearance", "running clearance", "strip", "clearance by strip", "clearance by lead"),
            how=f"Gauging strip or fuse wire along the {journal}, cap pulled down on its shims. Oil the metal a little, read "
            "the strip on the journal, and note whether it was dry or oiled. Note the shims of each side: "
            "L: 3 @ .002 + 1 @ .005; R: same.",
        ),
        Feature(
            part="bearing",
            of=(of,),
            name="lift",
            family="gap",
            title="Lift under a dial",
            wear="adds",
            gauges=("dial_indicator",),
            aliases=("lift by dial", "shake", "up and down play"),
            how="Dial on top, bar under: lift and let down, do not bend anything. Same shims as it runs on.",
        ),
        Feature(
            part="bearing",
            of=(of,),
            name="shims",
            title="Shims, side by side",
            dimension="words",
            unit="",
            aliases=("shim pack", "shim stack", "shims fitted"),
            how="Count and thickness of each, left and right as it lay: L: 3 @ .002 + 1 @ .005; R: same.",
        ),
        Feature(
            part="bearing",
            of=(of,),
            name="bore",
            title="Bore of the bearing, cap down",
            wear="adds",
            family="bush",
            directions=(0.0, 90.0),
            gauges=("telescoping_gauge", "inside_mic", "vernier"),
            aliases=("bearing bore", "inside diameter"),
            material="tin babbitt grade 2",
            how="0 across the joint, 90 along the bolts; bolts tight, shims in.",
        ),
        Feature(
            part="bearing",
            of=(of,),
            name="length",
            title="Length of the bearing",
            gauges=("vernier", "rule"),
            aliases=("bearing length",),
            how="Metal that bears, along the shaft, without the fillets.",
        ),
        Feature(
            part="bearing",
            of=(of,),
            name=METAL,
            title="Thickness of the babbitt",
            wear="takes",
            gauges=("depth_gauge", "vernier", "rule"),
            aliases=("thickness", "lining thickness", "metal thickness", "babbitt left"),
            how="At its thinnest: at the edge, or by a small drill where an oil hole will be.",
        ),
        Feature(
            part="bearing",
            of=(of,),
            name="metal",
            title="The babbitt, looked at and rung",
            dimension="words",
            unit="",
            aliases=("condition", "babbitt", "bond", "babbitt condition"),
            how="Tap it: a clear ring is bonded, a dull one is not. Press it: oil that bleeds at the edge means it has let go. "
            "Cracks, crumbling, wiped patches, thin to one side.",
        ),
    )


@dataclass(frozen=True, kw_only=True)
class Poured:
    """One poured bearing as it was read; ``features`` are its own, by name."""

    system: str
    item: str
    journal: Journal | None
    features: dict[str, Feature]
    reader: Reader
    duty: Duty
    share: float = 1.0
    aim: Target | None = None

    @cached_property
    def measures(self) -> tuple[tuple[str, Measured], ...]:
        """Every way in which its clearance was read, by name."""
        found = []
        for name, words in ((CLEARANCE, "strip or wire"), ("lift", "lift")):
            read = self.reader.size(self.features[name], self.item)
            if read is not None:
                found.append((words, read))
        bore = self._bore_on_bolts
        if bore is not None and self.journal is not None and self.journal.mean is not None:
            journal = self.journal.mean
            draws = bore.draws - journal.draws
            value = bore.value - journal.value
            found.append(
                (
                    "bore less journal",
                    Measured(
                        draws=draws, value=value, inputs=(*bore.inputs, *journal.inputs),
                        estimates=(*bore.estimates, *journal.estimates),
                    ),
                )
            )  # fmt: skip
        return tuple(found)

    @cached_property
    def _bore_on_bolts(self) -> Measured | None:
        spots = self.reader.spots(self.features["bore"], self.item)
        return self.reader.of([each for each in spots if each.place.direction in (None, 90.0)])

    @cached_property
    def clearance(self) -> Measured | None:
        """Clearance along the bolts from all that was read, each weighed by its own spread."""
        if not self.measures:
            return None
        weights = np.array([1.0 / max(float(np.var(each.draws)), 1e-14) for _, each in self.measures])
        weights /= weights.sum()
        draws = sum(weight * each.draws for weight, (_, each) in zip(weights, self.measures, strict=True))
        value = float(sum(weight * each.value for weight, (_, each) in zip(weights, self.measures, strict=True)))
        return Measured(
            draws=np.maximum(np.asarray(draws), 0.0),
            value=value,
            inputs=tuple(dict.fromkeys(identity for _, each in self.measures for identity in each.inputs)),
            estimates=tuple(estimate for _, each in self.measures for estimate in each.estimates),
        )

    @cached_property
    def oval(self) -> Draws | None:
        """Bore across the joint less bore along the bolts [m]; None where both were not read."""
        spots = self.reader.spots(self.features["bore"], self.item)
        across = self.reader.of([each for each in spots if each.place.direction == 0.0])
        along = self.reader.of([each for each in spots if each.place.direction == 90.0])
        return None if across is None or along is None else across.draws - along.draws

    @cached_property
    def shims(self) -> tuple[Shims | None, tuple[str, ...]]:
        """The shims as noted, and the readings that say so: the shims' own line, then notes of others, then the part's."""
        snapshot = self.reader.bench.snapshot
        for feature in (self.features["shims"], *self.features.values()):
            for reading in reversed(snapshot.readings_of(self.reader.key(feature, self.item))):
                words = (reading.understood.words or reading.typed) if feature.name == "shims" else ""
                for text in (f"shims {words}" if words else "", reading.note):
                    if text and (found := shims_written(text)) is not None:
                        return found, (reading.id,)
        for note in snapshot.parts:
            if note.item == self.item and note.shims and (found := shims_written(f"shims {note.shims}")) is not None:
                return found, ()
        return None, ()

    @cached_property
    def size(self) -> float:
        """The journal's size that rules are taken at [m]; 2 in where nothing is known."""
        return (self.journal.size if self.journal is not None else None) or 2.0 * INCH

    @cached_property
    def practised(self) -> Practice:
        """What authorities say of its clearance: the babbitt shop's rule first; twice its upper end as the limit chosen."""
        found = practice("babbitt bearing clearance", size=self.size, slow=self.slow)
        target = self.target
        limits = tuple(
            replace(limit, decides=limit.decides and not (self.slow and "car" in limit.origin.page)) for limit in found.limits
        )
        chosen = Limit(
            size=2.0 * (target.high or 0.0),
            most=True,
            origin=Origin("F", "common practice", "taken up when the clearance is twice the upper end of the shop's rule"),
        )
        others = tuple(each for each in found.targets if each.origin != target.origin)
        return Practice(targets=(target, *others), limits=(chosen, *limits))

    @cached_property
    def slow(self) -> bool:
        """Is it a slow engine?"""
        return slow_engine(self.reader.bench.snapshot.outline.rated_speed)

    @cached_property
    def target(self) -> Target:
        """The clearance aimed at [m]: .001 to the inch of shaft and half a thou more at most."""
        if self.aim is not None:
            return self.aim
        row = next(row for row in known_rules("babbitt bearing clearance") if row.low_per_size and not row.from_memory)
        low, high = row.at(self.size)
        return Target(low=low, high=high, origin=origin_of(row), authority=row.authority)

    @cached_property
    def change(self) -> ShimChange | None:
        """What to take from which side to come to the target; None where nothing is to be taken, or the shims are not known."""
        shims, _ = self.shims
        if shims is None or self.clearance is None:
            return None
        low, high = self.target.low or 0.0, self.target.high or 0.0
        median = float(np.median(self.clearance.draws))
        if median <= high + 0.25 * THOU:
            return None
        return choose(left=shims.left, right=shims.right, clearance=median, low=low, high=high, stock=STOCK)

    @cached_property
    def thickness(self) -> Measured | None:
        """The babbitt at its thinnest."""
        return self.reader.smallest(self.features[METAL], self.item)

    @cached_property
    def length(self) -> Measured | None:
        """The bearing's length."""
        return self.reader.size(self.features["length"], self.item)

    @cached_property
    def metal(self) -> tuple[str, tuple[str, ...]]:
        """What was noted of its metal."""
        return self.reader.words(self.features["metal"], self.item)

    @cached_property
    def unsound(self) -> bool:
        """Was its metal noted as cracked, loose, wiped or the like?"""
        text = self.metal[0].lower()
        return any(
            any(bad in clause for bad in BAD_WORDS) and not clause.strip().startswith(_GOOD_WORDS)
            for clause in text.replace(",", ";").split(";")
        )

    def film(self, clearance: Draws) -> FilmFound | None:
        """Its oil film at a clearance; None where length, journal, bore, stroke or speed is not known."""
        if self.length is None or self.journal is None or self.journal.mean is None or self.duty.missing:
            return None
        return self.duty.film(
            name=self.item, diameter=self.journal.mean.draws, length=self.length.value, clearance=clearance, share=self.share
        )

    @cached_property
    def film_found(self) -> FilmFound | None:
        """Its oil film as found."""
        return None if self.clearance is None else self.film(self.clearance.draws)

    def blank(self, quantity: str, *, dimension: str = "length") -> Finding:
        """A finding that carries the names only."""
        return Finding(system=self.system, part="bearing", item=self.item, quantity=quantity, dimension=dimension)


def shim_practice() -> Practice:
    """At least one step must be left to take: below it the bearing cannot be taken up again."""
    return Practice(
        limits=(
            Limit(
                size=STEP,
                most=False,
                origin=Origin("E", "common practice", "no shim left to take means the next knock is a re-pour"),
            ),
        )
    )


def adjustable() -> Practice:
    """For weighing ways: a last shim that is used up is half a loss, halves that meet are a whole one."""
    met = Limit(size=0.0, most=False, origin=Origin("E", "common practice", "the halves have not met yet"))
    return Practice(limits=(met, *shim_practice().limits))


@dataclass(frozen=True, kw_only=True)
class BearingSet:
    """All bearings of one kind that are decided together."""

    system: str
    bench: Bench
    reader: Reader
    bearings: tuple[Poured, ...]
    worked_out: dict[str, object] = field(default_factory=dict)

    @property
    def items(self) -> tuple[str, ...]:
        """Their names."""
        return tuple(each.item for each in self.bearings)

    def named(self, item: str) -> Poured:
        """One of them."""
        return next(each for each in self.bearings if each.item == item)


def bearing_findings(each: Poured) -> tuple[Finding, ...]:
    """All findings on one poured bearing."""
    return (*_clearance(each), *_shims(each), *_oval(each), *_thickness(each), *_metal(each), *_film(each))


def _length(value: float) -> Amount:
    return Amount(value, "length")


def _clearance(each: Poured) -> tuple[Finding, ...]:
    blank, practised, read = each.blank(CLEARANCE), each.practised, each.clearance
    if read is None:
        settle = f"Read {each.item} with oiled strip or lead wire, cap pulled down on its shims, or by lift under a dial."
        return (not_measured(blank, settle=settle, practised=practised),)
    median, low, high = float(np.median(read.draws)), each.target.low or 0.0, each.target.high or 0.0
    said = [
        Said(
            f"{each.item} has {{0}} clearance by {' and '.join(name for name, _ in each.measures)}"
            f"{', on shims as noted' if each.shims[0] is not None else '; its shims were not noted'}.",
            (_length(median),),
        )
    ]
    if median < 0.8 * low:
        said.append(Said("That is tight for poured metal: it will run hot before it beds."))
    said += [_do_not_agree(each), _dry_or_oiled(each), authorities_differ(practised) if median > high else Said("")]
    sentence = replace(
        blank,
        sentence=joined(*said),
        inputs=read.inputs,
        formula="strip, wire and lift weighed by their spread; bore less mean journal where both were read",
    )
    return judged(sentence, read.draws, practised)


def _do_not_agree(each: Poured) -> Said:
    """Two ways of reading one clearance that differ by more than their spread."""
    if len(each.measures) < 2:
        return Said("")
    (one, first), (other, second) = each.measures[:2]
    apart = float(np.median(first.draws - second.draws))
    spread = float(np.std(first.draws - second.draws))
    if abs(apart) < 2.5 * spread or abs(apart) < 0.7 * THOU:
        return Said("")
    return Said(
        f"{one.capitalize()} says {{0}}, {other} {{1}}: read both again before shims are touched.",
        (_length(first.value), _length(second.value)),
    )


def _dry_or_oiled(each: Poured) -> Said:
    readings = each.reader.bench.snapshot.readings_of(each.reader.key(each.features[CLEARANCE], each.item))
    notes = " ".join(reading.note.lower() for reading in readings if reading.instrument.startswith("plastic"))
    if not notes and not any(reading.instrument.startswith("plastic") for reading in readings):
        return Said("")
    if re.search(r"\bdry\b", notes):
        return Said("The strip was read dry: on babbitt it dents the metal and reads small.")
    return Said("") if "oil" in notes else Said("Whether the strip was dry or oiled was not noted.")


def _shims(each: Poured) -> tuple[Finding, ...]:
    blank, practised = each.blank(SHIMS), shim_practice()
    shims, inputs = each.shims
    if shims is None:
        settle = f"Count the shims of {each.item} and mike them, side by side: L: 3 @ .002 + 1 @ .005; R: same."
        return (not_measured(blank, settle=settle, practised=practised),)
    thinner = min(shims.total_left, shims.total_right)
    takings = takings_left(left=shims.left, right=shims.right, step=STEP)
    said = [
        Said(
            f"{each.item} has {len(shims.left)} shims left, {len(shims.right)} right: it can be taken up "
            f"{takings} times more by {{0}} before the halves meet.",
            (_length(STEP),),
        )
    ]
    if takings == 0:
        said = [Said(f"{each.item} has no shim left to take on one side: filing the cap is a bodge, the cure is a re-pour.")]
    if abs(shims.total_left - shims.total_right) > 0.2 * THOU:
        said.append(Said("The sides differ by {0}: the cap sits askew.", (_length(abs(shims.total_left - shims.total_right)),)))
    if each.change is not None:
        said.append(change_said(each.change))
    sentence = replace(blank, sentence=joined(*said), inputs=inputs, formula="sum of the thinner side; each thickness as noted")
    draws = np.full(each.reader.bench.count, thinner)
    return judged(sentence, draws, practised)


def change_said(change: ShimChange) -> Said:
    """What to take from which side, and what it makes, as a fitter would say it."""
    left, right = change.left, change.right
    amounts: list[Amount] = []

    def listed(sizes: Sequence[float]) -> str:
        words = []
        for size in dict.fromkeys(sizes):
            words.append(f"{len([each for each in sizes if each == size])} of {{{len(amounts)}}}")
            amounts.append(_length(size))
        return " and ".join(words)

    def side(name: str, out: Sequence[float], put_in: Sequence[float]) -> str:
        return f"from {name} take {listed(out)}" + (f" and put in {listed(put_in)}" if put_in else "")

    if (left.out, left.put_in) == (right.out, right.put_in):
        text = side("each side", left.out, left.put_in)
    else:
        pieces = [(name, each) for name, each in (("the left", left), ("the right", right)) if each.out]
        text = ", ".join(side(name, each.out, each.put_in) for name, each in pieces)
    start = len(amounts)
    amounts += [_length(change.clearance), _length(change.closed)]
    text = f"{text[0].upper()}{text[1:]}: that leaves {{{start}}}, and makes the bore {{{start + 1}}} oval."
    if change.closed > 2.5 * THOU:
        text += " So much wants scraping in as well."
    return Said(text, tuple(amounts))


def _oval(each: Poured) -> tuple[Finding, ...]:
    if each.oval is None:
        return ()
    said = Said(
        f"The bore of {each.item} is {{0}} wider across the joint than along the bolts.",
        (_length(float(np.median(each.oval))),),
    )
    spots = each.reader.spots(each.features["bore"], each.item)
    inputs = tuple(dict.fromkeys(identity for spot in spots for identity in spot.readings))
    return judged(
        replace(each.blank(OVAL), sentence=said, inputs=inputs, formula="bore at 0 less bore at 90 degree"), each.oval
    )


def _thickness(each: Poured) -> tuple[Finding, ...]:
    blank, practised = each.blank(METAL), practice(METAL, size=each.size, slow=each.slow)
    if each.thickness is None:
        settle = f"Read the babbitt of {each.item} where it is thinnest, at an edge or in the oil hole."
        return (not_measured(blank, settle=settle, practised=practised),)
    said = Said(f"The metal of {each.item} is {{0}} at its thinnest.", (_length(each.thickness.value),))
    return judged(
        replace(blank, sentence=said, inputs=each.thickness.inputs, formula="as read, the least"),
        each.thickness.draws,
        practised,
    )


def _metal(each: Poured) -> tuple[Finding, ...]:
    blank = each.blank("metal", dimension="words")
    text, inputs = each.metal
    if not text:
        return (not_measured(blank, settle=f"Look at the metal of {each.item} and ring it: cracked, loose, wiped, or sound."),)
    said = Said(f"{each.item}, metal: {text}.")
    if each.unsound:
        said = joined(said, Said("Old metal that has let go can crack and fall out all at once: no shim cures that."))
    return (replace(blank, sentence=said, inputs=inputs, standing="past" if each.unsound else "for information"),)


def _film(each: Poured) -> tuple[Finding, ...]:
    blank = each.blank(FILM)
    if each.film_found is None:
        return (not_measured(blank, settle=_film_wants(each), practised=film_practice(each.size)),)
    found, (grade, named) = each.film_found, each.duty.oil
    state = found.running
    mean, held = float(np.median(found.mean)), float(np.median(found.held))
    oil_words = grade.name if named else f"{grade.name}, which was taken for granted,"
    together = float(np.median(found.finish))
    said = Said(
        f"At rated load and speed {each.item} runs on {{0}} of oil under its mean load, with {oil_words} at about {{1}}; "
        f"that is {mean / together:.0f} times the roughness of the two faces.",
        (_length(mean), Amount(state.temperature + KELVIN, "temperature")),
    )
    held_said = Said(
        f"If the greatest load of the stroke stood still, {each.item} would be down to {{0}}; it passes before the oil is "
        "squeezed out, so this is the floor. Pressure on the projected area reaches {1}.",
        (_length(held), Amount(found.pressure[1], "pressure")),
    )
    formula = (
        "finite-length Reynolds solution, Reynolds boundary (Raimondi and Boyd 1958), table of solutions; gas and inertia of a "
        f"slider-crank; ASTM D341; share of the load {each.share:g}; rod and piston weights and compression guessed"
    )
    inputs = tuple(
        dict.fromkeys((
            *(each.clearance.inputs if each.clearance else ()), *(each.journal.inputs if each.journal else ()),
            *(each.length.inputs if each.length else ()),
        ))
    )  # fmt: skip
    practised = film_practice(each.size)
    return (
        *judged(replace(blank, sentence=said, inputs=inputs, formula=formula), found.mean, practised),
        *judged(replace(each.blank(FILM_HELD), sentence=held_said, inputs=inputs, formula=formula), found.held),
    )


def _film_wants(each: Poured) -> str:
    wants = []
    if each.length is None:
        wants.append(f"the length of {each.item}")
    if each.journal is None or each.journal.mean is None:
        wants.append("its journal")
    if each.clearance is None:
        wants.append("its clearance")
    if each.duty.missing:
        wants.append(f"{', '.join(each.duty.missing)} in the outline")
    return f"Read {', '.join(wants)}: then load and oil film can be reckoned."


def film_curve(each: Poured) -> Curve | None:
    """Least film against clearance, with the clearance as found marked; None where it cannot be reckoned."""
    if each.film_found is None or each.clearance is None or each.length is None or each.journal is None:
        return None
    journal = each.journal.mean
    assert journal is not None
    grid = np.linspace(0.5, max(8.0, 1.4 * float(np.median(each.clearance.draws)) / THOU), 40) * THOU
    mean, greatest = (float(np.median(load)) for load in each.duty.load(each.share))
    from gudgeon.mechanics.oil import least_film

    state = each.film_found.running
    curves = []
    for name, load in (("mean load", mean), ("greatest load held", greatest)):
        film = least_film(
            load=load, diameter=journal.value, length=each.length.value, clearance=grid, speed=each.duty.speed,
            viscosity=state.viscosity,
        )  # fmt: skip
        curves.append((name, tuple(zip((grid / THOU).tolist(), (film / THOU).tolist(), strict=True))))
    return Curve(
        title=f"{each.item}: least oil film by clearance",
        x_text="clearance on the diameter [thou]",
        y_text="least film [thou]",
        curves=tuple(curves),
        marks=(("as found", float(np.median(each.clearance.draws)) / THOU),),
    )
