"""Shop drawings of what a verdict on the bores asks for: the bored cylinder, the piston, the ring."""

from __future__ import annotations

from gudgeon.engine.drawing import Drawing, View
from gudgeon.engine.sketching import Joint, bored_hole_section, piston_blank, ring_views, sleeve_section
from gudgeon.systems.cylinders.block import Block
from gudgeon.systems.cylinders.description import INCH
from gudgeon.systems.cylinders.spots import size_of

Limits = tuple[float, float]

CENTRE = "keep this centre: set from the unworn belt, square to the crank"


def bored_cylinder(block: Block, item: str, *, bore: Limits, sleeved: bool) -> Drawing | None:
    """The cylinder in section with its finished bore; None where its length was never read, since it could not be true."""
    length = length_of(block, item)
    if length is None:
        return None
    wall = block.walls[item]
    thickness = wall.least.value if wall is not None else None
    integral = block.bench.snapshot.outline.head == "integral"
    view = bored_hole_section(
        bore=bore,
        length=(length, length),
        wall=thickness,
        head=(thickness or 0.1 * bore[0]) if integral else None,
        datum="crank-end flange" if integral else "top face",
        finish="hone to a plain cross-hatch",
        centre=CENTRE,
    )
    notes = ["Thickness of the wall: the thinnest that was read." if wall is not None else "The wall was not measured."]
    if integral:
        notes.append("The head is one with the cylinder; its thickness was not measured and is not to scale.")
    if sleeved:
        notes.append("The bore is that of the sleeve when it is in.")
    return _drawing(
        block,
        "B",
        f"Cylinder, {item}",
        part="cylinder",
        item=item,
        views=(view,),
        notes=tuple(notes),
        material="grey cast iron, existing",
        finish="honed",
    )


def length_of(block: Block, item: str) -> float | None:
    """Length of a bore as read, else the deepest place that was read in it [m]."""
    read = size_of(block.bench, "cylinder", item, "bore length", aliases=("length of bore", "cylinder length"))
    if read is not None:
        return read.value
    bore = next(each for each in block.bores if each.item == item)
    return max((spot.depth for spot in bore.spots if spot.depth is not None), default=None)


BORED_AFTER = (0.030 * INCH, 0.020 * INCH)
"""How much smaller than the finished bore a sleeve's inside is left, to be bored when it is in [m]; common practice."""


def sleeve(block: Block, item: str, *, size: float, hole: float, press: Limits) -> Drawing | None:
    """A sleeve in section; None where the bore's length was never read."""
    length = length_of(block, item)
    if length is None:
        return None
    view = sleeve_section(
        outside=(hole + press[0], hole + press[1]),
        inside=(size - BORED_AFTER[0], size - BORED_AFTER[1]),
        length=(length, length),
        notes=("press fit", "bored when it is in"),
    )
    notes = ("The hole is bored to this sleeve; a step is left at its lower end as a stop.",)
    return _drawing(
        block,
        "S",
        f"Sleeve, {item}",
        part="sleeve",
        item=f"{item} sleeve",
        views=(view,),
        notes=notes,
        material="close-grained grey cast iron",
        finish="outside turned fine, ends square",
    )


def turned_piston(block: Block, item: str, *, skirt: Limits, material: str) -> Drawing | None:
    """The piston from the side with its finished skirt; None where the old one's length was not read."""
    piston = block.piston(item)
    length = size_of(block.bench, "piston", piston, "length")
    if length is None:
        return None
    views = piston_blank(skirt=skirt, length=(length.value, length.value))
    notes = ("Grooves, lands and pin hole as the old piston, which goes with this sheet.",)
    return _drawing(
        block,
        "P",
        f"Piston, {piston}",
        part="piston",
        item=piston,
        views=views,
        notes=notes,
        material=material,
        finish="turned, skirt fine",
    )


def ring(block: Block, item: str, *, bore: Limits, width: Limits, wall: Limits, gap: Limits, joint: Joint) -> Drawing:
    """A ring closed in its bore, its section and its joint."""
    views = ring_views(bore=bore, width=width, wall=wall, gap=gap, joint=joint)
    return _drawing(
        block,
        "R",
        f"Piston ring, {item}",
        part="ring",
        item=f"{item} rings",
        views=views,
        notes=("Gap and joint as the ring lies closed in its finished bore.",),
        material="close-grained grey cast iron",
        finish="sides ground flat and parallel",
    )


def _drawing(
    block: Block,
    letter: str,
    title: str,
    *,
    part: str,
    item: str,
    views: tuple[View, ...],
    notes: tuple[str, ...],
    material: str,
    finish: str,
) -> Drawing:
    digits = "".join(char for char in item if char.isdigit()) or "1"
    return Drawing(
        number=f"{letter}{digits}",
        title=title,
        part=part,
        item=item,
        material=material,
        finish=finish,
        views=views,
        notes=notes,
        job=block.bench.snapshot.outline.name,
    )
