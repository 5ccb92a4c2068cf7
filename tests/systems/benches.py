"""Benches built by hand: bores whose wear is known, read with plain normal noise."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache

import numpy as np

from gudgeon.engine.bench import Bench, Draws
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.reading import Reading
from gudgeon.engine.snapshot import Aims, Price, Snapshot
from gudgeon.engine.specification import Specification
from gudgeon.quantity import Understood
from gudgeon.quantity.draws import standard_normal

INCH = 0.0254
THOU = 1e-3 * INCH
COUNT = 4000
DEPTHS = {
    "top land, above ring travel": 0.25,
    "top of ring travel": 0.75,
    "upper ring travel": 2.25,
    "middle of ring travel": 3.75,
    "bottom of ring travel": 6.1,
    "below ring travel": 7.75,
}
SHARE = {
    "top land, above ring travel": 0.0,
    "top of ring travel": 1.0,
    "upper ring travel": 0.5,
    "middle of ring travel": 0.25,
    "bottom of ring travel": 0.1,
    "below ring travel": 0.0,
}


@dataclass
class Maker:
    """Collects readings and makes a bench of them. ``noise`` is the standard uncertainty of every reading [m]."""

    outline: Outline
    noise: float = 0.05 * THOU
    aims: Aims = field(default_factory=Aims)
    prices: Mapping[str, Price] = field(default_factory=dict)
    readings: list[Reading] = field(default_factory=list)
    estimates: dict[FeatureKey, list[Estimate]] = field(default_factory=dict)
    originals: dict[FeatureKey, float] = field(default_factory=dict)
    returned: dict[FeatureKey, list[Estimate]] = field(default_factory=dict)
    fitted: dict[FeatureKey, list[Estimate]] = field(default_factory=dict)

    def read(
        self,
        part: str,
        item: str,
        feature: str,
        value: float,
        *,
        station: str = "",
        depth: float | None = None,
        direction: float | None = None,
        note: str = "",
        stage: str = "found",
        noise: float | None = None,
        dimension: str = "length",
    ) -> None:
        place = Place(part=part, item=item, feature=feature, station=station, depth=depth, direction=direction)
        identity = f"r{len(self.readings) + 1}"
        understood = Understood(kind="point", dimension=dimension, value=value)
        self.readings.append(
            Reading(id=identity, place=place, typed=str(value), unit="m", understood=understood, note=note, stage=stage)  # type: ignore[arg-type]
        )
        u = self.noise if noise is None else noise
        estimate = Estimate(
            place=place, dimension=dimension, value=value, uncertainty=u, own=u, freedom=math.inf,
            low=value - 1.645 * u, high=value + 1.645 * u, readings=(identity,),
        )  # fmt: skip
        store = {"found": self.estimates, "returned": self.returned, "fitted": self.fitted}[stage]
        store.setdefault(place.key, []).append(estimate)

    def words(self, part: str, item: str, feature: str, text: str) -> None:
        place = Place(part=part, item=item, feature=feature)
        identity = f"r{len(self.readings) + 1}"
        self.readings.append(
            Reading(id=identity, place=place, typed=text, unit="", understood=Understood(kind="words", words=text))
        )

    def bore(
        self, item: str, *, nominal: float, wear: float, oval: float = 0.3, directions: Sequence[float] = (0, 45, 90, 135)
    ) -> None:
        """A bore worn by ``wear`` at the top, across the crank; ``oval`` is the share by which it is less along the crank."""
        for level, depth in DEPTHS.items():
            for direction in directions:
                here = wear * SHARE[level] * (1 - oval * (0.5 + 0.5 * math.cos(2 * math.radians(direction))))
                self.read(
                    "cylinder", item, "bore diameter", nominal + here, station=level, depth=depth * INCH, direction=direction
                )
        self.originals[FeatureKey("cylinder", item, "bore diameter")] = nominal

    def wall(self, item: str, *, thinnest: float, shift: float = 0.0, noise: float = 0.05e-3) -> None:
        for level in ("top of ring travel", "middle of ring travel"):
            for direction in range(0, 360, 45):
                value = thinnest + shift * (1 - math.cos(math.radians(direction - 225)))
                self.read(
                    "cylinder", item, "wall thickness", value, station=level, depth=DEPTHS[level] * INCH,
                    direction=direction, noise=noise,
                )  # fmt: skip

    def bench(self) -> Bench:
        snapshot = Snapshot(
            outline=self.outline, readings=tuple(self.readings), aims=self.aims, prices=dict(self.prices), head="test"
        )

        @cache
        def named(name: str) -> Draws:
            return np.asarray(standard_normal("named", name, count=COUNT))

        @cache
        def spot(estimate: Estimate) -> Draws:
            noise = standard_normal(str(estimate.place), estimate.readings, count=COUNT)
            return estimate.value + estimate.uncertainty * noise

        @cache
        def original(key: FeatureKey) -> Draws | None:
            if key not in self.originals:
                return None
            return self.originals[key] + 0.1 * THOU * standard_normal("original", str(key), count=COUNT)

        specifications = {
            key: Specification(
                key=key, dimension="length", nominal=value, low=value - 0.2 * THOU, high=value + 0.2 * THOU, probability=0.95,
                origin=Origin("B", "readings below the ring travel"), written="4 1/2",
            )
            for key, value in self.originals.items()
        }  # fmt: skip
        return Bench(
            snapshot=snapshot,
            estimates={key: tuple(each) for key, each in self.estimates.items()},
            specifications=specifications,
            count=COUNT,
            spot=spot,
            original=original,
            named=named,
            returned={key: tuple(each) for key, each in self.returned.items()},
            fitted={key: tuple(each) for key, each in self.fitted.items()},
        )


def three_cylinders(*, wears: Sequence[float] = (14.0, 10.0, 11.0), wall: float | None = 7.0e-3, speed: float = 450) -> Maker:
    """An engine of three 4 1/2 in cylinders, worn by so many thou at the top, with pistons, rings and walls read."""
    maker = Maker(
        outline=Outline(name="test engine", cylinders=3, rings_per_piston=3, rated_speed=speed, fuel="petrol", head="integral")
    )
    for n, wear in enumerate(wears, 1):
        maker.bore(f"cyl {n}", nominal=4.5 * INCH, wear=wear * THOU)
        maker.read("piston", f"piston {n}", "skirt diameter", (4.5 - 0.006) * INCH, station="skirt bottom", direction=90)
        maker.read("ring", f"cyl {n} top ring", "end gap in unworn belt", 0.020 * INCH, noise=0.3 * THOU)
        maker.read("cylinder", f"cyl {n}", "pit depth", 0.0)
        maker.words("cylinder", f"cyl {n}", "crack", "none seen")
        maker.words("piston", f"piston {n}", "material", "cast iron, magnet holds")
        if wall is not None:
            maker.wall(f"cyl {n}", thinnest=wall, shift=0.5e-3)
    return maker
