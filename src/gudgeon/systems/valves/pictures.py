"""What to draw of the valves: force of each spring over its length, key findings on a scale."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Curve, Picture, Strip
from gudgeon.systems.judging import middle
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.findings import findings
from gudgeon.systems.valves.lash import LASH
from gudgeon.systems.valves.seats import MARGIN_AFTER
from gudgeon.systems.valves.spring_findings import LEFT, force_left, spring
from gudgeon.systems.valves.stems import TOP
from gudgeon.systems.valves.valve_set import ValveSet

STRIPS = (TOP, MARGIN_AFTER, LASH, LEFT)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture: the springs, then a strip per key finding."""
    valves = ValveSet.of(bench)
    found: list[tuple[str, Picture]] = []
    if (curve := spring_curve(valves)) is not None:
        found.append(("valve springs", curve))
    found += [(f"{finding.item} {finding.quantity}", Strip(finding=finding)) for finding in _key_findings(findings(bench))]
    return tuple(found)


def _key_findings(found: tuple[Finding, ...]) -> list[Finding]:
    """Of each key quantity the first authority whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in found:
        if finding.quantity not in STRIPS or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return list(chosen.values())


def spring_curve(valves: ValveSet) -> Curve | None:
    """Force over length of the two weakest and the two strongest springs, from free to open or the shortest length read."""
    curves, marks = [], list[tuple[str, float]]()
    for item in _ends(valves):
        one = spring(item, valves)
        assert one.rate is not None
        assert one.free is not None
        rate, free = middle(one.rate[0]), one.free.value
        opened = one.length(d.OPEN)
        short = middle(opened[0]) if opened else min((middle(at) for at, _ in one.forces), default=0.75 * free)
        points = tuple((at, max(rate * (free - at), 0.0)) for at in np.linspace(short, free, 9))
        curves.append((item, points))
        fitted = one.length(d.FITTED)
        if fitted and not marks:
            marks.append(("valve shut", middle(fitted[0])))
            marks.append(("valve open", short))
    if not curves:
        return None
    return Curve(
        title="Valve springs: force over length",
        x_text="length [in]",
        y_text="force [lbf]",
        curves=tuple((name, tuple((x / d.INCH, y / 4.4482216152605) for x, y in points)) for name, points in curves),
        marks=tuple((name, at / d.INCH) for name, at in marks),
    )


def _ends(valves: ValveSet) -> tuple[str, ...]:
    """The springs to draw: by what is left of their force, else by their rate, the two at either end."""
    known = {}
    for item in valves.springs:
        one = spring(item, valves)
        if one.rate is not None and one.free is not None:
            left = force_left(one)
            known[item] = middle(left[0] if left is not None else one.rate[0])
    ranked = sorted(known, key=lambda item: known[item])
    return tuple(ranked) if len(ranked) <= 4 else (*ranked[:2], *ranked[-2:])
