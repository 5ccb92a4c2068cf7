"""Camshaft and followers: what is measured, what it means, what can be done, what is ordered, how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.camshaft.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.camshaft.findings import findings
from gudgeon.systems.camshaft.fit_up import fit_up
from gudgeon.systems.camshaft.orders import orders
from gudgeon.systems.camshaft.pictures import pictures
from gudgeon.systems.camshaft.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Camshaft, followers and timing",
    introduction=(
        "A lobe wears at its nose, a roller flat, a follower tips in its guide; each takes lift and moves the timing. The heel "
        "of the cam and the ends of pins stay as they were made. Bearings come before gears."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    wants=("valves",),
    cautions=warned("cam grinding", "pressing"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "TM 5-3805-260-24 and TM 10-3930-653-14: lift lost, cam bearings",
        "TM 5-4320-300-14, TM 9-6115-604-34, TM 5-2815-241-34: rollers and pins",
        "J. B. Rathbun (1916), Kansas State College (c.1935), F. J. Kean (1915): valve timing",
        "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 3-19: line contact",
    ),
)
