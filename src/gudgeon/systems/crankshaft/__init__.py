"""Crankshaft and mains: journals, bow, throw and phase, end play, main bearings and their line, the flywheel's seat."""

from gudgeon.engine.system import System
from gudgeon.systems.crankshaft.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.crankshaft.findings import findings
from gudgeon.systems.crankshaft.fit_up import fit_up
from gudgeon.systems.crankshaft.orders import orders
from gudgeon.systems.crankshaft.pictures import pictures
from gudgeon.systems.crankshaft.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Crankshaft and mains",
    introduction=(
        "Everything is set by where the crank lies. Read it for cracks and for bow before money goes into its journals; "
        "grind all journals in one visit, and pour the mains last, when no more heat comes to the casting."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("babbitt pouring", "grinding", "flywheel work", "lifting"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "TM 5-3805-254, TM 55-1905-219: journals out of round, tapered, run-out by position",
        "TM 9-2815-213: end play, journal limits",
        "Ford Service Bulletin (1928–31): end play, flywheel run-out",
        "forum.hetclub.org 172786, a babbitt shop: clearance and shims",
        "Ford Manual (1919), answer 34: each cap down alone, the crank turned with one hand",
    ),
)
