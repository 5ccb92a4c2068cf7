"""The engine as a picture: two sections generated from its outline, every part in its place with its state in words.

Labels stand in bands on the four sides of the section along the crank. In the wide form they hold name and state, wrapped to
the room there is; in the narrow form they are numbered balloons, and the page lists the words. Equal neighbours share a label.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from html import escape
from typing import Literal

from gudgeon.engine.outline import Outline
from gudgeon.pictures.engine_build import Build, Frame, Plate, build_of
from gudgeon.pictures.engine_crosswise import crosswise, half_width
from gudgeon.pictures.engine_lengthwise import lengthwise, reach
from gudgeon.pictures.lettering import width_of, wrapped
from gudgeon.pictures.svg import Point, attribute, disc, leader, num, path, picture, words

Tint = Literal["", "blue", "red"]
Width = Literal["wide", "narrow"]

NOT_MEASURED = "not measured"
TITLE = "Section of the engine with the state of each part"
NUMBERED = {"cylinder": "cylinder", "head": "head", "piston": "piston", "rod": "rod", "main": "main bearing"}
PLURAL = {"cylinder": "cylinders", "head": "heads", "piston": "pistons", "rod": "rods", "main": "main bearings"}
SINGLE = ("governor", "magneto", "timing gears", "pump", "flywheel", "crankshaft", "valves", "camshaft", "crankcase")
NAMES = {"head": "cylinder head", "magneto": "magneto", "igniter": "ignition"}

SIZE = 12.0
LINE = 15.0
BALLOON = 10.0
GAP = 9.0


@dataclass(frozen=True, slots=True)
class PartState:
    """The state of a part in words, its tint (blue: something is asked or under way; red: past its limit), where it leads."""

    words: str = NOT_MEASURED
    tint: Tint = ""
    href: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label of the picture: its balloon number, the places it speaks for, and what it says."""

    number: int
    places: tuple[str, ...]
    name: str
    state: PartState


@dataclass(frozen=True, slots=True)
class LabelBox:
    """Where a label stands: left, top, right, bottom."""

    label: Label
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Laid:
    """The picture with the boxes of its labels, so that the layout can be checked."""

    svg: str
    width: float
    height: float
    boxes: tuple[LabelBox, ...]


def place_of(part: str, item: str) -> str:
    """The place in the picture of a part as readings name it ("cylinder", "cyl 2" -> "cylinder 2"), or "" for none."""
    text = f"{item} {part}".lower()
    number = next(iter(re.findall(r"\d+", item)), "")
    for words_, place in _RECOGNISED:
        if re.search(rf"\b(?:{'|'.join(words_)})", text):
            return f"{place} {number}".strip() if place in NUMBERED and number else "" if place in NUMBERED else place
    return ""


_RECOGNISED: tuple[tuple[tuple[str, ...], str], ...] = (
    (("cam gear", "crank gear", "timing", "gear"), "timing gears"),
    (("cam",), "camshaft"),
    (("valve", "tappet", "spring", "guide", "seat"), "valves"),
    (("ring", "piston"), "piston"),
    (("crankpin", "rod", "gudgeon", "pin"), "rod"),
    (("main",), "main"),
    (("crankshaft",), "crankshaft"),
    (("head",), "head"),
    (("cyl", "bore"), "cylinder"),
    (("governor",), "governor"),
    (("magneto", "igni", "coil"), "magneto"),
    (("pump",), "pump"),
    (("flywheel",), "flywheel"),
    (("crankcase", "sump"), "crankcase"),
)


def labels(outline: Outline, states: Mapping[str, PartState]) -> tuple[Label, ...]:
    """The labels in the order of their numbers: the page lists these beside the picture."""
    build = build_of(outline, bore=50)
    found: list[Label] = []
    for kind, count in _counts(build):
        found += _runs(kind, count, states)
    for place in SINGLE:
        name = place
        if place == "magneto" and outline.ignition and "mag" not in outline.ignition.lower():
            name = NAMES["igniter"]
        if place == "valves" and outline.valves:
            name = f"valves, {outline.valves}"
        found.append(Label(number=0, places=(place,), name=name, state=states.get(place, PartState())))
    return tuple(replace(label, number=number) for number, label in enumerate(found, start=1))


def _counts(build: Build) -> list[tuple[str, int]]:
    counts = [("cylinder", build.count), ("piston", build.count), ("rod", build.count), ("main", len(build.mains))]
    if build.head_loose:
        counts.insert(1, ("head", len(build.groups)))
    return counts


def _runs(kind: str, count: int, states: Mapping[str, PartState]) -> list[Label]:
    """Neighbours in the same state share a label."""
    if kind == "head" and count == 1:
        return [Label(number=0, places=("head",), name=NAMES["head"], state=states.get("head", PartState()))]
    runs: list[list[int]] = []
    for number in range(1, count + 1):
        state = states.get(f"{kind} {number}", PartState())
        last = states.get(f"{kind} {runs[-1][-1]}", PartState()) if runs else None
        if last and (last.words, last.tint) == (state.words, state.tint):
            runs[-1].append(number)
        else:
            runs.append([number])
    return [
        Label(
            number=0,
            places=tuple(f"{kind} {number}" for number in run),
            name=_run_name(kind, run, count),
            state=states.get(f"{kind} {run[0]}", PartState()),
        )
        for run in runs
    ]


def _run_name(kind: str, run: Sequence[int], count: int) -> str:
    if len(run) == 1:
        return NUMBERED[kind] if count == 1 else f"{NUMBERED[kind]} {run[0]}"
    joint = "and" if len(run) == 2 else "to"
    return f"{PLURAL[kind]} {run[0]} {joint} {run[-1]}"


def engine_section(outline: Outline, states: Mapping[str, PartState], *, width: Width = "wide") -> str:
    """The drawing as SVG.

    Parameters
    ----------
    outline : one to sixteen cylinders; what is unknown is drawn as was usual.
    states : by place: "cylinder 2", "piston 1", "rod 3", "main 1", "head", "camshaft" ... A place without a state is
        "not measured".
    width : "wide" has labels with leaders, for paper and a large screen; "narrow" numbered balloons, for a phone.
    """
    return laid_out(outline, states, width=width).svg


def laid_out(outline: Outline, states: Mapping[str, PartState], *, width: Width = "wide") -> Laid:
    """The drawing with its label boxes."""
    all_labels = labels(outline, states)
    layout = _Lying(outline, width) if outline.lie == "horizontal" else _Upright(outline, width)
    boxes, leaders, plates, size = layout.lay(all_labels)
    body = (
        "".join(_plate_svg(plate, states) for plate in plates)
        + "".join(leaders)
        + "".join(_label_svg(box, width) for box in boxes)
    )
    svg = picture(width=size[0], height=size[1], title=TITLE, body=body, hatches=True, kind=f"picture picture-{width}")
    return Laid(svg, size[0], size[1], tuple(boxes))


def _plate_svg(plate: Plate, states: Mapping[str, PartState]) -> str:
    pieces = []
    for place, shapes in plate.pieces:
        state = states.get(place, PartState())
        kind = f"pic-{state.tint}" if state.tint else "pic-plain"
        inner = f"<title>{escape(place)}: {escape(state.words)}</title>{''.join(shapes)}"
        group = f'<g class="{kind}">{inner}</g>'
        pieces.append(f'<a href="{escape(state.href, quote=True)}" tabindex="-1">{group}</a>' if state.href else group)
    return "".join(pieces)


def _label_svg(box: LabelBox, width: Width) -> str:
    label = box.label
    if width == "narrow":
        centre = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
        inner = disc(centre, BALLOON, "pic-balloon") + words(
            (centre[0], centre[1] + 4), str(label.number), "pic-balloon-text", anchor="middle"
        )
    else:
        inner = _label_words(label, box)
    return f'<a{attribute("href", label.state.href)} tabindex="-1">{inner}</a>' if label.state.href else inner


def _label_words(label: Label, box: LabelBox) -> str:
    kind = {"": "pic-note", "blue": "pic-ask", "red": "pic-warn"}[label.state.tint]
    names, notes = _lines(label, box.right - box.left)
    at = box.top + 12
    out = []
    for text in names:
        out.append(words((box.left, at), text, "pic-name", size=SIZE))
        at += LINE
    for text in notes:
        out.append(words((box.left, at), text, kind, size=SIZE))
        at += LINE
    return "".join(out)


def _lines(label: Label, room: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    names = wrapped(label.name, room, SIZE, bold=True)
    return names, wrapped(label.state.words, room, SIZE, bold=bool(label.state.tint))


def _size(label: Label, room: float, width: Width) -> tuple[float, float]:
    """Width and height of a label in so much room."""
    if width == "narrow":
        return 2 * BALLOON, 2 * BALLOON
    names, notes = _lines(label, room)
    widest = max(
        [width_of(text, SIZE, bold=True) for text in names]
        + [width_of(text, SIZE, bold=bool(label.state.tint)) for text in notes]
    )
    return min(room, widest) + 0.5, LINE * (len(names) + len(notes)) + 2


Boxes = list[LabelBox]
Placed = tuple[Label, float, float, float, float]
Band = tuple[list[Placed], float]
Laying = tuple[Boxes, list[str], list[Plate], tuple[float, float]]


def _kind_of(label: Label) -> str:
    return label.places[0].rstrip("0123456789 ")


class _Layout:
    """What both ways of lying share."""

    def __init__(self, outline: Outline, width: Width) -> None:
        self.outline, self.width = outline, width
        self.narrow = width == "narrow"

    def rows(self, all_labels: Sequence[Label], *kinds: str) -> list[Label]:
        return [label for label in all_labels if _kind_of(label) in kinds]


class _Upright(_Layout):
    """Crank along the page: labels of cylinders and pistons above, of rods and mains below, of the rest at the sides."""

    def lay(self, all_labels: Sequence[Label]) -> Laying:
        side = 26.0 if self.narrow else 134.0
        total = 360.0 if self.narrow else 1200.0
        build = self._build(total, side)
        front, rear, below, above = reach(build)
        x = side + 10 + front
        right = x + build.length + rear
        shown = Frame(x, 0)
        draft = lengthwise(build, shown)
        over = [self.rows(all_labels, "head"), self.rows(all_labels, "cylinder"), self.rows(all_labels, "piston", "flywheel")]
        upper = self._band(draft, over, right, above=True)
        high = sum(row_height for _, row_height in upper)
        y = 8 + high + 12 + above
        plate = lengthwise(build, Frame(x, y))
        boxes: Boxes = []
        leaders: list[str] = []
        top = 8.0
        for placed, row_height in upper:
            for label, left, wide, tall, across in placed:
                boxes.append(LabelBox(label, left, top + row_height - 6 - tall, left + wide, top + row_height - 6))
                leaders.append(leader([(across, top + row_height - 4), plate.anchors[label.places[0]]]))
            top += row_height
        bottom = y + below + 14
        under = [self.rows(all_labels, "rod"), self.rows(all_labels, "main", "crankshaft")]
        lower = self._band(plate, under, right, above=False)
        for placed, row_height in lower:
            for label, left, wide, tall, across in placed:
                boxes.append(LabelBox(label, left, bottom + 6, left + wide, bottom + 6 + tall))
                leaders.append(leader([(across, bottom + 4), plate.anchors[label.places[0]]]))
            bottom += row_height
        self._front(all_labels, plate, side, y, boxes, leaders)
        cross, edge, foot = self._across(build, all_labels, right, y, bottom, total, boxes, leaders)
        edge = edge if self.narrow else max(box.right for box in boxes) + 10
        return boxes, leaders, [plate, cross], (edge, max(bottom, foot) + 8)

    def _build(self, total: float, side: float) -> Build:
        count = max(1, min(self.outline.cylinders or 1, 16))
        spacing = 1.62 if self.outline.casting == "en bloc" else 1.75
        if self.narrow:
            return build_of(self.outline, bore=min(62.0, (total - side - 20) / (spacing * count + 3.0)))
        return build_of(self.outline, bore=min(84.0, (total - 2 * side - 90) / (spacing * count + 6.6)))

    def _band(self, plate: Plate, rows: Sequence[Sequence[Label]], limit: float, *, above: bool) -> list[Band]:
        """Labels in rows, given from the top down, each in the room that the other leaders leave it.

        Leaders of the rows farther out pass through the nearer ones: a label ends before the next of them, and midway to its
        own neighbour.
        """
        banded: list[Band] = []
        for n, row in enumerate(rows):
            outer = rows[:n] if above else rows[n + 1 :]
            crossing = [self._across_of(plate, label) for other in outer for label in other]
            placed = self._row(sorted(row, key=lambda label: self._across_of(plate, label)), plate, crossing, limit)
            if placed:
                banded.append((placed, max(tall for _, _, _, tall, _ in placed) + GAP))
        return banded

    def _row(self, row: Sequence[Label], plate: Plate, crossing: Sequence[float], limit: float) -> list[Placed]:
        placed: list[Placed] = []
        across = [self._across_of(plate, label) for label in row]
        for n, (label, at) in enumerate(zip(row, across, strict=True)):
            if self.narrow:
                start = max(at - BALLOON, placed[-1][1] + 2 * BALLOON + 2 if placed else 6.0)
                placed.append((label, start, 2 * BALLOON, 2 * BALLOON, start + BALLOON))
                continue
            walls = [column for column in crossing if abs(column - at) > 0.5]
            for other in across[max(n - 1, 0) : n] + across[n + 1 : n + 2]:
                if not any(min(at, other) < wall < max(at, other) for wall in walls):
                    walls.append((at + other) / 2)
            start = max([at - 62, 6.0, *(wall + 3 for wall in walls if wall < at)])
            end = min([max(limit + 60, at + 130), at + 130, *(wall - 3 for wall in walls if wall > at)])
            wide, tall = _size(label, end - start, self.width)
            start = min(max(start, at - wide / 2), end - wide)
            placed.append((label, start, wide, tall, at))
        return placed

    @staticmethod
    def _across_of(plate: Plate, label: Label) -> float:
        return plate.anchors[label.places[0]][0]

    def _front(
        self, all_labels: Sequence[Label], plate: Plate, side: float, y: float, boxes: Boxes, leaders: list[str]
    ) -> None:
        wanted = self.rows(all_labels, "governor", "magneto", "timing gears", "pump")
        _column(wanted, plate, boxes, leaders, left=6, room=side - 6, middle=y, width=self.width, arrive="right")

    def _across(
        self, build: Build, all_labels: Sequence[Label], right: float, y: float, bottom: float, total: float, boxes: Boxes,
        leaders: list[str],
    ) -> tuple[Plate, float, float]:  # fmt: skip
        wanted = self.rows(all_labels, "valves", "camshaft", "crankcase")
        if self.narrow:
            build = build_of(self.outline, bore=52)
            _, _, below, above = reach(build)
            x, y = 150.0, bottom + 14 + above
            plate = crosswise(build, Frame(x, y))
            left = x + half_width(build) + 24
            foot = y + below
        else:
            x = right + 18 + half_width(build)
            plate = crosswise(build, Frame(x, y))
            left, foot = x + half_width(build) + 22, bottom
        wanted = [label for label in wanted if label.places[0] in plate.anchors]
        missing = [label for label in self.rows(all_labels, "valves") if label.places[0] not in plate.anchors]
        lowest = _column(
            wanted, plate, boxes, leaders, left=left, room=total - left - 6, middle=y, width=self.width, arrive="left"
        )
        for label in missing:
            wide, tall = _size(label, total - left - 6, self.width)
            boxes.append(LabelBox(label, left, lowest + 10, left + wide, lowest + 10 + tall))
            lowest += tall + 10
        return plate, total, max(foot, lowest)


def _column(
    wanted: Sequence[Label], plate: Plate, boxes: Boxes, leaders: list[str], *, left: float, room: float, middle: float,
    width: Width, arrive: Literal["left", "right"],
) -> float:  # fmt: skip
    """Labels one under another, in the order of their targets, each as near its target's height as the others allow."""
    ordered = sorted(wanted, key=lambda label: plate.anchors[label.places[0]][1])
    sizes = [_size(label, room, width) for label in ordered]
    tops = _spread([plate.anchors[label.places[0]][1] - 8 for label in ordered], [tall + GAP for _, tall in sizes])
    for label, top, (wide, tall) in zip(ordered, tops, sizes, strict=True):
        target = plate.anchors[label.places[0]]
        start = left
        boxes.append(LabelBox(label, start, top, start + wide, top + tall))
        from_x = start + wide + 4 if arrive == "right" else start - 4
        if width == "narrow":
            from_x += -4 if arrive == "right" else 4
        from_y = top + (BALLOON if width == "narrow" else 8)
        leaders.append(leader([(from_x, from_y), target]))
    return max([top + tall for top, (_, tall) in zip(tops, sizes, strict=True)], default=middle)


def _spread(wished: Sequence[float], heights: Sequence[float]) -> list[float]:
    """Positions in order, none overlapping, close to the wished ones: pushed down, then lifted back as far as they go."""
    tops: list[float] = []
    for wish, _ in zip(wished, heights, strict=True):
        floor = tops[-1] + heights[len(tops) - 1] if tops else 8.0
        tops.append(max(wish, floor))
    return tops


class _Lying(_Layout):
    """Crank down the page, heads to the left: labels of cylinders and pistons at the left, of rods and mains at the right."""

    lane = 0.0

    def lay(self, all_labels: Sequence[Label]) -> Laying:
        total = 360.0 if self.narrow else 1200.0
        room = 2 * BALLOON if self.narrow else 150.0
        first = self.rows(all_labels, "cylinder", "head")
        columns = [
            first,
            self.rows(all_labels, "piston"),
            self.rows(all_labels, "rod"),
            self.rows(all_labels, "main", "crankshaft"),
        ]
        build = self._build(columns, room, total)
        self.lane = build.pitch / 2 - 0.55 * build.bore
        front, rear, below, above = reach(build)
        boxes: Boxes = []
        leaders: list[str] = []
        crank = 8 + 2 * (room + 14) + 10 + above
        top_labels = self.rows(all_labels, "governor", "magneto", "timing gears", "pump")
        slot = (crank + below - 10) / len(top_labels) if self.narrow else 200.0
        high = max(_size(label, slot - 16, self.width)[1] for label in top_labels)
        y = 8 + high + 26 + front
        plate = lengthwise(build, Frame(crank, y, lying=True))
        self._top(top_labels, plate, slot, boxes, leaders)
        lefts = (8.0, 8 + room + 14)
        for column, left in zip(columns[:2], lefts, strict=True):
            self._at_side(column, plate, left, room, boxes, leaders, head_side=True)
        start = crank + below + 18
        for column, left in zip(columns[2:], (start, start + room + 14), strict=True):
            self._at_side(column, plate, left, room, boxes, leaders, head_side=False)
        bottom = y + build.length + rear
        for label in self.rows(all_labels, "flywheel"):
            target = plate.anchors["flywheel"]
            wide, tall = _size(label, 150, self.width)
            left, top = target[0] - wide - 30, target[1] + 8
            boxes.append(LabelBox(label, left, top, left + wide, top + tall))
            leaders.append(leader([(left + wide + (0 if self.narrow else 4), top + 8), target]))
            bottom = max(bottom, top + tall)
        cross, foot = self._across(all_labels, bottom, total, boxes, leaders)
        return boxes, leaders, [plate, cross], (total, foot + 10)

    def _build(self, columns: Sequence[Sequence[Label]], room: float, total: float) -> Build:
        """Spacing wide enough for the tallest label beside its cylinder."""
        count = max(1, min(self.outline.cylinders or 1, 16))
        tallest = max(_size(label, room, self.width)[1] for column in columns for label in column)
        across = (total - 4 * (room + 14) - 60) / 5.4
        bore = min(84.0, across, 640 / (1.75 * count + 1)) if not self.narrow else min(across, 46.0)
        return build_of(self.outline, bore=bore, least_pitch=(tallest + 12) if not self.narrow else 48.0)

    def _top(self, wanted: Sequence[Label], plate: Plate, slot: float, boxes: Boxes, leaders: list[str]) -> None:
        ordered = sorted(wanted, key=lambda label: plate.anchors[label.places[0]][0])
        sizes = [_size(label, slot - 16, self.width) for label in ordered]
        wished = [plate.anchors[label.places[0]][0] - wide / 2 for label, (wide, _) in zip(ordered, sizes, strict=True)]
        lefts = _spread(wished, [wide + 16 for wide, _ in sizes])
        high = max(tall for _, tall in sizes)
        for label, left, (wide, tall) in zip(ordered, lefts, sizes, strict=True):
            target = plate.anchors[label.places[0]]
            boxes.append(LabelBox(label, left, 8 + high - tall, left + wide, 8 + high))
            leaders.append(leader([(left + wide / 2, 8 + high + 3), target]))

    def _at_side(
        self,
        column: Sequence[Label],
        plate: Plate,
        left: float,
        room: float,
        boxes: Boxes,
        leaders: list[str],
        *,
        head_side: bool,
    ) -> None:
        ordered = sorted(column, key=lambda label: plate.anchors[label.places[0]][1])
        sizes = [_size(label, room, self.width) for label in ordered]
        heights = [plate.anchors[label.places[0]][1] for label in ordered]
        shift = 0.0 if self.narrow else self.lane
        wished = [at + (shift if _kind_of(label) == "piston" else 0) - tall / 2
                  for label, at, (_, tall) in zip(ordered, heights, sizes, strict=True)]  # fmt: skip
        tops = _spread(wished, [tall + 3 for _, tall in sizes])
        for label, top, (wide, tall) in zip(ordered, tops, sizes, strict=True):
            x, y = plate.anchors[label.places[0]]
            boxes.append(LabelBox(label, left, top, left + wide, top + tall))
            mid, gap = top + tall / 2, 0 if self.narrow else 4
            leaders.append(leader([(left + wide + gap if head_side else left - gap, mid), (x, y)]))

    def _across(
        self, all_labels: Sequence[Label], bottom: float, total: float, boxes: Boxes, leaders: list[str]
    ) -> tuple[Plate, float]:
        build = build_of(self.outline, bore=40 if self.narrow else 70)
        _, _, below, above = reach(build)
        side_room = min(190.0, total - 60)
        valves = self.rows(all_labels, "valves")[0]
        wide, tall = _size(valves, side_room, self.width)
        x = 20 + above if self.narrow else 330 + above
        y = bottom + 30 + tall + 14 + half_width(build)
        plate = crosswise(build, Frame(x, y, lying=True))
        left = x + below + 30
        wanted = [label for label in self.rows(all_labels, "camshaft", "crankcase") if label.places[0] in plate.anchors]
        lowest = _column(
            wanted,
            plate,
            boxes,
            leaders,
            left=left,
            room=min(190.0, total - left - 6),
            middle=y,
            width=self.width,
            arrive="left",
        )
        target = plate.anchors.get("valves")
        at = target[0] if target else x - above / 2
        start, top = max(6.0, at - wide / 2), bottom + 24
        boxes.append(LabelBox(valves, start, top, start + wide, top + tall))
        if target:
            leaders.append(leader([(at, top + tall + 3), target]))
        return plate, max(lowest, y + half_width(build))


__all__ = ["Label", "LabelBox", "Laid", "PartState", "Point", "engine_section", "labels", "laid_out", "num", "path", "place_of"]
