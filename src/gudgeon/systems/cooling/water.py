"""Water: what the impeller moves and what slips back, what the engine needs, hopper, boiling off, temperatures, metals."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.handbook.galvanic import GalvanicMetal, metal_in_words
from gudgeon.handbook.rules import rules
from gudgeon.mechanics import galvanic, pumps
from gudgeon.quantity import Amount, Said
from gudgeon.quantity.units import from_si
from gudgeon.systems.cooling import description as d
from gudgeon.systems.judging import Limit, Practice, joined, judged, middle, not_measured
from gudgeon.systems.kit import Kit
from gudgeon.systems.measured import Draws

MOVED, SLIPS, LASTS = "water moved, over what is needed", "water slipping back, over what is moved", "hopper lasts, full load"
PAIR = "metals in one water"
FLOW_COEFFICIENT, HEAD_SHARE, ORIFICE = (0.06, 0.14), (0.45, 0.60), (0.5, 0.7)
"""Flow and head of a simple open impeller, and of the ring gap beside it; from memory, the pump itself was not run."""
RISE = (20.0 * 5 / 9, 60.0 * 5 / 9)
"""Rise of the water through the jacket where it was not read [K]: 20 to 60 degree F; from memory."""
ENOUGH = Limit(
    size=1.0, most=False, origin=Origin("E", "Mathot 1905, ch. V, heat carried off by the water of a horsepower hour", "")
)
WARMED = (149.0 - 57.0) * 5 / 9
"""By how much Mathot's water warms [K]: in at 54 to 60, out at 140 to 158 degree F, the middles."""


@dataclass(frozen=True, kw_only=True)
class Moving:
    """Flow that the impeller is made for, what slips back past its face, what is needed [m3/s], and the readings."""

    made_for: Draws
    slips: Draws
    needed: Draws | None
    inputs: tuple[str, ...]

    def over_need(self, slips: Draws) -> Draws | None:
        """What is left over what is needed, for a given slip."""
        return None if self.needed is None else np.asarray(np.maximum(self.made_for - slips, 0.0) / self.needed)


def horsepower(kit: Kit) -> float | None:
    """Rated power in the outline [hp]; None where it is not said."""
    outline = kit.bench.snapshot.outline
    found = re.search(r"([\d.]+)(?:\s+(\d)/(\d))?\s*(?:h\.?\s?p|horse)", f"{outline.power} {outline.plate}".lower())
    if found is None:
        return None
    return float(found[1]) + (float(found[2]) / float(found[3]) if found[2] else 0.0)


def heat(kit: Kit) -> float | None:
    """Heat that the water carries off at rated power [W]: Mathot's 5 1/2 gal for each horsepower hour, warmed as his was."""
    power = horsepower(kit)
    if power is None:
        return None
    row = rules("water for a horsepower hour")[0]
    return power * (row.low or 0.0) / 3600.0 * pumps.WATER * pumps.WATER_HEAT * WARMED


def rise(kit: Kit) -> tuple[Draws, tuple[str, ...]]:
    """Rise of the water through the jacket [K]: as read, else what is usual."""
    for item in kit.items(d.WATER):
        hot, cold = kit.size(d.OUTLET, item), kit.size(d.INLET, item)
        if hot is not None and cold is not None and hot.value > cold.value + 1.0:
            return np.maximum(hot.draws - cold.draws, 1.0), (*hot.inputs, *cold.inputs)
    return kit.reader.even("rise through the jacket", *RISE), ()


def slip_at(kit: Kit, item: str, clearance: Draws) -> Draws | None:
    """Water that slips back over the vanes to the eye at a clearance [m3/s]; None where impeller, ratio or speed is unknown."""
    rim = rim_speed(kit, item)
    impeller = kit.size(d.IMPELLER, item)
    if rim is None or impeller is None:
        return None
    eye = kit.size(d.EYE, item)
    mouth = eye.draws if eye is not None else 0.45 * impeller.draws
    head = pumps.shut_head(rim=rim, share=kit.reader.even("share of the head", *HEAD_SHARE))
    coefficient = kit.reader.even("coefficient of the face gap", *ORIFICE)
    area = np.pi * mouth * np.maximum(clearance, 0.0)
    return np.asarray(coefficient / 0.6 * np.asarray(pumps.orifice_leak(area=area, head=head)))


def rim_speed(kit: Kit, item: str) -> Draws | None:
    """Speed of the impeller's rim at rated speed [m/s]."""
    impeller, ratio, rated = kit.size(d.IMPELLER, item), kit.size(d.RATIO, item), kit.bench.snapshot.outline.rated_speed
    if impeller is None or ratio is None or not rated:
        return None
    return np.asarray(pumps.rim_speed(diameter=impeller.draws, speed=ratio.draws * rated / 60.0))


def moving(kit: Kit, item: str) -> Moving | None:
    """What the pump moves; None where something that decides it was not read."""
    rim, impeller, vane, gap = (
        rim_speed(kit, item),
        kit.size(d.IMPELLER, item),
        kit.size(d.VANE, item),
        kit.size(d.CLEARANCE, item),
    )
    if rim is None or impeller is None or vane is None or gap is None:
        return None
    slips = slip_at(kit, item, gap.draws)
    assert slips is not None
    made = pumps.impeller_flow(
        diameter=impeller.draws, vane=vane.draws, rim=rim, coefficient=kit.reader.even("flow coefficient", *FLOW_COEFFICIENT)
    )
    warmth, (warmed, more) = heat(kit), rise(kit)
    needed = None if warmth is None else np.asarray(pumps.cooling_flow(heat=warmth, rise=warmed))
    return Moving(
        made_for=np.asarray(made), slips=slips, needed=needed, inputs=(*impeller.inputs, *vane.inputs, *gap.inputs, *more)
    )


def water_findings(kit: Kit) -> tuple[Finding, ...]:
    """All findings on impeller, hopper, water and metals."""
    return (
        *(each for item in kit.items(d.PUMP) for part in (_impeller, _pairs) for each in part(kit, item)),
        *(each for item in kit.items(d.HOPPER) for each in _hopper(kit, item)),
        *(each for item in kit.items(d.WATER) for each in _water(kit, item)),
    )


def _impeller(kit: Kit, item: str) -> tuple[Finding, ...]:
    found = list(
        kit.as_read(
            d.CLEARANCE, item, text=f"The vanes of the {item} clear the case by {{0}}; few books print what it should be.",
            settle="Read the vanes to the case with feelers, shaft pushed away.",
            practised=kit.rules("water pump impeller clearance"),
        )
    )  # fmt: skip
    slip, over = kit.blank(d.PUMP, item, SLIPS, "percent"), kit.blank(d.PUMP, item, MOVED, "ratio")
    state = moving(kit, item)
    if state is None:
        wants = [
            feature.title.lower() for feature in (d.IMPELLER, d.VANE, d.CLEARANCE, d.RATIO) if kit.size(feature, item) is None
        ]
        speed = "" if kit.bench.snapshot.outline.rated_speed else " and the rated speed in the outline"
        settle = f"Read {', '.join(wants) or 'all of it again'}{speed}."
        return (
            *found,
            not_measured(slip, settle=settle),
            not_measured(over, settle=settle, practised=Practice(limits=(ENOUGH,))),
        )
    share = np.asarray(state.slips / state.made_for)
    said = Said(
        f"At rated speed about {middle(share):.0%} of what the {item} is made to move slips back over its vanes, an estimate."
    )
    formula = (
        "C π eye × clearance × √(2 g H), H = share × u² / g; made for coefficient × u π D b; coefficients from memory, "
        "the way of the gap after the Pump Handbook, 2.1"
    )
    found += judged(replace(slip, sentence=said, inputs=state.inputs, formula=formula), share)
    left = state.over_need(state.slips)
    if left is None:
        return (*found, not_measured(over, settle="Write the rated power in the outline: what must be cooled follows from it."))
    said = Said(f"What is left is {middle(left):.1f} times what carries the heat off at rated load. That is an estimate.")
    if float(np.mean(left < 1.0)) > 0.5:
        said = joined(said, Said("Watch the thermometer at the outlet when it first takes load."))
    line = replace(
        over, sentence=said, inputs=state.inputs, formula="(made for − slip) / (heat / (ρ c rise)); heat after Mathot 1905"
    )
    return (*found, *judged(line, left, Practice(limits=(ENOUGH,))))


def _pairs(kit: Kit, item: str) -> tuple[Finding, ...]:
    """Every two metals of the pump that stand apart in the same water."""
    known: dict[str, tuple[GalvanicMetal, tuple[str, ...]]] = {}
    for feature, name in (
        (d.BODY_OF, "body"),
        (d.IMPELLER_OF, "impeller"),
        (d.SHAFT_OF, "shaft"),
        (d.PIN_MATERIAL, "drive pin"),
    ):
        text, inputs = kit.reader.words(feature, item)
        metal = metal_in_words(text)
        if metal is not None:
            known[name] = metal, inputs
    line = kit.blank(d.PUMP, item, PAIR, "voltage")
    if len(known) < 2:
        return (not_measured(line, settle="Write down of what metals body, impeller and shaft are: file, magnet, colour."),)
    found = []
    for (one, (first, a)), (other, (second, b)) in combinations(known.items(), 2):
        low, high = galvanic.apart(first=first.volts, second=second.volts)
        if high < 0.2:
            continue
        base, noble = (one, other) if galvanic.eaten_first(first=first.volts, second=second.volts) == 0 else (other, one)
        small = " and a small part goes fast beside a large noble one" if base in ("drive pin", "shaft") else ""
        said = Said(
            f"{one.capitalize()} of {first.name}, {other} of {second.name}: they stand {low:.2f} to {high:.2f} V apart in sea "
            f"water; the {base} is eaten by the {noble}{small}. In clean water with inhibitor it goes slowly."
        )
        band = next(words for top, words in galvanic.BANDS if low < top)
        said = joined(said, Said(f"{band[0].upper()}{band[1:]}."))
        found.append(
            replace(
                line, quantity=f"{PAIR}: {one} and {other}", value=(low + high) / 2, low=low, high=high, sentence=said,
                inputs=(*a, *b), formula=f"difference of potentials; {first.source}",
            )
        )  # fmt: skip
    if found:
        return tuple(found)
    return (replace(line, sentence=Said("Its metals stand close together in the series: little to fear.")),)


def _hopper(kit: Kit, item: str) -> tuple[Finding, ...]:
    found = list(
        kit.as_read(
            d.LEVEL, item, text="The water stands {0} below the top of the hopper; it boils under load, as it should.",
            settle="Read how far the water stands below the top, at work.", practised=kit.rules("hopper water level below top"),
        )
    )  # fmt: skip
    found += _lasts(kit, item)
    return (*found, *kit.noted(d.HOPPER_STATE, item, settle="Look the hopper over for frost cracks and scale."))


def _lasts(kit: Kit, item: str) -> tuple[Finding, ...]:
    line = kit.blank(d.HOPPER, item, LASTS, "time")
    reads = [kit.size(feature, item) for feature in (d.AREA_LONG, d.AREA_WIDE, d.COVER)]
    power, row = horsepower(kit), rules("hopper evaporation for a horsepower hour")[0]
    if power is None or any(read is None for read in reads):
        settle = "Read the opening, long and across, and the water over the cylinder; and write the power in the outline."
        return (not_measured(line, settle=settle),)
    long, wide, cover = (read.draws for read in reads if read is not None)
    boiled = kit.reader.even("evaporation", row.low or 0.0, row.high or 0.0) * power / 3600.0
    draws = np.asarray(long * wide * cover / boiled)
    said = Said(
        f"At full load about {from_si(middle(boiled) * 3600, 'US gallon'):.1f} US gallons boil off in an hour: from full it is "
        "{0} until the cylinder's top is bare. Keep water by it, and add it little by little: cold water cracks hot iron.",
        (Amount(middle(draws), "time"),),
    )
    inputs = tuple(identity for read in reads if read is not None for identity in read.inputs)
    formula = f"opening × depth / (.3 to .6 gal for a horsepower hour); {row.source}, straight walls taken"
    return judged(replace(line, sentence=said, inputs=inputs, formula=formula), draws)


def _water(kit: Kit, item: str) -> tuple[Finding, ...]:
    practised = kit.rules("water outlet temperature")
    hopper = bool(kit.items(d.HOPPER))
    kept = tuple(each for each in practised.limits if ("hopper" in each.origin.page) == hopper)
    targets = () if hopper else practised.targets
    return (
        *kit.as_read(
            d.OUTLET, item, text="The water comes out at {0} at work.", settle="Hang a thermometer in the outlet under load.",
            practised=Practice(targets=targets, limits=kept),
        ),
        *kit.noted(d.SCALE, item, settle="Look into the jacket through its plugs for scale and mud."),
    )  # fmt: skip
