"""Threads, fasteners, plugs, balls and keys: which they are, whether they serve, how tight, what is bought or made."""

from gudgeon.engine.system import System
from gudgeon.systems.fasteners.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.fasteners.fit_up import fit_up, pictures
from gudgeon.systems.fasteners.orders import orders
from gudgeon.systems.fasteners.store import findings
from gudgeon.systems.fasteners.ways import prospects, remedies
from gudgeon.systems.proposing import warned

SYSTEM = System(
    key=KEY,
    title="Threads, fasteners, balls and keys",
    introduction=(
        "Makers of the time mixed U.S. Standard, Whitworth and pitches of their own; nuts of a near thread start, then lock. "
        "Read the diameter, the length over ten pitches, and try the flank before any tap goes in. A torque is only as good as "
        "the friction is known, and the page says how far that is."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("flywheel work", "cleaning"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "ASME B1.1 and B1.20.1; Whitworth tables (studylib.net 18133655): forms, stress areas, pipe threads",
        "SAE J429: proof strength; mechconcepts.tech and leadergt.com: nut factors and how far a wrench is trusted",
        "D. A. Low, Machine Drawing and Design: keys; Stephenson (1903): loose keys",
        "H. W. Slauson (1913); ABMA ball grades: balls of one set",
    ),
)
