"""A group's posterior put into words: the size the drawing called for, how sure, from what, and what would settle it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Grade, Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.engine.system import Feature
from gudgeon.metrology.guess import GUESSED
from gudgeon.quantity.show import written_size
from gudgeon.reckoning.groups import DOUBTED_PLACE, Group
from gudgeon.reckoning.siblings import Reconstructed, interval

INCH = 0.0254
WITHIN = 0.0005 * INCH
"""A nominal is the drawing's when it lies within half a thousandth of it; its probability is that of lying so."""
AT_THE_EDGE = 0.6
ITSELF_LIKELY = 0.2
"""A size is printed only if it is itself at least so likely beside the likeliest."""
CONTRADICTED = 0.6
"""What is left of a probability where readings of one instance contradict each other."""
NEVER_SURE = 0.985
"""Share of cases in which the model itself holds: parts were swapped, made by eye, or never of one size."""
SURE = 0.9
FEWEST = 0.02


def told(
    group: Group, answer: Reconstructed, *, outline: Outline, mates: Sequence[tuple[str, Reconstructed]]
) -> dict[FeatureKey, Specification]:
    """Specifications of every instance of a group; ``mates`` are the posteriors of what ran with it, by name."""
    choice = choose(answer, group.feature.family)
    lines = {}
    sizes = tuple((name, choose(mate, "")[0].written) for name, mate in mates)
    for number, key in enumerate(group.keys):
        low, high = interval(answer.grid, answer.density[number])
        odd = _at_odds(group, number)
        low, high = min([low, *(each.low for each in odd)]), max([high, *(each.high for each in odd)])
        lines[key] = Specification(
            key=key,
            dimension="length",
            nominal=choice[0].nominal,
            low=low,
            high=high,
            probability=choice[0].probability * (CONTRADICTED if odd else 1.0),
            origin=_origin(group, number, choice[0], sizes),
            written=choice[0].written,
            rework=choice[0].rework,
            runners_up=choice[1:6],
            evidence=_evidence(group, number, sizes),
            conflict=" ".join(filter(None, (_conflict(group, choice[0], outline), _said_at_odds(odd)))),
            settle=_settle(group, number, choice, sizes),
        )
    return lines


@lru_cache(maxsize=2048)
def choose(answer: Reconstructed, family: str) -> tuple[Candidate, ...]:
    """Candidates by falling probability; the first is the size to print.

    Probability counts everything within half a thousandth of the size. Of sizes that are themselves likely, the one with most
    about it is printed first.
    """
    keys, place = np.unique(np.round(answer.nominal * 1e9).astype(np.int64), return_inverse=True)
    own = np.bincount(place, weights=answer.chances, minlength=keys.size)
    sizes = keys * 1e-9
    kept = np.flatnonzero(own > max(0.002, 0.01 * own.max()))
    away = np.abs(sizes[None, :] - sizes[kept, None])
    near = ((away <= WITHIN + 1e-10) * own).sum(axis=1)
    # a size right at the edge counts for less than one well inside: its other edge may be the drawing's
    inside = ((away < WITHIN - 1e-10) * own).sum(axis=1)
    weight = (inside + AT_THE_EDGE * (near - inside)) * (own[kept] >= ITSELF_LIKELY * own.max()) + 1e-3 * own[kept]
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
                rework=_rework(float(answer.rework[likeliest]), family),
                probability=NEVER_SURE * min(chance if index == first else float(own[index]), 1.0),
            )
        )
    return tuple(found[:1] + [each for each in found[1:] if each.probability >= FEWEST])


def _rework(amount: float, family: str) -> str:
    """How a size was changed since, in words: "bored over +.020", "ground under −.010", "made over +.005" (a larger piston)."""
    if abs(amount) < 1e-9:
        return ""
    word = {"bore": "bored over", "piston": "made over", "pin": "made over", "stem": "made over"}.get(family, "opened out")
    thou = abs(amount) / INCH
    size = f"{thou:.4f}".rstrip("0").lstrip("0") if abs(thou * 1000 - round(thou * 1000)) > 1e-6 else f"{thou:.3f}".lstrip("0")
    return f"{word} +{size}" if amount > 0 else f"ground under −{size}"


def _evidence(group: Group, number: int, mates: Sequence[tuple[str, str]]) -> tuple[str, ...]:
    spots, places = group.estimates[number], group.places[number]
    said = []
    unworn = [each.value for each, place in zip(spots, places, strict=True) if place == "unworn"]
    if unworn:
        mean = sum(unworn) / len(unworn)
        said.append(f"Where nothing ran, {_spots(len(unworn))} at {mean / INCH:.4f} in{' on average' * (len(unworn) > 1)}.")
    elif group.feature.wear in ("adds", "takes"):
        values = [each.value for each in spots]
        least = min(values) if group.feature.wear == "adds" else max(values)
        said.append(f"No unworn place was read; the least worn spot stands at {least / INCH:.4f} in.")
    if len(group.keys) > 1:
        said.append(f"{len(group.keys)} of its like were read and are taken to have been made to one size.")
    said += [f"Its mate, {name}, by its own readings was most likely set to {size}." for name, size in mates]
    if group.feature.how == GUESSED:
        said.append("No system describes this feature: whether wear adds or takes is guessed from its words.")
    return tuple(said)


def _spots(count: int) -> str:
    return "one spot stands" if count == 1 else f"{count} spots stand"


def _origin(group: Group, number: int, best: Candidate, mates: Sequence[tuple[str, str]]) -> Origin:
    places = group.places[number]
    unworn = [each for each, place in zip(group.estimates[number], places, strict=True) if place == "unworn"]
    grade: Grade = "E"
    if sum(len(each.readings) for each in unworn) >= 2:
        grade, source = "B", "readings of an unworn place"
    elif mates and best.probability > 0.5:
        grade, source = "C", "readings, its mate, and the sizes of the time"
    elif len(group.keys) > 1 and best.probability > 0.5:
        grade, source = "C", f"readings of {len(group.keys)} alike, and the sizes of the time"
    else:
        source = "readings, the usual wear, and the sizes of the time"
    return Origin(grade, f"reconstructed from {source}")


def plate_size(feature: Feature, outline: Outline) -> float | None:
    """What the plate or an advertisement says of a feature [m]: the bore, the stroke, or half of it for a throw."""
    words = f"{feature.part} {feature.name}".lower()
    if feature.family == "bore":
        return outline.bore
    if "stroke" in words:
        return outline.stroke
    return outline.stroke / 2 if "throw" in words and outline.stroke else None


def _conflict(group: Group, best: Candidate, outline: Outline) -> str:
    plate = plate_size(group.feature, outline)
    if plate is None or abs(best.nominal - plate) < 0.008 * INCH:
        return ""
    return (
        f"The plate or advertisement leads to {written_size(plate)}, the readings to {best.written} "
        f"({best.probability * 100:.0f} in 100): the readings are followed."
    )


def _at_odds(group: Group, number: int) -> list[Estimate]:
    """Spots of an instance that should be unworn and cannot all be; none where they agree."""
    spots, places = group.estimates[number], group.places[number]
    return [each for each, place in zip(spots, places, strict=True) if place == DOUBTED_PLACE]


def _said_at_odds(odd: Sequence[Estimate]) -> str:
    if not odd:
        return ""
    values = [each.value for each in odd]
    return (
        f"Where nothing should have run, spots stand {(max(values) - min(values)) / INCH:.4f} in apart: "
        "one is misread, or has worn. Read them again."
    )


def _settle(group: Group, number: int, choice: Sequence[Candidate], mates: Sequence[tuple[str, str]]) -> str:
    """The one reading that would most narrow the size; "" where none is wanted."""
    places = group.places[number]
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
