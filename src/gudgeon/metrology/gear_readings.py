"""What was read of each gear, and which gears run together, by the words of their features."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import FeatureKey
from gudgeon.metrology.gear_identity import GearReadings, Read

_GEAR = re.compile(r"\bgears?\b|pinion|tooth|teeth")
_SPAN = re.compile(r"span over (\d+)")
_PINS = re.compile(r"over pins of ([\d.]+|\d+/\d+)")
_CENTRES = re.compile(r"cent(re|er) distance|cent(re|er)s")
_CHORD = re.compile(r"chordal thickness|chordal tooth thickness|tooth thickness")
INCH = 0.0254

Told = tuple[FeatureKey, Read]


@dataclass
class GearFound:
    """What was read of one gear: each feature with all its spots taken together; ``teeth`` is the count."""

    name: tuple[str, str]
    teeth: tuple[FeatureKey, int] | None = None
    outside: Told | None = None
    root: Told | None = None
    spans: dict[int, Told] = field(default_factory=dict)
    pins: dict[float, Told] = field(default_factory=dict)
    chord: Told | None = None

    @property
    def item(self) -> str:
        """The instance's name."""
        return self.name[1]

    @property
    def count(self) -> int:
        """The number of teeth; only of gears whose teeth were counted."""
        assert self.teeth is not None
        return self.teeth[1]

    def readings(self, pair: Sequence[GearFound], centre: Told | None) -> GearReadings:
        """For the identification; the centre distance is one reading, told to the first gear of a pair only."""
        first = self is pair[0] and centre is not None and len(pair) == 2
        return GearReadings(
            teeth=self.count,
            outside=self.outside[1] if self.outside else None,
            root=self.root[1] if self.root else None,
            spans={count: read for count, (_, read) in self.spans.items()},
            pins={pin: read for pin, (_, read) in self.pins.items()},
            chord=self.chord[1] if self.chord else None,
            centre=centre[1] if first and centre is not None else None,
            mate_teeth=pair[1].count if first else None,
        )


@dataclass(frozen=True, slots=True)
class GearSet:
    """One gear, or two that run together with their centre distance."""

    gears: tuple[GearFound, ...]
    centre: Told | None = None

    @property
    def readings(self) -> list[GearReadings]:
        """For the identification."""
        return [gear.readings(self.gears, self.centre) for gear in self.gears]


def gears_read(
    estimates: Mapping[FeatureKey, Sequence[Estimate]], *, counts: Mapping[FeatureKey, int] | None = None
) -> list[GearSet]:
    """Every gear whose teeth were counted, by itself or with its mate.

    Two gears of one part run together where just one pair's outside diameters suit a centre distance that was read.
    ``counts`` overrule the mean of the counts that were read, where two counts differ.
    """
    gears, centres = _gears(estimates, counts or {})
    left = {name: gear for name, gear in gears.items() if gear.teeth is not None}
    found: list[GearSet] = []
    for centre in centres:
        names = [name for name in left if name[0] == centre[0].part]
        pairs = [(one, other) for place, one in enumerate(names) for other in names[place + 1 :]]
        fitting = [pair for pair in pairs if _suits(left[pair[0]], left[pair[1]], centre[1].size)]
        if len(fitting) == 1:
            found.append(GearSet(tuple(left.pop(name) for name in fitting[0]), centre))
    return found + [GearSet((gear,)) for gear in left.values()]


def _gears(
    estimates: Mapping[FeatureKey, Sequence[Estimate]], counts: Mapping[FeatureKey, int]
) -> tuple[dict[tuple[str, str], GearFound], list[Told]]:
    gears: dict[tuple[str, str], GearFound] = {}
    centres: list[Told] = []
    for key, spots in estimates.items():
        if not spots or not _GEAR.search(f"{key.part} {key.item} {key.feature}".lower()):
            continue
        gear = gears.setdefault((key.part, key.item), GearFound((key.part, key.item)))
        feature = key.feature.lower().replace("_", " ")
        if spots[0].dimension == "count" and re.search(r"tooth|teeth", feature):
            gear.teeth = (key, counts.get(key, round(spots[0].value)))
        elif spots[0].dimension == "length" and _CENTRES.search(feature):
            centres.append((key, read_of(spots)))
        elif spots[0].dimension == "length":
            _sort(gear, feature, (key, read_of(spots)))
    return gears, centres


def _sort(gear: GearFound, feature: str, told: Told) -> None:
    spanned, pins = _SPAN.search(feature), _PINS.search(feature)
    if spanned:
        gear.spans[int(spanned.group(1))] = told
    elif pins:
        top, _, under = pins.group(1).partition("/")
        gear.pins[float(top) / float(under or 1) * INCH] = told
    elif "root" in feature:
        gear.root = told
    elif "outside" in feature:
        gear.outside = told
    elif _CHORD.search(feature):
        gear.chord = told


def read_of(spots: Sequence[Estimate]) -> Read:
    """All spots of a feature together: their mean, its own part averaged, the gauge's offset not."""
    mean = math.fsum(each.value for each in spots) / len(spots)
    own = math.sqrt(math.fsum(each.own**2 for each in spots)) / len(spots)
    return Read(size=mean, uncertainty=math.hypot(own, spots[0].shared))


def _suits(one: GearFound, other: GearFound, centre: float) -> bool:
    """Do two outside diameters leave two addenda more than the centre distance asks?"""
    if one.outside is None or other.outside is None:
        return True
    module = one.outside[1].size / (one.count + 2)
    return abs((one.count + other.count) * module / 2 - centre) < 0.03 * centre
