"""What is read for a diagnosis of compression: shop and tester, and each cylinder's volume, pressures and where it is heard.

Bore, ring gaps and valve timing are other rooms' readings; their findings are asked for, not measured again.
"""

from __future__ import annotations

from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.system import Feature

KEY, PART, SHOP = "compression", "compression", "shop"
INCH, PSI, CC, RPM = 0.0254, 6894.757293168361, 1e-6, 0.10471975511965977


def names(outline: Outline) -> tuple[str, ...]:
    """ "shop" for what holds for the whole test, then "cyl 1" ..."""
    return (SHOP, *(f"cyl {n}" for n in range(1, (outline.cylinders or 0) + 1)))


def _count(outline: Outline) -> int | None:
    return None if outline.cylinders is None else outline.cylinders + 1


PARTS = (PartKind(kind=PART, title="Compression", count=_count, item="cyl {n}", names=names),)

_SHOP = ("shop", "bench", "tester", "engine")
_CYLINDER = ("cyl",)

BAROMETER = Feature(
    part=PART,
    name="barometer",
    title="Barometer, at the place",
    dimension="pressure",
    unit="psi",
    gauges=("barometer",),
    aliases=("atmospheric pressure", "air pressure", "station pressure"),
    of=_SHOP,
    how="As it stands in the shop. A weather report is reduced to the sea; then write the height instead.",
)
HEIGHT = Feature(
    part=PART,
    name="height over the sea",
    title="Height over the sea, where no barometer hangs",
    unit="ft",
    aliases=("altitude", "elevation", "height above sea level"),
    of=_SHOP,
    how="From a map; good to a hundred feet is enough.",
)
SPEED = Feature(
    part=PART,
    name="cranking speed",
    title="Speed at which it was turned",
    dimension="speed",
    unit="rpm",
    gauges=("tachometer", "count"),
    aliases=("speed", "turning speed", "cranking rpm"),
    of=_SHOP,
    how="Count the turns in ten seconds, times six. By hand 40 to 100, by a starter 100 to 250.",
)
RESTRICTOR = Feature(
    part=PART,
    name="tester restrictor",
    title="Hole in the leak tester",
    gauges=("vernier", "drill"),
    aliases=("restrictor", "orifice", "leak tester restrictor", "leak-down orifice"),
    of=_SHOP,
    how=".040 for bores under 5 in, .060 over; tried with a drill's shank.",
)
SUPPLY = Feature(
    part=PART,
    name="tester supply",
    title="Pressure set on the leak tester",
    dimension="pressure",
    unit="psi gauge",
    gauges=("pressure_gauge_psi",),
    aliases=("supply pressure", "leak-down supply"),
    of=_SHOP,
    how="80 by custom of the aero shops. On an old engine 40 will do, and is kinder.",
)
VOLUME = Feature(
    part=PART,
    name="clearance volume by oil",
    title="Clearance volume, by oil",
    dimension="volume",
    unit="cc",
    gauges=("burette_cc",),
    aliases=("clearance volume", "combustion chamber volume", "chamber volume"),
    of=_CYLINDER,
    how="Piston at inner dead centre, valves shut, filled to the plug's seat. Thin oil, tip it so that air leaves by the hole.",
)
HEAD_CLEARANCE = Feature(
    part=PART,
    name="head clearance",
    title="Crown to head at inner dead centre",
    gauges=("lead_wire", "depth_gauge"),
    aliases=("crown to head",),
    of=_CYLINDER,
    how="A lump of soft lead or clay, squeezed by turning over by hand.",
)
DRY = Feature(
    part=PART,
    name="cranking pressure",
    title="Cranking pressure, dry",
    dimension="pressure",
    unit="psi gauge",
    gauges=("pressure_gauge_psi",),
    aliases=("cranking pressure dry", "compression", "compression pressure", "compression dry", "dry compression"),
    of=_CYLINDER,
    how="Every plug out, throttle open, until the gauge stands: six turns. The same for each cylinder.",
)
OILED = Feature(
    part=PART,
    name="cranking pressure oiled",
    title="Cranking pressure, oiled",
    dimension="pressure",
    unit="psi gauge",
    gauges=("pressure_gauge_psi",),
    aliases=("oiled compression", "compression oiled", "wet compression", "cranking pressure wet", "compression wet"),
    of=_CYLINDER,
    how="A tablespoon of thick oil on the piston, turned over twice to spread, then as before.",
)
LEAK_DOWN = Feature(
    part=PART,
    name="leak-down reading",
    title="Leak test, what the cylinder's gauge shows",
    dimension="pressure",
    unit="psi gauge",
    gauges=("pressure_gauge_psi",),
    aliases=("leak-down", "leakdown", "leak down", "differential pressure", "leak test reading"),
    of=_CYLINDER,
    how="Piston at inner dead centre on the firing stroke, crank blocked. Rock it a little so that the rings seat.",
)
HEARD = Feature(
    part=PART,
    name="leak heard at",
    title="Where the leak is heard",
    dimension="words",
    unit="",
    aliases=("leak heard", "heard at", "listening", "hiss"),
    of=_CYLINDER,
    how="Intake, exhaust, crankcase, water, plug: where it hisses or bubbles, and “not” before those that are quiet.",
)

FEATURES: tuple[Feature, ...] = (
    BAROMETER, HEIGHT, SPEED, RESTRICTOR, SUPPLY, VOLUME, HEAD_CLEARANCE, DRY, OILED, LEAK_DOWN, HEARD,
)  # fmt: skip
