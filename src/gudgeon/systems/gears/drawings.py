"""The drawing of a gear to be cut: blank in section, face with its circles, and the gear's data as notes."""

from __future__ import annotations

import math

from gudgeon.engine.drawing import SI_TO_DRAWN, Arc, Circle, Drawing, Item, Line, Text, View
from gudgeon.engine.sketching import largest_scale, middle, sleeve_section
from gudgeon.systems.drafting import Limits, band, both
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.cutting import NewTeeth
from gudgeon.systems.gears.train import RunningSet

FACE_TOLERANCE = 0.005 * d.INCH


def gear_drawing(one: RunningSet, each: NewTeeth, *, bore: Limits | None, material: str, treatment: str) -> Drawing | None:
    """A gear to its cutting sheet; None where bore or face were not read, since the drawing could not be true."""
    face = one.reader.size(d.FACE, each.item)
    if bore is None or face is None:
        return None
    width = one.reader.size(d.KEYWAY, each.item)
    depth = one.reader.size(d.KEYWAY_DEPTH, each.item)
    key = (width.value, depth.value) if width is not None and depth is not None else None
    through = one.reader.size(d.THROUGH, each.item)
    notes = [
        f"{each.teeth} teeth, {one.likeliest.written}; cutter: {each.cutter}.",
        f"Whole depth {both(each.whole_depth)}.",
        f"Chordal thickness {band(each.chord)} at {both(each.chordal_addendum)} from the tip.",
        f"Span over {each.spanned} teeth {band(each.span)}.",
        f"Heat treatment: {treatment}.",
        "Teeth true to the bore; break the ends of the teeth. Marks as the old gear.",
    ]
    if through is not None and abs(through.value - face.value) > FACE_TOLERANCE:
        notes.append(f"Length through the bore {both(through.value)}; hub as the old gear, which goes with the sheet.")
    return Drawing(
        number=f"G{each.teeth}",
        title=f"Gear, {each.item}",
        part=d.GEAR,
        item=each.item,
        material=material,
        finish="teeth cut fine",
        views=(
            _face_view(each, bore=bore, key=key),
            sleeve_section(
                outside=each.outside,
                inside=bore,
                length=(face.value - FACE_TOLERANCE, face.value),
                title="Blank, section",
            ),
        ),
        notes=tuple(notes),
        job=one.bench.snapshot.outline.name,
    )


def _face_view(each: NewTeeth, *, bore: Limits, key: tuple[float, float] | None) -> View:
    """The gear from its face: outside and bore in outline, pitch circle as a centre line, root circle thin."""
    out, hole = middle(each.outside, what="outside diameter") / 2, middle(bore, what="bore") / 2
    pitch, root = each.pitch_diameter * SI_TO_DRAWN / 2, each.root * SI_TO_DRAWN / 2
    s = largest_scale(width=2 * out, height=2 * out, into=(85, 75))
    reach = out + 4 / s
    aside = out * 0.72
    items: list[Item] = [
        Circle((0, 0), out),
        Circle((0, 0), pitch, "centre"),
        Circle((0, 0), root, "thin"),
        Line((-reach, 0), (reach, 0), "centre"),
        Line((0, -reach), (0, reach), "centre"),
        *_bore_items(hole, key),
        Text(
            (out + 6 / s, aside),
            f"pitch circle {both(each.pitch_diameter)}",
            to=(pitch * math.sqrt(0.5), pitch * math.sqrt(0.5)),
        ),
    ]
    if key is not None:
        where = (key[0] * SI_TO_DRAWN / 2, hole)
        items.append(Text((out + 6 / s, aside - 9 / s), f"keyway {both(key[0])} by {both(key[1])}", to=where))
    return View(title="Gear, from its face", items=tuple(items), scale=s)


def _bore_items(hole: float, key: tuple[float, float] | None) -> list[Item]:
    if key is None:
        return [Circle((0, 0), hole)]
    half, deep = key[0] * SI_TO_DRAWN / 2, key[1] * SI_TO_DRAWN
    if half >= hole:
        return [Circle((0, 0), hole)]
    rise = math.sqrt(hole**2 - half**2)
    top = rise + deep
    angle = math.degrees(math.acos(half / hole))
    return [
        Arc((0, 0), hole, 180 - angle, 360 + angle),
        Line((-half, rise), (-half, top)),
        Line((-half, top), (half, top)),
        Line((half, top), (half, rise)),
    ]
