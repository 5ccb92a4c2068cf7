"""The short outline of an engine: what can be said of it before anything is measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Casting = Literal["singly", "in pairs", "en bloc"]
Head = Literal["integral", "detachable"]
Valves = Literal["L head", "T head", "F head", "overhead"]
Lie = Literal["vertical", "horizontal"]
Inlet = Literal["automatic", "mechanical"]
Governing = Literal["hit-and-miss", "throttling"]
Rotation = Literal["clockwise", "anticlockwise"]
Flywheels = Literal["one end", "both ends"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Everything but the name may be unknown; unknown is None or an empty text, never a guess.

    Lengths [m], speed [rev/min]. ``bore`` and ``stroke`` are plate or advertisement figures, evidence and not readings.
    ``inlet`` is automatic where suction alone opens the inlet valves; ``rotation`` is that seen when facing the flywheel
    from outside (the one at the driving end, where there are two); ``offset`` is the distance by which the cylinder axis
    misses the crank axis.
    """

    name: str
    maker: str = ""
    place: str = ""
    built: str = ""
    serial: str = ""
    plate: str = ""
    cylinders: int | None = None
    casting: Casting | None = None
    head: Head | None = None
    valves: Valves | None = None
    lie: Lie | None = None
    strokes: Literal[2, 4] | None = None
    bore: float | None = None
    bore_typed: str = ""
    stroke: float | None = None
    stroke_typed: str = ""
    rated_speed: float | None = None
    bearings: str = ""
    oiling: str = ""
    cooling: str = ""
    ignition: str = ""
    governor: str = ""
    fuel: str = ""
    flywheel: str = ""
    main_bearings: int | None = None
    rings_per_piston: int | None = None
    notes: str = ""
    casting_numbers: str = ""
    power: str = ""
    inlet: Inlet | None = None
    offset: float | None = None
    offset_typed: str = ""
    rotation: Rotation | None = None
    firing_order: str = ""
    camshafts: int | None = None
    gears: str = ""
    pump: str = ""
    magneto: str = ""
    governing: Governing | None = None
    flywheels: Flywheels | None = None
