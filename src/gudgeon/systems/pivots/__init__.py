"""Pins, bushes and levers, anywhere: one way to read every pivot, and one set of ways to make it good."""

from gudgeon.engine.system import System
from gudgeon.systems.pivots.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.pivots.fit_up import fit_up, pictures
from gudgeon.systems.pivots.orders import orders
from gudgeon.systems.pivots.ways import prospects, remedies
from gudgeon.systems.pivots.wear import findings
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Pins, bushes and levers",
    introduction=(
        "A pin keeps its size where nothing turned on it; read it there first. Ream and fit an oversize pin, bush and fit a "
        "standard one, or remake both: which is right depends on the wall that is left and on what the pivot does."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("pressing"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "Turning and Boring (1914), ch. III: Newall limits, the period's fits",
        "V. W. Pagé, Aviation Engines (1917), ch. XI: loose joints; worn holes take the next larger pin in both parts",
        "Ford Service Bulletin (1928–31); TM 5-3805-254-14; TM 5-4320-300-14: pins in bushes, rollers",
        "diversifiedbronze.com: pressure on bronze bushes",
        "Budynas & Nisbett, Shigley's Mechanical Engineering Design: press fits, pins in shear",
    ),
)
