"""Shop drawings of the valve, the guide bush and the spring."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.engine.drawing import SI_TO_DRAWN, Dimension, Drawing, Item, Line, Point, Text, View
from gudgeon.engine.sketching import NEAR, largest_scale, middle, plain_bush_section
from gudgeon.mechanics.springs import SpringMade
from gudgeon.systems.spring_views import spring_view
from gudgeon.systems.valves.valve_set import ValveSet

Limits = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class ValveSizes:
    """Limits of size of a poppet valve [m]; the angle of its face from flat [rad]."""

    stem: Limits
    head: Limits
    length: Limits
    margin: Limits
    angle: float


def valve_view(sizes: ValveSizes, *, face: float) -> View:
    """A valve on its side, head to the left, its axis level at height nought.

    ``face`` is the width of the face along the cone [m]. The fillet under the head is drawn as a straight cone to the stem.
    """
    stem, head = middle(sizes.stem, what="stem") / 2, middle(sizes.head, what="head") / 2
    long, edge = middle(sizes.length, what="length"), middle(sizes.margin, what="margin")
    along = face * SI_TO_DRAWN
    x1, r1 = edge + along * math.sin(sizes.angle), head - along * math.cos(sizes.angle)
    r1 = max(r1, stem * 1.2)
    x2 = x1 + (r1 - stem) * 0.9
    s = largest_scale(width=long, height=2 * head, into=(150, 75))
    points: tuple[Point, ...] = ((0, head), (edge, head), (x1, r1), (x2, stem), (long, stem))
    items: list[Item] = []
    for way in (-1, 1):
        items += [Line((a[0], way * a[1]), (b[0], way * b[1])) for a, b in pairwise(points)]
    items += [Line((x, -r), (x, r)) for x, r in ((0.0, head), (edge, head), (x1, r1), (long, stem))]
    items.append(Line((-5 / s, 0), (long + 5 / s, 0), "centre"))
    items.append(Dimension("diameter", (0, -head), (0, head), NEAR, *sizes.head))
    items.append(Dimension("diameter", (long, -stem), (long, stem), -NEAR, *sizes.stem))
    items.append(Dimension("length", (0, -head), (long, -head), -(NEAR + 2), *sizes.length))
    items.append(Dimension("length", (0, head), (edge, head), NEAR, *sizes.margin))
    half = (edge + x1) / 2, -(head + r1) / 2
    items.append(Text((x2 + 6 / s, -head * 0.8), f"face {round(math.degrees(sizes.angle), 1):g}° from flat", to=half))
    items.append(Text((long * 0.4, head * 0.8), "keeper end as the old valve", to=(long * 0.93, stem)))
    return View(title="Valve", items=tuple(items), scale=s)


def valve(item: str, valves: ValveSet, sizes: ValveSizes, *, face: float) -> Drawing:
    """The drawing of a new valve."""
    return _drawing(
        item,
        valves,
        letter="V",
        title=f"Valve, {item}",
        part="valve",
        material="valve steel, 8 to 9 % chromium; say which",
        finish="stem ground; face true to it within .001 in",
        views=(valve_view(sizes, face=face),),
        notes=(
            "Fillet under the head large and smooth, no tool marks: a valve breaks there.",
            "End of the stem hardened. Keeper, slot or thread as the old valve, which goes with this sheet.",
        ),
    )


def guide_bush(item: str, valves: ValveSet, *, outside: Limits, inside: Limits, length: float) -> Drawing:
    """The drawing of a guide bush, reamed when it is in."""
    view = plain_bush_section(outside=outside, inside=inside, length=(length, length), title="Guide bush, section")
    return _drawing(
        item,
        valves,
        letter="G",
        title=f"Guide bush, {item}",
        part="valve guide",
        material="close-grained grey cast iron, or bronze where agreed",
        finish="turned, outside fine",
        views=(view,),
        notes=("Outside a press fit in the bored guide. Reamed to the stem when it is in, not before.",),
    )


def spring_sheet(
    item: str,
    valves: ValveSet,
    made: SpringMade,
    *,
    outside: Limits,
    wire: str,
    material: str,
    closed: tuple[float, float],
    opened: tuple[float, float],
) -> Drawing:
    """The spring sheet: a drawing with lengths, forces, coils and rate as notes."""
    from gudgeon.quantity import Amount
    from gudgeon.quantity.show import show

    def both(value: float, dimension: str) -> str:
        return f"{show(Amount(value, dimension), 'inch')} ({show(Amount(value, dimension), 'millimetre')})"

    notes = (
        f"Valve shut: {both(closed[1], 'force')} within 5 % at {both(closed[0], 'length')}.",
        f"Valve open: {both(opened[1], 'force')} within 5 % at {both(opened[0], 'length')}.",
        f"Rate about {both(float(made.rate), 'stiffness')}. Wire {wire}; about {float(made.total):.2f} coils in all, "
        f"{float(made.active):.2f} working. Solid {both(float(made.solid_length), 'length')} at most.",
        "Ends closed and ground square. Forces and outside diameter count; wire and coils may be changed to meet them.",
    )
    return _drawing(
        item,
        valves,
        letter="C",
        title=f"Valve spring, {item}",
        part="valve spring",
        material=material,
        finish="oiled; stress relieved, pressed solid before it is measured",
        views=(spring_view(made, outside=outside),),
        notes=notes,
    )


def _drawing(
    item: str,
    valves: ValveSet,
    *,
    letter: str,
    title: str,
    part: str,
    material: str,
    finish: str,
    views: tuple[View, ...],
    notes: tuple[str, ...],
) -> Drawing:
    kind = "I" if "in" in item.lower().split(" ")[0] else "E" if "ex" in item.lower() else ""
    digits = "".join(char for char in item if char.isdigit()) or "1"
    return Drawing(
        number=f"{letter}{kind}{digits}",
        title=title,
        part=part,
        item=item,
        material=material,
        finish=finish,
        views=views,
        notes=notes,
        job=valves.bench.snapshot.outline.name,
    )
