"""Ways with worn journals: run on, lap by hand, grind all to one undersize, build up as the last resort."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import cast

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Amount, Said
from gudgeon.systems.crankshaft import description as d
from gudgeon.systems.crankshaft.findings import crack_free
from gudgeon.systems.crankshaft.shaft import Shaft
from gudgeon.systems.journals import (
    GRIND_TOLERANCE,
    INCH,
    ROUND,
    SHOP_FORM,
    TAPER,
    THOU,
    WEAR,
    Journal,
    Undersize,
    nominal_of,
    strength_lost,
    undersizes,
)
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, hours, listed, warned

LAPPED = (0.1 * THOU, 0.5 * THOU)
"""What lapping by hand takes off the diameter [m]; from memory."""

ByItem = dict[str, Draws]


@dataclass(frozen=True, kw_only=True)
class Journals:
    """A set of journals that are ground together. ``grind`` and ``build`` are priced items; ``fits`` what runs on them."""

    prefix: str
    subject: str
    one: str
    many: str
    fits: str
    grind: str
    build: str
    found: tuple[Journal, ...]


def matter_of(shaft: Shaft, kind: Journals) -> Matter:
    """Wear, out-of-round and taper of every journal of a set."""
    now: dict[str, ByItem] = {WEAR: {}, ROUND: {}, TAPER: {}}
    for journal in kind.found:
        for name, draws in ((WEAR, journal.wear), (ROUND, journal.out_of_round), (TAPER, journal.taper)):
            if draws is not None:
                now[name][journal.item] = draws
    return Matter(
        system=d.KEY,
        subject=kind.subject,
        bench=shaft.bench,
        items=tuple(journal.item for journal in kind.found),
        quantities=tuple(
            Quantity(
                name=name,
                part=kind.found[0].feature.part,
                dimension="length",
                practices={journal.item: journal.practised(name) for journal in kind.found},
            )
            for name in (WEAR, ROUND, TAPER)
        ),
        now=now,
        inputs=tuple(dict.fromkeys(identity for journal in kind.found for identity in journal.inputs)),
    )


def ways_of(shaft: Shaft, kind: Journals) -> tuple[Way, ...]:
    """Everything worth putting on the table for a set of journals."""
    steps = undersizes(kind.found)
    ground = [_grind(shaft, kind, step) for step in steps] if steps else [_cannot_tell(shaft, kind)]
    return (_run_on(shaft, kind), _lap(shaft, kind), *ground, _build_up(shaft, kind))


def _uncracked(shaft: Shaft) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.bool_]] | None, str]:
    """A crank in which a crack was found is not run and not ground."""
    if crack_free(shaft) is False:
        return np.zeros(shaft.bench.count, dtype=bool), "a crack was found in the crankshaft"
    return None, ""


def _items(kind: Journals) -> tuple[str, ...]:
    return tuple(journal.item for journal in kind.found)


def _run_on(shaft: Shaft, kind: Journals) -> Way:
    allowed, why = _uncracked(shaft)
    slow = "A few thou out of round is usually harmless on a slow engine that is kept snug (Hercules Engine News, Aug 1995)."
    return Way(
        name=f"{kind.prefix}-run-on",
        title=Said(f"Run the {kind.many} on as found, polished"),
        action="run on",
        intervention="removable",
        original="Everything stays.",
        items=_items(kind),
        allowed=allowed,
        why=why,
        steps=(
            _step(kind, "polish", f"Polish the {kind.many} with fine cloth, oil holes plugged and then washed out",
                  own=hours(0.2, 0.4, 0.8, len(kind.found))),
        ),
        for_it=(Said("No metal goes, nothing is sent out."), *((Said(slow),) if kind.found and _slow(kind) else ())),
    )  # fmt: skip


def _slow(kind: Journals) -> bool:
    speed = kind.found[0].outline.rated_speed
    return speed is not None and speed <= 600.0


def _lap(shaft: Shaft, kind: Journals) -> Way:
    """Lead or hardwood laps half as long as the journal take light scores, and a part of an oval, off (Pagé 1917, ch. XI)."""
    allowed, why = _uncracked(shaft)
    after: dict[str, ByItem] = {WEAR: {}, ROUND: {}, TAPER: {}}
    for journal in kind.found:
        took = shaft.reader.even(f"lapped off {journal.item}", *LAPPED)
        left = shaft.reader.even(f"oval left by lapping {journal.item}", 0.5, 0.9)
        if journal.wear is not None:
            after[WEAR][journal.item] = journal.wear + took
        if journal.out_of_round is not None:
            after[ROUND][journal.item] = journal.out_of_round * left
        if journal.taper is not None:
            after[TAPER][journal.item] = journal.taper * left
    return Way(
        name=f"{kind.prefix}-lap",
        title=Said(f"Lap the {kind.many} by hand"),
        action="make good",
        intervention="irreversible",
        original="The crank stays; a few tenths of metal go for good.",
        items=_items(kind),
        after=after,
        allowed=allowed,
        why=why,
        steps=(
            _step(kind, "lap", f"Lap the {kind.many} with lead or hardwood laps half as long as the journal, wash out",
                  own=hours(1, 2, 4, len(kind.found)), hold=f"every {kind.one} read again at both ends, two ways"),
        ),
        risks=(Risk("grit stays in the oil holes", Range(0.02, 0.05, 0.10, OWN), "the bearing is cut: wash and lap again"),),
        works=("grinding",),
        for_it=(Said("It takes light scores and rust off at home."),),
        against_it=(Said("It does not make an oval journal round: grinding is the only cure for that (Pagé 1917, ch. XI)."),),
    )  # fmt: skip


def grind_needs(shaft: Shaft, kind: Journals) -> tuple[Need, ...]:
    """What a grinder waits for: cracks tried, bow known, every journal read."""
    needs = [
        Need(kind="reading", what="crankshaft tried for cracks", met=crack_free(shaft) is not None, part="crankshaft",
             item="crankshaft", feature=d.CRACK.name, why="no money into a cracked crank"),
    ]  # fmt: skip
    if len(shaft.mains) >= 3:
        needs.append(
            Need(kind="reading", what="run-out of every main, with the direction of its high spot",
                 met=shaft.bow is not None and shaft.bow.known, part="main", item=shaft.mains[0].item,
                 feature=d.RUN_OUT.name, why="a bowed crank is straightened before it is ground, or more comes off one side")
        )  # fmt: skip
    needs += [
        Need(kind="reading", what=f"{journal.item} read at both ends, two ways", met=journal.clean_up is not None,
             part=journal.feature.part, item=journal.item, feature=journal.feature.name,
             why="the worst one sets the undersize for all")
        for journal in kind.found
    ]  # fmt: skip
    return tuple(needs)


def _ground(shaft: Shaft, kind: Journals) -> dict[str, ByItem]:
    """What a grinder leaves, the same at every undersize; worked out once."""
    name = f"{kind.prefix} ground"
    if name not in shaft.worked_out:
        shaft.worked_out[name] = _as_ground(shaft, kind)
    return cast(dict[str, ByItem], shaft.worked_out[name])


def _as_ground(shaft: Shaft, kind: Journals) -> dict[str, ByItem]:
    def form(quantity: str) -> ByItem:
        return {
            journal.item: np.abs(SHOP_FORM * shaft.bench.named(f"{quantity} left in {journal.item}")) for journal in kind.found
        }

    return {WEAR: {j.item: np.zeros(shaft.bench.count) for j in kind.found}, ROUND: form(ROUND), TAPER: form(TAPER)}


def _grind(shaft: Shaft, kind: Journals, step: Undersize) -> Way:
    allowed, why = _uncracked(shaft)
    kept = [journal.clean_up for journal in kind.found]
    cleans = np.min([each for each in kept if each is not None], axis=0) >= step.size
    if allowed is None and step.chance < 0.995:
        allowed, why = np.asarray(cleans), "not all would clean up at this size"
    nominal = step.size - step.amount
    lost = strength_lost(size=nominal, amount=step.amount)
    against = [
        Said(f"It takes {lost:.0%} of the {kind.one}'s strength, and every {kind.fits} must then be poured to it."),
    ]
    if step.chance < 0.995:
        against.append(Said(f"Not all clean up at this size with a chance of {1 - step.chance:.0%}; then it is the next."))
    return Way(
        name=f"{kind.prefix}-grind/{abs(step.amount) / INCH * 1000:03.0f}",
        title=Said(f"Grind all {kind.many} to {step.written}, {{0}}, in one visit", (Amount(step.size, "length"),)),
        action="make good",
        intervention="irreversible",
        original="The crank stays, thinner for good.",
        items=_items(kind),
        after=_ground(shaft, kind),
        allowed=allowed,
        why=why,
        parameters={f"{journal.item} finished": step.size for journal in kind.found},
        priced=(PricedItem(kind.grind, len(kind.found)),),
        steps=grind_steps(kind, "Grind"),
        needs=grind_needs(shaft, kind),
        risks=(
            Risk("fillets are cut sharp and it breaks there", Range(0.005, 0.02, 0.06, OWN), "another crank must be made"),
            Risk("throw or phase is lost in the set-up", Range(0.01, 0.02, 0.05, OWN), "compression and timing differ"),
        ),
        works=("grinding",),
        for_it=(Said(f"Round and straight {kind.many}, all of one size: one bearing fits any of them."),),
        against_it=tuple(against),
    )


def _cannot_tell(shaft: Shaft, kind: Journals) -> Way:
    """Grinding, as long as its size cannot be said: on the table, with the readings that it waits for."""
    missing = [journal.item for journal in kind.found if journal.clean_up is None]
    what = f"read {listed(missing)}" if missing else f"the size that the {kind.many} were made to is not known yet"
    return Way(
        name=f"{kind.prefix}-grind",
        title=Said(f"Grind all {kind.many} to one undersize"),
        action="make good",
        intervention="irreversible",
        original="The crank stays, thinner for good.",
        items=_items(kind),
        allowed=np.zeros(shaft.bench.count, dtype=bool),
        why=f"can't tell yet: {what}",
        needs=grind_needs(shaft, kind),
    )


def grind_steps(kind: Journals, verb: str) -> tuple[StepDraft, ...]:
    """To the grinder and back."""
    return (
        _step(kind, "grind-ready", "Try the crank for cracks, mark throws and timing, plug the oil holes, crate it",
              own=hours(1, 2, 3), hold="no crack found; bow read and straightened"),
        _step(kind, "grind", f"{verb} the {kind.many}", shop=kind.grind if verb == "Grind" else kind.build,
              after=("grind-ready",), may_fail=Range(0.01, 0.03, 0.08, OWN)),
        _step(kind, "grind-inspect", f"Inspect in: every {kind.one} at both ends, two ways; fillets; throw; wash the oil ways",
              own=hours(0.2, 0.4, 0.8, len(kind.found)), after=("grind",),
              hold=f"every {kind.one} read against the order and accepted, fillets seen whole"),
    )  # fmt: skip


def _build_up(shaft: Shaft, kind: Journals) -> Way:
    """Weld or spray metal on and grind back to the size when new: the last resort."""
    allowed, why = _uncracked(shaft)
    nominal = nominal_of(kind.found)
    return Way(
        name=f"{kind.prefix}-build-up",
        title=Said(f"Build the {kind.many} up and grind them back to the size when new"),
        action="make good",
        intervention="irreversible",
        original="The crank stays, with metal on it that is not its own.",
        items=_items(kind),
        after=_ground(shaft, kind),
        allowed=allowed,
        why=why,
        parameters={f"{journal.item} finished": nominal for journal in kind.found} if nominal else {},
        priced=(PricedItem(kind.build, len(kind.found)),),
        steps=grind_steps(kind, "Build up and grind"),
        needs=(
            *grind_needs(shaft, kind),
            Need(kind="reading", what=f"the size that the {kind.many} were made to", met=nominal is not None,
                 why="there is nothing to grind back to without it"),
        ),
        risks=(
            Risk("welding bends or cracks the crank", Range(0.05, 0.12, 0.30, OWN), "another crank must be made"),
            Risk("the built-up metal breaks away or a pin breaks at the fillet", Range(0.02, 0.06, 0.15, OWN),
                 "another crank must be made"),
        ),
        works=("cast-iron welding", "grinding"),
        for_it=(Said("Back to the size when new, where no undersize is left to grind to."),),
        against_it=(
            Said("The last resort: heat bends an old crank, and welded fillets are where cranks break."),
            Said("All of it before any bearing is poured."),
        ),
    )  # fmt: skip


def _step(
    kind: Journals,
    name: str,
    title: str,
    *,
    own: Range | None = None,
    shop: str = "",
    after: Sequence[str] = (),
    hold: str = "",
    may_fail: Range | None = None,
) -> StepDraft:
    return StepDraft(
        key=f"{d.KEY}/{kind.prefix}-{name}",
        title=title,
        system=d.KEY,
        hours=own,
        shop=shop,
        after=tuple(f"{d.KEY}/{kind.prefix}-{each}" for each in after),
        hold=hold,
        may_fail=may_fail,
        cautions=warned("grinding") if shop or name == "lap" else (),
    )


def limits_of(size: float) -> tuple[float, float]:
    """Limits of size asked of a ground journal [m]: the size and half a thou less."""
    return size - GRIND_TOLERANCE, size
