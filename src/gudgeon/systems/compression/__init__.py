"""Compression and its diagnosis: what each cylinder should show, what it shows, where it leaks, what to expect afterwards."""

from collections.abc import Sequence

from gudgeon.engine.bench import Bench
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.system import System
from gudgeon.systems.compression.cylinder_set import CylinderSet
from gudgeon.systems.compression.description import FEATURES, KEY, PARTS
from gudgeon.systems.compression.findings import findings
from gudgeon.systems.compression.fit_up import fit_up
from gudgeon.systems.compression.next_tests import test_remedies
from gudgeon.systems.compression.pictures import pictures
from gudgeon.systems.proposing import warned


def remedies(bench: Bench) -> Sequence[Remedy]:
    """The tests that would tell more; the metal is other rooms' affair."""
    return test_remedies(CylinderSet.of(bench))


SYSTEM = System(
    key=KEY,
    title="Compression: why it is low",
    introduction=(
        "A gauge shows one figure for many causes. Poured volume, cranking speed and barometer say what a sound cylinder would "
        "show; oil on the rings, a leak test and an ear say where the rest goes. Test before you take it apart."
    ),
    parts=PARTS,
    features=FEATURES,
    wants=("cylinders", "camshaft"),
    cautions=warned("leak-down test"),
    findings=findings,
    remedies=remedies,
    fit_up=fit_up,
    pictures=pictures,
    sources=(
        "J. B. Heywood, Internal Combustion Engine Fundamentals, 2.2 and 12.4: slider-crank, Annand's film",
        "FAA AC 43.13-1B Change 1, par. 8-14: restrictors of the differential tester",
        "V. W. Pagé, Aviation Engines (1917), ch. III table III: ratio and pressure",
        "NACA Report 1135: isentropic flow",
    ),
)
