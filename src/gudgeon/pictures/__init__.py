"""Pictures: the engine's section, bore maps, strips, curves, the plan; SVG for page and book alike. Pure."""

from gudgeon.pictures.drawn import draw
from gudgeon.pictures.photo_marks import draw_marks
from gudgeon.pictures.plan import PlanStop, PlanStreams, draw_plan
from gudgeon.pictures.section import Label, PartState, engine_section, labels, place_of
from gudgeon.pictures.spot import draw_spot
from gudgeon.pictures.style import STYLE, standalone

__all__ = [
    "STYLE",
    "Label",
    "PartState",
    "PlanStop",
    "PlanStreams",
    "draw",
    "draw_marks",
    "draw_plan",
    "draw_spot",
    "engine_section",
    "labels",
    "place_of",
    "standalone",
]
