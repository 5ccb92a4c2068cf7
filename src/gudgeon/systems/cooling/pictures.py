"""What to draw of the cooling: key findings on their scales."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.picture import Picture
from gudgeon.systems.cooling import description as d
from gudgeon.systems.cooling.findings import findings
from gudgeon.systems.cooling.shaft import IN_BUSH, SCORE
from gudgeon.systems.cooling.water import MOVED
from gudgeon.systems.kit import strips


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture."""
    return tuple(strips(findings(bench), (IN_BUSH, SCORE, d.END_PLAY.name, MOVED, d.OUTLET.name, d.LEVEL.name)))
