"""What to draw of the timing: a circle for each cylinder whose valves or spark were read, and the gaps on their scales."""

from __future__ import annotations

import math

from gudgeon.engine.bench import Bench
from gudgeon.engine.picture import Picture, TimingChart
from gudgeon.systems.ignition import description as d
from gudgeon.systems.ignition.crank_marks import lobe_window
from gudgeon.systems.ignition.findings import findings
from gudgeon.systems.ignition.spark import CRANKING, RUNNING, cranking, running
from gudgeon.systems.judging import middle
from gudgeon.systems.kit import Kit, strips
from gudgeon.systems.measured import number

STRIPS = (CRANKING, RUNNING, d.POINTS.name)
# subject of the camshaft's finding: from which centre it is counted [degree after inner], and its sense
_COUNTED = {
    "exhaust opens before outer centre": (180.0, -1.0),
    "exhaust closes after inner centre": (360.0, 1.0),
    "inlet opens after inner centre": (0.0, 1.0),
    "inlet closes after outer centre": (180.0, 1.0),
}


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture."""
    kit = Kit.of(bench, d.KEY)
    found: list[tuple[str, Picture]] = []
    for cylinder in _cylinders(kit):
        chart = timing_chart(kit, cylinder)
        if chart is not None:
            found.append((f"{cylinder} timing", chart))
    return (*found, *strips(findings(bench), STRIPS))


def _cylinders(kit: Kit) -> tuple[str, ...]:
    """Cylinders of which valves or rim were read; cylinder 1 where only the magneto was."""
    return tuple(dict.fromkeys((*kit.items("valve timing", d.TIMING), *(("cyl 1",) if kit.items(d.MAGNETO) else ()))))


def timing_chart(kit: Kit, cylinder: str) -> TimingChart | None:
    """Valves as the camshaft's findings have them, else as lobe and lash give them; the spark where it is cylinder 1."""
    arcs = [arc for kind in ("exhaust", "inlet") if (arc := _arc(kit, cylinder, kind)) is not None]
    marks: list[tuple[str, float]] = []
    if number(cylinder) == "1":
        by_hand, runs = cranking(kit), running(kit)
        if by_hand is not None:
            marks.append(("spark, turned by hand", math.degrees(middle(by_hand[0]))))
        if runs is not None:
            marks.append(("spark, running", -math.degrees(middle(runs[0][0]))))
    if not arcs and not marks:
        return None
    return TimingChart(title=f"Timing of {cylinder}", arcs=tuple(arcs), marks=tuple(marks))


def _arc(kit: Kit, cylinder: str, kind: str) -> tuple[str, float, float] | None:
    ends: dict[str, float] = {}
    for finding in kit.bench.findings.get("camshaft", ()):
        counted = _COUNTED.get(finding.quantity)
        if counted is None or finding.value is None or finding.item != cylinder or not finding.quantity.startswith(kind):
            continue
        ends[finding.quantity.split()[1]] = counted[0] + counted[1] * math.degrees(finding.value)
    if set(ends) == {"opens", "closes"}:
        return kind, ends["opens"], ends["closes"]
    window = lobe_window(kit, kind.replace("inlet", "intake"), cylinder)
    if window is None:
        return None
    opens, closes = math.degrees(middle(window[0][0])), math.degrees(window[1])
    turn = 360.0 if kind == "exhaust" else 0.0
    return f"{kind}, by lobe and lash", opens + turn, closes + turn
