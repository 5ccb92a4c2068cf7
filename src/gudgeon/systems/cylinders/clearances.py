"""Piston in bore and ring in bore and groove: clearances now, cold and hot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.mechanics import rings
from gudgeon.mechanics.rings import gap_in
from gudgeon.mechanics.thermal import REFERENCE_CELSIUS, at_temperature
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cylinders import unknowns
from gudgeon.systems.cylinders.description import RING_PLACES
from gudgeon.systems.cylinders.spots import (
    Bore,
    Draws,
    Measured,
    far_off,
    inputs_of,
    mean_of,
    number,
    rings_of,
    size_of,
    skirt_of,
)
from gudgeon.systems.cylinders.wear import plain, rules_for, where, words_read
from gudgeon.systems.judging import Limit, Practice, authorities_differ, joined, judged, not_measured

CLEARANCE, CLEARANCE_WORST, CLEARANCE_HOT = "piston clearance", "piston clearance where most worn", "piston clearance, hot"
GAP_BELT, GAP_TOP, GAP_HOT = "ring end gap in unworn belt", "ring end gap at top of ring travel", "ring end gap, hot"
SIDE = "ring side clearance"

_TOUCH = Origin("E", "geometry: parts that touch seize", "the same in every engine")
NO_TOUCH = Limit(size=0.0, most=False, origin=_TOUCH)


def clearance_rules(bore: Bore, bench: Bench) -> Practice:
    """Practice for the skirt's clearance, for iron or aluminium."""
    iron = material_of(bench, bore.item)[0] == "grey cast iron"
    kind = "cast iron" if iron else "aluminium"
    return rules_for(f"piston skirt clearance, {kind}", "piston skirt clearance", bore=bore, bench=bench)


def material_of(bench: Bench, cylinder: str) -> tuple[str, bool]:
    """What a cylinder's piston is made of, and whether that was noted."""
    return unknowns.piston_material(lambda item: words_read(bench, item, "material", part="piston")[0], bench, cylinder)


def lowest_size(bore: Bore) -> tuple[Draws, tuple[str, ...]] | None:
    """Mean diameter at the lowest level of the ring travel, else below it: where the bore is least worn [m]."""
    levels = list(bore.levels.values())
    spots = levels[-1] if len(levels) > 1 else bore.named("below ring travel") or (levels[0] if levels else ())
    return (mean_of(spots), inputs_of(spots)) if spots else None


def worst_size(bore: Bore) -> tuple[Draws, tuple[str, ...]] | None:
    """Mean diameter at the most worn level: a ring's gap goes by the way round, not by one diameter [m]."""
    if bore.worst is None:
        return None
    spots = next(spots for spots in bore.levels.values() if bore.worst in spots)
    return mean_of(spots), inputs_of(spots)


def belt_size(bore: Bore) -> tuple[Draws, tuple[str, ...]] | None:
    """Mean diameter of the unworn belt below the ring travel, else the size when new [m]."""
    if spots := bore.named("below ring travel"):
        return mean_of(spots), inputs_of(spots)
    return (bore.original, ()) if bore.original is not None else None


def clearance_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """Clearance of the skirt where the bore is least worn, where it is most worn, and hot."""
    practised = clearance_rules(bore, bench)
    skirt, low = skirt_of(bench, bore.item), lowest_size(bore)
    if skirt is None or low is None or bore.worst is None:
        what = f"the skirt of piston {number(bore.item)} across the pin" if skirt is None else f"the bore of {bore.item}"
        return (not_measured(plain(bore.item, CLEARANCE), settle=f"Read {what}.", practised=practised),)
    return (
        *_cold(bore, skirt, low, practised),
        *_worst(bore, skirt, practised),
        *_hot(bore, bench, skirt, low),
    )


def _cold(bore: Bore, skirt: Measured, low: tuple[Draws, tuple[str, ...]], practised: Practice) -> tuple[Finding, ...]:
    draws = low[0] - skirt.draws
    said = Said(
        f"{skirt.item} has {{0}} clearance at the skirt where {bore.item} is least worn.",
        (Amount(float(np.median(draws)), "length"),),
    )
    if float((draws < 0).mean()) > 0.5:
        said = Said(f"{skirt.item} reads larger than the bore that it came out of: one of the readings is wrong.")
    blank = replace(
        plain(bore.item, CLEARANCE),
        sentence=joined(said, _left_out(bore), authorities_differ(practised)),
        inputs=(*skirt.inputs, *low[1]),
        formula="mean bore at the lowest level of ring travel − skirt across the pin, both at 20 degree C",
    )
    return judged(blank, draws, practised)


def _left_out(bore: Bore) -> Said:
    """Which spot of the lowest level was left out of its mean."""
    levels = list(bore.levels.values())
    off = far_off(levels[-1]) if levels else ()
    if not off:
        return Said("")
    value = Amount(off[0].estimate.value, "length")
    return Said(f"{{0}} {where(off[0])} stands far off its neighbours and was left out: read it again.", (value,))


def _worst(bore: Bore, skirt: Measured, practised: Practice) -> tuple[Finding, ...]:
    assert bore.worst is not None
    draws = bore.worst.draws - skirt.draws
    said = Said(f"Where {bore.item} is most worn the piston has {{0}}.", (Amount(float(np.median(draws)), "length"),))
    blank = replace(
        plain(bore.item, CLEARANCE_WORST),
        sentence=said,
        inputs=(*skirt.inputs, *bore.worst.estimate.readings),
        formula="largest diameter in the ring travel − skirt across the pin, both at 20 degree C",
    )
    return judged(blank, draws, practised)


def _hot(bore: Bore, bench: Bench, skirt: Measured, low: tuple[Draws, tuple[str, ...]]) -> tuple[Finding, ...]:
    draws = hot_clearance(bench, bore.item, bore_size=low[0], skirt_size=skirt.draws)
    material, noted = material_of(bench, bore.item)
    said = Said(f"Hot, about {{0}} is left for a piston of {material}.", (Amount(float(np.median(draws)), "length"),))
    if not noted:
        said = joined(said, Said("What the piston is made of was not noted; try a magnet."))
    blank = replace(
        plain(bore.item, CLEARANCE_HOT),
        sentence=said,
        inputs=(*skirt.inputs, *low[1]),
        formula=(
            "D (1 + a_bore (T_wall − 20)) − d (1 + a_piston (T_skirt − 20)); "
            "wall 70 to 120 degree C, skirt 20 to 90 K above it (from memory)"
        ),
        settle="" if noted else f"Try a magnet on piston {number(bore.item)}: iron or aluminium.",
    )
    return judged(blank, draws, Practice(limits=(NO_TOUCH,)))


def hot_clearance(bench: Bench, cylinder: str, *, bore_size: Draws, skirt_size: Draws) -> Draws:
    """Clearance at working heat [m], for what the cylinder's piston is made of."""
    hole = at_temperature(
        length_at_20=bore_size,
        expansion=unknowns.expansion(bench, "grey cast iron"),
        temperature=unknowns.wall_temperature(bench),
    )
    shaft = at_temperature(
        length_at_20=skirt_size,
        expansion=unknowns.expansion(bench, material_of(bench, cylinder)[0]),
        temperature=unknowns.skirt_temperature(bench),
    )
    return np.asarray(np.subtract(hole, shaft))


@dataclass(frozen=True, kw_only=True)
class Gaps:
    """Gaps of one ring [m]: in the unworn belt, at the lowest level of travel and at the most worn; None where unknown."""

    ring: str
    belt: Draws | None
    low: Draws | None
    top: Draws | None
    belt_read: bool
    top_read: bool
    inputs: tuple[str, ...]


def gaps_of(bore: Bore, bench: Bench, ring: str) -> Gaps:
    """The gaps of a ring, each as read, else from the other and the growth of the bore between the two places."""
    belt_aliases = ("end gap", "end gap below ring travel", "ring gap")
    read_belt = size_of(bench, "ring", ring, "end gap in unworn belt", aliases=belt_aliases)
    read_top = size_of(bench, "ring", ring, "end gap under the ridge", aliases=("end gap at top of ring travel",))
    sizes = {"belt": belt_size(bore), "low": lowest_size(bore), "top": worst_size(bore)}
    anchor = ("belt", read_belt) if read_belt else ("top", read_top)
    inputs = tuple(identity for read in (read_belt, read_top) if read for identity in read.inputs)

    def elsewhere(place: str) -> Draws | None:
        here, there = sizes[anchor[0]], sizes[place]
        if anchor[1] is None or here is None or there is None:
            return None
        return np.asarray(gap_in(gap=anchor[1].draws, tried_in=here[0], bore=there[0]))

    return Gaps(
        ring=ring,
        belt=read_belt.draws if read_belt else elsewhere("belt"),
        low=elsewhere("low"),
        top=read_top.draws if read_top else elsewhere("top"),
        belt_read=read_belt is not None,
        top_read=read_top is not None,
        inputs=inputs,
    )


_ROWS = {
    "top": ("upper", "ring 1", "top ring", "compression ring"),
    "second": ("centre", "ring 2", "rings 2", "compression ring"),
}


def gap_rules(bore: Bore, bench: Bench, ring: str) -> Practice:
    """Practice for a ring's end gap; an oil ring has its own."""
    if "oil" in ring.lower() or "scraper" in ring.lower():
        return rules_for("oil ring end gap", bore=bore, bench=bench)
    return rules_for("ring end gap", bore=bore, bench=bench, words=_words_of(ring))


def _words_of(ring: str) -> tuple[str, ...]:
    place = next((place for place in RING_PLACES if place in ring.lower()), "top")
    return _ROWS.get(place, ("lower", "rings 3", "rings 2"))


def gap_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """End gaps of every ring of a cylinder that was read."""
    read = [ring for ring in rings_of(bench, bore.item) if gaps_of(bore, bench, ring).inputs]
    if not read:
        settle = f"Square the top ring of {bore.item} in the unworn belt below the ring travel and read its gap."
        top = f"{bore.item} top ring"
        return (not_measured(plain(top, GAP_BELT, part="ring"), settle=settle, practised=gap_rules(bore, bench, top)),)
    return tuple(finding for ring in read for finding in _gaps_of_ring(bore, bench, ring))


def _gaps_of_ring(bore: Bore, bench: Bench, ring: str) -> tuple[Finding, ...]:
    gaps, practised = gaps_of(bore, bench, ring), gap_rules(bore, bench, ring)
    found: list[Finding] = []
    if gaps.belt is not None:
        how = "as read" if gaps.belt_read else "gap at the top − π × growth of the bore from the belt to there"
        said = Said(f"In the unworn belt the {ring} has a gap of {{0}}.", (Amount(float(np.median(gaps.belt)), "length"),))
        blank = plain(ring, GAP_BELT, part="ring")
        said = joined(said, authorities_differ(practised))
        # What the books print as a limit is the gap squared where the bore is least worn.
        found += judged(replace(blank, sentence=said, inputs=gaps.inputs, formula=how), gaps.belt, practised)
    if gaps.top is not None:
        how = "as read" if gaps.top_read else "gap in the belt + π × growth of the bore from there to the most worn level"
        said = Said("Where the bore is most worn it opens to {0}.", (Amount(float(np.median(gaps.top)), "length"),))
        blank = plain(ring, GAP_TOP, part="ring")
        found += judged(replace(blank, sentence=said, inputs=gaps.inputs, formula=how), gaps.top, practised)
    least = gaps.low if gaps.low is not None else gaps.belt
    if least is not None:
        found += _hot_gap(bore, bench, gaps, least)
    return tuple(found)


def _hot_gap(bore: Bore, bench: Bench, gaps: Gaps, least: Draws) -> tuple[Finding, ...]:
    diameter = lowest_size(bore) or belt_size(bore)
    if diameter is None:
        return ()
    draws = hot_gap(bench, gap=least, diameter=diameter[0])
    chance = float((draws <= 0).mean())
    word = "it does not butt" if chance < 0.05 else "it butts" if chance > 0.95 else f"it may butt ({chance:.0%})"
    said = Said(
        f"Hot, the gap closes to {{0}} where the bore is least worn: {word}.", (Amount(float(np.median(draws)), "length"),)
    )
    formula = (
        "gap − π D (a_ring (T_ring − 20) − a_bore (T_wall − 20)); "
        "wall 70 to 120 degree C, ring 30 to 111 K above it (from memory)"
    )
    blank = replace(plain(gaps.ring, GAP_HOT, part="ring"), sentence=said, inputs=(*gaps.inputs, *diameter[1]), formula=formula)
    return judged(blank, draws, Practice(limits=(NO_TOUCH,)))


def hot_gap(bench: Bench, *, gap: Draws, diameter: Draws) -> Draws:
    """End gap at working heat [m], iron ring in an iron bore."""
    iron = unknowns.expansion(bench, "grey cast iron")
    return np.asarray(
        rings.hot_gap(
            cold_gap=gap,
            bore=diameter,
            expansion_ring=iron,
            rise_ring=unknowns.ring_temperature(bench) - REFERENCE_CELSIUS,
            expansion_bore=iron,
            rise_bore=unknowns.wall_temperature(bench) - REFERENCE_CELSIUS,
        )
    )


def side_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """Side clearance of each ring in its groove: as read with a feeler, else groove width less ring width."""
    pistons = [item for item in bench.items("piston") if number(item) == number(bore.item)]
    found = tuple(
        finding for piston in pistons for place in (*RING_PLACES, "oil") for finding in _side(bore, bench, piston, place)
    )
    if found:
        return found
    piston = pistons[0] if pistons else f"piston {number(bore.item)}"
    settle = f"Read the side clearance of a new ring in the top groove of {piston}, all the way round."
    blank = plain(piston, f"{SIDE}, top ring", part="piston")
    return (not_measured(blank, settle=settle, practised=_side_rules(bore, bench, "top")),)


def _side_rules(bore: Bore, bench: Bench, place: str) -> Practice:
    subject = "oil ring side clearance" if place == "oil" else "ring side clearance"
    return rules_for(subject, bore=bore, bench=bench, words=_words_of(place))


def _side(bore: Bore, bench: Bench, piston: str, place: str) -> tuple[Finding, ...]:
    aliases = (f"side clearance, {place} ring", f"side clearance {place} ring", f"{place} ring side clearance")
    read = size_of(bench, "piston", piston, f"side clearance, {place} ring, new ring", aliases=aliases)
    formula, draws, inputs = "as read with a feeler", read.draws if read else None, read.inputs if read else ()
    if read is None:
        draws, inputs = _side_from_widths(bench, piston, place)
        formula = "widest place of the groove − width of the ring"
    if draws is None:
        return ()
    said = Said(f"The {place} ring of {piston} has {{0}} side clearance.", (Amount(float(np.median(draws)), "length"),))
    blank = replace(plain(piston, f"{SIDE}, {place} ring", part="piston"), sentence=said, inputs=inputs, formula=formula)
    return judged(blank, draws, _side_rules(bore, bench, place))


def _side_from_widths(bench: Bench, piston: str, place: str) -> tuple[Draws | None, tuple[str, ...]]:
    groove = size_of(bench, "piston", piston, "ring groove width", aliases=("groove width", "groove"))
    width = next(
        (
            size_of(bench, "ring", ring, "width", aliases=("ring width",))
            for ring in bench.items("ring")
            if number(ring) == number(piston) and place in ring.lower()
        ),
        None,
    )
    if groove is None or width is None:
        return None, ()
    spots = [each for each in groove.estimates if place in each.place.station.lower()] or (
        list(groove.estimates) if place == "top" and not any(each.place.station for each in groove.estimates) else []
    )
    if not spots:
        return None, ()
    widest = max(spots, key=lambda each: each.value)
    return bench.spot(widest) - width.draws, (*widest.readings, *width.inputs)


def fit_findings(bores: Sequence[Bore], bench: Bench) -> tuple[Finding, ...]:
    """All findings on pistons and rings, cylinder by cylinder."""
    parts = (clearance_findings, gap_findings, side_findings)
    return tuple(finding for bore in bores for part in parts for finding in part(bore, bench))
