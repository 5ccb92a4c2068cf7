"""Valves, seats, guides and springs: what is measured, what it means, what can be done, ordered, and how it is fitted up."""

from gudgeon.engine.system import System
from gudgeon.systems.proposing import warned
from gudgeon.systems.valves.description import FEATURES, FITS, KEY, PARTS
from gudgeon.systems.valves.findings import findings
from gudgeon.systems.valves.fit_up import fit_up
from gudgeon.systems.valves.orders import orders
from gudgeon.systems.valves.pictures import pictures
from gudgeon.systems.valves.remedies import prospects, remedies

SYSTEM = System(
    key=KEY,
    title="Valves, seats, guides and springs",
    introduction=(
        "A stem wears most where its guide rubs under the head, and stays as it was made at the keeper end. Guides come before "
        "seats, seats before lash. Lash of a slow farm engine is two to four times that of a car: which applies is said."
    ),
    parts=PARTS,
    features=FEATURES,
    fits=FITS,
    cautions=warned("valve work", "valve grinding", "guide work", "seat work"),
    findings=findings,
    remedies=remedies,
    prospects=prospects,
    orders=orders,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "TM 9-6115-464-34 and TM 5-4310-276-14, Table 1-1: stem clearances, margin, seat width",
        "Budynas & Nisbett, Shigley's Mechanical Engineering Design, ch. 10: springs",
        "J. B. Rathbun (1916), R. B. Whitman (1920), Ford Manual (1919): lash",
        "J. B. Heywood, Internal Combustion Engine Fundamentals, 6.3: room at a valve",
    ),
)
