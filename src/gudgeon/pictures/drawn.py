"""Any finding's picture, by its kind."""

from __future__ import annotations

from gudgeon.engine.picture import BoreMap, Curve, Picture, Profile, SizePosterior, Strip, TimingChart, WallMap
from gudgeon.pictures.bore_map import draw_bore_map
from gudgeon.pictures.curve import draw_curve
from gudgeon.pictures.posterior import draw_posterior
from gudgeon.pictures.profile import draw_profile
from gudgeon.pictures.strip import draw_strip
from gudgeon.pictures.timing_chart import draw_timing_chart
from gudgeon.pictures.wall_map import draw_wall_map
from gudgeon.quantity import UnitChoice


def draw(picture: Picture, *, units: UnitChoice) -> str:
    """The picture as SVG, in the reader's units. A map without a single spot draws as an empty string."""
    match picture:
        case BoreMap():
            return draw_bore_map(picture, units=units) if picture.spots else ""
        case WallMap():
            return draw_wall_map(picture, units=units) if picture.spots else ""
        case Strip():
            return draw_strip(picture, units=units)
        case SizePosterior():
            return draw_posterior(picture, units=units) if picture.candidates else ""
        case Curve():
            return draw_curve(picture)
        case Profile():
            return draw_profile(picture, units=units) if picture.outlines else ""
        case TimingChart():
            return draw_timing_chart(picture) if picture.arcs or picture.marks else ""
