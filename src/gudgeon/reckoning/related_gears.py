"""Manual lines of spur gears: tooth size and pressure angle from all readings of a gear, or of a pair, together."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.quantity.show import written_size
from gudgeon.reckoning.relations_gears import (
    CENTRE_SPREAD,
    OUTSIDE_SPREAD,
    ROOT_SPREAD,
    SPAN_SPREAD,
    GearCandidate,
    GearReadings,
    Read,
    centre_distance,
    identify_gear,
    outside_diameter,
    root_diameter,
    span,
)
from gudgeon.reckoning.relations_volumes import drive_ratio

_SPAN = re.compile(r"span over (\d+)")
_CENTRES = re.compile(r"cent(re|er) distance|cent(re|er)s")


@dataclass
class _Gear:
    """What was read of one gear."""

    teeth: tuple[FeatureKey, int] | None = None
    outside: tuple[FeatureKey, Read] | None = None
    root: tuple[FeatureKey, Read] | None = None
    spans: dict[int, tuple[FeatureKey, Read]] = field(default_factory=dict)


def gear_specifications(
    estimates: Mapping[FeatureKey, Sequence[Estimate]], counted: Mapping[FeatureKey, Specification]
) -> dict[FeatureKey, Specification]:
    """Lines for every feature of every gear whose teeth were counted."""
    gears, centres = _gears(estimates, counted)
    toothed = {name: gear for name, gear in gears.items() if gear.teeth is not None}
    found: dict[FeatureKey, Specification] = {}
    for names, centre in _together(toothed, centres):
        pair = [toothed[name] for name in names]
        candidates = identify_gear([_readings(gear, pair, centre) for gear in pair])
        for gear in pair:
            found.update(_gear_lines(gear, candidates, counted, mates=[other for other in pair if other is not gear]))
        if centre is not None:
            found[centre[0]] = _centre_line(centre, pair, candidates)
    return found


def _gears(
    estimates: Mapping[FeatureKey, Sequence[Estimate]], counted: Mapping[FeatureKey, Specification]
) -> tuple[dict[tuple[str, str], _Gear], list[tuple[FeatureKey, Read]]]:
    gears: dict[tuple[str, str], _Gear] = {}
    centres = []
    for key, spots in estimates.items():
        words = f"{key.part} {key.item} {key.feature}".lower()
        if not re.search(r"\bgears?\b|pinion|tooth|teeth", words):
            continue
        gear = gears.setdefault((key.part, key.item), _Gear())
        feature = key.feature.lower()
        spanned = _SPAN.search(feature)
        if spots[0].dimension == "count" and re.search(r"tooth|teeth", feature):
            nominal = counted[key].nominal if key in counted else None
            gear.teeth = (key, round(nominal)) if nominal else None
        elif spots[0].dimension != "length":
            continue
        elif _CENTRES.search(feature):
            centres.append((key, _read(spots)))
        elif spanned:
            gear.spans[int(spanned.group(1))] = (key, _read(spots))
        elif "root" in feature:
            gear.root = (key, _read(spots))
        elif "outside" in feature:
            gear.outside = (key, _read(spots))
    return gears, centres


def _read(spots: Sequence[Estimate]) -> Read:
    """All spots of a feature together: their mean, its own part averaged, the gauge's offset not."""
    mean = math.fsum(each.value for each in spots) / len(spots)
    own = math.sqrt(math.fsum(each.own**2 for each in spots)) / len(spots)
    return Read(size=mean, uncertainty=math.hypot(own, spots[0].shared))


Named = tuple[str, str]


def _together(
    gears: Mapping[Named, _Gear], centres: Sequence[tuple[FeatureKey, Read]]
) -> list[tuple[tuple[Named, ...], tuple[FeatureKey, Read] | None]]:
    """Gears that run together: the two of a part whose outside diameters suit a centre distance, else each for itself."""
    left = dict(gears)
    found: list[tuple[tuple[Named, ...], tuple[FeatureKey, Read] | None]] = []
    for centre in centres:
        names = [name for name in left if name[0] == centre[0].part]
        pairs = [(one, other) for place, one in enumerate(names) for other in names[place + 1 :]]
        fitting = [pair for pair in pairs if _suits(left[pair[0]], left[pair[1]], centre[1].size)]
        if len(fitting) == 1:
            found.append((fitting[0], centre))
            for name in fitting[0]:
                del left[name]
    return found + [((name,), None) for name in left]


def _suits(one: _Gear, other: _Gear, centre: float) -> bool:
    """Do two outside diameters leave two addenda more than the centre distance asks?"""
    if one.outside is None or other.outside is None or one.teeth is None or other.teeth is None:
        return True
    module = one.outside[1].size / (one.teeth[1] + 2)
    return abs((one.teeth[1] + other.teeth[1]) * module / 2 - centre) < 0.03 * centre


def _readings(gear: _Gear, pair: Sequence[_Gear], centre: tuple[FeatureKey, Read] | None) -> GearReadings:
    assert gear.teeth is not None
    # the centre distance is one reading: it is told to the first gear of the pair only
    first = gear is pair[0] and centre is not None and len(pair) == 2
    mate = pair[1].teeth if first else None
    return GearReadings(
        teeth=gear.teeth[1],
        outside=gear.outside[1] if gear.outside else None,
        root=gear.root[1] if gear.root else None,
        spans={count: read for count, (_, read) in gear.spans.items()},
        centre=centre[1] if first and centre is not None else None,
        mate_teeth=mate[1] if mate else None,
    )


def _gear_lines(
    gear: _Gear,
    candidates: tuple[GearCandidate, ...],
    counted: Mapping[FeatureKey, Specification],
    *,
    mates: Sequence[_Gear],
) -> dict[FeatureKey, Specification]:
    assert gear.teeth is not None
    key, teeth = gear.teeth
    lines = {}
    if key in counted:
        lines[key] = _with_ratio(counted[key], teeth, mates)
    if gear.outside:
        sizes = [outside_diameter(teeth=teeth, module=each.pitch.module, addendum=each.addendum) for each in candidates]
        lines[gear.outside[0]] = _line(*gear.outside, sizes, candidates, OUTSIDE_SPREAD)
    if gear.root:
        sizes = [root_diameter(teeth=teeth, module=each.pitch.module, addendum=each.addendum) for each in candidates]
        lines[gear.root[0]] = _line(*gear.root, sizes, candidates, ROOT_SPREAD)
    for spanned, (name, read) in gear.spans.items():
        sizes = [span(teeth=teeth, spanned=spanned, module=each.pitch.module, angle_degree=each.angle) for each in candidates]
        lines[name] = _line(name, read, sizes, candidates, SPAN_SPREAD)
    return lines


def _with_ratio(line: Specification, teeth: int, mates: Sequence[_Gear]) -> Specification:
    from dataclasses import replace

    said = []
    for mate in mates:
        if mate.teeth is not None:
            ratio: Fraction = drive_ratio(driver=teeth, driven=mate.teeth[1])
            said.append(f"It turns {ratio} times for one turn of {mate.teeth[0].item} ({mate.teeth[1]} teeth).")
    return replace(line, evidence=(*line.evidence, *said))


def _centre_line(
    centre: tuple[FeatureKey, Read], pair: Sequence[_Gear], candidates: tuple[GearCandidate, ...]
) -> Specification:
    teeth = [gear.teeth[1] for gear in pair if gear.teeth is not None]
    sizes = [centre_distance(teeth=teeth[0], mate_teeth=teeth[1], module=each.pitch.module) for each in candidates]
    return _line(*centre, sizes, candidates, CENTRE_SPREAD)


def _line(
    key: FeatureKey, read: Read, sizes: Sequence[float], candidates: tuple[GearCandidate, ...], spread: float
) -> Specification:
    """The size that each candidate asks for; sizes that agree within half a thousandth add up."""
    nominal = sizes[0]
    chances = [each.probability for each in candidates]
    agreeing = math.fsum(chance for size, chance in zip(sizes, chances, strict=True) if abs(size - nominal) < 0.0005 * 0.0254)
    first = candidates[0]
    # what this gear measured when new lies between what was read, less its wear, and what the tooth form asks for
    weight = spread**2 / (spread**2 + read.uncertainty**2)
    middle = nominal + weight * (read.size - nominal)
    half = 1.645 * math.hypot(spread * read.uncertainty / math.hypot(spread, read.uncertainty), 0.25 * spread)
    runners = tuple(
        Candidate(size, f"{written_size(size)} ({_tooth(each)})", "", each.probability)
        for size, each in zip(sizes[1:6], candidates[1:6], strict=True)
        if each.probability > 0.02
    )
    return Specification(
        key=key,
        dimension="length",
        nominal=nominal,
        low=middle - half,
        high=middle + half + 0.25 * spread,
        probability=min(agreeing, 1.0),
        origin=Origin("C", f"all readings of the gear together; {first.pitch.source}"),
        written=f"{written_size(nominal)} ({_tooth(first)})",
        runners_up=runners,
        evidence=(f"{_tooth(first)} fits best, {first.probability * 100:.0f} in 100.",),
        settle=_settle(candidates),
    )


def _tooth(candidate: GearCandidate) -> str:
    stub = "" if candidate.addendum == 1.0 else ", stub"
    return f"{candidate.pitch.written}, {candidate.angle:g}°{stub}"


def _settle(candidates: Sequence[GearCandidate]) -> str:
    likely = [each for each in candidates if each.probability > 0.05]
    if len(likely) < 2:
        return ""
    if likely[0].angle != likely[1].angle:
        return (
            "Read the span over some teeth and over one more with a finer gauge: "
            f"the difference tells {likely[0].angle:g}° from {likely[1].angle:g}°."
        )
    return f"Read the centre distance of the pair: it tells {_tooth(likely[0])} from {_tooth(likely[1])}."
