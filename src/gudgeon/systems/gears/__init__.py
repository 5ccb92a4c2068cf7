"""Gears: which teeth they have, how far worn, what they carry, what can be done, the cutting sheet, how they go back."""

from gudgeon.engine.system import System
from gudgeon.systems.gears.description import FEATURES, KEY, PARTS
from gudgeon.systems.gears.findings import findings
from gudgeon.systems.gears.fit_up import fit_up
from gudgeon.systems.gears.orders import orders
from gudgeon.systems.gears.pictures import pictures
from gudgeon.systems.gears.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Gears",
    introduction=(
        "Count the teeth first. Outside diameter and centres tell the pitch; the span over some teeth and over one more tells "
        "the pressure angle, whatever has worn off. No book of before 1925 gives a limit of wear: to run on or to have a pair "
        "cut is a choice, and the page says what either would mean."
    ),
    parts=PARTS,
    features=FEATURES,
    cautions=warned("first start", "pressing"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "Machinery's Handbook, gearing: involute function, span over teeth, over pins",
        "SDP/SI, Elements of Metric Gear Technology, sections 4 to 10: shift, chordal thickness, contact",
        "Budynas & Nisbett, Shigley's Mechanical Engineering Design, ch. 13 and 14: contact ratio, Lewis, AGMA",
        "Joshua Rose, Modern Machine-Shop Practice (1887): Brown and Sharpe cutters",
        "Ford Service Bulletin (1928–31); TM 5-4310-276-14; AGMA coarse-pitch bands: backlash",
    ),
)
