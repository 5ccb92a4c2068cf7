"""Cylinders, pistons and rings: what is measured, what it means, what can be done, what is ordered, how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.cylinders.description import FEATURES, KEY, PARTS
from gudgeon.systems.cylinders.findings import findings
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
    findings=findings,
    remedies=remedies,
    prospects=prospects,
)
