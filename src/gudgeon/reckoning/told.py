"""A group's posterior put into words: the size the drawing must have called for, how sure, from what, and what would settle it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

import numpy as np

from gudgeon.engine.origin import Grade, Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.metrology.guess import GUESSED, wear_place
from gudgeon.quantity.show import written_size
from gudgeon.reckoning.groups import Group
from gudgeon.reckoning.mates import Pair
from gudgeon.reckoning.siblings import Reconstructed, interval

if TYPE_CHECKING:
    from gudgeon.reckoning.reconstruct import Solved

INCH = 0.0254
WITHIN = 0.0005 * INCH
"""A nominal is the drawing's when it lies within half a thousandth of it; its probability is that of lying so."""
SURE = 0.9
FEWEST = 0.02


def told(
    group: Group,
    answer: Reconstructed,
    *,
    outline: Outline,
    readings: Mapping[FeatureKey, Sequence[Reading]],
    pairs: Sequence[Pair],
    homes: Mapping[tuple[FeatureKey, ...], Solved],
) -> dict[FeatureKey, Specification]:
    """Specifications of every instance of a group."""
    choice = choose(answer)
    specifications = {}
    mates = _mates(group, pairs, homes)
    for number, key in enumerate(group.keys):
        low, high = interval(answer.grid, answer.density[number])
        places = _places(group, number, readings.get(key, ()))
        evidence = _evidence(group, answer, number, places, mates)
        specifications[key] = Specification(
            key=key,
            dimension="length",
            nominal=choice[0].nominal,
            low=low,
            high=high,
            probability=choice[0].probability,
            origin=_origin(group, choice[0], places, readings.get(key, ()), mates),
            written=choice[0].written,
            rework=choice[0].rework,
            runners_up=choice[1:6],
            evidence=evidence,
            conflict=_conflict(group, choice[0], outline),
            settle=_settle(group, choice, places, mates),
        )
    return specifications


def choose(answer: Reconstructed) -> tuple[Candidate, ...]:
    """Candidates by falling probability; the first is the size to print.

    Probability counts everything within half a thousandth of the size. Of sizes that are themselves likely, the one with most
    about it is printed first.
    """
    keys, place = np.unique(np.round(answer.nominal * 1e9).astype(np.int64), return_inverse=True)
    own = np.bincount(place, weights=answer.chances, minlength=keys.size)
    sizes = keys * 1e-9
    kept = np.flatnonzero(own > max(0.002, 0.01 * own.max()))
    near = np.array([own[np.abs(sizes - sizes[index]) <= WITHIN + 1e-10].sum() for index in kept])
    weight = near * (own[kept] >= 0.3 * own.max()) + 1e-3 * own[kept]
    first = kept[int(np.argmax(weight))]
    chance = float(near[list(kept).index(first)])
    ranked = [first, *(index for index in kept[np.argsort(-own[kept])] if index != first)]
    found = []
    for index in ranked[:8]:
        of_it = np.flatnonzero(place == index)
        likeliest = of_it[int(np.argmax(answer.chances[of_it]))]
        found.append(
            Candidate(
                nominal=float(sizes[index]),
                written=written_size(float(sizes[index])),
                rework=_rework(float(answer.rework[likeliest])),
                probability=min(chance if index == first else float(own[index]), 1.0),
            )
        )
    return tuple(found[:1] + [each for each in found[1:] if each.probability >= FEWEST])


def _rework(amount: float) -> str:
    if abs(amount) < 1e-9:
        return ""
    thou = abs(amount) / INCH
    size = f"{thou:.4f}".rstrip("0").lstrip("0") if abs(thou * 1000 - round(thou * 1000)) > 1e-6 else f"{thou:.3f}".lstrip("0")
    return f"bored over +{size}" if amount > 0 else f"ground under −{size}"


def _places(group: Group, number: int, readings: Sequence[Reading]) -> tuple[str, ...]:
    notes = {reading.place: reading.note for reading in readings if reading.note}
    return tuple(wear_place(group.feature, each.place, notes.get(each.place, "")) for each in group.estimates[number])


def _mates(group: Group, pairs: Sequence[Pair], homes: Mapping[tuple[FeatureKey, ...], Solved]) -> tuple[tuple[str, str], ...]:
    """Words and likeliest size of each mating group."""
    keys = set(group.keys)
    found = {}
    for pair in pairs:
        other = pair.shaft if pair.hole in keys else pair.hole if pair.shaft in keys else None
        if other is None:
            continue
        home = next((solved for names, solved in homes.items() if other in names), None)
        if home is not None:
            best = choose(home.alone)[0]
            found[other.part, other.feature] = (f"{other.part} {other.feature}", best.written)
    return tuple(found.values())


def _evidence(
    group: Group, answer: Reconstructed, number: int, places: Sequence[str], mates: Sequence[tuple[str, str]]
) -> tuple[str, ...]:
    spots = group.estimates[number]
    said = []
    unworn = [each for each, place in zip(spots, places, strict=True) if place == "unworn"]
    if unworn:
        mean = float(np.mean([each.value for each in unworn]))
        said.append(f"Where nothing ran, {len(unworn)} spots stand at {mean / INCH:.4f} in on average.")
    elif group.feature.wear in ("adds", "takes"):
        least = (
            min(spots, key=lambda each: each.value) if group.feature.wear == "adds" else max(spots, key=lambda each: each.value)
        )
        said.append(f"No unworn place was read; the least worn spot stands at {least.value / INCH:.4f} in.")
    if len(group.keys) > 1:
        said.append(f"{len(group.keys)} of its like were read and must have been made to one size.")
    said += [f"Its mate, {name}, was most likely made to {size}." for name, size in mates]
    if group.feature.how == GUESSED:
        said.append("No system describes this feature: whether wear adds or takes is guessed from its words.")
    return tuple(said)


def _origin(
    group: Group, best: Candidate, places: Sequence[str], readings: Sequence[Reading], mates: Sequence[tuple[str, str]]
) -> Origin:
    unworn = sum(place == "unworn" for place in places)
    taken = sum(reading.understood.value is not None for reading in readings)
    grade: Grade = "E"
    if unworn and taken >= 2 and unworn >= min(2, len(places)):
        grade, source = "B", "readings of an unworn place"
    elif mates and best.probability > 0.5:
        grade, source = "C", "readings, its mate, and the sizes of the time"
    elif len(group.keys) > 1 and best.probability > 0.5:
        grade, source = "C", f"readings of {len(group.keys)} alike, and the sizes of the time"
    else:
        source = "readings, the usual wear, and the sizes of the time"
    return Origin(grade, f"reconstructed from {source}")


def _conflict(group: Group, best: Candidate, outline: Outline) -> str:
    if group.feature.family != "bore" or not outline.bore or abs(best.nominal - outline.bore) < 0.008 * INCH:
        return ""
    return (
        f"The plate or advertisement says {outline.bore_typed or written_size(outline.bore)}, "
        f"the readings say {best.written} ({best.probability * 100:.0f} in 100): the readings are followed."
    )


def _settle(group: Group, choice: Sequence[Candidate], places: Sequence[str], mates: Sequence[tuple[str, str]]) -> str:
    """The one reading that would most narrow the size."""
    best = choice[0]
    rival = next((each for each in choice[1:] if abs(each.nominal - best.nominal) > WITHIN), None)
    if best.probability > SURE or rival is None:
        return ""
    wears = group.feature.wear in ("adds", "takes")
    offset = max((each.shared for instance in group.estimates for each in instance), default=0.0)
    own = float(np.median([each.own for instance in group.estimates for each in instance]))
    between = f"it would tell {best.written} from {rival.written}"
    if wears and "unworn" not in places:
        levels = [level.name for level in group.feature.levels if level.wear == "unworn"]
        where = levels[0] if levels else "where nothing ran on it"
        return f"Read it {where if where.startswith(('below', 'above', 'where')) else 'at ' + where}: {between}."
    if offset > max(own, abs(rival.nominal - best.nominal) / 4):
        return f"Check the gauge on a setting standard near this size: {between}."
    if not mates and wears:
        return f"Read the part that runs with it, where that is unworn: {between}."
    if len(group.keys) == 1:
        return f"Read another one like it, if there is one: {between}."
    return f"Read it with a finer gauge, three times at each spot: {between}."
