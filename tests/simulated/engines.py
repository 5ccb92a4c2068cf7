"""Worn engines with the truth about them: what the drawing said, what each piece measured when new or last re-sized, and what
the person at the bench wrote down.

``engine(number)`` gives the same engine every time. Proportions are those of stationary, farm and early motor engines: common
practice (compare Page 1917, ch. XII: wrist pin .23 of the bore, crank pin .40 to .47, mains .40 to .53).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.random import Generator, default_rng

from tests.simulated.gauging import Shop, draw_shop
from tests.simulated.makers import INCH, MM, THOU, Batch, Maker, draw_maker, draw_size, mated, work
from tests.simulated.wearing import bore_wear, journal_wear, mouths

ENGINES = 48
UNWORN = 0.15 * THOU
Key = tuple[str, str, str]


@dataclass(frozen=True)
class Truth:
    """The truth about one feature of one piece.

    Attributes
    ----------
    nominal : what the drawing called for [SI]; None for a clearance that nobody drew.
    new : what this piece measured when new, or when it was last bored, ground or sleeved [SI].
    resized : in words, "" as made.
    unworn : was a place read that nothing had worn by more than .00015 in?
    exact : counts and pitches, which are right or wrong.
    siblings : pieces of that drawing size that were read as they were made, this one included.
    wild : what is out of the ordinary here, in words.
    """

    key: Key
    family: str
    nominal: float | None
    new: float
    resized: str = ""
    unworn: bool = False
    exact: bool = False
    siblings: int = 1
    wild: str = ""


@dataclass(frozen=True)
class Engine:
    """One engine: what the person says of it beforehand, what was read, and the truth."""

    number: int
    cylinders: int
    maker: Maker
    plate_bore: float | None
    rows: tuple[dict[str, str], ...]
    truths: tuple[Truth, ...]
    slipped: frozenset[int]


@dataclass
class Build:
    """An engine being made, worn and measured."""

    rng: Generator
    maker: Maker
    shop: Shop
    cylinders: int
    bore: float
    hardship: float
    truths: list[Truth] = field(default_factory=list)

    def chance(self, share: float) -> bool:
        """True so often."""
        return bool(self.rng.random() < share)

    def size(self, about: float) -> float:
        """A drawing size near ``about``."""
        return draw_size(self.maker, self.rng, about)

    def batch(self, size: float, *, hole: bool, care: float = 1.0) -> Batch:
        """The batch these parts came from."""
        return work(self.maker, self.rng, size, hole=hole, care=care)

    def know(self, key: Key, family: str, nominal: float | None, new: float, **more: object) -> None:
        """Note the truth about a piece."""
        self.truths.append(Truth(key=key, family=family, nominal=nominal, new=new, **more))  # type: ignore[arg-type]

    def some(self, count: int) -> list[int]:
        """Which of the pieces were read: mostly all, sometimes only one or a few."""
        if self.chance(0.12):
            return [int(self.rng.integers(1, count + 1))]
        return [n for n in range(1, count + 1) if not self.chance(0.05)]


@dataclass(frozen=True)
class Resized:
    """Re-sizing that a later shop did to one piece: its step [m], in words; and its own trueness."""

    step: float = 0.0
    words: str = ""


def draw_rebore(b: Build) -> list[Resized]:
    """What was done to the bores since: mostly nothing; all of them bored over, or the worst one, or sleeved back."""
    plain = [Resized()] * b.cylinders
    luck = b.rng.random()
    if luck < 0.76:
        return plain
    if b.maker.units == "millimetre":
        step = float(b.rng.choice((0.25, 0.5, 0.75, 1.0, 0.4))) * MM
    elif b.chance(0.75):
        step = float(b.rng.choice((10, 20, 30, 40, 60, 31.25, 62.5), p=(0.1, 0.25, 0.25, 0.15, 0.1, 0.1, 0.05))) * THOU
    else:
        step = float(b.rng.integers(6, 48)) * THOU
    over = Resized(step, f"bored over by {step / THOU:.1f} thou")
    if luck < 0.88:
        return [over] * b.cylinders
    worst = int(b.rng.integers(b.cylinders))
    one = Resized(0.0, "sleeved to standard") if luck > 0.94 else over
    return [one if n == worst else Resized() for n in range(b.cylinders)]


def cylinders_and_pistons(b: Build) -> None:
    """Bores with their ridge and belt, pistons that ran in them, now and then one that never belonged there."""
    bore, stroke = b.bore, b.bore * float(b.rng.uniform(1.0, 1.6))
    clearance = bore * float(b.rng.uniform(0.0005, 0.0013))
    piston = mated(b.maker, b.rng, bore, -clearance)
    done = draw_rebore(b)
    bores, skirts = b.batch(bore, hole=True), b.batch(piston, hole=False)
    belt_read, gauge = b.chance(0.72), str(b.rng.choice(("dial_bore_gauge", "telescoping_gauge"), p=(0.65, 0.35)))
    material = "aluminium" if b.chance(0.12) else "cast iron"
    for n in b.some(b.cylinders):
        work_done = done[n - 1]
        later = Batch(bore + work_done.step, 0.5 * THOU, hole=True) if work_done.words else bores
        new = later.piece(b.rng)
        _read_bore(b, n, new, stroke, belt_read and not b.chance(0.06), gauge, work_done.words)
    alien = int(b.rng.integers(1, b.cylinders + 1)) if b.chance(0.06) else 0
    for n in b.some(b.cylinders):
        nominal = b.size(piston * 0.985) if n == alien else piston
        step = 0.0 if n == alien else done[n - 1].step
        new = Batch(nominal + step, skirts.spread, hole=False).piece(b.rng) if step or n == alien else skirts.piece(b.rng)
        wild = "a piston of another engine" if n == alien else ""
        _read_piston(b, n, nominal, new, material, f"made over by {step / THOU:.1f} thou" if step else "", wild)


def _read_bore(b: Build, n: int, new: float, stroke: float, belt: bool, gauge: str, words: str) -> None:
    wear = bore_wear(b.rng, b.bore, hardship=b.hardship, rings=int(b.rng.integers(2, 5)))
    key = ("cylinder", f"cyl {n}", "bore diameter")
    named = b.chance(0.3)
    levels = list(np.linspace(0.03, 0.85, int(b.rng.integers(3, 6))))
    names = ["just below the ridge", *(f"{name} of ring travel" for name in ("upper middle", "middle", "lower", "bottom"))]
    around = (0, 45, 90, 135) if b.chance(0.4) else (0, 90)
    unworn = False
    spots = [(names[place] if named else str(place + 1), share, "") for place, share in enumerate(levels)]
    if belt:
        share = 1.0 + wear.first_ring + float(b.rng.uniform(0.03, 0.2))
        spots.append(("below ring travel" if named else str(len(spots) + 1), share, "" if named else "below ring travel"))
        unworn = wear.at(share, 90) < UNWORN
    elif b.chance(0.3):
        spots.insert(0, ("above ring travel", -0.06, "above ring travel, carbon scraped off"))
        unworn = True
    elif b.chance(0.3):
        b.shop.miss(*key, station="below ring travel")
    for station, share, note in spots:
        for direction in around:
            depth = stroke * 0.12 + stroke * share
            size = new + wear.at(share, direction)
            b.shop.read(*key, size, gauge, material="cast iron", station=station, depth=depth, direction=direction, note=note)
    wild = "bored out far beyond the usual" if wear.most > 25 * THOU else "bell-mouthed below the travel" if wear.bell else ""
    b.know(key, "bore", b.bore, new, resized=words, unworn=unworn, wild=wild)


def _read_piston(b: Build, n: int, nominal: float, new: float, material: str, words: str, wild: str) -> None:
    key = ("piston", f"piston {n}", "skirt diameter")
    worn = 1.2 * THOU * b.hardship * float(b.rng.lognormal(0, 0.6))
    if b.chance(0.03):
        worn, wild = -float(b.rng.uniform(1, 4)) * THOU, "knurled to take up wear"
    b.shop.read(*key, new - worn, "outside_mic", material=material, station="skirt bottom", direction=90)
    if b.chance(0.5):
        b.shop.read(*key, new - worn * 0.6, "outside_mic", material=material, station="skirt middle", direction=90)
    relief = float(b.rng.choice((0.0, 3.0, 6.0))) * THOU
    if b.shop.directions and b.chance(0.6):
        b.shop.read(*key, new - relief - 0.1 * abs(worn), "outside_mic", material=material, station="skirt bottom", direction=0)
    b.know(key, "piston", nominal, new, resized=words, wild=wild)
    for place in ("top", "oil") if b.chance(0.5) else ():
        made = float(b.rng.uniform(0.7, 2.2)) * THOU
        gap = made + float(b.rng.gamma(1.5, 0.8 if place == "top" else 0.3)) * THOU * b.hardship
        side = ("piston", f"piston {n}", f"side clearance, {place} ring, new ring")
        b.shop.feel(*side, gap)
        b.know(side, "clearance", None, made)


def pins_and_bushes(b: Build) -> None:
    """Wrist pins, clamped in the rod or fixed in the piston, and the bush they run in."""
    pin = b.size(b.bore * float(b.rng.uniform(0.19, 0.28)))
    bush = mated(b.maker, b.rng, pin, pin * 0.0006 + 0.3 * THOU)
    pins, bushes = b.batch(pin, hole=False, care=0.45), b.batch(bush, hole=True, care=0.7)
    clamped = b.chance(0.35)
    for n in b.some(b.cylinders):
        key = ("pin", f"pin {n}", "diameter")
        new = pins.piece(b.rng)
        wear = journal_wear(b.rng, 1.0 * THOU * b.hardship, axis=90)
        shares = {"boss end": 0.8, "rod": 0.02, "other boss end": 0.8} if clamped else {"boss end": 0.03, "rod": 1.0}
        least = math.inf
        for station, share in shares.items():
            for direction in (0, 90):
                worn = wear.at(0.5, direction) * share
                least = min(least, worn)
                b.shop.read(*key, new - worn, "outside_mic", station=station, direction=direction)
        b.know(key, "wrist pin", pin, new, unworn=least < UNWORN)
        if clamped:
            continue
        hole, key = bushes.piece(b.rng), ("pin", f"rod bush {n}", "bush bore")
        wear = journal_wear(b.rng, 1.2 * THOU * b.hardship, axis=90, even=0.15)
        for direction in (0, 90):
            size = hole + wear.at(0.5, direction)
            b.shop.read(*key, size, "telescoping_gauge", material="bronze", direction=direction)
        b.know(key, "bush", bush, hole, unworn=wear.at(0.5, 0) < UNWORN)


def crank(b: Build) -> None:
    """Crankpins and mains: as made, all ground under, or only one ground after a bearing ran."""
    pin = b.size(b.bore * float(b.rng.uniform(0.38, 0.50)))
    _journals(b, "crankpin", "crankpin", pin, b.cylinders, 1.6 * THOU)
    main = pin if b.chance(0.3) else b.size(b.bore * float(b.rng.uniform(0.40, 0.54)))
    _journals(b, "main", "main", main, b.cylinders // 2 + 1 if b.cylinders > 1 else 2, 1.2 * THOU)


def draw_grind(b: Build, count: int) -> list[Resized]:
    """What was done to journals since."""
    luck = b.rng.random()
    if luck < 0.82:
        return [Resized()] * count
    even = (0.25 * MM, 0.5 * MM) if b.maker.units == "millimetre" else (10 * THOU, 20 * THOU, 30 * THOU)
    step = -float(b.rng.choice(even)) if b.chance(0.7) else -float(b.rng.integers(5, 40)) * THOU
    under = Resized(step, f"ground under by {-step / THOU:.1f} thou")
    only = int(b.rng.integers(count))
    return [under if luck < 0.91 or n == only else Resized() for n in range(count)]


def _journals(b: Build, part: str, name: str, size: float, count: int, usual: float) -> None:
    batch, done = b.batch(size, hole=False, care=0.55), draw_grind(b, count)
    gauge = "outside_mic" if b.chance(0.65) else "outside_mic_coarse"
    edge = b.chance(0.25)
    for n in b.some(count):
        key = (part, f"{name} {n}", "journal diameter")
        redone = done[n - 1]
        later = Batch(size + redone.step, 0.3 * THOU, hole=False) if redone.words else batch
        new = later.piece(b.rng)
        wear = journal_wear(b.rng, usual * b.hardship, axis=0 if part == "crankpin" else 90, even=0.4)
        around = (0, 45, 90, 135) if b.chance(0.4) else (0, 90)
        least = math.inf
        for station, along in (("A", 0.1), ("B", 0.9)) if b.chance(0.7) else (("A", 0.1), ("B", 0.5), ("C", 0.9)):
            for direction in around:
                worn = wear.at(along, direction)
                least = min(least, worn)
                b.shop.read(*key, new - worn, gauge, station=station, direction=direction)
        if edge:
            b.shop.read(*key, new, gauge, station="edge by the fillet", direction=0, note="unworn, outside the bearing")
            least = 0.0
        b.know(key, f"{part} journal", size, new, resized=redone.words, unworn=least < UNWORN)


def camshaft(b: Build) -> None:
    """Cam journals in their bushes or in the iron."""
    journal = b.size(b.bore * float(b.rng.uniform(0.22, 0.42)))
    hole = mated(b.maker, b.rng, journal, 1.2 * THOU + journal * 0.0006)
    journals, holes = b.batch(journal, hole=False, care=0.5), b.batch(hole, hole=True, care=0.8)
    material = "bronze" if b.chance(0.6) else "cast iron"
    for n in range(1, max(2, b.cylinders // 2 + 1) + 1):
        for part, batch, size, away in (("cam journal", journals, journal, -1), ("cam bearing", holes, hole, 1)):
            if b.chance(0.07):
                continue
            feature = "journal diameter" if part == "cam journal" else "bore"
            key = ("cam", f"{part} {n}", feature)
            new = batch.piece(b.rng)
            wear = journal_wear(b.rng, (0.7 if away < 0 else 1.3) * THOU * b.hardship, axis=90, even=0.2)
            gauge, of = ("outside_mic", "steel") if away < 0 else ("telescoping_gauge", material)
            around = (0, 90) if away < 0 or b.chance(0.5) else (90,)
            for direction in around:
                b.shop.read(*key, new + away * wear.at(0.5, direction), gauge, material=of, direction=direction)
            b.know(key, part, size, new, unworn=min(wear.at(0.5, turn) for turn in around) < UNWORN)


def valves(b: Build) -> None:
    """Stems and guides; intake and exhaust mostly of one size."""
    stem = b.size(b.bore * float(b.rng.uniform(0.075, 0.11)))
    guide = mated(b.maker, b.rng, stem, 1.5 * THOU + stem * 0.001)
    stems, guides = b.batch(stem, hole=False, care=0.7), b.batch(guide, hole=True, care=0.9)
    for kind, hard in (("intake", 0.8), ("exhaust", 1.3)):
        for n in b.some(b.cylinders):
            item, new = f"{kind} {n}", stems.piece(b.rng)
            key = ("valve", item, "stem diameter")
            worn = mouths(b.rng, 1.3 * THOU * hard * b.hardship, (1.0, 0.45, 0.03))
            for station, loss in zip(("top of guide", "middle", "keeper end"), worn, strict=True):
                b.shop.read(*key, new - loss, "outside_mic", station=station)
            b.know(key, "valve stem", stem, new, unworn=min(worn) < UNWORN)
            _read_guide(b, item, guide, guides.piece(b.rng), hard)


def _read_guide(b: Build, item: str, nominal: float, new: float, hard: float) -> None:
    key = ("valve", item, "guide bore")
    words = "bushed" if b.chance(0.04) else ""
    worn = mouths(b.rng, 2.0 * THOU * hard * b.hardship, (1.0, 0.25, 0.7))
    read = list(zip(("top", "middle", "bottom"), worn, strict=True))[: 2 if b.chance(0.6) else 3]
    for station, gain in read:
        b.shop.read(*key, new + gain, "telescoping_gauge", material="cast iron", station=station)
    b.know(key, "valve guide", nominal, new, resized=words, unworn=min(gain for _, gain in read) < UNWORN)


def rings(b: Build) -> None:
    """Widths of rings and of the grooves they lie in, end gaps."""
    width = b.size(b.bore * float(b.rng.uniform(0.035, 0.06)))
    batch = b.batch(width, hole=False, care=0.5)
    for n in b.some(b.cylinders):
        for place in ("top", "second", "third")[: int(b.rng.integers(1, 4))]:
            key, new = ("ring", f"cyl {n} {place} ring", "width"), batch.piece(b.rng)
            worn = [float(b.rng.gamma(1.2, 0.6)) * THOU * b.hardship for _ in range(int(b.rng.integers(1, 5)))]
            for spot, loss in enumerate(worn):
                b.shop.read(*key, new - loss, "outside_mic", material="cast iron", station="PQRS"[spot])
            b.know(key, "ring width", width, new, unworn=min(worn) < UNWORN)


def gears(b: Build) -> None:
    """The timing pair: counts, pitch, outside and root diameters, spans, centre distance; some shifted, some thinned."""
    metric = b.maker.units != "inch" and b.chance(0.7)
    pitch = float(b.rng.choice((1.5, 2.0, 2.5, 3.0))) * MM if metric else INCH / int(b.rng.choice((8, 10, 12, 14, 16)))
    angle = math.radians(14.5 if b.chance(0.7) else 20.0)
    small = int(b.rng.integers(18, 31))
    shift = float(b.rng.choice((-0.25, 0.2, 0.4))) if b.chance(0.1) else 0.0
    thin = float(b.rng.uniform(0.5, 4)) * THOU
    wild = "teeth cut with a shifted cutter" if shift else ""
    note = "timing gear pair, spur"
    for item, teeth, away in (("crank gear", small, shift), ("cam gear", 2 * small, -shift)):
        b.shop.count("gear", item, "tooth count", teeth, note=note)
        b.know(("gear", item, "tooth count"), "tooth count", float(teeth), float(teeth), exact=True, unworn=True)
        for feature, nominal, gauge in (
            ("outside diameter", (teeth + 2 + 2 * away) * pitch, "outside_mic"),
            ("root diameter", (teeth - 2.314 + 2 * away) * pitch, "vernier"),
        ):
            new = b.batch(nominal, hole=False, care=0.8).piece(b.rng)
            b.shop.read("gear", item, feature, new, gauge, direction=0)
            b.shop.read("gear", item, feature, new, gauge, direction=90)
            b.know(("gear", item, feature), f"gear {feature}", nominal, new, unworn=True, wild=wild)
        _read_spans(b, item, teeth, pitch, angle, away, thin)
    centre = 1.5 * small * pitch
    made = centre + float(b.rng.normal(0, 1.0)) * THOU
    b.shop.read("gear", "timing pair", "centre distance", made, "vernier", material="cast iron")
    b.know(("gear", "timing pair", "centre distance"), "centre distance", centre, made, unworn=True)
    b.know(("gear", "timing pair", "pitch"), "gear pitch", pitch, pitch, exact=True, unworn=True, wild=wild)


def _read_spans(b: Build, item: str, teeth: int, pitch: float, angle: float, shift: float, thin: float) -> None:
    over = max(2, round(teeth * angle / math.pi + 0.5))
    involute = math.tan(angle) - angle
    for teeth_over in (over, over + 1):
        ideal = pitch * math.cos(angle) * (math.pi * (teeth_over - 0.5) + teeth * involute)
        new = ideal + 2 * shift * pitch * math.sin(angle) - thin * math.cos(angle)
        for station in "PQR":
            worn = float(b.rng.gamma(1.5, 0.7)) * THOU * b.hardship
            b.shop.read("gear", item, f"span over {teeth_over} teeth", new - worn, "vernier", station=station)
        b.know(("gear", item, f"span over {teeth_over} teeth"), "gear span", None, new)


_USS = {1 / 4: 20, 5 / 16: 18, 3 / 8: 16, 7 / 16: 14, 1 / 2: 13, 9 / 16: 12, 5 / 8: 11, 3 / 4: 10}
_SAE = {1 / 4: 28, 5 / 16: 24, 3 / 8: 24, 7 / 16: 20, 1 / 2: 20, 9 / 16: 18, 5 / 8: 18, 3 / 4: 16}
_WHITWORTH = {1 / 4: 20, 5 / 16: 18, 3 / 8: 16, 7 / 16: 14, 1 / 2: 12, 9 / 16: 12, 5 / 8: 11, 3 / 4: 10}
_SCREWS = {0.138: 32, 0.164: 32, 0.190: 24, 0.216: 24, 0.242: 20, 0.268: 20}
_METRIC = {5: 0.8, 6: 1.0, 7: 1.0, 8: 1.25, 9: 1.25, 10: 1.5, 12: 1.75, 14: 2.0, 16: 2.0, 18: 2.5, 20: 2.5}


def threads(b: Build) -> None:
    """Bolts and studs: outside diameter, always under its name, and the length over some threads."""
    for n in range(1, int(b.rng.integers(4, 11)) + 1):
        if b.maker.units == "millimetre" or (b.maker.units == "mixed" and b.chance(0.4)):
            diameter, step = list(_METRIC.items())[int(b.rng.integers(len(_METRIC)))]
            size, pitch, flank = diameter * MM, step * MM, 60
        else:
            table = (_USS, _SAE, _WHITWORTH, _SCREWS)[b.rng.choice(4, p=(0.5, 0.25, 0.15, 0.1))]
            inches, per_inch = list(table.items())[int(b.rng.integers(len(table)))]
            size, pitch, flank = inches * INCH, INCH / per_inch, 55 if table is _WHITWORTH else 60
        new = size - float(b.rng.gamma(2.5, 1.1)) * THOU
        item, gauge = f"thread {n}", "vernier" if b.chance(0.8) else "outside_mic"
        b.shop.read("thread", item, "outside diameter", new - float(b.rng.exponential(1.0)) * THOU, gauge)
        over = int(b.rng.integers(6, 13))
        lead = pitch * (1 + float(b.rng.normal(0, 0.0008)))
        b.shop.read("thread", item, f"length over {over} pitches", lead * over, "vernier")
        if b.chance(0.4):
            b.shop.angle("thread", item, "flank angle gauge that fits", flank)
        b.know(("thread", item, "outside diameter"), "thread size", size, new, exact=True, unworn=True)
        b.know(("thread", item, "pitch"), "thread pitch", pitch, pitch, exact=True, unworn=True)


def springs(b: Build) -> None:
    """Valve springs: wire, coils, free length, some of them set."""
    wire = float(b.rng.choice((0.1205, 0.135, 0.1483, 0.162, 0.177, 0.125, 0.15625))) * INCH
    coils = int(b.rng.integers(6, 13))
    drawn = b.batch(wire, hole=False, care=1.2)
    length = round(b.bore * float(b.rng.uniform(0.55, 0.85)) / INCH * 8) / 8 * INCH
    for n in b.some(2 * b.cylinders):
        item, new = f"spring {n}", drawn.piece(b.rng)
        rust = float(b.rng.exponential(0.4)) * THOU if b.chance(0.4) else 0.0
        b.shop.read("valve_spring", item, "wire diameter", new - rust, "outside_mic")
        b.know(("valve_spring", item, "wire diameter"), "spring wire", wire, new, unworn=rust < UNWORN)
        b.shop.count("valve_spring", item, "coils", coils)
        b.know(("valve_spring", item, "coils"), "coil count", float(coils), float(coils), exact=True, unworn=True)
        free = length * float(b.rng.normal(1, 0.008))
        b.shop.read("valve_spring", item, "free length", free * float(1 - b.rng.beta(1.2, 25)), "rule")
        b.know(("valve_spring", item, "free length"), "spring length", None, free)


def clearances(b: Build) -> None:
    """End play and side play as they were set, and as they are."""
    made = float(b.rng.uniform(2, 6)) * THOU
    b.shop.feel("bearing", "crankshaft", "crank end play", made + float(b.rng.gamma(1.5, 3)) * THOU * b.hardship)
    b.know(("bearing", "crankshaft", "crank end play"), "clearance", None, made)
    for n in b.some(b.cylinders):
        made = float(b.rng.uniform(5, 12)) * THOU
        b.shop.feel("bearing", f"rod {n}", "rod side play", made + float(b.rng.gamma(1.2, 2)) * THOU * b.hardship)
        b.know(("bearing", f"rod {n}", "rod side play"), "clearance", None, made)


FAMILIES = (cylinders_and_pistons, pins_and_bushes, crank, camshaft, valves, rings, gears, threads, springs, clearances)


def engine(number: int) -> Engine:
    """The engine of a number: the same one every time."""
    rng = default_rng([1911, number])
    maker = draw_maker(rng)
    maker, note = _outlandish(maker, number)
    cylinders = int(rng.choice((1, 2, 3, 4, 6), p=(0.18, 0.2, 0.12, 0.4, 0.1)))
    shop = draw_shop(rng, metric=maker.units == "millimetre" and bool(rng.random() < 0.8))
    bore = draw_size(maker, rng, float(rng.uniform(2.6, 7.5 if cylinders < 4 else 5.2)) * INCH)
    hardship = float(rng.lognormal(0, 0.45)) * (4.0 if note == "run to death" else 1.0)
    b = Build(rng, maker, shop, cylinders, bore, hardship)
    if rng.random() < 0.6:
        shop.standards()
    for family in FAMILIES:
        if family is cylinders_and_pistons or rng.random() < 0.88:
            family(b)
    plate = _plate(b)
    return Engine(number, cylinders, maker, plate, tuple(shop.rows), _finished(b.truths, note), frozenset(shop.slipped))


def _outlandish(maker: Maker, number: int) -> tuple[Maker, str]:
    """One engine in twelve is wilder than anybody would expect."""
    if number % 12 != 11:
        return maker, ""
    wild = ("sizes to any half thou", "a blacksmith's truth", "run to death", "drawn in Rhenish inches")[number // 12 % 4]
    if wild == "sizes to any half thou":
        maker = replace(maker, styles=(0.0, 0.1, 0.4, 0.5))
    elif wild == "a blacksmith's truth":
        maker = replace(maker, truth=2.5 * THOU, setting=2.0 * THOU)
    elif wild == "drawn in Rhenish inches":
        # One twelfth of a foot of 313.85 mm (from memory), long after its day: every fraction falls beside the usual ones.
        maker = replace(maker, units="inch", styles=(0.8, 0.1, 0.1, 0.0), inch=26.154 * MM)
    return replace(maker, wild=wild), wild


def _plate(b: Build) -> float | None:
    """The bore as advertised: to the nearest eighth or five millimetres; now and then that of another model."""
    if not b.chance(0.5):
        return None
    step = 5 * MM if b.maker.units == "millimetre" else INCH / 8
    other = float(b.rng.choice((-1, 1))) * step if b.chance(0.08) else 0.0
    return round(b.bore / step) * step + other


def _finished(truths: Sequence[Truth], note: str) -> tuple[Truth, ...]:
    """The truths with the number of siblings that were read filled in."""
    alike: dict[tuple[str, float | None], int] = {}
    for truth in truths:
        if not truth.resized:
            alike[truth.family, truth.nominal] = alike.get((truth.family, truth.nominal), 0) + 1
    return tuple(
        replace(truth, siblings=alike.get((truth.family, truth.nominal), 0), wild=truth.wild or note) for truth in truths
    )


def all_engines() -> tuple[Engine, ...]:
    """Every engine that the calibration is measured on."""
    return tuple(engine(number) for number in range(ENGINES))
