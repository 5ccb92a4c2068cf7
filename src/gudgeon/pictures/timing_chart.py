"""The timing of valves and spark as a circle: inner dead centre at the top, the crank turning clockwise, each valve an arc."""

from __future__ import annotations

from math import ceil, cos, radians, sin

from gudgeon.engine.picture import TimingChart
from gudgeon.pictures.lettering import wrapped
from gudgeon.pictures.svg import Point, arrowhead, disc, path, picture, words

WIDTH, MIDDLE, OUTER = 380.0, (190.0, 176.0), 118.0
STEP = 15.0
KINDS = ("pic-line-a", "pic-line-b", "pic-line-c", "pic-line-d")


def draw_timing_chart(chart: TimingChart) -> str:
    """Dead centres, the arcs inside each other with their angles at both ends, marks on the rim, and a key below."""
    body = [disc(MIDDLE, OUTER, "pic-outline")]
    body += [
        path([_at(OUTER, angle), _at(OUTER - (8 if angle % 30 else 13), angle)], "pic-thin") for angle in range(0, 360, 10)
    ]
    body += [path([_at(OUTER + 8, angle), _at(OUTER + 8, angle + 180)], "pic-centre") for angle in (0.0, 90.0)]
    body.append(words((MIDDLE[0], 24), "inner dead centre", "pic-note", anchor="middle", size=12))
    body.append(words((MIDDLE[0], 2 * MIDDLE[1] - 14), "outer dead centre", "pic-note", anchor="middle", size=12))
    for n, (_, opens, closes) in enumerate(chart.arcs):
        body += _arc(OUTER - 26 - n * STEP, opens, closes, KINDS[n % len(KINDS)])
    for _, at in chart.marks:
        body.append(path([_at(OUTER - 18, at), _at(OUTER + 6, at)], "pic-limit"))
    body += _direction()
    key, height = _key(chart)
    return picture(width=WIDTH, height=height, title=chart.title, body="".join(body) + key)


def _at(radius: float, angle: float) -> Point:
    """A point at an angle [degree] turned clockwise from the top."""
    turned = radians(angle)
    return MIDDLE[0] + radius * sin(turned), MIDDLE[1] - radius * cos(turned)


def _arc(radius: float, opens: float, closes: float, kind: str) -> list[str]:
    steps = max(ceil((closes - opens) / 3.0), 1)
    points = [_at(radius, opens + (closes - opens) * n / steps) for n in range(steps + 1)]
    ends = [path([_at(radius - 5, angle), _at(radius + 5, angle)], "pic-thick") for angle in (opens, closes)]
    return [path(points, kind), *ends]


def _direction() -> list[str]:
    """An arrow outside the rim that says which way the crank turns."""
    points = [_at(OUTER + 14, 40.0 + n) for n in range(0, 26, 5)]
    return [path(points, "pic-leader"), arrowhead(points[-1], points[-2])]


def _key(chart: TimingChart) -> tuple[str, float]:
    y, out = 2 * MIDDLE[1] + 8, []
    for n, (name, opens, closes) in enumerate(chart.arcs):
        out.append(path([(10, y - 4), (40, y - 4)], KINDS[n % len(KINDS)]))
        for line in (f"{name}: {_said(opens)} to {_said(closes)},", f"open {closes - opens:.0f}°"):
            out.append(words((46, y), line, "pic-text", size=12))
            y += 15
        y += 3
    for name, at in chart.marks:
        out.append(path([(25, y - 11), (25, y + 2)], "pic-limit"))
        for line in wrapped(f"{name}: {_said(at)}", WIDTH - 60, 12):
            out.append(words((46, y), line, "pic-warn", size=12))
            y += 15
        y += 3
    return "".join(out), y


def _said(angle: float) -> str:
    """An angle from inner dead centre as a fitter says it: from the nearer dead centre."""
    turned = (angle + 180.0) % 360.0 - 180.0
    centre, away = ("inner", turned) if abs(turned) <= 90.0 else ("outer", turned - 180.0 if turned > 0 else turned + 180.0)
    if abs(away) < 0.5:
        return f"{centre} centre"
    return f"{abs(away):.0f}° {'after' if away > 0 else 'before'} {centre}"
