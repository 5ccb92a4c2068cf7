"""Cylinders, pistons and rings: what is measured, what it means, what can be done, what is ordered, how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.cylinders.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.cylinders.findings import findings
from gudgeon.systems.cylinders.fit_up import fit_up
from gudgeon.systems.cylinders.orders import orders
from gudgeon.systems.cylinders.pictures import pictures
from gudgeon.systems.cylinders.plan import warned
from gudgeon.systems.cylinders.remedies import prospects, remedies

SYSTEM = System(
    key=KEY,
    title="Cylinders, pistons and rings",
    introduction=(
        "Where most of the wear is. The bore wears most just below the ridge and across the crank; below the ring travel it "
        "stays as it was made, and says what size that was."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("boring", "sleeve fitting", "honing", "ring fitting", "pressure test"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "aircraftsystemstech.com, Reciprocating Engine Dimensional Inspection: taper, out-of-round, ridge",
        "TM 10-4320-315-24: four depths by two lines of a bore",
        "V. W. Pagé, Aviation Engines (1917): clearances, rings and their joints, oversizes",
        "Khurmi & Gupta, A Textbook of Machine Design: cylinder wall",
    ),
)
