"""What could be done about a detent: leave it, turn the catch block round, or make its edges new; and set the gap."""

from __future__ import annotations

from gudgeon.engine.remedy import PricedItem
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Said
from gudgeon.systems.drafting import step
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.governor.joint_ways import DETENTS
from gudgeon.systems.governor.joints import GAP, GRIP, HOLDS, gap_rules, grip_of
from gudgeon.systems.judging import Practice
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import Matter, Quantity, Way, hours, worn

EDGES_MADE = "detent blade and catch block made"
NEW_GRIP = (0.040 * d.INCH, 0.070 * d.INCH)
"""Hold of sharp edges set afresh [m]; from memory."""
NEW_GAP = (0.055 * d.INCH, 0.070 * d.INCH)
"""The gap of 1/16 in as it is set by hand [m]; Hercules-built, instruction book."""


def detent_matter(one: GovernorSet) -> Matter:
    """Blade, block and their gap."""
    item, gap, grip = one.only(d.DETENT), one.one(d.GAP), grip_of(one)
    now: dict[str, dict[str, Draws]] = {GAP: {}, GRIP: {}}
    inputs: tuple[str, ...] = ()
    if gap is not None:
        now[GAP][item] = gap.draws
        inputs += gap.inputs
    if grip is not None:
        now[GRIP][item] = grip[0]
        inputs += grip[1]
    practices = {GAP: gap_rules(one), GRIP: Practice(limits=(HOLDS,))}
    return Matter(
        system=d.KEY,
        subject=DETENTS,
        bench=one.bench,
        items=(item,),
        quantities=tuple(
            Quantity(name=name, part=d.DETENT, dimension="length", practices={item: practices[name]}) for name in now
        ),
        now=now,
        inputs=inputs,
    )


def detent_ways(one: GovernorSet, matter: Matter) -> tuple[Way, ...]:
    """Every way; turning the block only where a side may be left."""
    words = one.said(d.BLOCK_SIDES)[0]
    found = [_leave(matter)]
    if "both" not in words:
        found.append(_turn(one, matter))
    return (*found, _make(one, matter))


def _leave(matter: Matter) -> Way:
    past = worn(matter, GAP, GRIP)
    return Way(
        name="detent-leave",
        title=Said("Leave blade and block"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        for_it=(Said("Nothing is touched."),),
        against_it=(Said("A worn edge slips off and the engine overspeeds (Rathbun, about 1916, §131)."),) if past else (),
    )


def _after(one: GovernorSet, name: str) -> dict[str, dict[str, Draws]]:
    item = one.only(d.DETENT)
    return {
        GAP: {item: one.reader.even(f"gap of the detent, {name}", *NEW_GAP)},
        GRIP: {item: one.reader.even(f"hold of the detent, {name}", *NEW_GRIP)},
    }


def _turn(one: GovernorSet, matter: Matter) -> Way:
    return Way(
        name="detent-turn",
        title=Said("Turn the catch block to its unused side, stone the blade square, set the gap"),
        action="adjust",
        intervention="removable",
        original="The block stays, the other way round.",
        items=matter.items,
        after=_after(one, "block turned"),
        steps=(_set_step(),),
        works=("governor work",),
        for_it=(Said("What the maker of one such engine says to do first."),),
        against_it=(Said("Only once: then it is replaced. Where both sides are worn it does not help."),),
    )


def _make(one: GovernorSet, matter: Matter) -> Way:
    return Way(
        name="detent-new",
        title=Said("New edges for blade and block, hardened, and the gap set"),
        action="remake",
        intervention="removable",
        original="Old blade and block go on the shelf.",
        items=matter.items,
        after=_after(one, "edges new"),
        priced=(PricedItem(EDGES_MADE, 1),),
        steps=(step(d.KEY, "edges", "Blade and block made and hardened", shop=EDGES_MADE), _set_step(("edges",))),
        works=("governor work",),
        for_it=(Said("Sharp and hard, it holds and lets go at one speed."),),
        against_it=(Said("A blade built up by weld and stoned does as well, if it is hardened after."),),
    )


def _set_step(after: tuple[str, ...] = ()) -> StepDraft:
    return step(
        d.KEY,
        "set-detent",
        "Set blade and block: a postal card between them with the valve wide open, 1/16 in off at the lowest speed",
        hours=hours(0.5, 1.0, 2.0),
        after=after,
        hold="gap read as fitted; turned by hand it catches and lets go every time",
        works=("governor work",),
    )
