"""What could be done about the bores, all cylinders together, each remedy with what it gives, takes, risks and needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.prospect import CHANCE_NEEDED, PossibleReading, Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.engine.snapshot import Price
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cylinders import unknowns
from gudgeon.systems.cylinders.block import QUANTITIES, Block
from gudgeon.systems.cylinders.choices import Option, options
from gudgeon.systems.cylinders.cleanup import WALL_LEFT, crack_known
from gudgeon.systems.cylinders.clearances import CLEARANCE_WORST, GAP_TOP
from gudgeon.systems.cylinders.description import KEY
from gudgeon.systems.cylinders.outcomes import (
    Outcome,
    given,
    outcome,
    sleeve_hole,
    sleeve_press,
    unknown,
    unread,
    worth_of,
)
from gudgeon.systems.cylinders.plan import BORE, HONE, OWN, PISTON, RING, SLEEVE, own_hours, steps, warned
from gudgeon.systems.cylinders.spots import Draws, skirt_of
from gudgeon.systems.cylinders.wear import ROUND, TAPER

SUBJECT = "cylinders: bores"


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy for the bores; none where no cylinder was read or noted."""
    block = Block.of(bench)
    if not block.bores:
        return ()
    found = [remedy_of(option, block) for option in options(block)]
    if not block.measured:
        found.append(_cannot_tell(block))
    return tuple(found)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    block = Block.of(bench)
    if not block.bores:
        return ()
    worth: dict[str, Draws] = {}
    allowed: dict[str, np.ndarray[tuple[int, ...], np.dtype[np.bool_]]] = {}
    for option in options(block):
        found = outcome_of(option, block)
        worth[key_of(option)] = worth_of(found, block)
        if found.walls and found.wall_measured:
            allowed[key_of(option)] = found.wall(bench.count)
    return (Prospect(subject=SUBJECT, worth=worth, allowed=allowed, readings=_could_be_read(block)),)


def outcome_of(option: Option, block: Block) -> Outcome:
    """What comes of an option, worked out once per block."""
    if option.name not in block.worked_out:
        block.worked_out[option.name] = outcome(option.choice, block)
    found = block.worked_out[option.name]
    assert isinstance(found, Outcome)
    return found


def key_of(option: Option) -> str:
    """The remedy's key."""
    return f"{KEY}/{option.name}"


def remedy_of(option: Option, block: Block) -> Remedy:
    """A remedy from an option."""
    bench = block.bench
    found = outcome_of(option, block)
    inputs = tuple(dict.fromkeys(identity for bore in block.bores for identity in bore.inputs))
    priced = _priced(option, block)
    drafts = steps(option, block)
    possible, why_not = _possible(found, block)
    for_it, against = _words(option, found, block)
    return Remedy(
        key=key_of(option),
        system=KEY,
        subject=SUBJECT,
        title=option.title,
        action=option.action,
        items=block.items,
        intervention=option.intervention,
        original=option.original,
        parameters=_parameters(option, block),
        gives=given(found, block, inputs),
        priced=priced,
        own_hours=own_hours(drafts),
        cost=_cost(priced, bench.snapshot.prices),
        wait_days=_wait(priced, bench.snapshot.prices),
        unpriced=_unpriced(priced, bench.snapshot.prices),
        risks=_risks(option),
        needs=_needs(option, block),
        steps=drafts,
        cautions=warned(*_works(option)),
        merit=float(worth_of(found, block).mean()),
        for_it=for_it,
        against_it=against,
        possible=possible,
        why_not=why_not,
    )


def _cannot_tell(block: Block) -> Remedy:
    """Boring, as long as its size cannot be said: on the table, with the readings that it waits for."""
    missing = [item for item, each in block.clean_ups.items() if each is None]
    why = f"can't tell yet: read {', '.join(missing)} just below the ridge and below the ring travel"
    needs = tuple(
        Need(
            kind="reading",
            what=f"bore of {item}, worn and unworn",
            met=False,
            part="cylinder",
            item=item,
            feature="bore diameter",
        )
        for item in missing
    )
    return Remedy(
        key=f"{KEY}/bore-all/least",
        system=KEY,
        subject=SUBJECT,
        title=Said("Bore all to the smallest size that cleans up"),
        action="make good",
        items=block.items,
        intervention="irreversible",
        original="Blocks stay, larger in the bore for good.",
        needs=needs,
        possible=False,
        why_not=why,
    )


def _parameters(option: Option, block: Block) -> dict[str, float]:
    """Sizes that the orders are drawn up from [m], and flags (1 for yes) of what is sleeved, honed or kept."""
    choice, found = option.choice, dict[str, float]()
    for item in block.items:
        if (size := choice.sizes.get(item)) is not None:
            found[f"{item} bore"] = size
            target = block.clearance_target(item)
            found |= {f"{item} clearance low": target.low or 0.0, f"{item} clearance high": target.high or 0.0}
        if item in choice.sleeved:
            press = sleeve_press(choice.sizes[item])
            found |= {f"{item} sleeve hole": sleeve_hole(choice.sizes[item]), f"{item} press low": press[0]}
            found |= {f"{item} press high": press[1]}
        if item in choice.honed:
            found[f"{item} honed"] = 1.0
        if item in choice.old_pistons:
            found[f"{item} old piston"] = 1.0
        if choice.new_rings:
            gap = block.gap_target(item)
            found |= {f"{item} gap low": gap.low or 0.0, f"{item} gap high": gap.high or 0.0}
    if choice.new_rings:
        found["rings each"] = float(block.rings_each)
    return found


def _priced(option: Option, block: Block) -> tuple[PricedItem, ...]:
    choice, count = option.choice, len(block.items)
    new = len(set(choice.sizes) - set(choice.old_pistons))
    items = (
        PricedItem(HONE, len(choice.honed)),
        PricedItem(BORE, len(set(choice.sizes) - set(choice.sleeved))),
        PricedItem(SLEEVE, len(choice.sleeved)),
        PricedItem(PISTON, new),
        PricedItem(RING, count * block.rings_each if choice.new_rings else 0),
    )
    return tuple(item for item in items if item.count)


def _unpriced(priced: Sequence[PricedItem], prices: Mapping[str, Price]) -> tuple[str, ...]:
    return tuple(item.name for item in priced if item.name not in prices or prices[item.name].cost is None)


def _cost(priced: Sequence[PricedItem], prices: Mapping[str, Price]) -> Range | None:
    """So many of each, at its price; None while a price is missing."""
    known = [(item.count, prices[item.name].cost) for item in priced if item.name in prices]
    if len(known) < len(priced) or not all(cost for _, cost in known):
        return None
    costs = [(count, cost) for count, cost in known if cost is not None]
    low, likely, high = (sum(count * getattr(cost, end) for count, cost in costs) for end in ("low", "likely", "high"))
    return Range(low, likely, high, "; ".join(dict.fromkeys(cost.origin for _, cost in costs)) or "nothing is bought")


def _wait(priced: Sequence[PricedItem], prices: Mapping[str, Price]) -> Range | None:
    """Days at shops: the blocks first, then pistons, then rings, since each waits for the one before; None while unknown."""
    total = [0.0, 0.0, 0.0]
    for stage in ((HONE, BORE, SLEEVE), (PISTON,), (RING,)):
        waits = []
        for item in priced:
            if item.name in stage:
                price = prices.get(item.name)
                if price is None or price.wait_days is None:
                    return None
                waits.append(price.wait_days)
        if waits:
            total = [each + max(getattr(wait, end) for wait in waits) for each, end in zip(total, _ENDS, strict=True)]
    low, likely, high = total
    return Range(low, likely, high, "waits one after the other: blocks, pistons, rings")


_ENDS = ("low", "likely", "high")


def _risks(option: Option) -> tuple[Risk, ...]:
    found = []
    if set(option.choice.sizes) - set(option.choice.sleeved):
        found.append(
            Risk(
                "the bar follows the worn hole and the bore leaves the crank's axis",
                Range(0.01, 0.03, 0.08, OWN),
                "the piston runs askew; only a sleeve brings it back",
            )
        )
    if option.choice.sleeved:
        found.append(
            Risk(
                "the casting cracks or the sleeve drops when pressed",
                Range(0.02, 0.05, 0.12, OWN),
                "stitch, or find another block",
            )
        )
    if option.choice.honed:
        found.append(
            Risk("the shop hones too long to chase the wear", Range(0.02, 0.05, 0.15, OWN), "clearance opens; pistons to make")
        )
    return tuple(found)


def _possible(found: Outcome, block: Block) -> tuple[bool, str]:
    """A measured wall that is likely too thin rules a remedy out; an unmeasured one does not, it holds the order back."""
    if not found.walls or not found.wall_measured:
        return True, ""
    for item, enough in found.walls.items():
        chance = 1.0 - float(enough.mean())
        if chance > 1.0 - CHANCE_NEEDED:
            return False, f"the wall of {item} would be left too thin, with a chance of {chance:.0%}"
    chance = 1.0 - float(found.wall(block.bench.count).mean())
    if chance > 1.0 - CHANCE_NEEDED:
        return False, f"one wall or another would be left too thin, with a chance of {chance:.0%}"
    return True, ""


def _needs(option: Option, block: Block) -> tuple[Need, ...]:
    choice = option.choice
    found = list(casting_needs(block, tuple(choice.sizes) or choice.honed, cut=bool(choice.sizes)))
    for item in choice.sizes:
        up = block.clean_ups[item]
        found.append(
            Need(
                kind="reading",
                what=f"{item}: pits and scratches read",
                met=up is not None and up.pits_read,
                why="each pit deepens the clean-up by twice its depth",
                part="cylinder",
                item=item,
                feature="pit depth",
            )
        )
    if choice.new_rings:
        found.append(groove_need(block))
    if choice.honed:
        found += [_skirt_need(block, item) for item in block.items]
    return tuple(found)


def casting_needs(block: Block, items: Sequence[str], *, cut: bool) -> tuple[Need, ...]:
    """What must be known of some castings before they go to a shop; of those that are cut, the wall too."""
    found = []
    for item in items:
        wanted = [
            (
                "leak test",
                "looked over for cracks or its jacket tested",
                crack_known(block.bench, item),
                "no money into a casting that leaks or is cracked",
            )
        ]
        if cut:
            wanted.append(
                (
                    "wall thickness",
                    "wall thickness read",
                    block.walls[item] is not None,
                    "old cores shifted; what boring leaves must be known before the bar is set",
                )
            )
        found += [
            Need(kind="reading", what=f"{item}: {what}", met=met, why=why, part="cylinder", item=item, feature=feature)
            for feature, what, met, why in wanted
        ]
    return tuple(found)


def groove_need(block: Block) -> Need:
    """The grooves that the rings are made to."""
    return Need(
        kind="work",
        what="ring grooves trued and their width read",
        met=grooves_read(block),
        why="a trued groove is wider, and the ring is made to it",
        part="piston",
        feature="ring groove width",
    )


def _skirt_need(block: Block, item: str) -> Need:
    return Need(
        kind="reading",
        what=f"skirt of {block.piston(item)}",
        met=skirt_of(block.bench, item) is not None,
        why="the old piston stays, so its clearance decides",
        part="piston",
        item=block.piston(item),
        feature="skirt diameter",
    )


def grooves_read(block: Block) -> bool:
    """Was the width of a groove read of every piston after truing, or of a new one that came back?"""
    stages = (block.bench.returned, block.bench.fitted)
    return all(
        any(FeatureKey("piston", block.piston(item), "ring groove width") in stage for stage in stages) for item in block.items
    )


def _works(option: Option) -> tuple[str, ...]:
    choice = option.choice
    works = [
        ("pressure test", bool(choice.sizes or choice.honed)),
        ("boring", bool(choice.sizes)),
        ("sleeve fitting", bool(choice.sleeved)),
        ("honing", bool(choice.honed)),
        ("ring fitting", True),
    ]
    return tuple(name for name, there in works if there)


def _words(option: Option, found: Outcome, block: Block) -> tuple[tuple[Said, ...], tuple[Said, ...]]:
    """Sentences for and against."""
    choice = option.choice
    if choice.sizes:
        return _for_cutting(option, found, block), _against_cutting(option, found, block)
    for_it = (
        [Said("No metal is taken, nothing is sent out.")]
        if not choice.honed
        else [Said("Least metal, short wait, old pistons.")]
    )
    against = [*_worn(found, block), *_not_known(found, block)]
    if choice.honed:
        against.insert(0, Said("A hone cures neither taper nor out-of-round: new round rings will not seal an oval hole."))
    return tuple(for_it), tuple(against)


def _worn(found: Outcome, block: Block) -> list[Said]:
    """What stays past the limit of most authorities, in the worst cylinder."""
    result = []
    for quantity in (TAPER, ROUND, CLEARANCE_WORST, GAP_TOP):
        draws = found.quantities[quantity]
        if not draws:
            continue
        item = max(draws, key=lambda name: float(np.median(draws[name])))
        limits = block.practices[quantity][item].deciding
        past = [limit for limit in limits if not limit.kept(draws[item]).mean() > 0.5]
        if past:
            text = f"{item} keeps a {quantity} of {{0}}, past the limit of {len(past)} of {len(limits)} authorities."
            result.append(Said(text, (Amount(float(np.median(draws[item])), "length"),)))
    return result


def _not_known(found: Outcome, block: Block) -> list[Said]:
    missing = unknown(found, block)
    return [Said(f"Not read in every cylinder, and counted as an even chance: {', '.join(missing)}.")] if missing else []


def _for_cutting(option: Option, found: Outcome, block: Block) -> tuple[Said, ...]:
    result = [Said("Round, straight bores with new pistons and rings to suit.")]
    if len(option.choice.sleeved) == len(block.items):
        result = [Said("Back to the size it was made to, and it can be done again.")]
        kept = option.choice.old_pistons
        if kept:
            result.append(Said(f"The old pistons of {', '.join(kept)} serve again."))
    elif len(set(option.choice.sizes.values())) == 1:
        result.append(Said("One size for all: one spare piston and one set of rings fit any cylinder."))
    else:
        result.append(Said("Least metal taken from each casting."))
    if found.walls and found.wall_measured and found.quantities[WALL_LEFT]:
        item, least = min(
            ((name, float(np.median(draws))) for name, draws in found.quantities[WALL_LEFT].items()), key=lambda pair: pair[1]
        )
        result.append(Said(f"The thinnest wall left is about {{0}}, in {item}.", (Amount(least, "length"),)))
    return tuple(result)


def _against_cutting(option: Option, found: Outcome, block: Block) -> tuple[Said, ...]:
    result = []
    chance = 1.0 - float(found.clean(block.bench.count).mean())
    if found.cleans and chance > 0.005:
        result.append(Said(f"Not all clean up at this size with a chance of {chance:.0%}; then it is the next size."))
    if not found.wall_measured:
        missing = [item for item in option.choice.sizes if block.walls[item] is None]
        thin = 1.0 - float(found.wall(block.bench.count).mean())
        result.append(
            Said(
                f"The wall of {', '.join(missing)} was not read; going by the walls and core shifts of the time "
                f"it turns out too thin with a chance of {thin:.0%}."
            )
        )
    if len(set(option.choice.sizes.values())) > 1:
        result.append(Said("No two cylinders alike: spares must be made one by one, and pistons matched for weight."))
    if option.choice.sleeved:
        result.append(Said("A real sleeve must be in hand first: outside, inside and length against the ring travel."))
    result += _not_known(found, block)
    return tuple(result)


def _could_be_read(block: Block) -> tuple[PossibleReading, ...]:
    """Readings that were not taken, or that could be taken again, with what they would show in each draw."""
    found = list[PossibleReading]()
    for bore in block.bores:
        item, up = bore.item, block.clean_ups[bore.item]
        if block.walls[item] is None and bore.original is not None:
            size = float(np.median(bore.original))
            found.append(
                PossibleReading(
                    part="cylinder",
                    item=item,
                    feature="wall thickness",
                    uncertainty=0.2e-3,
                    minutes=25.0,
                    would_show=unknowns.likely_wall(block.bench, item, size),
                    why="a thin wall rules boring out, and may leave only a sleeve or running on",
                )
            )
        if up is not None and not up.pits_read:
            found.append(
                PossibleReading(
                    part="cylinder",
                    item=item,
                    feature="pit depth",
                    uncertainty=0.02e-3,
                    minutes=10.0,
                    would_show=unknowns.likely_pit(block.bench, item),
                    why="a pit deepens the clean-up by twice its depth",
                )
            )
        if up is not None and bore.worst is not None:
            found.append(
                PossibleReading(
                    part="cylinder",
                    item=item,
                    feature="bore diameter",
                    minutes=5.0,
                    uncertainty=max(bore.worst.estimate.own, 2e-6),
                    would_show=bore.worst.draws,
                    why=f"read again at {bore.worst.label}: the clean-up size goes by the largest diameter",
                )
            )
    return (*found, *_unread_fits(block))


_UNREAD = {
    CLEARANCE_WORST: ("piston", "skirt diameter", "what the old piston's clearance is decides whether it may stay"),
    GAP_TOP: ("ring", "end gap in unworn belt", "the old rings' gap decides whether they may stay"),
}


def _unread_fits(block: Block) -> list[PossibleReading]:
    """Fits that nobody read, each standing for good or bad with an even chance."""
    as_found = outcome_of(options(block)[0], block)
    result = []
    for quantity in QUANTITIES:
        for item in block.items:
            if quantity in _UNREAD and item not in as_found.quantities[quantity]:
                part, feature, why = _UNREAD[quantity]
                name = block.piston(item) if part == "piston" else f"{item} top ring"
                result.append(
                    PossibleReading(
                        part=part,
                        item=name,
                        feature=feature,
                        uncertainty=0.1,
                        minutes=5.0,
                        why=why,
                        would_show=unread(block, quantity, item),
                    )
                )
    return result
