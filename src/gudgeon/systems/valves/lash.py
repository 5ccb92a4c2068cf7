"""Lash cold and hot. Figures of cars and of farm and stationary engines differ two to four times: which apply is said."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.handbook.materials import material
from gudgeon.handbook.rules import RuleRow, rules
from gudgeon.quantity import Amount, Said
from gudgeon.systems.engine_kind import Engines, engines_of, which_engines
from gudgeon.systems.judging import Limit, Practice, Target, authorities_differ, joined, judged, middle, not_measured, origin_of
from gudgeon.systems.measured import Draws
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.valve_set import ValveSet, blank, kind_of

LASH, HOT = "lash", "lash, hot"
STEM_ABOVE_BLOCK = {"exhaust": (120.0, 300.0), "intake": (20.0, 80.0), "": (20.0, 300.0)}
"""How much hotter a stem runs, over its length, than the iron round it [K]; from memory."""
TOUCHES = Limit(
    size=0.0, most=False, origin=Origin("E", "geometry: a valve held off its seat leaks and burns", "the same in every engine")
)


@dataclass(frozen=True, kw_only=True)
class LashPractice:
    """Which engines' figures apply, why, and the figures: those that apply first."""

    engines: Engines
    why: str
    practised: Practice


def lash_practice(item: str, valves: ValveSet) -> LashPractice:
    """What authorities say of a valve's lash, those for its kind of engine first.

    The widest figure of those that apply, other than from memory, is taken as the most: past it the lash is set again. Where it
    is not known which apply, none decides.
    """
    engines, why = which_engines(valves.bench.snapshot.outline)
    rows = [row for row in rules("valve lash", purpose="target") if _for_kind(row, item)]
    first = [row for row in rows if engines_of(row.applies) == engines and not (_small(valves) and "large" in row.applies)]
    rest = [row for row in rows if row not in first]
    targets = tuple(_target(row) for row in (*first, *rest))
    widest = max((row for row in first if not row.from_memory), key=lambda row: row.high or 0.0, default=None)
    limits = (
        () if widest is None or engines == "unknown" else (Limit(size=widest.high or 0.0, most=True, origin=origin_of(widest)),)
    )
    return LashPractice(engines=engines, why=why, practised=Practice(targets=targets, limits=limits))


def _small(valves: ValveSet) -> bool:
    """Is the bore under 8 in, as far as the outline says?"""
    return (valves.bench.snapshot.outline.bore or 0.1) < 8 * d.INCH


def _for_kind(row: RuleRow, item: str) -> bool:
    kind = kind_of(item)
    other = {"intake": "exhaust", "exhaust": "inlet"}.get(kind, "")
    return not (other and other in row.applies and ("inlet" if kind == "intake" else "exhaust") not in row.applies)


def _target(row: RuleRow) -> Target:
    low, high = row.at()
    return Target(low=low, high=high, origin=origin_of(row), authority=row.authority)


def target_of(item: str, valves: ValveSet) -> Target:
    """The lash to set [m]: the least that those who apply ask for, as a band a quarter wide.

    Of a slow engine the tractor's 1/32 is preferred to the large stationary's 1/16 while the bore is under 8 in; common
    practice. Where it cannot be told which apply, the start where nothing is known (.010).
    """
    known = lash_practice(item, valves)
    apply = [target for target in known.practised.targets if _applies(target, known.engines)]
    chosen = min(
        apply, key=lambda target: abs((target.low or 0.0) - (0.03125 if _small(valves) else 0.0625) * d.INCH), default=None
    )
    if known.engines == "fast" and apply:
        chosen = min(apply, key=lambda target: abs((target.low or 0.0) - 0.010 * d.INCH))
    if chosen is None:
        chosen = known.practised.targets[0]
    low = chosen.low or 0.010 * d.INCH
    return replace(chosen, low=low, high=max(chosen.high or low, 1.15 * low))


def _applies(target: Target, engines: Engines) -> bool:
    row = next(row for row in rules("valve lash", purpose="target") if origin_of(row) == target.origin)
    return engines_of(row.applies) == engines and not row.from_memory


def lash_findings(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    """Lash of one valve, cold and hot; of an automatic inlet there is none."""
    if valves.is_automatic(item):
        return ()
    return (*_cold(item, valves), *_hot(item, valves))


def _cold(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    known = lash_practice(item, valves)
    read = valves.reader.smallest(d.LASH, item)
    if read is None:
        settle = f"Read the lash of {item} cold, follower on the heel."
        return (not_measured(blank(item, LASH), settle=settle, practised=known.practised),)
    target = target_of(item, valves)
    said = joined(
        Said(f"{item} has {{0}} cold.", (Amount(read.value, "length"),)),
        Said(f"{known.why[0].upper()}{known.why[1:]}."),
        _against(middle(read.draws), target),
        authorities_differ(known.practised),
    )
    spots = valves.reader.spots(d.LASH, item, stage="fitted")
    line = replace(
        blank(item, LASH),
        sentence=said,
        inputs=read.inputs,
        formula="as read at the heel; car and farm figures kept apart",
        as_fitted=min((spot.value for spot in spots), default=None),
    )
    practised = replace(known.practised, targets=(target, *known.practised.targets))
    return judged(line, read.draws, practised)


def _against(lash: float, target: Target) -> Said:
    low, high = target.low or 0.0, target.high or 0.0
    amounts = (Amount(low, "length"),)
    if lash < 0.8 * low:
        return Said(
            "That is closer than {0}, which its kind is set to: it opens early, shuts late and may not seat when hot.",
            amounts,
        )
    if lash > 1.25 * high:
        return Said("That is wider than {0}, which its kind is set to: it opens late, shuts early and knocks.", amounts)
    return Said("Its kind is set to about {0}.", amounts)


def growth(item: str, valves: ValveSet) -> tuple[Draws, tuple[str, ...]] | None:
    """By how much a stem outgrows the iron round it at work [m]; None where its length was not read."""
    length = valves.size(d.STEM_LENGTH, item)
    if length is None:
        return None
    low, high = STEM_ABOVE_BLOCK[kind_of(item)]
    rise = valves.reader.even(f"{kind_of(item)} stem above the block", low, high)
    steel = material("steel 1040")
    coefficient = steel.expansion + steel.expansion_uncertainty * valves.bench.named("expansion of steel 1040")
    return length.draws * coefficient * rise, length.inputs


def hot_lash(item: str, valves: ValveSet) -> tuple[Draws, tuple[str, ...]] | None:
    """Lash at work [m], from the cold lash and what the stem grows."""
    cold, grown = valves.reader.smallest(d.LASH, item), growth(item, valves)
    if cold is None or grown is None:
        return None
    return cold.draws - grown[0], (*cold.inputs, *grown[1])


def _hot(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    practised = Practice(limits=(TOUCHES,))
    measured = valves.size(d.LASH_HOT, item)
    if measured is not None:
        said = Said(f"{item} has {{0}} hot, as read.", (Amount(measured.value, "length"),))
        line = replace(blank(item, HOT), sentence=said, inputs=measured.inputs, formula="as read hot")
        return judged(line, measured.draws, practised)
    worked = hot_lash(item, valves)
    if worked is None:
        settle = f"Read the lash of {item} cold and its length over all; or its lash hot."
        return (not_measured(blank(item, HOT), settle=settle, practised=practised),)
    said = Said(f"Hot, {item} keeps about {{0}}.", (Amount(middle(worked[0]), "length"),))
    low, high = STEM_ABOVE_BLOCK[kind_of(item)]
    line = replace(
        blank(item, HOT),
        sentence=said,
        inputs=worked[1],
        formula=f"cold lash − length × expansion × stem hotter than the iron by {low:.0f} to {high:.0f} K (from memory)",
        settle=f"Read the lash of {item} hot, at the first run.",
    )
    return judged(line, worked[0], practised)
