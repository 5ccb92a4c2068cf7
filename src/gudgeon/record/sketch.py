"""A small sketch beside a grid of readings: the hole or shaft, with a line for every level that lines up with its row."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from gudgeon.engine.system import Feature

Shape = Literal["hole", "shaft"]

WIDTH, ROW = 16.0, 11.0  # millimetres on the sheet


def shape_of(feature: Feature) -> Shape | None:
    """What a feature looks like from the side, as far as its own words say: a diameter that wear opens is a hole, one that
    it takes from is a shaft. None for anything else: better no sketch than a wrong one."""
    if "diameter" not in f"{feature.name} {feature.title}".lower() or feature.wear not in ("adds", "takes"):
        return None
    return "hole" if feature.wear == "adds" else "shaft"


def sketch_svg(*, shape: Shape, heavy: Sequence[bool]) -> str:
    """SVG, one row of 11 mm for each level. A hole shows its two walls cut, a shaft its round body. ``heavy`` levels are the
    ones that wear or witness most."""
    high = ROW * len(heavy)
    parts = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {high:g}" fill="none" stroke="#1b1a18">']
    if shape == "hole":
        parts += _wall(0.4, 3.4, high) + _wall(WIDTH - 3.4, WIDTH - 0.4, high)
        inner = (3.4, WIDTH - 3.4)
    else:
        inner = (3.4, WIDTH - 3.4)
        parts.append(f'<path stroke-width=".4" d="M3.4 .4H{WIDTH - 3.4:g}V{high - 0.4:g}H3.4Z"/>')
    middle = WIDTH / 2
    parts.append(f'<path stroke-width=".15" stroke-dasharray="4 .8 .8 .8" d="M{middle:g} 0V{high:g}"/>')
    for n, lit in enumerate(heavy):
        y = ROW * (n + 0.5)
        weight, left, right = (0.55, *inner) if lit else (0.18, *inner)
        parts.append(f'<path stroke-width="{weight}" d="M{left:g} {y:g}H{right:g}"/>')
        parts += [_arrow(left, y, 1), _arrow(right, y, -1)]
        parts.append(f'<path stroke-width=".12" stroke-dasharray=".6 .6" d="M{WIDTH - 3.4:g} {y:g}H{WIDTH:g}"/>')
    return "\n".join([*parts, "</svg>\n"])


def _wall(left: float, right: float, high: float) -> list[str]:
    lines = []
    y = -3.0
    while y < high:
        top, bottom = max(y, 0.2), min(y + (right - left), high - 0.2)
        if bottom > top:
            x1, x2 = right - (top - y), right - (bottom - y)
            lines.append(f"M{x1:.2f} {top:.2f}L{x2:.2f} {bottom:.2f}")
        y += 1.6
    return [
        f'<path stroke-width=".12" d="{"".join(lines)}"/>',
        f'<path stroke-width=".4" d="M{left:g} .2H{right:g}V{high - 0.2:g}H{left:g}Z"/>',
    ]


def _arrow(x: float, y: float, way: int) -> str:
    return f'<path fill="#1b1a18" stroke="none" d="M{x:g} {y:g}l{way * 1.5:g} -.4v.8z"/>'
