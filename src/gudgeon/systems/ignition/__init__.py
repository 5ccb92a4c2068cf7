"""Magneto, coupling, plugs and timing: what is measured, what it means, what can be done, ordered, and how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.ignition.description import FEATURES, KEY, PARTS
from gudgeon.systems.ignition.findings import findings
from gudgeon.systems.ignition.fit_up import fit_up
from gudgeon.systems.ignition.orders import orders
from gudgeon.systems.ignition.pictures import pictures
from gudgeon.systems.ignition.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Ignition and timing",
    introduction=(
        "Dead centre is found by a stop and two marks, never by eye. A spark before dead centre while cranking kicks "
        "back: the impulse must trip at dead centre or just after, proven by hand before the first start."
    ),
    parts=PARTS,
    features=FEATURES,
    wants=("camshaft",),
    cautions=warned("ignition work", "first start"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "V. W. Pagé, Aviation Engines (1917), ch. VI: drive ratios, point gaps, timing",
        "R. B. Whitman, Tractor Principles (1920), ch. VI and XII: full retard at inner dead centre",
        "J. B. Rathbun, Gas, Oil and Steam Engines (1916), §87: always retard when starting",
        "Hercules Engine News 1995 and 1999: advance of hit-and-miss engines",
    ),
)
