"""How a helical spring is drawn, for any system that orders one.

Shared by systems; it knows none of them.
"""

from __future__ import annotations

from gudgeon.engine.drawing import SI_TO_DRAWN, Circle, Dimension, Item, Line, Text, View
from gudgeon.engine.sketching import NEAR, Limits, largest_scale, middle
from gudgeon.mechanics.springs import SpringMade


def spring_view(made: SpringMade, *, outside: Limits) -> View:
    """A spring standing loose: one turn drawn for each coil, cut rings at the sides, closed ends flat."""
    wire, free = float(made.wire) * SI_TO_DRAWN, float(made.free_length) * SI_TO_DRAWN
    out = middle(outside, what="outside") / 2
    turns = max(round(float(made.total)), 3)
    s = largest_scale(width=2 * out, height=free, into=(70, 85))
    heights = _coil_heights(turns, wire=wire, free=free)
    items: list[Item] = []
    for n, height in enumerate(heights):
        for way in (-1, 1):
            y = height if way < 0 else (height + heights[min(n + 1, turns - 1)]) / 2
            items.append(Circle((way * (out - wire / 2), y), wire / 2))
        if n + 1 < turns:
            right = (height + heights[n + 1]) / 2
            for side in (-wire / 2, wire / 2):
                items.append(Line((-(out - wire / 2), height + side), (out - wire / 2, right + side), "thin"))
    items += [Line((-out, y), (out, y)) for y in (0.0, free)]
    items.append(Line((0, -5 / s), (0, free + 5 / s), "centre"))
    items.append(Dimension("diameter", (-out, 0), (out, 0), -(NEAR + 2), *outside))
    items.append(Dimension("length", (-out, 0), (-out, free), NEAR, float(made.free_length), float(made.free_length), "free"))
    at = heights[turns // 2], float(made.wire)
    words = f"wire {at[1] / 0.0254:.3f}".replace("0.", ".") + f" ({at[1] * SI_TO_DRAWN:.2f})"
    items.append(Text((out + 8 / s, at[0] + wire), words, to=(out - wire / 2, (at[0] + heights[turns // 2 + 1]) / 2)))
    return View(title="Spring, free", items=tuple(items), scale=s)


def _coil_heights(turns: int, *, wire: float, free: float) -> list[float]:
    """Heights of the wire's centre at the left: a closed coil at each end, the rest evenly between."""
    low, high = wire / 2, free - wire / 2
    inner = [low + wire + (high - low - 2 * wire) * n / max(turns - 3, 1) for n in range(turns - 2)]
    return [low, *inner, high]
