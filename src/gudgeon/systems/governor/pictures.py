"""What to draw of the governor: speed over sleeve travel as found and made good, and the key findings on a scale."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Curve as Drawn
from gudgeon.engine.picture import Picture, Strip
from gudgeon.mechanics.governors import friction_speeds
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.curve import Condition, Curve, Spring, as_found, curve_of, rebuilt, repinned
from gudgeon.systems.governor.findings import findings
from gudgeon.systems.governor.governor_set import RPM, GovernorSet
from gudgeon.systems.governor.joint_ways import JOINTS, condition_after
from gudgeon.systems.governor.joints import GRIP, PIN_PLAY
from gudgeon.systems.governor.running import FULL, WANDER
from gudgeon.systems.governor.spring_ways import ordered
from gudgeon.systems.judging import middle

STRIPS = (WANDER, FULL, PIN_PLAY, GRIP)
PLACES = tuple(n / 8 for n in range(9))


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture: the speed curve, then a strip per key finding."""
    one = GovernorSet.of(bench)
    found: list[tuple[str, Picture]] = []
    curve = curve_of(one)
    if curve is not None:
        found.append(("governor: speed over travel", speed_picture(curve)))
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


def speed_picture(curve: Curve) -> Drawn:
    """Engine speed over sleeve travel: rising and falling as found, with friction; and made good, with the spring ordered."""
    one = curve.governor
    now = as_found(one)
    decided = one.bench.snapshot.verdict_on(JOINTS) is not None
    later = condition_after(one) if decided else rebuilt(one) if one.weights else repinned(one)
    spring = ordered(one)
    curves = [
        ("as found, speed rising", _line(curve, now, way=1)),
        ("as found, speed falling", _line(curve, now, way=-1)),
        ("made good, old spring", _line(curve, later, way=0)),
    ]
    if spring is not None:
        curves.append(("made good, spring to order", _line(curve, later, way=0, spring=spring)))
    bands = ()
    if one.rated is not None:
        rated = one.rated / RPM
        bands = (("allowed", rated, rated * (1 + one.spread_rules.limits[0].size)),)  # type: ignore[assignment]
    return Drawn(
        title="Governor: engine speed over sleeve travel",
        x_text="travel of the sleeve [in]",
        y_text="engine speed [rev/min]",
        curves=tuple(curves),
        bands=bands,
    )


def _line(curve: Curve, condition: Condition, *, way: int, spring: Spring | None = None) -> tuple[tuple[float, float], ...]:
    """Medians along the travel; ``way`` adds friction against a rising (1) or falling (-1) speed."""
    travel, points = middle(curve.travel.draws), []
    share = curve.drag(condition) / curve.holding(condition)
    for place in PLACES:
        speed = curve.speed(place, condition, spring)
        if way:
            speed = np.asarray(friction_speeds(speed=speed, friction=share, holding=1.0)[max(way, 0)])
        points.append((place * travel / d.INCH, middle(speed) / RPM))
    return tuple(points)
