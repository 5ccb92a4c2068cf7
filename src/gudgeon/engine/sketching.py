"""Views that several systems' drawings are made of: a bored hole, a sleeve or bush, a pin, a ring, a piston blank.

Sizes come in as limits of size in metres (lower, upper); views hold millimetres of the part. Whatever cannot be made raises
DrawingFault. Where no scale is given, the largest of the usual ones is taken at which the view goes on half an A4 sheet.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from gudgeon.engine.drawing import (
    SI_TO_DRAWN,
    Arc,
    Circle,
    Dimension,
    DrawingFault,
    Hatched,
    Item,
    Line,
    Pen,
    Point,
    Text,
    View,
)

Limits = tuple[float, float]
Joint = Literal["butt", "mitre", "step"]
SCALES = (20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.4, 0.25, 0.2, 0.1, 0.05, 0.02)  # ISO 5455; 1:2.5 and 1:4 are common practice
FIGURES = 36.0  # the length of a row of figures
NEAR, NEXT = 10.0, 12.0  # a dimension line from the part, and from the dimension line before it [mm of the paper]


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """A ring groove: its upper side below the crown [m], and limits of its width and radial depth [m]."""

    from_crown: float
    width: Limits
    depth: Limits


def largest_scale(*, width: float, height: float, into: Point) -> float:
    """The largest of the usual scales at which width and height [mm of the part] go into a space [mm of the paper]."""
    for scale in SCALES:
        if width * scale <= into[0] and height * scale <= into[1]:
            return scale
    raise DrawingFault(
        f"A view of {width:.0f} by {height:.0f} mm is too large for a sheet at 1:50; a part, not a whole, would be right."
    )


def middle(limits: Limits, *, what: str) -> float:
    """The mean size [mm of the part] of limits [m]. Raises DrawingFault when they are not sizes."""
    lower, upper = limits
    if not (math.isfinite(lower) and math.isfinite(upper) and 0 < lower <= upper):
        raise DrawingFault(
            f"{what}: limits of {lower * 1000:g} and {upper * 1000:g} mm were given; "
            "two sizes above nought, the lower first, would be right."
        )
    return (lower + upper) / 2 * SI_TO_DRAWN


def _inside(inner: float, outer: float, *, inner_is: str, outer_is: str) -> None:
    if not inner < outer:
        raise DrawingFault(
            f"{inner_is} of {inner:.3f} mm ({inner / 25.4:.4f} in) does not go inside {outer_is} of {outer:.3f} mm "
            f"({outer / 25.4:.4f} in); a smaller one would be right."
        )


def _run(points: Sequence[Point], pen: Pen = "outline", *, closed: bool = False) -> list[Item]:
    ends = [*points[1:], points[0]] if closed else points[1:]
    return [Line(a, b, pen) for a, b in zip(points, ends, strict=False)]


def _across(
    limits: Limits, *, y: float, offset: float, kind: Literal["length", "diameter"] = "diameter", note: str = ""
) -> Dimension:
    """A dimension across the centre line at a height; a negative offset puts it below."""
    half = (limits[0] + limits[1]) / 2 * SI_TO_DRAWN / 2
    return Dimension(kind, (-half, y), (half, y), offset, *limits, note)


def _upright(limits: Limits, *, x: float, top: float, offset: float, note: str = "") -> Dimension:
    """A length downward from a height; a positive offset puts it on the left, a negative one on the right."""
    long = (limits[0] + limits[1]) / 2 * SI_TO_DRAWN
    return Dimension("length", (x, top - long), (x, top), offset, *limits, note)


def _box(left: float, bottom: float, right: float, top: float) -> tuple[Point, ...]:
    return (left, bottom), (right, bottom), (right, top), (left, top)


def bored_hole_section(
    *,
    bore: Limits,
    length: Limits,
    wall: float | None = None,
    head: float | None = None,
    datum: str = "",
    finish: str = "",
    centre: str = "",
    title: str = "Section through the bore",
    scale: float | None = None,
) -> View:
    """A cylinder in section, upright, its upper face (or the inside of its head) at height nought.

    Parameters
    ----------
    bore, length : limits of size [m].
    wall : thickness [m], or None where nobody measured it: the outside is then a thin line and says so.
    head : thickness of an integral head [m]; None for a bore that is open at both ends.
    datum : what the datum face is called; the upper face, or the lower one under an integral head.
    finish, centre : notes with leaders to the wall and to the centre line.
    """
    radius, long = middle(bore, what="bore") / 2, middle(length, what="length of the bore")
    thick = 0.14 * radius * 2 if wall is None else middle((wall, wall), what="wall")
    cap = 0.0 if head is None else middle((head, head), what="head")
    out = radius + thick
    s = scale or largest_scale(width=2 * out, height=long + cap, into=(95, 92))
    outside: Pen = "thin" if wall is None else "outline"
    if head is None:
        hatched = [Hatched(_box(-out, -long, -radius, 0)), Hatched(_box(radius, -long, out, 0))]
        lines = [*_run(((-out, 0), (out, 0))), *_run(((-out, -long), (out, -long)))]
    else:
        shell = (
            (-out, -long),
            (-radius, -long),
            (-radius, 0),
            (radius, 0),
            (radius, -long),
            (out, -long),
            (out, cap),
            (-out, cap),
        )
        hatched = [Hatched(shell)]
        lines = [
            *_run(((-out, cap), (out, cap)), outside),
            *_run(((-radius, 0), (radius, 0))),
            *_run(((-out, -long), (out, -long))),
        ]
    lines += [*_run(((-radius, 0), (-radius, -long))), *_run(((radius, 0), (radius, -long)))]
    lines += [*_run(((-out, cap), (-out, -long)), outside), *_run(((out, cap), (out, -long)), outside)]
    face = 0.0 if head is None else -long
    notes: list[Item] = []
    right = out + 9 / s
    if datum:
        notes.append(Text((right, face + (5 / s if head is None else 0)), f"datum: {datum}", to=(out, face)))
    if finish:
        notes.append(Text((right, -long * 0.38), finish, to=(radius, -long * 0.38)))
    if centre:
        notes.append(Text((right, -long * 0.7), centre, to=(0, -long * 0.7)))
    if wall is None:
        notes.append(Text((right, -long * 0.14), "outside not measured", to=(out, -long * 0.2)))
    return View(
        title=title,
        scale=s,
        items=(
            *hatched,
            *lines,
            Line((0, cap + 5 / s), (0, -long - 4 / s), "centre"),
            _across(bore, y=-long, offset=-NEAR - 2),
            _upright(length, x=-out, top=0, offset=NEAR),
            *notes,
        ),
    )


def sleeve_section(
    *,
    outside: Limits,
    inside: Limits,
    length: Limits,
    shoulder: tuple[Limits, Limits] | None = None,
    notes: tuple[str, str] = ("", ""),
    title: str = "Section",
    scale: float | None = None,
) -> View:
    """A sleeve in section, upright, top at height nought; ``shoulder`` is the diameter and thickness [m] of a flange there.

    ``notes`` stand under the figures of the outside and of the inside ("press fit", "bore after fitting").
    """
    big, small, long = middle(outside, what="outside"), middle(inside, what="inside"), middle(length, what="length")
    _inside(small, big, inner_is="an inside diameter", outer_is="an outside diameter")
    flange, thick = (
        (big, 0.0) if shoulder is None else (middle(shoulder[0], what="shoulder"), middle(shoulder[1], what="shoulder"))
    )
    if shoulder is not None:
        _inside(big, flange, inner_is="an outside diameter", outer_is="a shoulder diameter")
        _inside(thick, long, inner_is="a shoulder thickness", outer_is="a length")
    s = scale or largest_scale(width=flange, height=long, into=(95, 80))
    items: list[Item] = []
    for way in (-1, 1):
        profile = [
            (small / 2, 0.0),
            (flange / 2, 0.0),
            (flange / 2, -thick),
            (big / 2, -thick),
            (big / 2, -long),
            (small / 2, -long),
        ]
        points = tuple((way * x, y) for x, y in (profile if shoulder else [profile[0], (big / 2, 0.0), *profile[4:]]))
        items += [Hatched(points), *_run(points, closed=True)]
    items += [Line((-small / 2, y), (small / 2, y)) for y in (0.0, -long)]
    items.append(Line((0, 5 / s), (0, -long - 4 / s), "centre"))
    items.append(_across(inside, y=-long, offset=-NEAR - 2, note=notes[1]))
    items.append(_across(outside, y=-long, offset=-NEAR - 2 - NEXT - (8 if notes[1] else 0), note=notes[0]))
    items.append(_upright(length, x=-flange / 2, top=0, offset=NEAR))
    if shoulder is not None:
        items.append(_across(shoulder[0], y=0, offset=NEAR))
        aside = 0 if flange * s > FIGURES else FIGURES  # clear of figures that stand beside their line
        items.append(_upright(shoulder[1], x=flange / 2, top=0, offset=-NEAR - aside))
    return View(title=title, items=tuple(items), scale=s)


def plain_bush_section(
    *, outside: Limits, inside: Limits, length: Limits, title: str = "Bush, section", scale: float | None = None
) -> View:
    """A plain bush in section: a sleeve without a shoulder."""
    return sleeve_section(outside=outside, inside=inside, length=length, title=title, scale=scale)


def pin_view(
    *,
    diameter: Limits,
    length: Limits,
    bore: Limits | None = None,
    chamfer: float = 0.0005,
    title: str = "Pin",
    scale: float | None = None,
) -> View:
    """A pin on its side, centre line level at height nought; ``bore`` of a hollow one as hidden lines [m]."""
    r, long = middle(diameter, what="diameter") / 2, middle(length, what="length")
    c = min(chamfer * SI_TO_DRAWN, r / 4, long / 8)
    s = scale or largest_scale(width=long, height=2 * r, into=(110, 60))
    points = ((c, -r), (long - c, -r), (long, c - r), (long, r - c), (long - c, r), (c, r), (0, r - c), (0, c - r))
    items: list[Item] = [*_run(points, closed=True), Line((c, -r), (c, r), "thin"), Line((long - c, -r), (long - c, r), "thin")]
    items.append(Line((-4 / s, 0), (long + 4 / s, 0), "centre"))
    items.append(Dimension("length", (0, c - r), (long, c - r), -NEAR - 2, *length))
    items.append(Dimension("diameter", (c, -r), (c, r), NEAR + c * s, *diameter))
    if bore is not None:
        inner = middle(bore, what="bore") / 2
        _inside(2 * inner, 2 * r, inner_is="a bore", outer_is="a pin diameter")
        items += [Line((0, y), (long, y), "hidden") for y in (-inner, inner)]
        items.append(Dimension("diameter", (long, -inner), (long, inner), -NEAR, *bore))
    return View(title=title, items=tuple(items), scale=s)


def ring_views(
    *,
    bore: Limits,
    width: Limits,
    wall: Limits,
    gap: Limits,
    joint: Joint = "butt",
    note: str = "closed, in its bore",
    scale: float | None = None,
) -> tuple[View, View, View]:
    """A piston ring: plan as it lies closed in its bore, section through it, and its joint laid out flat.

    ``width`` is along the bore, ``wall`` across it, ``gap`` is measured along the ring in its bore [m].
    """
    big, thick = middle(bore, what="bore"), middle(wall, what="radial wall")
    high, open_by = middle(width, what="width"), middle(gap, what="end gap")
    _inside(2 * thick, big, inner_is="twice a radial wall", outer_is="a bore")
    _inside(open_by, math.pi * big / 4, inner_is="an end gap", outer_is="a quarter of the ring's round")
    return (
        _ring_plan(
            bore=bore, wall=thick, gap=open_by, note=note, scale=scale or largest_scale(width=big, height=big, into=(88, 78))
        ),
        _ring_section(width=width, wall=wall, scale=largest_scale(width=high, height=thick, into=(40, 40))),
        _ring_joint(width=high, gap=gap, joint=joint),
    )


def _ring_plan(*, bore: Limits, wall: float, gap: float, note: str, scale: float) -> View:
    r = (bore[0] + bore[1]) / 2 * SI_TO_DRAWN / 2
    half = math.degrees(gap / 2 / r)
    ends: list[Item] = []
    for angle in (math.radians(90 + half), math.radians(90 - half)):
        c, sn = math.cos(angle), math.sin(angle)
        ends.append(Line(((r - wall) * c, (r - wall) * sn), (r * c, r * sn)))
    reach = r + 4 / scale
    arcs = [Arc((0, 0), radius, 90 + half, 450 - half) for radius in (r, r - wall)]
    centres = [Line((-reach, 0), (reach, 0), "centre"), Line((0, -reach), (0, reach), "centre")]
    across = Dimension("diameter", (-r, 0), (r, 0), -(r * scale + NEAR + 2), *bore, note)
    return View(title="Plan", items=(*arcs, *ends, *centres, across), scale=scale)


def _ring_section(*, width: Limits, wall: Limits, scale: float) -> View:
    w, t = (sum(limits) / 2 * SI_TO_DRAWN for limits in (width, wall))
    box = _box(0, 0, w, t)
    return View(
        title="Section",
        scale=scale,
        items=(
            Hatched(box),
            *_run(box, closed=True),
            Dimension("length", (0, 0), (w, 0), -NEAR - 2, *width, "width"),
            Dimension("length", (0, 0), (0, t), NEAR, *wall, "radial wall"),
        ),
    )


def _ring_joint(*, width: float, gap: Limits, joint: Joint) -> View:
    w, g = width, (gap[0] + gap[1]) / 2 * SI_TO_DRAWN
    lap = max(1.2 * w, 3 * g)
    long = 1.6 * w + g + (lap / 2 if joint == "step" else 0)
    if joint == "butt":
        left, at = [(-g / 2, 0.0), (-g / 2, w)], 0.0
    elif joint == "mitre":
        left, at = [(-g / 2 - w / 2, 0.0), (-g / 2 + w / 2, w)], w / 2
    else:
        left = [(lap / 2 - g / 2, 0.0), (lap / 2 - g / 2, w / 2), (-lap / 2 - g / 2, w / 2), (-lap / 2 - g / 2, w)]
        at = -lap / 2
    right = [(x + g, y) for x, y in left]
    items: list[Item] = [*_run(((-long, 0), *left, (-long, w))), *_run(((long, 0), *right, (long, w)))]
    items += [Line((side * long, 0), (side * long, w), "thin") for side in (-1, 1)]
    items.append(Dimension("length", (at - g / 2, w), (at + g / 2, w), NEAR, *gap, "end gap"))
    scale = largest_scale(width=2 * long, height=w, into=(60, 30))
    return View(title=f"{joint.capitalize()} joint, from outside", items=tuple(items), scale=scale)


def piston_blank(
    *,
    skirt: Limits,
    length: Limits,
    lands: Limits | None = None,
    grooves: Sequence[Groove] = (),
    pin: tuple[float, Limits] | None = None,
    title: str = "Piston, elevation",
    scale: float | None = None,
) -> tuple[View, ...]:
    """A piston from the side, crown at height nought, and one enlarged section for each kind of groove.

    ``lands`` is the diameter above the last groove (None: as the skirt); ``pin`` the distance of its hole's centre from the
    crown and the hole's limits [m]. Raises DrawingFault where grooves overlap or reach the centre of the pin hole or the
    end (oil rings may lie across the hole's upper edge, but not below its centre unless it lies above them all).
    """
    d, long = middle(skirt, what="skirt"), middle(length, what="length")
    top = d if lands is None else middle(lands, what="lands")
    ordered = sorted(grooves, key=lambda groove: groove.from_crown)
    limit, limit_is = long, "piston's end"
    if pin is not None and pin[0] * SI_TO_DRAWN < long:
        limit, limit_is = pin[0] * SI_TO_DRAWN, "pin hole's centre"
    below = _check_grooves(ordered, land=top, limit=limit, limit_is=limit_is)
    s = scale or largest_scale(width=d, height=long, into=(80, 80))
    step = below + min(1.5, (long - below) / 4) if lands is not None else long
    items = _silhouette(ordered, skirt=d, land=top, step=step, length=long)
    items.append(Line((0, 5 / s), (0, -long - 4 / s), "centre"))
    items.append(_across(skirt, y=-long, offset=-NEAR - 2))
    items.append(_upright(length, x=-d / 2, top=0, offset=NEAR + (NEXT if pin else 0)))
    if lands is not None:
        items.append(_across(lands, y=0, offset=NEAR))
    for n, groove in enumerate(ordered):
        items.append(_upright((groove.from_crown,) * 2, x=top / 2, top=0, offset=-(NEAR + 6 * n)))
    if pin is not None:
        items += _pin_hole(pin, skirt=d, scale=s)
    return View(title=title, items=tuple(items), scale=s), *_groove_details(ordered)


def _check_grooves(grooves: Sequence[Groove], *, land: float, limit: float, limit_is: str) -> float:
    """The height below the crown where the last groove ends [mm]."""
    end = 0.0
    for n, groove in enumerate(grooves, start=1):
        start = middle((groove.from_crown,) * 2, what=f"groove {n} from the crown")
        if start <= end:
            raise DrawingFault(
                f"Groove {n} starts {start:.2f} mm below the crown, where the one above still runs to {end:.2f} mm."
            )
        end = start + middle(groove.width, what=f"width of groove {n}")
        _inside(2 * middle(groove.depth, what=f"depth of groove {n}"), land, inner_is="twice a groove depth", outer_is="a land")
    if end >= limit:
        raise DrawingFault(f"The last groove ends {end:.2f} mm below the crown, past the {limit_is} at {limit:.2f} mm.")
    return end


def _silhouette(grooves: Sequence[Groove], *, skirt: float, land: float, step: float, length: float) -> list[Item]:
    edge: list[Point] = [(0.0, 0.0), (land / 2, 0.0)]
    items: list[Item] = []
    for groove in grooves:
        y1 = -groove.from_crown * SI_TO_DRAWN
        y2 = y1 - sum(groove.width) / 2 * SI_TO_DRAWN
        bottom = land / 2 - sum(groove.depth) / 2 * SI_TO_DRAWN
        edge += [(land / 2, y1), (bottom, y1), (bottom, y2), (land / 2, y2)]
        items += [Line((-land / 2, y), (land / 2, y)) for y in (y1, y2)]
    if step < length:
        edge += [(land / 2, -step), (skirt / 2, -step)]
        items.append(Line((-skirt / 2, -step), (skirt / 2, -step)))
    edge += [(skirt / 2, -length), (0.0, -length)]
    for way in (-1, 1):
        items += _run([(way * x, y) for x, y in edge])
    return items


def _pin_hole(pin: tuple[float, Limits], *, skirt: float, scale: float) -> list[Item]:
    height, limits = pin
    y, r = -height * SI_TO_DRAWN, middle(limits, what="pin hole") / 2
    _inside(2 * r, skirt, inner_is="a pin hole", outer_is="a skirt")
    reach = r + 4 / scale
    at = (r * math.cos(math.radians(45)), r * math.sin(math.radians(45)))
    return [
        Circle((0, y), r),
        Line((-reach, y), (reach, y), "centre"),
        Dimension("diameter", (-at[0], y + at[1]), (at[0], y - at[1]), 0, *limits),
        Dimension("length", (-skirt / 2, y), (-skirt / 2, 0), NEAR, height, height),
        Line((-skirt / 2, y), (-reach, y), "thin"),
    ]


def _groove_details(grooves: Sequence[Groove]) -> list[View]:
    kinds: dict[tuple[Limits, Limits], list[int]] = {}
    for n, groove in enumerate(grooves, start=1):
        kinds.setdefault((groove.width, groove.depth), []).append(n)
    views = []
    for (width, depth), numbers in kinds.items():
        w, t = sum(width) / 2 * SI_TO_DRAWN, sum(depth) / 2 * SI_TO_DRAWN
        over = 0.8 * w
        outline = ((-1.9 * t, -over - w), (0, -over - w), (0, -w), (-t, -w), (-t, 0), (0, 0), (0, over), (-1.9 * t, over))
        names = f"Groove {numbers[0]}" if len(numbers) == 1 else "Grooves " + ", ".join(map(str, numbers))
        views.append(
            View(
                title=f"{names}, section",
                scale=largest_scale(width=1.9 * t, height=2.6 * w, into=(45, 45)),
                items=(
                    Hatched(outline),
                    *_run(outline[:-1]),
                    Line(outline[-2], outline[-1]),
                    Line(outline[-1], outline[0], "thin"),
                    Dimension("length", (0, -w), (0, 0), -NEAR, *width),
                    Dimension("length", (-t, -over - w), (0, -over - w), -NEAR - 2, *depth),
                ),
            )
        )
    return views
