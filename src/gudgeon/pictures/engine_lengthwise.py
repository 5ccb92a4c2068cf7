"""The section along the crank: castings, pistons, rods, throws, mains, gear train, governor, magneto, pump, flywheel."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi

from gudgeon.pictures.engine_build import Build, Frame, Plate
from gudgeon.pictures.svg import disc, outline, path


def lengthwise(build: Build, frame: Frame) -> Plate:
    """The whole section, back to front."""
    plate = Plate(frame)
    _crankcase(plate, build)
    _camshaft(plate, build)
    _flywheel(plate, build)
    _gears(plate, build)
    _accessories(plate, build)
    for number, along in enumerate(build.mains, start=1):
        _main(plate, build, number, along)
    for group in build.groups:
        _casting(plate, build, group)
    _crank(plate, build)
    for number in range(1, build.count + 1):
        _piston(plate, build, number)
        _rod(plate, build, number)
    return plate


def _crankcase(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    wall, bottom, deck = 0.09 * b, build.sump, build.deck
    outside = f.all(
        (-0.12 * b, deck),
        (-0.12 * b, bottom + 0.2 * b),
        (0.1 * b, bottom),
        (build.length - 0.1 * b, bottom),
        (build.length + 0.12 * b, bottom + 0.2 * b),
        (build.length + 0.12 * b, deck),
    )
    inside = f.all(
        (wall, deck - wall),
        (wall, bottom + 0.24 * b),
        (0.2 * b, bottom + wall),
        (build.length - 0.2 * b, bottom + wall),
        (build.length - wall, bottom + 0.24 * b),
        (build.length - wall, deck - wall),
    )
    shapes = [path(outside, "pic-paper", closed=True), outline([outside, inside], "pic-cut", fill="{hatch2}")]
    level = bottom + 0.3 * b
    shapes.append(path(f.all((0.2 * b, level), (build.length - 0.2 * b, level)), "pic-water"))
    shapes.append(path(f.all((0.4 * b, level - 0.08 * b), (build.length - 0.4 * b, level - 0.08 * b)), "pic-water"))
    plate.add("crankcase", *shapes, anchor=(build.length - 0.3 * b, bottom))


def _camshaft(plate: Plate, build: Build) -> None:
    f, b, v = plate.frame, build.bore, _cam_axis(build)
    half = 0.07 * b
    shapes = [path(f.all((0, v + side * half), (build.length, v + side * half)), "pic-hidden") for side in (-1, 1)]
    for number in range(1, build.count + 1):
        for side in (-1, 1):
            u = build.at(number) + side * 0.36 * b
            shapes.append(path(f.rect(u - 0.07 * b, v - 0.14 * b, u + 0.07 * b, v + 0.2 * b), "pic-hidden", closed=True))
    plate.add("camshaft", *shapes, anchor=(0.42 * b, v))


def _cam_axis(build: Build) -> float:
    return 0.36 * build.bore + 0.62 * build.bore


def _toothed(plate: Plate, u0: float, u1: float, centre: float, radius: float) -> list[str]:
    """A gear seen on edge: flanks drawn where equal teeth of a circle fall in this view."""
    f = plate.frame
    shapes = [path(f.rect(u0, centre - radius, u1, centre + radius), "pic-body", closed=True)]
    teeth = 13
    for n in range(1, teeth):
        v = centre + radius * cos(pi * n / teeth)
        shapes.append(path(f.all((u0, v), (u1, v)), "pic-thin"))
    return shapes


def _gears(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    u0, u1 = -0.5 * b, -0.24 * b
    small, large = 0.3 * b, 0.62 * b
    cam = _cam_axis(build)
    case = f.all(
        (-0.12 * b, -small - 0.16 * b),
        (-0.66 * b, -small - 0.16 * b),
        (-0.66 * b, cam + large + 0.12 * b),
        (-0.12 * b, cam + large + 0.12 * b),
    )
    shapes = [path(case, "pic-thin")]
    shapes += [path(f.rect(-0.62 * b, -0.11 * b, 0, 0.11 * b), "pic-outline", closed=True)]
    shapes += _toothed(plate, u0, u1, 0, small) + _toothed(plate, u0, u1, cam, large)
    plate.add("timing gears", *shapes, anchor=(u0, 0.18 * b))


def _accessories(plate: Plate, build: Build) -> None:
    _governor(plate, build)
    if _has(build.outline.ignition, ("mag", "dynamo", "")):
        _magneto(plate, build)
    else:
        _igniter(plate, build)
    _pump(plate, build)


def _has(text: str, words: tuple[str, ...]) -> bool:
    text = text.lower().strip()
    return any(word in text if word else not text for word in words)


def _governor(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    u, foot = -0.95 * b, _cam_axis(build) + 0.5 * b
    shapes = [path(f.all((-0.66 * b, foot), (u - 0.16 * b, foot)), "pic-thick")]
    shapes.append(path(f.rect(u - 0.05 * b, foot, u + 0.05 * b, foot + 1.1 * b), "pic-body", closed=True))
    for side in (-1, 1):
        ball = (u + side * 0.34 * b, foot + 0.56 * b)
        shapes.append(path(f.all((u, foot + 1.05 * b), ball, (u, foot + 0.2 * b)), "pic-thin"))
        shapes.append(disc(f.at(*ball), 0.13 * b, "pic-body"))
    shapes.append(path(f.rect(u - 0.12 * b, foot + 0.14 * b, u + 0.12 * b, foot + 0.28 * b), "pic-body", closed=True))
    plate.add("governor", *shapes, anchor=(u - 0.47 * b, foot + 0.56 * b))


def _magneto(plate: Plate, build: Build) -> None:
    """The magnets are a row of horseshoes over the armature; this view shows one from its end."""
    f, b = plate.frame, build.bore
    u, v = -1.3 * b, _cam_axis(build) - 0.2 * b
    outer = f.all(
        (u - 0.42 * b, v - 0.2 * b),
        (u - 0.42 * b, v + 0.32 * b),
        (u - 0.28 * b, v + 0.52 * b),
        (u + 0.28 * b, v + 0.52 * b),
        (u + 0.42 * b, v + 0.32 * b),
        (u + 0.42 * b, v - 0.2 * b),
    )
    inner = f.all(
        (u - 0.24 * b, v - 0.2 * b),
        (u - 0.24 * b, v + 0.24 * b),
        (u - 0.14 * b, v + 0.36 * b),
        (u + 0.14 * b, v + 0.36 * b),
        (u + 0.24 * b, v + 0.24 * b),
        (u + 0.24 * b, v - 0.2 * b),
    )
    shapes = [
        path(f.all((u + 0.3 * b, v), (-0.66 * b, v)), "pic-thick"),
        path([*outer, *reversed(inner)], "pic-body", closed=True),
        disc(f.at(u, v - 0.02 * b), 0.17 * b, "pic-body"),
        path(f.rect(u - 0.48 * b, v - 0.34 * b, u + 0.48 * b, v - 0.2 * b), "pic-body", closed=True),
    ]
    plate.add("magneto", *shapes, anchor=(u - 0.42 * b, v + 0.2 * b))


def _igniter(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    u, v = -1.3 * b, _cam_axis(build) - 0.2 * b
    shapes = [path(f.rect(u - 0.36 * b, v - 0.34 * b, u + 0.36 * b, v + 0.4 * b), "pic-body", closed=True)]
    shapes += [
        path(f.all((u - 0.24 * b, v + n * 0.13 * b), (u + 0.24 * b, v + n * 0.13 * b)), "pic-thin") for n in range(-1, 3)
    ]
    plate.add("magneto", *shapes, anchor=(u - 0.36 * b, v))


def _pump(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    u, v = -1.05 * b, -0.42 * b
    shapes = [
        path(f.all((-0.66 * b, v + 0.12 * b), (u + 0.2 * b, v + 0.12 * b)), "pic-thick"),
        path(f.all((u, v - 0.3 * b), (u, build.sump + 0.22 * b), (0.12 * b, build.sump + 0.22 * b)), "pic-thin"),
        disc(f.at(u, v), 0.3 * b, "pic-body"),
        disc(f.at(u, v + 0.12 * b), 0.12 * b, "pic-thin"),
        disc(f.at(u, v - 0.12 * b), 0.12 * b, "pic-thin"),
    ]
    plate.add("pump", *shapes, anchor=(u - 0.3 * b, v))


def _flywheel(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    radius, rim, u = build.throw + 0.95 * b, 0.26 * b, build.length + 0.34 * b
    shapes = [path(f.rect(build.length, -0.13 * b, u + 0.62 * b, 0.13 * b), "pic-outline", closed=True)]
    shapes.append(path(f.rect(u + 0.14 * b, -radius + rim, u + 0.3 * b, radius - rim), "pic-body", closed=True))
    for side in (-1, 1):
        shapes.append(path(f.rect(u, side * (radius - rim), u + 0.46 * b, side * radius), "pic-body", closed=True))
        shapes.append(
            path(f.rect(u, side * (radius - rim), u + 0.46 * b, side * radius), "pic-cut", closed=True, fill="{hatch}")
        )
    shapes.append(path(f.rect(u + 0.04 * b, -0.28 * b, u + 0.44 * b, 0.28 * b), "pic-body", closed=True))
    shapes.append(path(f.all((-0.9 * b, 0), (u + 0.75 * b, 0)), "pic-centre"))
    plate.add("flywheel", *shapes, anchor=(u + 0.23 * b, radius))


def _main(plate: Plate, build: Build, number: int, along: float) -> None:
    f, b = plate.frame, build.bore
    half, shaft, shell = 0.15 * b, 0.16 * b, 0.08 * b
    foot = -(shaft + shell + 0.2 * b)
    web = [
        path(
            f.rect(along - 0.06 * b, shaft + shell, along + 0.06 * b, build.deck - 0.05 * b),
            "pic-cut",
            closed=True,
            fill="{hatch2}",
        ),
        path(
            f.rect(along - half, shaft + shell, along + half, shaft + shell + 0.16 * b), "pic-cut", closed=True, fill="{hatch2}"
        ),
        path(f.rect(along - half, -(shaft + shell), along + half, foot), "pic-cut", closed=True, fill="{hatch2}"),
    ]
    shells = []
    for side in (-1, 1):
        rect = f.rect(along - half, side * shaft, along + half, side * (shaft + shell))
        shells += [path(rect, "pic-body", closed=True), path(rect, "pic-thin", closed=True, fill="{dots}")]
    plate.add(f"main {number}", *web, *shells, anchor=(along, foot))


def _casting(plate: Plate, build: Build, group: tuple[int, ...]) -> None:
    f, b = plate.frame, build.bore
    wall = 0.1 * b
    jacket = 0.0 if build.air_cooled else 0.12 * b
    reach = b / 2 + wall + jacket + (0 if build.air_cooled else wall)
    u0, u1 = build.at(group[0]) - reach, build.at(group[-1]) + reach
    upper = build.roof if build.head_loose else build.top
    foot = f.rect(u0 - 0.02 * b, build.deck - 0.02 * b, u1 + 0.02 * b, build.deck + 0.12 * b)
    contours = [f.rect(u0, build.base, u1, upper)]
    for number in group:
        u = build.at(number)
        contours.append(f.rect(u - b / 2, build.base, u + b / 2, build.roof))
    if jacket:
        contours += _jackets(build, f, group, wall=wall, jacket=jacket, upper=upper)
    shared = "cylinder " + str(group[0])
    plate.add(
        shared,
        path(f.rect(u0, build.base, u1, upper), "pic-paper", closed=True),
        path(foot, "pic-cut", closed=True, fill="{hatch}"),
    )
    if build.air_cooled:
        plate.add(shared, *_fins(build, f, u0, u1))
    plate.add(shared, outline(contours, "pic-cut", fill="{hatch}"))
    for number in group:
        u = build.at(number)
        plate.add(
            f"cylinder {number}",
            path(f.rect(u - b / 2, build.base, u + b / 2, build.roof), "pic-body", closed=True),
            anchor=(u - b / 2 - wall / 2, build.roof - 0.05 * b if build.head_loose else build.top),
        )
    if build.head_loose:
        _head(plate, build, group, u0=u0, u1=u1, wall=wall)
    if build.overhead:
        for number in group:
            _valves_above(plate, build, number)
    else:
        for number in group:
            _plug(plate, build, number)


def _jackets(
    build: Build, f: Frame, group: tuple[int, ...], *, wall: float, jacket: float, upper: float
) -> list[list[tuple[float, float]]]:
    """Water spaces: beside the end barrels, between barrels where there is room, and over the head where it is cast on."""
    b, low, high = build.bore, build.deck + 0.3 * build.bore, upper - wall
    edges = []
    first, last = build.at(group[0]) - b / 2 - wall, build.at(group[-1]) + b / 2 + wall
    edges.append((first - jacket, first))
    for left, right in pairwise(group):
        gap = (build.at(left) + b / 2 + wall, build.at(right) - b / 2 - wall)
        if gap[1] - gap[0] > 0.06 * b:
            edges.append(gap)
    edges.append((last, last + jacket))
    spaces = [f.rect(u0, low, u1, high) for u0, u1 in edges]
    if not build.head_loose:
        for number in group:
            u = build.at(number)
            spaces.append(f.rect(u - b / 2 + 0.04 * b, build.roof + wall, u + b / 2 - 0.04 * b, high))
    return spaces


def _fins(build: Build, f: Frame, u0: float, u1: float) -> list[str]:
    b, step = build.bore, 0.16 * build.bore
    shapes, v = [], build.deck + 0.3 * b
    while v < build.top - 0.05 * b:
        shapes.append(path(f.rect(u0 - 0.16 * b, v, u1 + 0.16 * b, v + 0.05 * b), "pic-cut", closed=True, fill="{hatch}"))
        v += step
    return shapes


def _head(plate: Plate, build: Build, group: tuple[int, ...], *, u0: float, u1: float, wall: float) -> None:
    f, b = plate.frame, build.bore
    contours = [f.rect(u0, build.roof + 0.03 * b, u1, build.top)]
    if not build.air_cooled:
        for number in group:
            u = build.at(number)
            contours.append(f.rect(u - 0.46 * b, build.roof + wall + 0.02 * b, u + 0.46 * b, build.top - wall))
    place = f"head {build.groups.index(group) + 1}" if len(build.groups) > 1 else "head"
    shapes = [path(contours[0], "pic-body", closed=True), outline(contours, "pic-cut", fill="{hatch2}")]
    shapes.append(path(f.all((u0 - 0.03 * b, build.roof), (u1 + 0.03 * b, build.roof)), "pic-thick"))
    for u in (u0 + 0.09 * b, u1 - 0.09 * b):
        shapes.append(path(f.rect(u - 0.07 * b, build.top, u + 0.07 * b, build.top + 0.1 * b), "pic-outline", closed=True))
    plate.add(place, *shapes, anchor=(u1 - 0.16 * b, build.top))


def _valves_above(plate: Plate, build: Build, number: int) -> None:
    f, b = plate.frame, build.bore
    sides = (-1, 1) if build.outline.valves == "overhead" else (1,)
    for side in sides:
        u = build.at(number) + side * 0.22 * b
        shapes = [
            path(
                f.all(
                    (u - 0.17 * b, build.roof),
                    (u + 0.17 * b, build.roof),
                    (u + 0.04 * b, build.roof + 0.1 * b),
                    (u - 0.04 * b, build.roof + 0.1 * b),
                ),
                "pic-body",
                closed=True,
            ),
            path(f.rect(u - 0.028 * b, build.roof + 0.1 * b, u + 0.028 * b, build.top + 0.5 * b), "pic-body", closed=True),
            path(_spring(f, u, build.top + 0.04 * b, build.top + 0.42 * b, 0.1 * b), "pic-thin"),
            path(f.rect(u - 0.12 * b, build.top + 0.42 * b, u + 0.12 * b, build.top + 0.47 * b), "pic-body", closed=True),
        ]
        plate.add("valves", *shapes)


def _spring(f: Frame, u: float, low: float, high: float, half: float) -> list[tuple[float, float]]:
    turns = 8
    return f.all(*((u + half * (-1) ** n, low + (high - low) * n / turns) for n in range(turns + 1)))


def _plug(plate: Plate, build: Build, number: int) -> None:
    f, b, u = plate.frame, build.bore, build.at(number)
    plate.add(
        f"cylinder {number}",
        path(f.rect(u - 0.07 * b, build.roof - 0.02 * b, u + 0.07 * b, build.top + 0.06 * b), "pic-outline", closed=True),
        path(f.rect(u - 0.12 * b, build.top + 0.06 * b, u + 0.12 * b, build.top + 0.15 * b), "pic-outline", closed=True),
        path(f.rect(u - 0.045 * b, build.top + 0.15 * b, u + 0.045 * b, build.top + 0.34 * b), "pic-outline", closed=True),
    )


def _crank(plate: Plate, build: Build) -> None:
    f, b = plate.frame, build.bore
    shapes, last = [], 0.0
    for number in range(1, build.count + 1):
        u, (_, pin) = build.at(number), build.crankpin(number)
        left, right = u - 0.36 * b, u + 0.36 * b
        shapes.append(path(f.rect(last, -0.16 * b, left, 0.16 * b), "pic-body", closed=True))
        for start in (left, right - 0.13 * b):
            low, high = min(0.0, pin) - 0.2 * b, max(0.0, pin) + 0.2 * b
            shapes.append(path(f.rect(start, low, start + 0.13 * b, high), "pic-body", closed=True))
        last = right
    shapes.append(path(f.rect(last, -0.16 * b, build.length, 0.16 * b), "pic-body", closed=True))
    plate.add("crankshaft", *shapes, anchor=(build.length + 0.22 * b, -0.13 * b))


def _piston(plate: Plate, build: Build, number: int) -> None:
    f, b, u, pin = plate.frame, build.bore, build.at(number), build.pin(number)
    half, crown, skirt = 0.485 * b, pin + build.crown, pin - 0.42 * b
    body = f.rect(u - half, skirt, u + half, crown)
    hollow = f.all(
        (u - 0.38 * b, skirt),
        (u - 0.38 * b, pin + 0.16 * b),
        (u - 0.26 * b, crown - 0.13 * b),
        (u + 0.26 * b, crown - 0.13 * b),
        (u + 0.38 * b, pin + 0.16 * b),
        (u + 0.38 * b, skirt),
    )
    shapes = [path(body, "pic-body", closed=True), path(hollow, "pic-thin")]
    for n in range(min(build.outline.rings_per_piston or 3, 5)):
        v = crown - (0.085 + 0.105 * n) * b
        for side in (-1, 1):
            shapes.append(
                path(f.rect(u + side * half, v - 0.03 * b, u + side * 0.41 * b, v + 0.03 * b), "pic-solid", closed=True)
            )
        shapes.append(path(f.all((u - 0.41 * b, v), (u + 0.41 * b, v)), "pic-thin"))
    shapes.append(path(f.rect(u - 0.44 * b, pin - 0.09 * b, u + 0.44 * b, pin + 0.09 * b), "pic-outline", closed=True))
    plate.add(f"piston {number}", *shapes, anchor=(u, crown))


def _rod(plate: Plate, build: Build, number: int) -> None:
    f, b, u = plate.frame, build.bore, build.at(number)
    pin, (_, crank) = build.pin(number), build.crankpin(number)
    big, half = 0.3 * b, 0.2 * b
    shapes = [path(f.rect(u - 0.075 * b, crank + 0.2 * b, u + 0.075 * b, pin - 0.1 * b), "pic-body", closed=True)]
    shapes.append(path(f.rect(u - 0.14 * b, pin - 0.16 * b, u + 0.14 * b, pin + 0.16 * b), "pic-body", closed=True))
    shapes.append(path(f.rect(u - half, crank - big, u + half, crank + big), "pic-body", closed=True))
    for side in (-1, 1):
        shell = f.rect(u - half, crank + side * 0.14 * b, u + half, crank + side * 0.2 * b)
        shapes.append(path(shell, "pic-thin", closed=True, fill="{dots}"))
    shapes.append(path(f.rect(u - half, crank - 0.14 * b, u + half, crank + 0.14 * b), "pic-outline", closed=True))
    if "splash" in build.outline.oiling.lower() or not build.outline.oiling:
        shapes.append(path(f.rect(u - 0.03 * b, crank - big - 0.14 * b, u + 0.03 * b, crank - big), "pic-body", closed=True))
    plate.add(f"rod {number}", *shapes, anchor=(u, crank - big))


def reach(build: Build) -> tuple[float, float, float, float]:
    """How far the section reaches: front, rear along the crank; below and above it in v."""
    b = build.bore
    above = build.top + (0.55 if build.overhead else 0.36) * b
    below = max(-build.sump, build.throw + 0.95 * b) + 0.05 * b
    return 1.8 * b, 1.12 * b, below, above
