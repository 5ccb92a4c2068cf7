"""Governor: what is measured, what speed, spread and dead band it means, what can be done, ordered, and how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.governor.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.governor.findings import findings
from gudgeon.systems.governor.fit_up import fit_up
from gudgeon.systems.governor.orders import orders
from gudgeon.systems.governor.pictures import pictures
from gudgeon.systems.governor.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Governor",
    introduction=(
        "Weights pull, a spring holds, a sleeve moves the throttle. Geometry, weights and spring give the speed at each place "
        "of the sleeve; friction and lost motion give the dead band in which it wanders. Pins, flats and slack are read, "
        "and what each costs in speed is worked out."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    wants=("intake", "flywheel"),
    cautions=warned("governor work"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "Khurmi & Gupta, Theory of Machines, ch. 18: controlling force, equilibrium speed, effort, friction",
        "R. E. Mathot, Gas-Engines and Producer-Gas Plants (1905), ch. II: spread of speed",
        "J. B. Rathbun, Gas Engine Troubles and Installation (about 1916), §131: governor troubles",
        "Instruction book of Hercules-built engines: detent blade, catch block, turns between firings",
        "I. A. Vyshnegradskii (1876–77), from memory: when a governed engine is steady",
    ),
)
