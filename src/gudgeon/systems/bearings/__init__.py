"""Rods and poured bearings: crankpins, rod bearings, their babbitt and shims, rods bent or twisted."""

from gudgeon.engine.system import System
from gudgeon.systems.bearings.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.bearings.findings import findings
from gudgeon.systems.bearings.fit_up import fit_up
from gudgeon.systems.bearings.orders import orders
from gudgeon.systems.bearings.pictures import pictures
from gudgeon.systems.bearings.remedies import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Rods and poured bearings",
    introduction=(
        "Rods wear before mains. A knock that comes with load is a rod; shims take up what the metal has lost, as long as "
        "there are any. Before a rod is poured again its pin must be settled, for it is bored to the pin."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("babbitt pouring"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "forum.hetclub.org 172786, a babbitt shop: .001 to the inch of shaft and half a thou, shims a thou at a time",
        "V. W. Pagé, Aviation Engines (1917), ch. XI: shims, scraping, tightness, oil grooves",
        "Ford Manual (1919), answers 33 and 34",
        "ASTM B23: bearing metals",
        "Raimondi and Boyd, Trans. ASLE 1 (1958); ASTM D341; SAE J300: the oil film",
        "FAA powerplant handbook: rod parallelism and twist with arbors",
    ),
)
