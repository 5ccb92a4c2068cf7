"""A bore's wear: the wall opened out flat, and the worst level in the round with the wear exaggerated."""

from __future__ import annotations

from collections import defaultdict
from math import cos, radians, sin

import numpy as np

from gudgeon.engine.picture import BoreMap
from gudgeon.pictures.round_field import between
from gudgeon.pictures.svg import Point, disc, num, path, picture, words
from gudgeon.quantity import Amount, UnitChoice, show

WIDTH = 380.0
LEFT, RIGHT, TOP, TALL = 62.0, 370.0, 34.0, 170.0
COLUMNS, ROWS, TONES = 36, 17, 8


def draw_bore_map(bore: BoreMap, *, units: UnitChoice) -> str:
    """Both views, one above the other. Darker is more wear; the dots are the readings, with their figure."""
    flat = _flat(bore, units)
    centre = (WIDTH / 2, TOP + TALL + 182)
    body = flat + _round(bore, centre, units)
    height = centre[1] + 128
    title = f"{bore.title}: wear up to {show(Amount(bore.worst, 'length'), units)}"
    return picture(width=WIDTH, height=height, title=title, body="".join(body))


def _span(bore: BoreMap) -> tuple[float, float]:
    depths = [depth for depth, _, _ in bore.spots] + [end for end in (bore.travel_top, bore.travel_bottom) if end is not None]
    low, high = min(depths), max(depths)
    room = (high - low) * 0.08 or 0.005
    return low - room, high + room


def _flat(bore: BoreMap, units: UnitChoice) -> list[str]:
    low, high = _span(bore)

    def at(depth: float, direction: float) -> Point:
        return LEFT + (RIGHT - LEFT) * direction / 360, TOP + TALL * (depth - low) / (high - low)

    unit = "thou" if units == "inch" else "hundredths of a mm"
    body = [words((LEFT, 12), f"opened out flat; figures are wear in {unit}", "pic-note", size=12)]
    body += _tones(bore, low, high)
    body.append(path([at(low, 0), at(low, 360), at(high, 360), at(high, 0)], "pic-thin", closed=True))
    body.append(path([(RIGHT - 128, 23), (RIGHT - 100, 23)], "pic-hidden"))
    body.append(words((RIGHT, 27), "end of ring travel", "pic-note", anchor="end", size=11))
    for depth in (bore.travel_top, bore.travel_bottom):
        if depth is not None:
            body.append(path([at(depth, 0), at(depth, 360)], "pic-hidden"))
    for depth in _apart(sorted({depth for depth, _, _ in bore.spots}), (high - low) * 13 / TALL):
        body.append(
            words((LEFT - 6, at(depth, 0)[1] + 4), show(Amount(depth, "length"), units), "pic-note", anchor="end", size=11)
        )
    written: dict[float, float] = {}
    for depth, direction, wear in sorted(bore.spots):
        for turn in (0.0, 180.0):
            body.append(disc(at(depth, (direction % 180) + turn), 3.4 if not turn else 2.2, "pic-reading"))
        x, y = at(depth, direction % 180)
        if y - written.get(x, 0.0) >= 17:
            written[x] = y
            start = x <= LEFT + 4
            body.append(
                words((x + 3 * start, y - 6), _figure(wear, units), "pic-figure", anchor="" if start else "middle", size=10.5)
            )
    for direction, text in ((0, "with"), (90, "across"), (180, "with"), (270, "across")):
        x = at(low, direction)[0]
        body.append(path([(x, TOP + TALL), (x, TOP + TALL + 5)], "pic-thin"))
        body.append(words((x, TOP + TALL + 18), text, "pic-note", anchor="start" if not direction else "middle", size=11))
    return body


def _apart(depths: list[float], least: float) -> list[float]:
    kept: list[float] = []
    for depth in depths:
        if not kept or depth - kept[-1] >= least:
            kept.append(depth)
    return kept


def _figure(wear: float, units: UnitChoice) -> str:
    return f"{wear / 0.0254e-3:.1f}" if units == "inch" else f"{wear * 1e5:.1f}"


def _tones(bore: BoreMap, low: float, high: float) -> list[str]:
    """The field in eight tones, one path for each, so that the picture stays small."""
    wide, tall = (RIGHT - LEFT) / COLUMNS, TALL / ROWS
    cells: dict[int, list[str]] = defaultdict(list)
    worst = max(bore.worst, 1e-9)
    rows, columns = np.arange(ROWS) + 0.5, np.arange(COLUMNS) + 0.5
    depths, directions = low + (high - low) * rows[:, None] / ROWS, 360 * columns / COLUMNS
    field = between(bore.spots, depths, directions, depth_scale=(high - low) / 5, turn=180)
    tones = np.clip((field / worst * TONES).astype(int), 0, TONES - 1)
    for row, column in np.ndindex(ROWS, COLUMNS):
        corner = f"M{num(LEFT + column * wide)} {num(TOP + row * tall)}"
        cells[int(tones[row, column])].append(f"{corner}h{num(wide + 0.2)}v{num(tall + 0.2)}h-{num(wide + 0.2)}z")
    return [
        f'<path class="pic-cell" fill-opacity="{0.03 + 0.1 * tone:.2f}" d="{"".join(cells[tone])}"/>' for tone in sorted(cells)
    ]


def _round(bore: BoreMap, centre: Point, units: UnitChoice) -> list[str]:
    """The level of most wear: the bore as made, the wear many times too large, and the size that cleans it up."""
    worst_depth = max(bore.spots, key=lambda spot: spot[2])[0]
    level = [spot for spot in bore.spots if abs(spot[0] - worst_depth) < 1e-4]
    radius, most = 78.0, 34.0
    gain = most / max(bore.worst, (bore.clean_up - bore.nominal) if bore.clean_up else 0.0, 1e-9)
    directions = np.arange(72) * 5.0
    wear = np.maximum(between(level, worst_depth, directions, depth_scale=1.0, turn=180), 0.0)
    worn = [_polar(centre, radius + gain * w, d) for w, d in zip(wear, directions, strict=True)]
    body = [
        words(
            (LEFT, centre[1] - 128),
            f"at {show(Amount(worst_depth, 'length'), units)}, wear drawn many times too large",
            "pic-note",
            size=12,
        )
    ]
    body += [path(worn, "pic-worn", closed=True), disc(centre, radius, "pic-outline")]
    if bore.clean_up:
        reach = radius + (bore.clean_up - bore.nominal) * gain
        body.append(disc(centre, reach, "pic-clean"))
        body.append(
            words(
                (centre[0], centre[1] + 14),
                f"cleans up at {show(Amount(bore.clean_up, 'length'), units)}",
                "pic-warn",
                anchor="middle",
                size=12,
            )
        )
    body.append(
        words(
            (centre[0], centre[1] - 6),
            f"as made {show(Amount(bore.nominal, 'length'), units)}",
            "pic-text",
            anchor="middle",
            size=12,
        )
    )
    body.append(path([(centre[0] - 128, centre[1]), (centre[0] - radius, centre[1])], "pic-centre"))
    body.append(path([(centre[0] + radius, centre[1]), (centre[0] + 128, centre[1])], "pic-centre"))
    body.append(words((centre[0] + 120, centre[1] - 6), "with", "pic-note", size=11))
    body.append(words((centre[0], centre[1] - 52), "across", "pic-note", anchor="middle", size=11))
    return body


def _polar(centre: Point, radius: float, direction: float) -> Point:
    return centre[0] + radius * cos(radians(direction)), centre[1] - radius * sin(radians(direction))
