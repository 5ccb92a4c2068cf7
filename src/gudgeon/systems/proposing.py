"""From a matter and the ways to settle it to remedies and prospects: what each gives on the same draws, costs, takes and needs.

Shared by systems; it knows none of them. A matter is a group of parts decided together ("valves: seats"); a way is one thing
that could be done about it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import cast

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.bench import Bench
from gudgeon.engine.caution import Caution
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Range
from gudgeon.engine.prospect import CHANCE_NEEDED, PossibleReading, Prospect
from gudgeon.engine.remedy import Action, Intervention, Need, PricedItem, Remedy, Risk
from gudgeon.engine.snapshot import Price
from gudgeon.engine.step import StepDraft
from gudgeon.handbook.cautions import cautions
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Draws, Practice, judged, share_kept

Flags = NDArray[np.bool_]
ByItem = Mapping[str, Draws]

OWN = "common practice, a home shop; from memory"
CANNOT_TELL = "can't tell yet: nothing that decides it was read"


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """Something compared before and after: its dimension, and per instance what authorities say of it."""

    name: str
    part: str
    dimension: str
    practices: Mapping[str, Practice]


@dataclass(frozen=True, kw_only=True)
class Matter:
    """What is decided together. ``now`` are the draws as found, per quantity and instance; what was not read is missing.
    ``kept`` holds what was worked out of it, since ways share the draws that they do not change."""

    system: str
    subject: str
    bench: Bench
    items: tuple[str, ...]
    quantities: tuple[Quantity, ...]
    now: Mapping[str, ByItem]
    inputs: tuple[str, ...] = ()
    kept: dict[object, object] = field(default_factory=dict, repr=False)


@dataclass(frozen=True, kw_only=True)
class Way:
    """One way to settle a matter.

    Attributes
    ----------
    after : per quantity and instance the draws afterwards; quantities not named stay as found.
    allowed : draws in which a hard limit is kept, or None; ``why`` says which.
    stages : names of priced items that wait one after the other; none given waits for all at once.
    """

    name: str
    title: Said
    action: Action
    intervention: Intervention
    original: str
    items: tuple[str, ...]
    after: Mapping[str, ByItem] = field(default_factory=dict)
    allowed: Flags | None = None
    why: str = ""
    parameters: dict[str, float] = field(default_factory=dict)
    priced: tuple[PricedItem, ...] = ()
    stages: tuple[tuple[str, ...], ...] = ()
    steps: tuple[StepDraft, ...] = ()
    needs: tuple[Need, ...] = ()
    risks: tuple[Risk, ...] = ()
    works: tuple[str, ...] = ()
    for_it: tuple[Said, ...] = ()
    against_it: tuple[Said, ...] = ()

    def key(self, matter: Matter) -> str:
        """The remedy's key."""
        return f"{matter.system}/{self.name}"


def warned(*works: str) -> tuple[Caution, ...]:
    """The cautions of some kinds of work, each once."""
    rows = [row for work in works for row in cautions(work)]
    return tuple(dict.fromkeys(Caution(hazard=row.hazard, say=row.say, source=row.source) for row in rows))


def hours(low: float, likely: float, high: float, each: int = 1) -> Range:
    """Hours at the bench for so many of one thing."""
    return Range(low * each, likely * each, high * each, OWN)


def own_hours(steps: Sequence[StepDraft]) -> Range | None:
    """All hours at the bench of some steps together."""
    known = [step.hours for step in steps if step.hours is not None]
    if not known:
        return None
    return Range(sum(h.low for h in known), sum(h.likely for h in known), sum(h.high for h in known), OWN)


def draws_after(matter: Matter, way: Way) -> dict[str, dict[str, Draws]]:
    """Per quantity and instance the draws after a way: what it changes, and the rest as found."""
    return {q.name: {**matter.now.get(q.name, {}), **way.after.get(q.name, {})} for q in matter.quantities}


def worth_of(matter: Matter, way: Way) -> Draws:
    """Worth of a way, 0 to 1, draw by draw.

    Per quantity the share of deciding authorities whose limit is kept, in the instance where it is least; the mean over the
    quantities. What nobody read is good or bad with an even chance. A hard limit that is not kept leaves nothing.
    """
    kept = matter.kept.get(("worth", way.name))
    if kept is None:
        kept = matter.kept["worth", way.name] = _worth(matter, way)
    return cast(Draws, kept)


def _worth(matter: Matter, way: Way) -> Draws:
    found = draws_after(matter, way)
    shares = []
    for quantity in matter.quantities:
        items = [item for item in matter.items if item in quantity.practices]
        if items:
            shares.append(np.min([_share(matter, quantity, item, found[quantity.name].get(item)) for item in items], axis=0))
    worth = np.mean(shares, axis=0) if shares else np.ones(matter.bench.count)
    return np.asarray(worth if way.allowed is None else worth * way.allowed)


def _share(matter: Matter, quantity: Quantity, item: str, draws: Draws | None) -> Draws:
    if draws is None:
        return (unread(matter.bench, quantity.name) > 0).astype(np.float64)
    if draws is not matter.now.get(quantity.name, {}).get(item):
        return share_kept(draws, quantity.practices[item].limits)
    kept = matter.kept.get(("share", quantity.name, item))
    if kept is None:
        kept = matter.kept["share", quantity.name, item] = share_kept(draws, quantity.practices[item].limits)
    return cast(Draws, kept)


def unread(bench: Bench, quantity: str) -> Draws:
    """A stand-in for something that nobody measured: above nought it turns out good, below it bad; an even chance.

    It is one for all instances of the kind: what has not been looked at is taken to be alike.
    """
    return bench.named(f"{quantity}, not read")


def remedy_of(matter: Matter, way: Way) -> Remedy:
    """A remedy from a way. While nothing was read that decides the matter, only running on and adjusting are possible."""
    prices = matter.bench.snapshot.prices
    chance = 1.0 if way.allowed is None else float(way.allowed.mean())
    blind = way.action not in ("run on", "adjust") and not any(matter.now.values())
    possible = chance >= CHANCE_NEEDED and not blind
    thin = f"{way.why}, with a chance of {1 - chance:.0%}"
    return Remedy(
        key=way.key(matter),
        system=matter.system,
        subject=matter.subject,
        title=way.title,
        action=way.action,
        items=way.items,
        intervention=way.intervention,
        original=way.original,
        parameters=way.parameters,
        gives=_gives(matter, way),
        priced=way.priced,
        own_hours=own_hours(way.steps),
        cost=_cost(way.priced, prices),
        wait_days=_wait(way, prices),
        unpriced=tuple(i.name for i in way.priced if i.name not in prices or prices[i.name].cost is None),
        risks=way.risks,
        needs=way.needs,
        steps=way.steps,
        cautions=warned(*way.works),
        merit=float(worth_of(matter, way).mean()),
        for_it=way.for_it,
        against_it=(*way.against_it, *_not_known(matter, way)),
        possible=possible,
        why_not="" if possible else CANNOT_TELL if blind else thin,
    )


def prospect_of(matter: Matter, ways: Sequence[Way], readings: tuple[PossibleReading, ...] = ()) -> Prospect:
    """The worth of every way draw by draw, and what could still be read."""
    return Prospect(
        subject=matter.subject,
        worth={way.key(matter): worth_of(matter, way) for way in ways},
        allowed={way.key(matter): way.allowed for way in ways if way.allowed is not None},
        readings=readings,
    )


def could_be_read(matter: Matter, features: Mapping[str, tuple[str, str]], why: str) -> tuple[PossibleReading, ...]:
    """A reading for each quantity that was not read of every instance, of the first such. ``features``: quantity -> part and
    feature to read. Only quantities that some authority's limit can decide are named."""
    found = []
    for quantity in matter.quantities:
        missing = [
            item
            for item in matter.items
            if item in quantity.practices
            and quantity.practices[item].deciding
            and item not in matter.now.get(quantity.name, {})
        ]
        if missing and quantity.name in features:
            part, feature = features[quantity.name]
            found.append(
                PossibleReading(
                    part=part,
                    item=missing[0],
                    feature=feature,
                    would_show=unread(matter.bench, quantity.name),
                    uncertainty=0.1,
                    why=why if len(missing) == 1 else f"{why}; {len(missing)} of its kind were not read",
                    minutes=5.0,
                )
            )
    return tuple(found)


def worn(matter: Matter, *names: str) -> tuple[str, ...]:
    """The instances that are more likely than not past a deciding limit of one of some quantities, in order."""
    found = []
    for item in matter.items:
        for quantity in matter.quantities:
            draws = matter.now.get(quantity.name, {}).get(item)
            if quantity.name not in names or draws is None or item not in quantity.practices:
                continue
            if any(2 * np.count_nonzero(limit.kept(draws)) < draws.size for limit in quantity.practices[item].deciding):
                found.append(item)
                break
    return tuple(found)


def listed(items: Sequence[str]) -> str:
    """Names as one reads them out: "exhaust 1, exhaust 2 and exhaust 3"."""
    return " and ".join(filter(None, (", ".join(items[:-1]), *items[-1:])))


def _gives(matter: Matter, way: Way) -> tuple[Finding, ...]:
    found: list[Finding] = []
    after = draws_after(matter, way)
    for quantity in matter.quantities:
        for item, draws in after[quantity.name].items():
            if item not in quantity.practices:
                continue
            name = ("gives", quantity.name, item, str(id(draws)))  # ways that end alike hold the very same draws
            if name not in matter.kept:
                matter.kept[name] = (draws, _given(matter, quantity, item, draws))  # kept alive, so that its id stays its own
            found += cast(tuple[Draws, tuple[Finding, ...]], matter.kept[name])[1]
    return tuple(found)


def _given(matter: Matter, quantity: Quantity, item: str, draws: Draws) -> tuple[Finding, ...]:
    blank = Finding(
        system=matter.system,
        part=quantity.part,
        item=item,
        quantity=quantity.name,
        dimension=quantity.dimension,
        inputs=matter.inputs,
        formula="expected, on the same draws",
    )
    found = judged(blank, draws, quantity.practices[item])
    said = Said(f"{item}, {quantity.name}: about {{0}} afterwards.", (Amount(found[0].value or 0.0, quantity.dimension),))
    return tuple(replace(each, sentence=said) for each in found)


def _not_known(matter: Matter, way: Way) -> tuple[Said, ...]:
    after = draws_after(matter, way)
    missing = [q.name for q in matter.quantities if any(item not in after[q.name] for item in q.practices)]
    if not missing:
        return ()
    return (Said(f"Not read everywhere, and counted as an even chance: {', '.join(missing)}."),)


_ENDS = ("low", "likely", "high")


def _cost(priced: Sequence[PricedItem], prices: Mapping[str, Price]) -> Range | None:
    """So many of each, at its price; None while a price is missing."""
    costs = [(item.count, prices[item.name].cost) for item in priced if item.name in prices]
    known = [(count, cost) for count, cost in costs if cost is not None]
    if len(known) < len(priced):
        return None
    low, likely, high = (sum(count * getattr(cost, end) for count, cost in known) for end in _ENDS)
    return Range(low, likely, high, "; ".join(dict.fromkeys(cost.origin for _, cost in known)) or "nothing is bought")


def _wait(way: Way, prices: Mapping[str, Price]) -> Range | None:
    """Days at shops; None while one is unknown."""
    names = [item.name for item in way.priced]
    total = [0.0, 0.0, 0.0]
    for stage in way.stages or (tuple(names),):
        waits = []
        for name in names:
            if name in stage:
                price = prices.get(name)
                if price is None or price.wait_days is None:
                    return None
                waits.append(price.wait_days)
        if waits:
            total = [each + max(getattr(wait, end) for wait in waits) for each, end in zip(total, _ENDS, strict=True)]
    low, likely, high = total
    return Range(low, likely, high, "waits one after the other" if way.stages else "all sent out at once")
