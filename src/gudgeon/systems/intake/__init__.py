"""Intake, throttle and linkage: wear as leak, drag and lost motion, what can be done, ordered, and how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.intake.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.intake.findings import findings
from gudgeon.systems.intake.fit_up import fit_up, pictures
from gudgeon.systems.intake.orders import orders
from gudgeon.systems.intake.ways import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Intake, throttle and linkage",
    introduction=(
        "A worn throttle shaft leaks air without fuel, and cocks and sticks. Play of the linkage's joints is added up "
        "through its levers to what the governor loses of its travel."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("throttle work"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "V. W. Pagé, Aviation Engines (1917), ch. XI: loose joints",
        "J. B. Rathbun, Gas Engine Troubles and Installation (about 1916), §131: lost motion",
        "TM 5-5065 §205: drag in the throttle linkage makes the governor go too far",
        "NACA Report 1135: flow of a nozzle",
    ),
)
