"""Flywheel, clutch and pulley: what is measured, what it means, what can be done, ordered, and how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.flywheel.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.flywheel.findings import findings
from gudgeon.systems.flywheel.fit_up import fit_up, pictures
from gudgeon.systems.flywheel.orders import orders
from gudgeon.systems.flywheel.ways import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Flywheel, clutch and pulley",
    introduction=(
        "A wheel must be sound, sit tight and stay under the speed of its rim. Key and hub are read, run-out is watched, and "
        "what the wheel holds says how steadily the engine turns. A clutch is lined with what must be taken for asbestos."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("flywheel work", "clutch work", "belt work", "lifting"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "Hercules Engine News, July 2001: rim speed; Britannica, Flywheel: cautions",
        "R. E. Mathot, Gas-Engines and Producer-Gas Plants (1905), ch. II: steadiness",
        "Turning and Boring (1914); D. A. Low, Machine Drawing: forced fits, keys and their taper",
        "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 7-7, 16-5, 16-7: keys, clutches",
    ),
)
