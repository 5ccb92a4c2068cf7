"""How the engine of an outline is drawn: proportions, spacing and crank phases. What is unknown is drawn as was usual.

The proportions are those of a drawing that reads well, not claims about the engine: nothing here is ever shown as a size.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, sqrt

from gudgeon.engine.outline import Outline
from gudgeon.pictures.svg import Point

MOST_CYLINDERS = 16

# Crank angles from cylinder 1 in degrees, by count of cylinders: the usual even arrangements (common practice).
_PHASES: dict[int, tuple[int, ...]] = {
    1: (0,), 2: (0, 180), 3: (0, 240, 120), 4: (0, 180, 180, 0), 5: (0, 144, 216, 288, 72), 6: (0, 120, 240, 240, 120, 0),
    7: (0, 154, 309, 103, 257, 51, 206), 8: (0, 180, 90, 270, 270, 90, 180, 0),
}  # fmt: skip
_TURNED = 32.0


@dataclass(frozen=True, kw_only=True)
class Build:
    """Proportions in drawing units. ``u`` runs along the crank from the front end, ``v`` from the crank to the head."""

    outline: Outline
    count: int
    bore: float
    pitch: float

    @property
    def throw(self) -> float:
        """Crank throw, from the outline's own bore and stroke where both are known and drawable."""
        ratio = 1.15
        if self.outline.bore and self.outline.stroke:
            ratio = min(max(self.outline.stroke / self.outline.bore, 0.85), 1.6)
        return self.bore * ratio / 2

    @property
    def rod(self) -> float:
        """Rod between centres: about four throws, as was usual."""
        return 3.7 * self.throw

    @property
    def crown(self) -> float:
        """Pin to crown."""
        return 0.5 * self.bore

    @property
    def base(self) -> float:
        """Lower end of the barrel."""
        return self.rod - self.throw - 0.32 * self.bore

    @property
    def deck(self) -> float:
        """Top of the crankcase."""
        return self.base + 0.16 * self.bore

    @property
    def roof(self) -> float:
        """Roof of the combustion chamber."""
        return self.rod + self.throw + self.crown + 0.16 * self.bore

    @property
    def top(self) -> float:
        """Top of head or jacket."""
        return self.roof + (0.2 if self.air_cooled else 0.42) * self.bore

    @property
    def sump(self) -> float:
        """Bottom of the crankcase, below the crank."""
        return -(self.throw + 0.62 * self.bore)

    @property
    def length(self) -> float:
        """Crankcase length."""
        return self.count * self.pitch

    @property
    def air_cooled(self) -> bool:
        """Fins and no jacket."""
        return "air" in self.outline.cooling.lower()

    @property
    def overhead(self) -> bool:
        """Valves or one valve in the head."""
        return self.outline.valves in ("overhead", "F head")

    @property
    def head_loose(self) -> bool:
        """A head that comes off."""
        return self.outline.head == "detachable"

    def at(self, number: int) -> float:
        """u of a cylinder, counting from one."""
        return (number - 0.5) * self.pitch

    def angle(self, number: int) -> float:
        """Crank angle of a cylinder past its top dead centre [degree]."""
        phases = _PHASES.get(self.count) or tuple(360 * n // self.count for n in range(self.count))
        return phases[number - 1] + _TURNED

    def crankpin(self, number: int) -> Point:
        """Crankpin in the plane across the crank: (across, v)."""
        angle = radians(self.angle(number))
        return self.throw * sin(angle), self.throw * cos(angle)

    def pin(self, number: int) -> float:
        """v of the gudgeon pin."""
        across, up = self.crankpin(number)
        return up + sqrt(self.rod**2 - across**2)

    @property
    def groups(self) -> tuple[tuple[int, ...], ...]:
        """Cylinders by casting."""
        size = {"singly": 1, "in pairs": 2, "en bloc": self.count, None: 1}[self.outline.casting]
        numbers = range(1, self.count + 1)
        return tuple(tuple(numbers[start : start + size]) for start in range(0, self.count, size))

    @property
    def mains(self) -> tuple[float, ...]:
        """u of each main bearing, front first, the end ones in the end walls."""
        asked = self.outline.main_bearings or self.count + 1
        asked = max(2, min(asked, self.count + 1))
        gaps = [round(n * self.count / (asked - 1)) for n in range(asked)]
        return tuple(gap * self.pitch for gap in dict.fromkeys(gaps))


def build_of(outline: Outline, *, bore: float, least_pitch: float = 0.0) -> Build:
    """Proportions for an outline. An unknown count is drawn as one cylinder."""
    count = max(1, min(outline.cylinders or 1, MOST_CYLINDERS))
    pitch = max(least_pitch, bore * (1.62 if outline.casting == "en bloc" else 1.75))
    return Build(outline=outline, count=count, bore=bore, pitch=pitch)


@dataclass(frozen=True)
class Frame:
    """Places (along, v) of the engine's own plane on the page: upright, or lying with the head to the left."""

    x: float
    y: float
    lying: bool = False

    def at(self, along: float, v: float) -> Point:
        """A point on the page."""
        return (self.x - v, self.y + along) if self.lying else (self.x + along, self.y - v)

    def all(self, *points: Point) -> list[Point]:
        """Several points on the page."""
        return [self.at(*point) for point in points]

    def rect(self, u0: float, v0: float, u1: float, v1: float) -> list[Point]:
        """The corners of a rectangle on the page."""
        return self.all((u0, v0), (u1, v0), (u1, v1), (u0, v1))


class Plate:
    """A drawing under way: what belongs to which part, back to front, and where a leader to it should point."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self.pieces: list[tuple[str, list[str]]] = []
        self.anchors: dict[str, Point] = {}

    def add(self, place: str, *shapes: str, anchor: Point | None = None) -> None:
        """Add shapes of a part; ``anchor`` in the engine's own plane."""
        if self.pieces and self.pieces[-1][0] == place:
            self.pieces[-1][1].extend(shapes)
        else:
            self.pieces.append((place, list(shapes)))
        if anchor is not None:
            self.anchors.setdefault(place, self.frame.at(*anchor))
