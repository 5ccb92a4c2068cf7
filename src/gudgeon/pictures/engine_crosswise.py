"""The section across the crank through cylinder 1: valve layout, combustion chamber, rod at its angle, crankcase, camshaft."""

from __future__ import annotations

from math import atan2, cos, pi, sin

from gudgeon.pictures.engine_build import Build, Frame, Plate
from gudgeon.pictures.svg import Point, disc, outline, path


def crosswise(build: Build, frame: Frame) -> Plate:
    """The whole section, back to front."""
    plate = Plate(frame)
    _crankcase(plate, build)
    _casting(plate, build)
    for side in _valve_sides(build):
        _valve_at_side(plate, build, side)
    _camshafts(plate, build)
    if build.overhead:
        _valve_in_head(plate, build)
    _running_gear(plate, build)
    return plate


def _towards(build: Build) -> int:
    """The side that the valves are on: right of an upright engine, above a lying one."""
    return -1 if build.outline.lie == "horizontal" else 1


def _valve_sides(build: Build) -> tuple[int, ...]:
    near = _towards(build)
    return {"L head": (near,), "T head": (near, -near), "F head": (near,)}.get(build.outline.valves or "", ())


def _valve_axis(build: Build) -> float:
    return 0.9 * build.bore


def _seat(build: Build) -> float:
    return build.roof - 0.15 * build.bore


def _chest(build: Build) -> float:
    return build.roof - 0.92 * build.bore


def _cam_axis(build: Build) -> float:
    return 0.98 * build.bore


def _crankcase(plate: Plate, build: Build) -> None:
    f, b, low = plate.frame, build.bore, build.sump
    wide, t = build.throw + 0.62 * b, 0.09 * b
    right = [(0.78 * b, build.deck), (wide, 0.5 * b), (wide, -0.2 * b), (0.7 * b, low)]
    outer = [*right, *((-u, v) for u, v in reversed(right))]
    inner_right = [
        (0.78 * b - t, build.deck - t),
        (wide - t, 0.5 * b - 0.4 * t),
        (wide - t, -0.2 * b),
        (0.7 * b - 0.6 * t, low + t),
    ]
    inner = [*inner_right, *((-u, v) for u, v in reversed(inner_right))]
    shapes = [
        path(f.all(*outer), "pic-paper", closed=True),
        outline([f.all(*outer), f.all(*inner)], "pic-cut", fill="{hatch2}"),
    ]
    for side in (-1, 1):
        shapes.append(path(f.rect(side * wide, -0.14 * b, side * (wide + 0.4 * b), 0), "pic-cut", closed=True, fill="{hatch2}"))
    level = low + 0.3 * b
    shapes.append(path(f.all((-0.75 * b, level), (0.75 * b, level)), "pic-water"))
    shapes.append(path(f.all((-0.55 * b, level - 0.09 * b), (0.55 * b, level - 0.09 * b)), "pic-water"))
    plate.add("crankcase", *shapes, anchor=(_towards(build) * wide, -0.2 * b))


def _casting(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    sides = _valve_sides(build)
    wall, jacket = 0.1 * b, 0.0 if build.air_cooled else 0.12 * b
    upper = build.roof if build.head_loose else build.top
    half = b / 2 + wall + jacket + (0 if build.air_cooled else wall)
    outer = [*_edge(build, 1, half, upper, valve=1 in sides), *reversed(_edge(build, -1, half, upper, valve=-1 in sides))]
    holes = [_chamber(build, sides)]
    for side in (-1, 1):
        holes += _side_holes(build, side, valve=side in sides, wall=wall, jacket=jacket, upper=upper)
    if not build.head_loose and not build.air_cooled:
        holes.append(
            [(-0.46 * b, build.roof + wall), (0.46 * b, build.roof + wall), (0.46 * b, upper - wall), (-0.46 * b, upper - wall)]
        )
    shapes = [path(f.all(*outer), "pic-paper", closed=True)]
    if build.air_cooled:
        shapes += _fins(build, f, half)
    shapes.append(outline([f.all(*outer), *(f.all(*hole) for hole in holes)], "pic-cut", fill="{hatch}"))
    shapes.append(path(f.all(*holes[0]), "pic-body", closed=True))
    plate.add("cylinder 1", *shapes, anchor=(-_towards(build) * half, build.roof - 0.6 * b))
    if build.head_loose:
        _head(plate, build, outer, wall)


def _edge(build: Build, side: int, half: float, upper: float, *, valve: bool) -> list[Point]:
    """The outside of the casting on one side, from the foot up."""
    if not valve:
        return [(side * half, build.base), (side * half, upper)]
    out, chest = _valve_axis(build) + 0.36 * build.bore, _chest(build)
    return [(side * half, build.base), (side * half, chest - 0.1 * build.bore), (side * out, chest), (side * out, upper)]


def _chamber(build: Build, sides: tuple[int, ...]) -> list[Point]:
    """Bore and combustion space in one outline; an L or T head's pocket reaches over the valve."""
    b, seat, reach = build.bore, _seat(build), _valve_axis(build) + 0.23 * build.bore
    points: list[Point] = [(-b / 2, build.base)]
    points += [(-b / 2, seat), (-reach, seat), (-reach, build.roof)] if -1 in sides else [(-b / 2, build.roof)]
    points += [(reach, build.roof), (reach, seat), (b / 2, seat)] if 1 in sides else [(b / 2, build.roof)]
    return [*points, (b / 2, build.base)]


def _side_holes(build: Build, side: int, *, valve: bool, wall: float, jacket: float, upper: float) -> list[list[Point]]:
    b, high = build.bore, (_chest(build) + 0.04 * build.bore if valve else upper - wall)
    holes: list[list[Point]] = []
    if jacket:
        inner, outer, low = b / 2 + wall, b / 2 + wall + jacket, build.deck + 0.3 * b
        holes.append([(side * inner, low), (side * outer, low), (side * outer, high), (side * inner, high)])
    if valve:
        axis, seat = _valve_axis(build), _seat(build)
        holes.append(
            [
                (side * (axis - 0.17 * b), seat),
                (side * (axis - 0.17 * b), seat - 0.46 * b),
                (side * (axis + 0.36 * b), seat - 0.5 * b),
                (side * (axis + 0.36 * b), seat - 0.2 * b),
                (side * (axis + 0.17 * b), seat - 0.16 * b),
                (side * (axis + 0.17 * b), seat),
            ]
        )
    return holes


def _fins(build: Build, f: Frame, half: float) -> list[str]:
    b, shapes, v = build.bore, [], build.deck + 0.3 * build.bore
    while v < build.top - 0.05 * b:
        shapes.append(path(f.rect(-half - 0.16 * b, v, half + 0.16 * b, v + 0.05 * b), "pic-cut", closed=True, fill="{hatch}"))
        v += 0.16 * b
    return shapes


def _head(plate: Plate, build: Build, outer: list[Point], wall: float) -> None:
    f, b = plate.frame, build.bore
    left, right = min(u for u, _ in outer), max(u for u, _ in outer)
    contours = [f.rect(left, build.roof + 0.03 * b, right, build.top)]
    if not build.air_cooled:
        contours.append(f.rect(left + wall, build.roof + wall + 0.02 * b, right - wall, build.top - wall))
    shapes = [path(contours[0], "pic-body", closed=True), outline(contours, "pic-cut", fill="{hatch2}")]
    shapes.append(path(f.all((left - 0.03 * b, build.roof), (right + 0.03 * b, build.roof)), "pic-thick"))
    anchor = (left if _towards(build) > 0 else right, (build.roof + build.top) / 2)
    plate.add("head 1" if len(build.groups) > 1 else "head", *shapes, anchor=anchor)


def _valve_at_side(plate: Plate, build: Build, side: int) -> None:
    f, b, u = plate.frame, build.bore, side * _valve_axis(build)
    seat, chest, lift = _seat(build), _chest(build), _cam_axis(build) + 0.27 * b
    foot = chest - 0.46 * b
    shapes = [
        path(
            f.all(
                (u - 0.2 * b, seat + 0.05 * b),
                (u + 0.2 * b, seat + 0.05 * b),
                (u + 0.04 * b, seat - 0.08 * b),
                (u - 0.04 * b, seat - 0.08 * b),
            ),
            "pic-body",
            closed=True,
        ),
        path(f.rect(u - 0.03 * b, foot, u + 0.03 * b, seat - 0.08 * b), "pic-body", closed=True),
        path(_spring(f, u, foot + 0.06 * b, chest - 0.02 * b, 0.12 * b), "pic-thin"),
        path(f.rect(u - 0.14 * b, foot, u + 0.14 * b, foot + 0.06 * b), "pic-body", closed=True),
        path(f.rect(u - 0.06 * b, lift, u + 0.06 * b, foot), "pic-body", closed=True),
        path(f.rect(u - 0.14 * b, lift, u + 0.14 * b, lift + 0.06 * b), "pic-body", closed=True),
    ]
    plate.add("valves", *shapes, anchor=(u + side * 0.14 * b, foot + 0.03 * b))


def _spring(f: Frame, u: float, low: float, high: float, half: float) -> list[Point]:
    turns = 9
    return f.all(*((u + half * (-1) ** n, low + (high - low) * n / turns) for n in range(turns + 1)))


def _camshafts(plate: Plate, build: Build) -> None:
    f, b, v = plate.frame, build.bore, _cam_axis(build)
    for side in _valve_sides(build) or (_towards(build),):
        u = side * (_valve_axis(build) - (0.02 * b if _valve_sides(build) else 0.1 * b))
        lobe = [
            (u + 0.15 * b * cos(t), v + (0.15 + 0.12 * max(0.0, sin(t)) ** 3) * b * sin(t))
            for t in (2 * pi * n / 36 for n in range(36))
        ]
        shapes = [path(f.all(*lobe), "pic-body", closed=True), disc(f.at(u, v), 0.08 * b, "pic-thin")]
        plate.add("camshaft", *shapes, anchor=(u + side * 0.15 * b, v))


def _valve_in_head(plate: Plate, build: Build) -> None:
    f, b, near = plate.frame, build.bore, _towards(build)
    u, roof, top = near * 0.12 * b, build.roof, build.top
    shapes = [
        path(
            f.all((u - 0.24 * b, roof), (u + 0.24 * b, roof), (u + 0.05 * b, roof + 0.13 * b), (u - 0.05 * b, roof + 0.13 * b)),
            "pic-body",
            closed=True,
        ),
        path(f.rect(u - 0.035 * b, roof + 0.13 * b, u + 0.035 * b, top + 0.52 * b), "pic-body", closed=True),
        path(_spring(f, u, top + 0.04 * b, top + 0.42 * b, 0.13 * b), "pic-thin"),
        path(f.rect(u - 0.16 * b, top + 0.42 * b, u + 0.16 * b, top + 0.48 * b), "pic-body", closed=True),
    ]
    anchor = (u + near * 0.16 * b, top + 0.45 * b)
    plate.add("valves", *shapes, anchor=anchor)
    push = near * (_valve_axis(build) + (0.5 * b if _valve_sides(build) else -0.1 * b))
    middle = (u + push) / 2
    rocker = [
        (u - near * 0.06 * b, top + 0.53 * b),
        (middle, top + 0.64 * b),
        (push + near * 0.05 * b, top + 0.55 * b),
        (push + near * 0.05 * b, top + 0.47 * b),
        (middle, top + 0.5 * b),
        (u - near * 0.06 * b, top + 0.52 * b),
    ]
    plate.add(
        "valves",
        path(f.rect(middle - 0.05 * b, top, middle + 0.05 * b, top + 0.5 * b), "pic-outline", closed=True),
        path(f.all(*rocker), "pic-body", closed=True),
        disc(f.at(middle, top + 0.57 * b), 0.05 * b, "pic-outline"),
        path(f.rect(push - 0.03 * b, _cam_axis(build) + 0.27 * b, push + 0.03 * b, top + 0.48 * b), "pic-body", closed=True),
    )


def _running_gear(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    pin, (across, up) = build.pin(1), build.crankpin(1)
    plate.add("crankshaft", disc(f.at(0, 0), build.throw, "pic-centre"), *_web(build, f, across, up), anchor=(0, -0.16 * b))
    half, crown, skirt = 0.485 * b, pin + build.crown, pin - 0.42 * b
    rings = []
    for n in range(min(build.outline.rings_per_piston or 3, 5)):
        v = crown - (0.085 + 0.105 * n) * b
        rings.append(path(f.all((-half, v), (half, v)), "pic-thick"))
    hollow = f.all(
        (-0.36 * b, skirt),
        (-0.36 * b, crown - 0.3 * b),
        (-0.24 * b, crown - 0.14 * b),
        (0.24 * b, crown - 0.14 * b),
        (0.36 * b, crown - 0.3 * b),
        (0.36 * b, skirt),
    )
    plate.add(
        "piston 1",
        path(f.rect(-half, skirt, half, crown), "pic-body", closed=True),
        path(hollow, "pic-thin"),
        *rings,
        anchor=(-_towards(build) * half, pin),
    )
    plate.add("rod 1", *_rod(build, f, pin, across, up), anchor=(across, up))
    plate.add("piston 1", disc(f.at(0, pin), 0.09 * b, "pic-outline"))


def _web(build: Build, f: Frame, across: float, up: float) -> list[str]:
    b, angle = build.bore, atan2(up, across)
    nx, ny = -sin(angle) * 0.2 * b, cos(angle) * 0.2 * b
    ex, ey = cos(angle) * 0.22 * b, sin(angle) * 0.22 * b
    corners = [(-ex + nx, -ey + ny), (across + ex + nx, up + ey + ny), (across + ex - nx, up + ey - ny), (-ex - nx, -ey - ny)]
    return [path(f.all(*corners), "pic-body", closed=True), disc(f.at(0, 0), 0.16 * b, "pic-outline")]


def _rod(build: Build, f: Frame, pin: float, across: float, up: float) -> list[str]:
    b, angle = build.bore, atan2(pin - up, -across)
    nx, ny = -sin(angle), cos(angle)
    ux, uy = cos(angle), sin(angle)
    wide, narrow = 0.12 * b, 0.075 * b
    foot, head = (across + ux * 0.26 * b, up + uy * 0.26 * b), (-ux * 0.14 * b, pin - uy * 0.14 * b)
    shank = [
        (foot[0] + nx * wide, foot[1] + ny * wide),
        (head[0] + nx * narrow, head[1] + ny * narrow),
        (head[0] - nx * narrow, head[1] - ny * narrow),
        (foot[0] - nx * wide, foot[1] - ny * wide),
    ]
    lug = 0.36 * b
    block = [
        (across + side * nx * lug + along * ux * 0.1 * b, up + side * ny * lug + along * uy * 0.1 * b)
        for side, along in ((-1, -1), (-1, 1), (1, 1), (1, -1))
    ]
    joint = [(across - nx * lug, up - ny * lug), (across + nx * lug, up + ny * lug)]
    return [
        path(f.all(*shank), "pic-body", closed=True),
        path(f.all(*block), "pic-body", closed=True),
        disc(f.at(across, up), 0.27 * b, "pic-body"),
        disc(f.at(across, up), 0.2 * b, "pic-thin", fill="{dots}"),
        path(f.all(*joint), "pic-thin"),
        disc(f.at(across, up), 0.14 * b, "pic-outline"),
        disc(f.at(0, pin), 0.16 * b, "pic-body"),
    ]


def half_width(build: Build) -> float:
    """How far the section reaches to either side."""
    return build.throw + 1.1 * build.bore
