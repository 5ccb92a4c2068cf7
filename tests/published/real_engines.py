"""Published sizes of real engines, worn by simulation, to see whether the reconstruction finds the published sizes again.

Only the sizes, with the source beside each, are published; the wear, the shop's scatter and the readings are simulated. Where a
manual prints limits, pieces lie evenly between them and any size from the lower to the upper limit counts as found.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from numpy.random import Generator, default_rng

from tests.simulated.engines import Engine, Truth
from tests.simulated.gauging import Shop
from tests.simulated.makers import INCH, MM, THOU, Maker
from tests.simulated.wearing import bore_wear, journal_wear, mouths

FORD_BULLETIN = (
    "Ford Service Bulletin, Clearances and limits used in assembly of Model A engines, "
    "https://modelagarage.com/service_bulletin/clearances-and-limits-used-in-assembly-of-model-a-engines/"
)
FORD_A = "Model A engine specifications, https://www.motormayhem.net/model-a-ford-reference-page/engine-specifications/"
FORD_T = "journal of a Model T, https://www.grassrootsmotorsports.com/forum/grm/babbitt-bearings/196087/page1/"
VELOCETTE = (
    "Velocette KSS Mk II instruction book, https://dunhackin.com/index.php/velocette-documents/kss-kts-manuals/"
    "mk-ii-ohc-instruction-book/174-inspection-of-cylinder-and-piston-rings"
)
TM_9_2815_225 = (
    "TM 9-2815-225-34&P, app. F, https://automotiveenginemechanics.tpub.com/TM-9-2815-225-34P/css/TM-9-2815-225-34P_923.htm"
)
TM_9_2815_213 = "TM 9-2815-213-34, par. 3-176, https://www.nsndepot.com/Library/TM/TM-9-2815-213-34?PageNumber=94"
TM_9_6115_604 = "TM 9-6115-604-34, table 1-4, https://dieselgenerators.tpub.com/TM-9-6115-604-34/css/TM-9-6115-604-34_34.htm"
PAGE_1917 = "V. W. Pagé, Aviation Engines (1917), ch. XII, dimensions as built"


@dataclass(frozen=True)
class Published:
    """One size: what it is of, limits as printed [m] (alike where one figure is given), how many to an engine, the source."""

    family: str
    lower: float
    upper: float
    count: int
    source: str


def _inch(family: str, lower: float, count: int, source: str, upper: float | None = None) -> Published:
    return Published(family, lower * INCH, (lower if upper is None else upper) * INCH, count, source)


ENGINES: dict[str, tuple[Published, ...]] = {
    "Ford Model A, 1928": (
        _inch("bore", 3.876, 4, FORD_BULLETIN),
        _inch("piston", 3.8745, 4, FORD_BULLETIN),
        _inch("main", 1.624, 3, FORD_BULLETIN),
        _inch("crankpin", 1.499, 4, FORD_BULLETIN),
        _inch("cam journal", 1.560, 3, FORD_BULLETIN),
        _inch("stem", 0.311, 8, FORD_A),
    ),
    "Ford Model T": (_inch("crankpin", 1.248, 4, FORD_T, 1.250),),
    "Velocette KSS": (_inch("bore", 2.913, 1, VELOCETTE),),
    "Wisconsin aero six": (
        _inch("bore", 5.0, 6, PAGE_1917),
        _inch("pin", 1.1875, 6, PAGE_1917),
        _inch("crankpin", 2.0, 6, PAGE_1917),
    ),
    "Duesenberg four": (
        _inch("bore", 4.75, 4, PAGE_1917),
        _inch("crankpin", 2.25, 4, PAGE_1917),
        _inch("main", 2.5, 2, PAGE_1917),
    ),
    "Benz 160 hp six": (
        Published("bore", 130 * MM, 130 * MM, 6, PAGE_1917),
        Published("pin", 30 * MM, 30 * MM, 6, PAGE_1917),
        Published("crankpin", 55 * MM, 55 * MM, 6, PAGE_1917),
    ),
    "army engine, TM 9-2815-225": (
        _inch("bore", 5.4995, 6, TM_9_2815_225, 5.501),
        _inch("crankpin", 3.1235, 6, TM_9_2815_225, 3.125),
        _inch("main", 4.4985, 7, TM_9_2815_225, 4.500),
    ),
    "army engine, TM 9-2815-213": (
        _inch("main", 3.4990, 5, TM_9_2815_213, 3.5000),
        _inch("crankpin", 3.1240, 4, TM_9_2815_213, 3.1253),
    ),
    "army generator, TM 9-6115-604": (
        _inch("guide", 0.4972, 8, TM_9_6115_604, 0.4980),
        _inch("stem", 0.4945, 8, TM_9_6115_604, 0.4955),
    ),
}

NAMES = {
    "bore": ("cylinder", "cyl {n}", "bore diameter"),
    "piston": ("piston", "piston {n}", "skirt diameter"),
    "pin": ("pin", "pin {n}", "diameter"),
    "crankpin": ("crankpin", "crankpin {n}", "journal diameter"),
    "main": ("main", "main {n}", "journal diameter"),
    "cam journal": ("cam", "cam journal {n}", "journal diameter"),
    "stem": ("valve", "intake {n}", "stem diameter"),
    "guide": ("valve", "intake {n}", "guide bore"),
}
SCATTER = 0.25 * THOU


def worn(name: str, life: int) -> Engine:
    """A published engine after one of several lives: the same every time."""
    rng = default_rng([1928, life, len(name), sum(map(ord, name))])
    shop = Shop(
        rng, False, float(rng.uniform(10, 28)), 1.0, says_temperature=True, directions=True, slips=0.0, typed_thou=False
    )
    shop.standards()
    truths: list[Truth] = []
    for size in ENGINES[name]:
        for n in range(1, size.count + 1):
            part, item, feature = NAMES[size.family]
            key = (part, item.format(n=n), feature)
            even = size.lower == size.upper
            new = float(rng.normal(size.lower, SCATTER) if even else rng.uniform(size.lower, size.upper))
            _READ[size.family](rng, shop, key, new)
            nominal = (size.lower + size.upper) / 2
            truths.append(Truth(key=key, family=size.family, nominal=nominal, new=new, siblings=size.count))
    maker = Maker("inch", (1.0, 0.0, 0.0, 0.0), SCATTER, 0.0, 1.0)
    cylinders = max(size.count for size in ENGINES[name] if size.family in ("bore", "crankpin", "guide"))
    return Engine(life, min(cylinders, 6), maker, None, tuple(shop.rows), tuple(truths), frozenset())


def _read_bore(rng: Generator, shop: Shop, key: tuple[str, str, str], new: float) -> None:
    wear = bore_wear(rng, new, hardship=1.0, rings=3)
    for station, share in enumerate((0.03, 0.3, 0.6, 0.85, 1.4), start=1):
        note = "below ring travel" if share > 1 else ""
        for direction in (0, 90):
            size, depth = new + wear.at(share, direction), new * (0.12 + share)
            words = {"station": str(station), "note": note}
            shop.read(*key, size, "dial_bore_gauge", material="cast iron", direction=direction, depth=depth, **words)


def _read_piston(rng: Generator, shop: Shop, key: tuple[str, str, str], new: float) -> None:
    worn_off = float(rng.gamma(2.0, 0.6)) * THOU
    shop.read(*key, new - worn_off, "outside_mic", material="aluminium", station="skirt bottom", direction=90)


def _journal_reader(usual: float, axis: float, stations: tuple[str, ...]) -> Callable[..., None]:
    def read(rng: Generator, shop: Shop, key: tuple[str, str, str], new: float) -> None:
        wear = journal_wear(rng, usual, axis=axis)
        for place, station in enumerate(stations):
            for direction in (0, 90):
                size = new - wear.at(place / max(1, len(stations) - 1), direction)
                shop.read(*key, size, "outside_mic", station=station, direction=direction)

    return read


def _read_pin(rng: Generator, shop: Shop, key: tuple[str, str, str], new: float) -> None:
    wear = journal_wear(rng, 0.8 * THOU, axis=90)
    for station, share in (("boss end", 0.03), ("rod", 1.0), ("other boss end", 0.03)):
        for direction in (0, 90):
            shop.read(*key, new - share * wear.at(0.5, direction), "outside_mic", station=station, direction=direction)


def _read_stem(rng: Generator, shop: Shop, key: tuple[str, str, str], new: float) -> None:
    losses = mouths(rng, 1.0 * THOU, (1.0, 0.45, 0.03))
    for station, loss in zip(("top of guide", "middle", "keeper end"), losses, strict=True):
        shop.read(*key, new - loss, "outside_mic", station=station)


def _read_guide(rng: Generator, shop: Shop, key: tuple[str, str, str], new: float) -> None:
    for station, gain in zip(("top", "middle", "bottom"), mouths(rng, 1.6 * THOU, (1.0, 0.2, 0.6)), strict=True):
        shop.read(*key, new + gain, "telescoping_gauge", material="cast iron", station=station)


_READ: dict[str, Callable[..., None]] = {
    "bore": _read_bore,
    "piston": _read_piston,
    "pin": _read_pin,
    "crankpin": _journal_reader(1.2 * THOU, 0, ("A", "B")),
    "main": _journal_reader(1.0 * THOU, 90, ("A", "B", "C")),
    "cam journal": _journal_reader(0.5 * THOU, 90, ("",)),
    "stem": _read_stem,
    "guide": _read_guide,
}
