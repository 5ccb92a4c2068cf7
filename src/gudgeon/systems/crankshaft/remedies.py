"""What could be done about crankpins, main journals, main bearings, and a bow."""

from __future__ import annotations

from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.prospect import PossibleReading, Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Said
from gudgeon.systems import poured_ways
from gudgeon.systems.crankshaft import description as d
from gudgeon.systems.crankshaft import grinding
from gudgeon.systems.crankshaft.findings import BOW, bow_practice, crack_free
from gudgeon.systems.crankshaft.grinding import Journals
from gudgeon.systems.crankshaft.shaft import Shaft
from gudgeon.systems.journals import ROUND, TAPER, THOU, WEAR
from gudgeon.systems.poured import CLEARANCE, SHIMS
from gudgeon.systems.poured_ways import Kind
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, could_be_read, hours, prospect_of, remedy_of, warned

PINS, JOURNALS, MAINS, STRAIGHT = "crankshaft: pins", "crankshaft: main journals", "crankshaft: mains", "crankshaft: straight"
GRIND_PIN, GRIND_MAIN = "crankpin ground", "main journal ground"
BUILD_UP, STRAIGHTEN, POUR = "journal built up and ground", "crankshaft straightened", "main poured and line bored"

Settled = tuple[Matter, tuple[Way, ...]]


def kind_of_mains(shaft: Shaft) -> Kind:
    """The main bearings, and what their pour waits for besides: crank trued, gear centres located."""
    return Kind(
        prefix="mains",
        one="main bearing",
        many="main bearings",
        shaft="main journals",
        shaft_subject=JOURNALS,
        pour=POUR,
        casting="the crankcase",
        needs=(
            Need(
                kind="reading",
                what="crank read for bow, or trued",
                met=shaft.bow is not None or len(shaft.mains) < 3,
                part="main",
                feature=d.RUN_OUT.name,
                why="pouring sets the shaft's place for ever; a bowed one sets it wrong",
            ),
            Need(
                kind="reading",
                what="gear centres and the cylinders' axes located by a fixture",
                met=_centres_read(shaft),
                part="gear",
                feature="centre distance",
                why="the gears mesh, and the bores stand square, where the mains put the crank",
            ),
        ),
    )


def _centres_read(shaft: Shaft) -> bool:
    return any(key.part == "gear" and "cent" in key.feature.lower() for key in shaft.bench.estimates)


def pins_of(shaft: Shaft) -> Journals:
    """The crankpins as a set to be ground together."""
    return Journals(
        prefix="pins", subject=PINS, one="crankpin", many="crankpins", fits="rod bearing", grind=GRIND_PIN, build=BUILD_UP,
        found=shaft.pins,
    )  # fmt: skip


def main_journals_of(shaft: Shaft) -> Journals:
    """The main journals as a set to be ground together."""
    return Journals(
        prefix="journals", subject=JOURNALS, one="main journal", many="main journals", fits="main bearing", grind=GRIND_MAIN,
        build=BUILD_UP, found=shaft.mains,
    )  # fmt: skip


def matters(shaft: Shaft) -> tuple[Settled, ...]:
    """Every matter that there is something of on the bench, with its ways."""
    if "matters" not in shaft.worked_out:
        found: list[Settled] = []
        for kind in (pins_of(shaft), main_journals_of(shaft)):
            if kind.found:
                found.append((grinding.matter_of(shaft, kind), grinding.ways_of(shaft, kind)))
        if shaft.bearings.bearings:
            mains = kind_of_mains(shaft)
            found.append((poured_ways.matter_of(shaft.bearings, MAINS), poured_ways.ways_of(shaft.bearings, mains)))
        if (straight := _straight(shaft)) is not None:
            found.append(straight)
        shaft.worked_out["matters"] = tuple(found)
    return cast(tuple[Settled, ...], shaft.worked_out["matters"])


def _straight(shaft: Shaft) -> Settled | None:
    """The bow; None where it was not read."""
    if shaft.bow is None:
        return None
    matter = Matter(
        system=d.KEY,
        subject=STRAIGHT,
        bench=shaft.bench,
        items=(d.SHAFT,),
        quantities=(Quantity(name=BOW, part="crankshaft", dimension="length", practices={d.SHAFT: bow_practice(shaft)}),),
        now={BOW: {d.SHAFT: shaft.bow.total}},
        inputs=shaft.bow.inputs,
    )
    leave = Way(
        name="straight-run-on",
        title=Said("Leave the crankshaft as it is"),
        action="run on",
        intervention="removable",
        original="Everything stays.",
        items=(d.SHAFT,),
        for_it=(Said("Nothing is bent. Bearings that have run in to a small bow may carry it for years."),),
        against_it=(Said("Its bearings cannot be poured or bored true to it."),),
    )
    return matter, (leave, _straighten(shaft))


def _straighten(shaft: Shaft) -> Way:
    cracked = crack_free(shaft) is False
    return Way(
        name="straighten",
        title=Said("Straighten the crankshaft cold, in a press with a dial on it"),
        action="make good",
        intervention="re-doable",
        original="The crank stays.",
        items=(d.SHAFT,),
        after={BOW: {d.SHAFT: np.abs(0.6 * THOU * shaft.bench.named("bow left by straightening"))}},
        allowed=np.zeros(shaft.bench.count, dtype=bool) if cracked else None,
        why="a crack was found in the crankshaft" if cracked else "",
        priced=(PricedItem(STRAIGHTEN, 1),),
        steps=(
            StepDraft(key=f"{d.KEY}/straighten", title="Straighten the crankshaft cold", system=d.KEY, shop=STRAIGHTEN,
                      may_fail=Range(0.05, 0.10, 0.25, OWN), cautions=warned("pressing")),
            StepDraft(key=f"{d.KEY}/straighten-inspect", title="Inspect in: run-out of every main with its direction; cracks",
                      system=d.KEY, hours=hours(0.5, 1, 2), after=(f"{d.KEY}/straighten",),
                      hold="run-out of every main read and accepted; no crack at a fillet"),
        ),
        needs=(
            Need(kind="reading", what="crankshaft tried for cracks", met=crack_free(shaft) is not None, part="crankshaft",
                 item=d.SHAFT, feature=d.CRACK.name, why="a cracked crank breaks in the press or soon after"),
            Need(kind="reading", what="direction of the high spot at every main", met=shaft.bow is not None and shaft.bow.known,
                 part="main", feature=d.RUN_OUT.name, why="the press must know which way to push"),
        ),
        risks=(
            Risk("it cracks at a fillet", Range(0.01, 0.04, 0.12, OWN), "another crank must be made"),
            Risk("it creeps back", Range(0.03, 0.08, 0.20, OWN), "straighten again"),
        ),
        works=("pressing", "lifting"),
        for_it=(Said("Ground journals and poured mains then stand on one axis."),),
        against_it=(Said("Before grinding, before pouring; and tried for cracks after it too."),),
    )  # fmt: skip


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy for pins, main journals, mains and bow."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(Shaft.of(bench)) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(prospect_of(matter, ways, _readings(matter)) for matter, ways in matters(Shaft.of(bench)))


def _readings(matter: Matter) -> tuple[PossibleReading, ...]:
    if matter.subject == MAINS:
        features = {CLEARANCE: ("bearing", CLEARANCE), SHIMS: ("bearing", "shims")}
        return could_be_read(matter, features, "clearance and shims decide whether a main can be taken up")
    if matter.subject in (PINS, JOURNALS):
        part = matter.quantities[0].part
        features = dict.fromkeys((WEAR, ROUND, TAPER), (part, "journal diameter"))
        return could_be_read(matter, features, "the worst journal decides whether all are ground")
    return ()
