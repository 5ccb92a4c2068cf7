"""What can be done about poured bearings: run on, take shims, scrape in, pour again. The same for rods and for mains.

Shared by the systems that have such bearings; it knows none of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.engine.sketching import bored_hole_section
from gudgeon.engine.step import StepDraft
from gudgeon.engine.verdict import Verdict
from gudgeon.handbook.babbitts import Babbitt, babbitt
from gudgeon.handbook.rules import rules
from gudgeon.mechanics.babbitt import bore_to_leave, metal_to_melt, shrinkage
from gudgeon.quantity import Amount, Said
from gudgeon.quantity.show import show
from gudgeon.systems.journals import INCH, THOU, Journal
from gudgeon.systems.measured import Draws
from gudgeon.systems.poured import CLEARANCE, SHIMS, BearingSet, Poured, adjustable
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, hours, listed, warned

SHIM_SET = "shim set for a bearing"

NEW_SHIMS = (2.0 * THOU,) * 4 + (1.0 * THOU,) * 2
"""Shims to a side under a new lining: four of .002 and two of .001, ten thou in all; common practice, Ford's were .002 each."""

BORING_CUT = 0.060 * INCH
"""What boring and scraping take off a new lining, on the diameter [m]; common practice, the skin of the casting comes off."""

SCRAPED = (0.2 * THOU, 1.0 * THOU)
"""Metal that bedding in takes, on the diameter [m]; from memory."""

BORE_TOLERANCE = 0.5 * THOU
"""Width of the limits of size asked of a bored lining [m]: the babbitt shop's half thou."""

GRADE = "2"
"""Grade of metal to ask for: about 88 tin, which restorers pour; stationary-engine list, January 2008."""

NO_MORE_HEAT = "no-more-heat"


@dataclass(frozen=True, kw_only=True)
class Kind:
    """What the bearings are called, and what is particular to them.

    Attributes
    ----------
    one, many : "rod bearing", "rod bearings". shaft : what runs in them ("crankpins"); shaft_subject : where that is decided.
    pour : priced item of pouring and boring one. casting : what must see no more heat ("the rods").
    needs : what else a pour must wait for.
    """

    prefix: str
    one: str
    many: str
    shaft: str
    shaft_subject: str
    pour: str
    casting: str
    needs: tuple[Need, ...] = ()


def matter_of(found: BearingSet, subject: str) -> Matter:
    """The matter: clearance and shims left of every bearing."""
    now: dict[str, dict[str, Draws]] = {CLEARANCE: {}, SHIMS: {}}
    for each in found.bearings:
        if each.clearance is not None:
            now[CLEARANCE][each.item] = each.clearance.draws
        shims, _ = each.shims
        if shims is not None:
            now[SHIMS][each.item] = np.full(found.bench.count, min(shims.total_left, shims.total_right))
    return Matter(
        system=found.system,
        subject=subject,
        bench=found.bench,
        items=found.items,
        quantities=(
            Quantity(
                name=CLEARANCE, part="bearing", dimension="length", practices={b.item: b.practised for b in found.bearings}
            ),
            Quantity(name=SHIMS, part="bearing", dimension="length", practices=dict.fromkeys(found.items, adjustable())),
        ),
        now=now,
        inputs=tuple(
            dict.fromkeys(i for b in found.bearings for i in (*(b.clearance.inputs if b.clearance else ()), *b.shims[1]))
        ),
    )


def ways_of(found: BearingSet, kind: Kind) -> tuple[Way, ...]:
    """Everything worth putting on the table, from doing nothing to pouring all again."""
    worst = tuple(each for each in found.bearings if each.unsound or (each in loose(found) and each.change is None))
    some = (_pour(found, kind, worst),) if 0 < len(worst) < len(found.bearings) and not ground(found, kind) else ()
    return (_run_on(found, kind), _take_shims(found, kind), _scrape(found, kind), *some, _pour(found, kind, found.bearings))


def ground(found: BearingSet, kind: Kind) -> bool:
    """Was it settled that the shaft is ground?"""
    verdict = found.bench.snapshot.verdict_on(kind.shaft_subject)
    return verdict is not None and any("grind" in step.key for step in verdict.chosen.steps)


def _sound(found: BearingSet, kind: Kind) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.bool_]] | None, str]:
    """No bearing may go on whose metal was noted as cracked or loose, or whose journal is to be ground away from it."""
    if ground(found, kind):
        return np.zeros(found.bench.count, dtype=bool), f"the {kind.shaft} are to be ground, and no old lining fits them then"
    bad = [each.item for each in found.bearings if each.unsound]
    if not bad:
        return None, ""
    return np.zeros(found.bench.count, dtype=bool), f"the metal of {listed(bad)} was noted as unsound"


def loose(found: BearingSet) -> tuple[Poured, ...]:
    """The bearings whose clearance is likely over the band aimed at."""
    return tuple(
        each
        for each in found.bearings
        if each.clearance is not None and float(np.median(each.clearance.draws)) > (each.target.high or 0.0) + 0.25 * THOU
    )


def _run_on(found: BearingSet, kind: Kind) -> Way:
    allowed, why = _sound(found, kind)
    worn = loose(found)
    against = [Said(f"{listed([each.item for each in worn]).capitalize()} would stay loose.")] if worn else []
    return Way(
        name=_named(kind, "run-on"),
        title=Said(f"Run the {kind.many} on as found, on their own shims"),
        action="run on",
        intervention="removable",
        original="Everything stays.",
        items=found.items,
        allowed=allowed,
        why=why,
        steps=(_step(found, kind, "clean", f"Clean the {kind.many} and their oil ways; caps and shims back on their own sides",
                     hours=hours(0.3, 0.5, 1, len(found.items))),),
        for_it=(Said("Nothing is cut, nothing is sent out; what has run together stays together."),),
        against_it=tuple(against),
    )  # fmt: skip


def _after_shims(found: BearingSet) -> tuple[dict[str, dict[str, Draws]], dict[str, float], list[Said]]:
    after: dict[str, dict[str, Draws]] = {CLEARANCE: {}, SHIMS: {}}
    parameters: dict[str, float] = {}
    words = []
    for each in loose(found):
        change = each.change
        if change is None or each.clearance is None:
            continue
        after[CLEARANCE][each.item] = np.maximum(each.clearance.draws - change.closed, 0.0)
        left = min(change.left.total, change.right.total)
        after[SHIMS][each.item] = np.full(found.bench.count, left)
        parameters |= {f"{each.item} closed": change.closed, f"{each.item} oval": change.closed, f"{each.item} shims": left}
        words.append(Said(f"{each.item}: {_first_small(each)}", _change_amounts(each)))
    return after, parameters, words


def _first_small(each: Poured) -> str:
    from gudgeon.systems.poured import change_said

    assert each.change is not None
    text = change_said(each.change).text
    return text[0].lower() + text[1:]


def _change_amounts(each: Poured) -> tuple[Amount, ...]:
    from gudgeon.systems.poured import change_said

    assert each.change is not None
    return change_said(each.change).amounts


def _take_shims(found: BearingSet, kind: Kind) -> Way:
    allowed, why = _sound(found, kind)
    after, parameters, words = _after_shims(found)
    worn = loose(found)
    unknown = [each.item for each in worn if each.shims[0] is None]
    empty = [each.item for each in worn if each.shims[0] is not None and each.change is None]
    needs = [
        Need(kind="reading", what=f"shims of {item} counted and miked, side by side", met=False, part="bearing", item=item,
             feature="shims", why="what can be taken depends on what is there")
        for item in unknown
    ]  # fmt: skip
    against = [Said("Each thou taken makes the bore a thou oval: it bears at crown and bottom first.")]
    if empty:
        against.append(Said(f"{listed(empty)} has no shims that could be taken for it."))
    title = Said(f"Take shims from {listed([e.item for e in worn if e.change is not None]) or f'the {kind.many}'}")
    return Way(
        name=_named(kind, "shims"),
        title=title,
        action="adjust",
        intervention="removable",
        original="Everything stays; the shims taken go in a marked bag.",
        items=found.items,
        after=after,
        allowed=allowed,
        why=why,
        parameters=parameters,
        steps=(
            _step(found, kind, "shims", f"Take shims at the {kind.many}, the same from each side, a thou or two at a time",
                  hours=hours(0.5, 1, 2, max(len(worn), 1)),
                  hold=f"every {kind.one} read again with strip and seen to turn free, cap down hard"),
        ),
        needs=tuple(needs),
        risks=(Risk("a bearing is drawn too tight and wipes in the first hour", Range(0.01, 0.04, 0.10, OWN),
                    "it must be poured again"),),
        for_it=(Said("Quick, free, and can be put back."), *words),
        against_it=tuple(against),
    )  # fmt: skip


def _scrape(found: BearingSet, kind: Kind) -> Way:
    allowed, why = _sound(found, kind)
    after: dict[str, dict[str, Draws]] = {CLEARANCE: {}, SHIMS: {}}
    enough = np.ones(found.bench.count, dtype=bool)
    for each in found.bearings:
        low, high = each.target.low or 0.0, each.target.high or 0.0
        finished = found.reader.even(f"clearance of {each.item}, scraped in", low, high + 0.5 * THOU)
        after[CLEARANCE][each.item] = finished
        shims, _ = each.shims
        if shims is not None and each.clearance is not None:
            metal = found.reader.even(f"metal scraped from {each.item}", *SCRAPED)
            left = min(shims.total_left, shims.total_right) - (each.clearance.draws - finished) - metal
            enough &= left >= -0.25 * THOU
            after[SHIMS][each.item] = np.maximum(left, 0.0)
    if allowed is None and not enough.all():
        allowed, why = enough, "the shims that are left do not reach that far"
    return Way(
        name=_named(kind, "scrape"),
        title=Said(f"Take shims and scrape the {kind.many} in to the {kind.shaft} with blue"),
        action="make good",
        intervention="re-doable",
        original="The old metal stays, a thou of it scraped away.",
        items=found.items,
        after=after,
        allowed=allowed,
        why=why,
        steps=(
            _step(found, kind, "scrape", f"Blue the {kind.shaft}, scrape high spots, take shims, until colour shows all along",
                  hours=hours(2, 4, 8, len(found.items)),
                  hold=f"colour over the whole length of every {kind.one}, {_feel(kind)}; clearance read"),
        ),
        needs=(_journals_true(found, kind),),
        risks=(Risk("too much is scraped off one side and the shaft sits low", Range(0.02, 0.05, 0.15, OWN), "pour again"),),
        for_it=(Said("A bearing that fits all round again, on the old metal."),),
        against_it=(Said("It takes patience: a day for a pair; an oval journal cannot be scraped to."),),
    )  # fmt: skip


def _feel(kind: Kind) -> str:
    """The books' test of tightness for rods and for mains."""
    if kind.prefix == "mains":
        return "each cap down alone and the crank turned with one hand (Ford Manual 1919, answer 34)"
    return "rod and piston just fall over from upright, cap hard down (Pagé 1917, ch. XI)"


def _journals_true(found: BearingSet, kind: Kind) -> Need:
    read = all(each.journal is not None and each.journal.out_of_round is not None for each in found.bearings)
    return Need(kind="reading", what=f"{kind.shaft} read for out-of-round", met=read,
                why="metal cannot be fitted to an oval journal: it is tight twice a turn")  # fmt: skip


def _pour(found: BearingSet, kind: Kind, poured: Sequence[Poured]) -> Way:
    """Some poured again and shims taken at the others, or all poured again."""
    all_of_them = len(poured) == len(found.bearings)
    after: dict[str, dict[str, Draws]] = {CLEARANCE: {}, SHIMS: {}}
    parameters: dict[str, float] = {}
    if not all_of_them:
        after, parameters, _ = _after_shims(found)
    for each in poured:
        low, high = each.target.low or 0.0, each.target.high or 0.0
        after[CLEARANCE][each.item] = found.reader.even(f"clearance of {each.item}, poured and bored", low, high)
        after[SHIMS][each.item] = np.full(found.bench.count, sum(NEW_SHIMS))
        parameters |= {f"{each.item} clearance low": low, f"{each.item} clearance high": high}
        if (size := journal_now(each)) is not None:
            parameters[f"{each.item} journal"] = size
    count = len(poured)
    names = listed([each.item for each in poured])
    title = (
        f"Pour all {kind.many} again and bore them to the {kind.shaft}"
        if all_of_them
        else f"Pour {names} again and take shims at the others"
    )
    against = [Said(f"It must come last of all heat in {kind.casting}, and after the {kind.shaft} are settled.")]
    if not all_of_them:
        against.append(Said(f"If the {kind.shaft} are ground, all must be poured."))
    return Way(
        name=_named(kind, "pour" if all_of_them else "pour-worst"),
        title=Said(title),
        action="make good",
        intervention="re-doable",
        original="Shells, caps and bolts stay; the old metal that is melted out is gone.",
        items=found.items,
        after=after,
        parameters=parameters,
        priced=(PricedItem(kind.pour, count), PricedItem(SHIM_SET, count)),
        steps=_pour_steps(found, kind, count),
        needs=pour_needs(found, kind, poured),
        risks=(
            Risk("the pour does not bond, or runs cold and folds", Range(0.03, 0.08, 0.20, OWN), "melt out and pour again"),
            Risk("it is bored out of line or out of square", Range(0.02, 0.05, 0.10, OWN), "pour again"),
        ),
        works=("babbitt pouring",),
        for_it=(
            Said("New metal, round to the journal, with a full set of shims for the years to come."),
            *_metal_words(poured),
        ),
        against_it=tuple(against),
    )


def _named(kind: Kind, name: str) -> str:
    """Names of ways: a system may have other matters beside these bearings."""
    return f"{kind.prefix}-{name}"


def _metal_words(poured: Sequence[Poured]) -> tuple[Said, ...]:
    metal = babbitt(GRADE)
    pours = Amount(metal.pour_at + 273.15, "temperature")
    shrinks = shrinkage(expansion=metal.expansion or 21e-6, solid_at=metal.melts_from)
    words = [
        Said(
            f"Grade {GRADE} (about 88 tin) is poured at {{0}} into a mould of about {{1}}; free, it would shrink "
            f"{shrinks:.2%}, so it must bond or it draws off the shell.",
            (pours, Amount(_mould(), "temperature")),
        )
    ]
    masses = [mass for each in poured if (mass := ladle(each)) is not None]
    if masses and len(masses) == len(poured):
        words.append(
            Said("Have {0} molten for all of them, riser and dross counted in.", (Amount(float(sum(masses)), "mass"),))
        )
    return tuple(words)


def _mould() -> float:
    """Temperature of the mould [K]: the middle of what restorers preheat to."""
    rows = rules("babbitt mould preheat")
    return float(np.mean([end for row in rows for end in (row.low, row.high) if end is not None]))


def ladle(each: Poured) -> float | None:
    """Babbitt to melt for one bearing [kg]; None where its length, metal or journal was not read."""
    journal = journal_now(each)
    if each.length is None or each.thickness is None or journal is None:
        return None
    metal = babbitt(GRADE)
    bore = float(bore_to_leave(finished=journal, cut=BORING_CUT))
    shell = journal + 2.0 * each.thickness.value
    return float(metal_to_melt(shell=shell, bore=bore, length=each.length.value, density=metal.density or 7390.0))


def journal_now(each: Poured) -> float | None:
    """The size to bore to [m]: the journal as it came back ground, else its largest spot as found; None where not read.

    The largest counts: a lining bored to the mean of an oval journal nips its long axis.
    """
    if each.journal is None:
        return None
    return finished_journal(each.journal) or max((spot.estimate.value for spot in each.journal.worn), default=None)


def finished_journal(journal: Journal) -> float | None:
    """A journal as read on its return from grinding, at its largest spot [m]; None while it was not read."""
    for stage in ("returned", "fitted"):
        if spots := journal.reader.spots(journal.feature, journal.item, stage=stage):
            return max(spot.value for spot in spots)
    return None


def pour_needs(found: BearingSet, kind: Kind, poured: Sequence[Poured]) -> tuple[Need, ...]:
    """What a pour waits for: the shaft settled and read, no more heat in the casting, and what the kind adds."""
    snapshot = found.bench.snapshot
    verdict = snapshot.verdict_on(kind.shaft_subject)
    needs = [
        Need(kind="decision", what=f"what is done about the {kind.shaft}", met=verdict is not None,
             why="the lining is bored to the finished journal"),
        Need(kind="work", what=f"all welding, brazing and heating of {kind.casting} finished",
             met=any(done.key == f"{found.system}/{NO_MORE_HEAT}" for done in snapshot.done),
             why="heat destroys a poured bearing and moves the casting"),
    ]  # fmt: skip
    when = "when it comes back ground" if ground(found, kind) else "at both ends, two ways"
    for each in poured:
        item = each.journal.item if each.journal is not None else each.item
        met = (
            each.journal is not None
            and (finished_journal(each.journal) if ground(found, kind) else journal_now(each)) is not None
        )
        needs.append(
            Need(kind="reading", what=f"{item}, read {when}",
                 met=met, part=each.journal.feature.part if each.journal else "", item=item, feature="journal diameter",
                 why="bored to the journal, not to a drawing")
        )  # fmt: skip
    return (*needs, *kind.needs)


def _pour_steps(found: BearingSet, kind: Kind, count: int) -> tuple[StepDraft, ...]:
    return (
        _step(found, kind, NO_MORE_HEAT, f"Finish all welding, brazing and heating of {kind.casting}", plain=True,
              hold=f"nothing on {kind.casting} is left to be heated"),
        _step(found, kind, "pour-prepare", f"Note how the {kind.many} lie, mark caps and sides, make the shim packs",
              hours=hours(0.5, 1, 2, count)),
        StepDraft(
            key=f"{found.system}/{kind.prefix}-pour",
            title=f"Pour and bore the {kind.many}",
            system=found.system,
            shop=kind.pour,
            after=(f"{found.system}/{NO_MORE_HEAT}", f"{found.system}/{kind.prefix}-pour-prepare", *_after_shaft(found, kind)),
            may_fail=Range(0.03, 0.08, 0.20, OWN),
            cautions=warned("babbitt pouring"),
        ),
        _step(found, kind, "pour-inspect", f"Inspect in: bore of every {kind.one}, both ends, two ways; ring it",
              hours=hours(0.3, 0.5, 1, count), after=(f"{kind.prefix}-pour",),
              hold=f"bore and bond of every {kind.one} seen and accepted"),
        _step(found, kind, "pour-fit", f"Bed the {kind.many} with blue, cut oil grooves and chamfers",
              hours=hours(1, 2, 4, count), after=(f"{kind.prefix}-pour-inspect",),
              hold="colour over the whole length; grooves stop a quarter inch from the edge; joint chamfered"),
    )  # fmt: skip


def _after_shaft(found: BearingSet, kind: Kind) -> tuple[str, ...]:
    """The last step of what was settled about the shaft, where it has one."""
    verdict = found.bench.snapshot.verdict_on(kind.shaft_subject)
    return (verdict.chosen.steps[-1].key,) if verdict is not None and verdict.chosen.steps else ()


def _step(
    found: BearingSet,
    kind: Kind,
    name: str,
    title: str,
    *,
    hours: Range | None = None,
    after: Sequence[str] = (),
    hold: str = "",
    plain: bool = False,
) -> StepDraft:
    key = name if plain else _named(kind, name)
    return StepDraft(
        key=f"{found.system}/{key}",
        title=title,
        system=found.system,
        hours=hours,
        after=tuple(f"{found.system}/{each}" for each in after),
        hold=hold,
    )


def _both(value: float) -> str:
    amount = Amount(value, "length", fine=value > INCH / 16)
    return f"{show(amount, 'inch')} ({show(amount, 'millimetre')})"


def _temperatures(kelvin: float) -> str:
    amount = Amount(kelvin, "temperature")
    return f"{show(amount, 'inch')} ({show(amount, 'millimetre')})"


def poured_by(found: BearingSet, verdict: Verdict) -> tuple[Poured, ...]:
    """The bearings that a verdict pours again."""
    return tuple(each for each in found.bearings if f"{each.item} clearance low" in verdict.chosen.parameters)


def pour_order(found: BearingSet, kind: Kind, verdict: Verdict, *, letter: str) -> OrderDraft:
    """The re-pour and bore sheet: one line to a bearing, its limits of size, and what must not be touched."""
    chosen = verdict.chosen.parameters
    poured = poured_by(found, verdict)
    limits = {
        each.item: (size + chosen[f"{each.item} clearance low"], size + chosen[f"{each.item} clearance high"])
        for each in poured
        if (size := journal_now(each) or chosen.get(f"{each.item} journal")) is not None
    }
    metal = babbitt(GRADE)
    lines = [_pour_line(each, limits.get(each.item), metal) for each in poured]
    asked = tuple(
        AskedSize(
            part="bearing", item=item, feature="bore", dimension="length", lower=low, upper=high,
            note="cap down on its shims, at both ends, across the joint and along the bolts",
        )
        for item, (low, high) in limits.items()
    )  # fmt: skip
    drawn = [
        drawing
        for each in poured
        if each.item in limits and (drawing := _drawing(found, each, limits[each.item], kind, letter)) is not None
    ]
    return OrderDraft(
        key=f"{found.system}/{_named(kind, 'pour')}",
        system=found.system,
        verdict=verdict.id,
        title=f"Re-pour and bore sheet: {listed([each.item for each in poured])}",
        to="babbitt shop",
        lines=tuple(lines),
        asked=asked,
        drawings=tuple(drawn),
        leave_alone=(
            "Match marks, and which cap and bolt belong where.",
            "Shells, anchors and dowels: melt out, do not chip.",
            "Joint faces: do not file them to close the bore.",
            "The place of the bearing's axis.",
        ),
        needs=pour_needs(found, kind, poured),
        rests_on=tuple(dict.fromkeys(i for each in poured if each.journal is not None for i in each.journal.inputs)),
        cautions=warned("babbitt pouring"),
        priced=kind.pour,
    )


def _pour_line(each: Poured, limits: tuple[float, float] | None, metal: Babbitt) -> OrderLine:
    journal = journal_now(each)
    pour_rows = " / ".join(
        f"{row.typed} ({row.authority})" for row in rules("babbitt pouring temperature") if "88" in row.applies
    )
    mass = ladle(each)
    shims = ", ".join(f"{NEW_SHIMS.count(size)} of {_both(size)}" for size in dict.fromkeys(NEW_SHIMS))
    detail = [
        ("journal", f"{_both(journal)}, largest as read" if journal else "not read yet"),
        ("finished bore", f"{_both(limits[0])} to {_both(limits[1])}, shims in, cap hard down" if limits else "not known yet"),
        ("bore to leave", _both(float(bore_to_leave(finished=limits[0], cut=BORING_CUT))) if limits else "to suit"),
        ("metal", f"ASTM B23 grade {metal.grade}, new ingot of known make; no scrap mixed in"),
        ("pour", f"at {_temperatures(metal.pour_at + 273.15)} (ASTM B23); {pour_rows}" if pour_rows else
         f"at {_temperatures(metal.pour_at + 273.15)} (ASTM B23)"),
        ("mould", f"about {_temperatures(_mould())}, dry, vented both ends, poured without stopping"),
        ("shims while pouring and boring", f"each side {shims}"),
        ("bond", "shell tinned all over; rings clear when tapped, no oil at the edge after a day"),
        ("grooves", "stop a quarter inch from the edge; joint edges relieved"),
    ]  # fmt: skip
    if mass is not None:
        amount = Amount(mass, "mass")
        detail.insert(4, ("metal to melt", f"about {show(amount, 'inch')} ({show(amount, 'millimetre')})"))
    return OrderLine(1, f"pour and bore {each.item}", f"tin babbitt, B23 grade {metal.grade}", tuple(detail))


def _drawing(found: BearingSet, each: Poured, limits: tuple[float, float], kind: Kind, letter: str) -> Drawing | None:
    """The lining in section; None where its length was not read, since the drawing could not be true."""
    if each.length is None:
        return None
    view = bored_hole_section(
        bore=limits,
        length=(each.length.value, each.length.value),
        wall=each.thickness.value if each.thickness is not None else None,
        datum="faced edge",
        finish="bored fine, bedded with blue",
        centre="keep this axis",
        title="Lining, section along the shaft",
    )
    digits = "".join(char for char in each.item if char.isdigit()) or "1"
    return Drawing(
        number=f"{letter}{digits}",
        title=f"{kind.one.capitalize()}, {each.item}",
        part="bearing",
        item=each.item,
        material=f"tin babbitt, ASTM B23 grade {GRADE}",
        finish="bored",
        views=(view,),
        notes=("Bore with the cap hard down on its new shims.", "The shell is not drawn."),
        job=found.bench.snapshot.outline.name,
    )


def shim_order(found: BearingSet, kind: Kind, verdict: Verdict) -> OrderDraft:
    """The new shim sets: count and thickness for each side of each bearing."""
    detail = tuple((f"{_both(size)} thick", f"{NEW_SHIMS.count(size)} each side") for size in dict.fromkeys(NEW_SHIMS))
    lines = tuple(
        OrderLine(
            1, f"shim set for {each.item}", "brass or steel shim stock, flat, no burrs", (*detail, ("outline", "as the old"))
        )
        for each in poured_by(found, verdict)
    )
    return OrderDraft(
        key=f"{found.system}/{_named(kind, 'shim-sets')}",
        system=found.system,
        verdict=verdict.id,
        title=f"Shim sets for the {kind.many}",
        to="shim stock",
        lines=lines,
        asked=(),
        leave_alone=("The old shims: one of each goes with the order as a pattern and comes back.",),
        priced=SHIM_SET,
    )
