"""Which reading to take next: how often, over all that it could show, it would change the choice.

A preposterior analysis on the draws of the reckoning itself (Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961).
For each reading that could still be taken, its result is simulated in every draw as the size there plus the error of such a
reading. The draws are sorted by that result and cut into equal groups; inside a group the result is all but the same, so the
group's mean is what each remedy would be worth after such a result. A group changes the choice where another remedy than the
present one comes out best there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.prospect import CHANCE_NEEDED, PossibleReading, Prospect
from gudgeon.engine.remedy import NextReading
from gudgeon.quantity.draws import generator

GROUPS = 16
LEAST_CHANCE = 0.005


def next_readings(prospect: Prospect, *, gain: Mapping[str, float]) -> tuple[NextReading, ...]:
    """Readings that could change the choice, the likeliest to do so first; none where no reading would.

    Parameters
    ----------
    gain : per remedy key, what one unit of its worth adds to its score. Remedies that are not possible as things stand are in
        it too, since a reading may make one possible.
    """
    keys = [key for key in gain if key in prospect.worth]
    if len(keys) < 2 or not prospect.readings:
        return ()
    utilities = np.stack([gain[key] * prospect.worth[key] for key in keys])
    allowed = _allowed(prospect, keys)
    present = _choice(utilities.mean(axis=1), allowed.mean(axis=1))
    found = [(chance_of_change(each, utilities, allowed, present), each) for each in prospect.readings]
    found = sorted((pair for pair in found if pair[0] > LEAST_CHANCE), key=lambda pair: -pair[0])
    return tuple(
        NextReading(
            part=each.part, item=each.item, feature=each.feature, chance_of_change=chance, why=each.why, minutes=each.minutes
        )
        for chance, each in found
    )


def chance_of_change(
    reading: PossibleReading, utilities: NDArray[np.float64], allowed: NDArray[np.bool_], present: int
) -> float:
    """Share of the reading's possible results after which another remedy would be chosen.

    ``utilities`` and ``allowed`` have shape (remedies, draws); ``present`` is the row chosen now. A better remedy counts only
    where it leads by more than twice the standard error of the difference in its group, so that chance in the draws is not
    taken for knowledge.
    """
    noise = generator("next reading", reading.part, reading.item, reading.feature).standard_normal(utilities.shape[1])
    order = np.argsort(reading.would_show + reading.uncertainty * noise, kind="stable")
    changed = 0
    for group in np.array_split(order, GROUPS):
        inside = utilities[:, group]
        means, chances = inside.mean(axis=1), allowed[:, group].mean(axis=1)
        best = _choice(means, chances)
        if best == present:
            continue
        if chances[present] < CHANCE_NEEDED:
            changed += group.size
            continue
        lead = inside[best] - inside[present]
        if lead.mean() > 2.0 * lead.std() / np.sqrt(group.size):
            changed += group.size
    return changed / int(utilities.shape[1])


def _choice(means: NDArray[np.float64], chances: NDArray[np.float64]) -> int:
    """The row of the best remedy among those allowed with chance enough; of all of them where none is."""
    fit = chances >= CHANCE_NEEDED
    return int(np.argmax(np.where(fit, means, -np.inf) if fit.any() else means))


def _allowed(prospect: Prospect, keys: Sequence[str]) -> NDArray[np.bool_]:
    count = next(iter(prospect.worth.values())).size
    return np.stack([prospect.allowed.get(key, np.ones(count, dtype=bool)) for key in keys])
