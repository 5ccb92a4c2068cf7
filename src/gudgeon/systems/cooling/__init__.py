"""Water pump, hopper and water: what is measured, what it means, what can be done, ordered, and how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.cooling.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.cooling.findings import findings
from gudgeon.systems.cooling.fit_up import fit_up
from gudgeon.systems.cooling.orders import orders
from gudgeon.systems.cooling.pictures import pictures
from gudgeon.systems.cooling.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Cooling",
    introduction=(
        "A pump fails at its shaft: bushes run dry, the shaft shakes, the packing is screwed down on it and cuts a groove. "
        "The drive pin is there to break before the gears do. A hopper boils under load, and that is as it should be."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("cooling work"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "R. E. Mathot, Gas-Engines and Producer-Gas Plants (1905), ch. V: water and its temperatures",
        "J. B. Rathbun, Gas, Oil and Steam Engines (1916), cooling: hopper, evaporation",
        "Pumps and Hydraulics, part 2 (1905): packing of rotary pumps",
        "Galvanic series in sea water, Professional Boatbuilder no. 100",
    ),
)
