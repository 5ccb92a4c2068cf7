"""The orders of verdicts on the crankshaft: the grinding sheet, straightening, the mains' re-pour and bore sheet."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.sketching import pin_view
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.crankshaft import description as d
from gudgeon.systems.crankshaft.grinding import Journals, grind_needs, limits_of
from gudgeon.systems.crankshaft.remedies import (
    JOURNALS,
    MAINS,
    PINS,
    STRAIGHT,
    STRAIGHTEN,
    kind_of_mains,
    main_journals_of,
    pins_of,
)
from gudgeon.systems.crankshaft.shaft import Shaft
from gudgeon.systems.journals import INCH, Journal
from gudgeon.systems.poured_ways import pour_order, shim_order
from gudgeon.systems.proposing import warned

LEAVE_ALONE = (
    "Fillets: leave the radius that is there, or larger; never sharp.",
    "Throw and phase: set up from the throws, not from the worn pins.",
    "Keyways, threads, timing marks, stamps.",
    "Oil holes: chamfer the edges, take no more.",
)

LENGTH = ("length", "journal length", "pin length")


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict on the crankshaft; none where nothing is sent out."""
    shaft, key = Shaft.of(bench), verdict.chosen.key
    if verdict.subject in (PINS, JOURNALS) and ("-grind" in key or key.endswith("-build-up")):
        kind = pins_of(shaft) if verdict.subject == PINS else main_journals_of(shaft)
        return (_grind(shaft, kind, verdict),)
    if verdict.subject == MAINS and "/mains-pour" in key:
        mains = kind_of_mains(shaft)
        return (pour_order(shaft.bearings, mains, verdict, letter="BM"), shim_order(shaft.bearings, mains, verdict))
    if verdict.subject == STRAIGHT and key.endswith("/straighten"):
        return (_straighten(verdict),)
    return ()


def _both(value: float) -> str:
    amount = Amount(value, "length", fine=value > INCH / 16)
    return f"{show(amount, 'inch')} ({show(amount, 'millimetre')})"


def _sizes(verdict: Verdict) -> Mapping[str, float]:
    found = verdict.chosen.parameters
    return {item: found[f"{item} finished"] for item in verdict.chosen.items if f"{item} finished" in found}


def _grind(shaft: Shaft, kind: Journals, verdict: Verdict) -> OrderDraft:
    """The crank grinding sheet."""
    sizes, built = _sizes(verdict), verdict.chosen.key.endswith("-build-up")
    verb = "build up and grind" if built else "grind"
    by_item = {journal.item: journal for journal in kind.found}
    lines, asked, drawn = [], list[AskedSize](), list[Drawing]()
    for item, size in sizes.items():
        journal = by_item.get(item)
        lower, upper = limits_of(size)
        lines.append(OrderLine(1, f"{verb} {item} to {_both(lower)} to {_both(upper)}", "steel", _detail(shaft, item, journal)))
        asked.append(
            AskedSize(part=kind.found[0].feature.part, item=item, feature="journal diameter", dimension="length", lower=lower,
                      upper=upper, note="at both ends, in line with the throw and across it")
        )  # fmt: skip
        if journal is not None and (drawing := _drawing(shaft, journal, (lower, upper))) is not None:
            drawn.append(drawing)
    return OrderDraft(
        key=f"{d.KEY}/{kind.prefix}-grind",
        system=d.KEY,
        verdict=verdict.id,
        title=f"Crank grinding sheet: {kind.many}",
        to="crank grinder",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        leave_alone=LEAVE_ALONE,
        needs=(*grind_needs(shaft, kind), _together(shaft, kind)),
        rests_on=tuple(dict.fromkeys(identity for journal in kind.found for identity in journal.inputs)),
        cautions=warned("grinding", "lifting"),
        priced=kind.build if built else kind.grind,
    )


def _together(shaft: Shaft, kind: Journals) -> Need:
    """Pins and mains go to the grinder in one visit, so both must be settled first."""
    other = JOURNALS if kind.subject == PINS else PINS
    there = shaft.mains if kind.subject == PINS else shaft.pins
    return Need(
        kind="decision",
        what=f"what is done about the {'main journals' if kind.subject == PINS else 'crankpins'}",
        met=not there or shaft.bench.snapshot.verdict_on(other) is not None,
        why="one set-up, one visit: the crank is ground once for all",
    )


def _detail(shaft: Shaft, item: str, journal: Journal | None) -> tuple[tuple[str, str], ...]:
    found = [
        ("round and straight", f"within {_both(0.0003 * INCH)} over the whole length"),
        ("finish", "ground fine and polished the way it turns"),
    ]
    if journal is not None and journal.least is not None:
        found.insert(0, ("as found, at its smallest", _both(journal.least.estimate.value)))
    fillet = _read(shaft, item, "fillet radius")
    found.append(("fillets", f"{_both(fillet)} as found, no less" if fillet else "as found, no less; not read here"))
    return tuple(found)


def _read(shaft: Shaft, item: str, *names: str) -> float | None:
    """The least of a size that was read of a journal, by whichever name."""
    values = [
        estimate.value
        for key, estimates in shaft.bench.estimates.items()
        if key.item == item and key.feature.lower() in names
        for estimate in estimates
    ]
    return min(values, default=None)


def _drawing(shaft: Shaft, journal: Journal, limits: tuple[float, float]) -> Drawing | None:
    """The journal from the side; None where its length was not read, since the drawing could not be true."""
    length = _read(shaft, journal.item, *LENGTH)
    if length is None:
        return None
    digits = "".join(char for char in journal.item if char.isdigit()) or "1"
    letter = "CP" if journal.feature.part == "crankpin" else "CM"
    view = pin_view(diameter=limits, length=(length, length), chamfer=0.0, title=f"{journal.item}, between its cheeks")
    return Drawing(
        number=f"{letter}{digits}",
        title=f"Journal, {journal.item}",
        part=journal.feature.part,
        item=journal.item,
        material="steel, existing",
        finish="ground and polished",
        views=(view,),
        notes=("Fillets are not drawn: leave them as found.", "The cheeks are not drawn."),
        job=shaft.bench.snapshot.outline.name,
    )


def _straighten(verdict: Verdict) -> OrderDraft:
    detail = (("true to", f"{_both(0.001 * INCH)} run-out at every main, turned in its end mains"), ("heat", "none"))
    return OrderDraft(
        key=f"{d.KEY}/straighten",
        system=d.KEY,
        verdict=verdict.id,
        title="Straighten the crankshaft",
        to="crank grinder",
        lines=(OrderLine(1, "straighten the crankshaft cold", "steel", detail),),
        asked=(),
        leave_alone=LEAVE_ALONE,
        needs=verdict.chosen.needs,
        rests_on=verdict.readings,
        cautions=warned("pressing", "lifting"),
        priced=STRAIGHTEN,
    )
