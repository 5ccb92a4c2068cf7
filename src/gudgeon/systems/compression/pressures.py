"""Findings on each cylinder's ratio and pressure: what it should show if sound, what it shows, what the leak test says."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.mechanics import compression as model
from gudgeon.quantity import Amount, Said
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.cylinder_set import CylinderSet, blank, inputs_of
from gudgeon.systems.compression.leaks import NEW, leak_down, restrictor, ring_joints, spanned, supply
from gudgeon.systems.judging import Limit, Practice, Target, joined, judged, middle, not_measured, practice, spread
from gudgeon.systems.measured import Draws

RATIO, TIGHT, SOUND, GAPS = "compression ratio", "pressure if tight", "pressure if sound", "pressure that the ring gaps explain"
DRY, OILED, EXPONENT, SHARE = "cranking pressure", "cranking pressure oiled", "effective exponent", "leak-down share lost"
SPREAD, OVER_PISTON = "spread of cranking pressures", "share of the chamber over the piston"

MODEL_TEXT = (
    "crank angle by crank angle: slider-crank, closing intake, leaks as nozzles, Annand's film a .35 to .8, air's cv(T); "
    "cranking speed and what else was not read over their whole range"
)
RECKONED = Origin("E", "reckoned by crank angle from this cylinder's own volume, timing and speed", "rings and seats as new")


def pressure_findings(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    """Ratio, pressures if tight, sound and by the ring gaps alone, pressures read, leak test."""
    return (
        *_ratio(item, cylinders),
        *_over_piston(item, cylinders),
        *_foretold(item, cylinders),
        *_dry(item, cylinders),
        *_oiled(item, cylinders),
        *_leak_down(item, cylinders),
    )


def missing(item: str, cylinders: CylinderSet) -> str:
    """What stands in the way of a reckoning, as the reading that would settle it; "" where nothing does."""
    if cylinders.stroke is None:
        return "Put the stroke in the outline."
    if cylinders.bore is None:
        return "Put the bore in the outline, or read it below the ring travel."
    if cylinders.volume(item) is None:
        return f"Pour the clearance volume of {item} with oil from a graduate, piston at inner dead centre."
    return ""


def tight(item: str, cylinders: CylinderSet) -> Draws:
    """Gauge pressure with no leak at all [Pa]: heat and late closing only."""
    return _kept("tight", item, cylinders, lambda: cylinders.reader.full(1e-9))


def sound(item: str, cylinders: CylinderSet) -> Draws:
    """Gauge pressure with rings and seats as new [Pa]."""
    return _kept("sound", item, cylinders, lambda: as_new(item, cylinders))


def as_new(item: str, cylinders: CylinderSet) -> Draws:
    """All leaks of a cylinder with new rings and ground seats [m2]."""
    return np.asarray(sum(spanned(f"new {path} of {item}", span, cylinders) for path, span in NEW.items()))


def _kept(name: str, item: str, cylinders: CylinderSet, area: object) -> Draws:
    key = f"{name} {item}"
    if key not in cylinders.worked_out:
        volume = cylinders.volume(item)
        assert volume is not None
        cylinders.worked_out[key] = cylinders.gauge(area(), volume[0])  # type: ignore[operator]
    return cylinders.worked_out[key]  # type: ignore[return-value]


def _ratio(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    line = blank(item, RATIO, dimension="ratio")
    ratio = cylinders.ratio(item)
    if ratio is None:
        return (not_measured(line, settle=missing(item, cylinders)),)
    volume = cylinders.volume(item)
    assert volume is not None
    said = Said(
        f"{item} compresses {middle(ratio):.2f} to 1: {{0}} left over the piston.", (Amount(middle(volume[0]), "volume"),)
    )
    if cylinders.read(d.VOLUME, item) is None:
        said = joined(said, Said("It was not poured; its neighbours' volume is taken."))
    formula = "(π/4 bore² stroke + clearance volume) / clearance volume"
    return judged(replace(line, sentence=said, inputs=volume[1], formula=formula), ratio)


def _over_piston(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    clearance, volume = cylinders.read(d.HEAD_CLEARANCE, item), cylinders.volume(item)
    if clearance is None or volume is None or cylinders.bore is None:
        return ()
    share = np.pi / 4 * cylinders.bore**2 * clearance.draws / volume[0]
    said = Said(
        f"{item}: {{0}} from crown to head; {middle(share):.0%} of the chamber lies over the piston, the rest at the valves.",
        (Amount(clearance.value, "length"),),
    )
    if middle(share) > 1:
        said = Said(f"{item}: crown to head reads {{0}}, more than the poured volume has room for: one of them is wrong.",
                    (Amount(clearance.value, "length"),))  # fmt: skip
    line = replace(blank(item, OVER_PISTON, dimension="ratio"), sentence=said, inputs=inputs_of(clearance.inputs, volume[1]))
    return judged(replace(line, formula="π/4 bore² × head clearance / clearance volume"), share)


def _foretold(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    if missing(item, cylinders):
        return (not_measured(blank(item, SOUND), settle=missing(item, cylinders)),)
    inputs = inputs_of(cylinders.volume(item)[1], cylinders.barometer[1], cylinders.speed[1], cylinders.closing[1])  # type: ignore[index]
    settle = "" if cylinders.speed[1] else "Count the turns in ten seconds while it is cranked."
    found: list[Finding] = []
    for quantity, draws, words in (
        (TIGHT, tight(item, cylinders), "without any leak {0} would show"),
        (SOUND, sound(item, cylinders), "with rings and seats as new {0} would show"),
    ):
        _, low, high = spread(draws)
        said = Said(f"{item}: {words.replace('{0}', '{0} to {1}')}.", (Amount(low, "pressure"), Amount(high, "pressure")))
        if quantity == SOUND and settle:
            said = joined(said, Said("The speed of cranking was not counted, and makes most of that range."))
        line = replace(blank(item, quantity), sentence=said, inputs=inputs, formula=MODEL_TEXT, settle=settle)
        found += judged(line, draws)
    return (*found, *_by_gaps(item, cylinders))


def _by_gaps(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    joints, inputs, read = ring_joints(item, cylinders)
    volume = cylinders.volume(item)
    assert volume is not None
    if not read:
        settle = f"Read the end gap of {item}'s top ring just under the ridge."
        return (not_measured(blank(item, GAPS), settle=settle),)
    draws = cylinders.gauge(joints, volume[0])
    lost = middle(tight(item, cylinders)) - middle(draws)
    said = Said(
        f"{item}: the ring gaps as measured take {{0}} off what a tight cylinder would show; more than that leaks elsewhere: "
        "past faces and sides of the rings, or not by the rings at all.",
        (Amount(lost, "pressure"),),
    )
    formula = "joint area gap × land clearance × (.15 to .85), all rings in a row as nozzles; " + MODEL_TEXT
    return judged(replace(blank(item, GAPS), sentence=said, inputs=inputs, formula=formula), draws)


def expected(item: str, cylinders: CylinderSet) -> Practice:
    """The pressure of a sound cylinder as target, its lower end as limit."""
    if missing(item, cylinders):
        return Practice()
    _, low, high = spread(sound(item, cylinders))
    return Practice(
        targets=(Target(low=low, high=high, origin=RECKONED, authority="reckoned"),),
        limits=(Limit(size=low, most=False, origin=RECKONED),),
    )


def _dry(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    read = cylinders.read(d.DRY, item)
    practised = expected(item, cylinders)
    if read is None:
        settle = f"Read the cranking pressure of {item}, dry, until the gauge stands."
        return (not_measured(blank(item, DRY), settle=settle, practised=practised),)
    said = Said(f"{item} shows {{0}}.", (Amount(read.value, "pressure"),))
    line = blank(item, DRY)
    if practised.targets:
        low, high = practised.targets[0].low or 0.0, practised.targets[0].high or 0.0
        chance = float((read.draws < sound(item, cylinders)).mean())
        word = "as it should" if 0.05 < chance < 0.95 else "less than it should" if chance >= 0.95 else "more than it should"
        said = Said(f"{item} shows {{0}}, {word}: sound it would show {{1}} to {{2}}.",
                    tuple(Amount(each, "pressure") for each in (read.value, low, high)))  # fmt: skip
        if chance < 0.05:
            said = joined(said, Said("Carbon or oil in the chamber, a skimmed head or a quick gauge make it so."))
    line = replace(line, sentence=said, inputs=read.inputs, formula="as read, when the gauge stood; limit: " + MODEL_TEXT)
    return (*judged(line, read.draws, practised), *_exponent(item, read.draws, read.inputs, cylinders))


def _exponent(item: str, dry: Draws, inputs: tuple[str, ...], cylinders: CylinderSet) -> tuple[Finding, ...]:
    ratio = cylinders.ratio(item)
    if ratio is None:
        return ()
    ambient = cylinders.barometer[0]
    draws = np.asarray(model.effective_exponent(peak=np.maximum(dry, 0.0) + ambient, ambient=ambient, ratio=ratio))
    said = Said(
        f"{item}: an exponent of {middle(draws):.2f} on the full ratio; 1.4 less heat, late closing and leaks. "
        "Makers' figures for new engines come to 1.23 to 1.27."
    )
    formula = (
        "ln((gauge + barometer) / barometer) / ln(ratio); a description, not a law. Ford A 76 lb at 4.22; Pagé 1917, table III"
    )
    return judged(replace(blank(item, EXPONENT, dimension="ratio"), sentence=said, inputs=inputs, formula=formula), draws)


def _oiled(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    read, dry = cylinders.read(d.OILED, item), cylinders.read(d.DRY, item)
    if read is None:
        return ()
    said = Said(f"{item} shows {{0}} oiled.", (Amount(read.value, "pressure"),))
    if dry is not None:
        gain = middle(read.draws - dry.draws)
        word = "the rings hold it back" if gain > 0.15 * max(dry.value, d.PSI) else "the rings are not what holds it back"
        said = Said(f"{item} shows {{0}} oiled, {{1}} more than dry: {word}.",
                    (Amount(read.value, "pressure"), Amount(gain, "pressure")))  # fmt: skip
    return judged(replace(blank(item, OILED), sentence=said, inputs=read.inputs, formula="as read"), read.draws)


def _leak_down(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    practised = practice("leak-down share lost", size=cylinders.bore or 0.1)
    line = blank(item, SHARE, dimension="percent")
    read = cylinders.read(d.LEAK_DOWN, item)
    if read is None:
        return (_leak_test_wanted(item, line, cylinders, practised),)
    given, set_by = supply(cylinders)
    lost = 1 - read.draws / given
    said = Said(
        f"{item} holds {{0}} of {{1}}: {middle(lost):.0%} lost through a {restrictor(cylinders)[2]} restrictor.",
        (Amount(read.value, "pressure"), Amount(middle(given), "pressure")),
    )
    said = joined(said, Said("The limits are aero engines'; a slow engine runs on more."))
    line = replace(line, sentence=said, inputs=inputs_of(read.inputs, set_by), formula="1 − reading / supply, both by gauge")
    return judged(line, lost, practised)


def _leak_test_wanted(item: str, line: Finding, cylinders: CylinderSet, practised: Practice) -> Finding:
    """Not measured; with what a sound cylinder would hold, where that can be said."""
    settle = f"Leak-test {item} at inner dead centre, crank blocked, and listen."
    if missing(item, cylinders):
        return not_measured(line, settle=settle, practised=practised)
    held, given = leak_down(as_new(item, cylinders), cylinders), supply(cylinders)[0]
    said = Said(f"{item} was not leak-tested; sound it would hold about {{0}} of {{1}}.",
                (Amount(middle(held), "pressure"), Amount(middle(given), "pressure")))  # fmt: skip
    return not_measured(replace(line, sentence=said), settle=settle, practised=practised)


def spread_finding(cylinders: CylinderSet) -> tuple[Finding, ...]:
    """How far the cylinders differ: the lowest over the highest."""
    read = {item: each for item in cylinders.items if (each := cylinders.read(d.DRY, item)) is not None}
    if len(read) < 2:
        return ()
    low, high = (pick(read, key=lambda item: read[item].value) for pick in (min, max))
    draws = 1 - read[low].draws / read[high].draws
    said = Said(
        f"{low} shows {middle(draws):.0%} less than {high}. They share speed, heat and barometer, so the difference is leak or "
        "volume."
    )
    inputs = inputs_of(*(each.inputs for each in read.values()))
    line = blank(cylinders.shop, SPREAD, dimension="percent")
    return judged(replace(line, sentence=said, inputs=inputs, formula="1 − lowest / highest cranking pressure"), draws)
