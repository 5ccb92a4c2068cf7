"""Oil pump, troughs, oilers and the oil itself: what is measured, what it means, what can be done, ordered, and fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.oiling.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.oiling.findings import findings
from gudgeon.systems.oiling.fit_up import fit_up
from gudgeon.systems.oiling.orders import orders
from gudgeon.systems.oiling.pictures import pictures
from gudgeon.systems.oiling.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Oiling",
    introduction=(
        "How deep a dipper should go no book was found to say: start with it just touching and watch smoke and bearings. "
        "Drip rates printed for cars are not those of a farm engine; what suits this one is set by trial and kept."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    wants=("bearings", "crankshaft"),
    cautions=warned("oil work"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "R. B. Whitman, Motor-Car Principles (1909), lubrication table: drip rates",
        "R. B. Whitman, Tractor Principles (1920), ch. X: the dipper just dips",
        "J. B. Rathbun, Gas, Oil and Steam Engines (1916), §116 to §121: level, smoke, drops by trial",
        "SAE J300; ASTM D341; Raimondi and Boyd (1958), by the bearings' own findings",
    ),
)
