"""Every element of the pages in all its states, for looking at. The sizes on it are made up."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup
from starlette.responses import Response

from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.picture import BoreMap, Curve, SizePosterior, Strip, WallMap
from gudgeon.pictures import PartState, PlanStop, PlanStreams, draw, draw_plan, draw_spot, engine_section
from gudgeon.web import words
from gudgeon.web.frame import drawn, page
from gudgeon.web.visit import Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternsPage:
    """Every picture, for looking at."""

    pictures: tuple[tuple[str, Markup], ...]
    sections: tuple[tuple[str, Markup, Markup], ...]


def show(visit: Visit) -> Response:
    """Every element in all its states. The sizes on it are made up."""
    units = visit.person.units
    pictures = [(title, drawn(draw(picture, units=units))) for title, picture in _samples()]
    spot = draw_spot(levels=("ridge", "top of ring travel", "middle", "below"), level="middle", direction=90.0, inside=True)
    pictures += [("The place of a reading", drawn(spot)), ("Plan", drawn(draw_plan(_plan())))]
    data = PatternsPage(pictures=tuple(pictures), sections=_sections())
    return page(visit, "patterns.html", data, sheet=words.SHEETS["patterns"])


def _sections() -> tuple[tuple[str, Markup, Markup], ...]:
    states = {
        "cylinder 1": PartState("make good: at the grinder’s", "blue", "#states"),
        "piston 2": PartState("skirt clearance: past its limit", "red", "#states"),
        "main 1": PartState("measured, inside its limits", "", "#states"),
    }
    outlines = (
        Outline(
            name="Three upright, singly, F head",
            cylinders=3,
            casting="singly",
            head="integral",
            valves="F head",
            lie="vertical",
        ),
        Outline(
            name="Four upright, in pairs, T head",
            cylinders=4,
            casting="in pairs",
            head="integral",
            valves="T head",
            lie="vertical",
        ),
        Outline(
            name="Eight upright, en bloc, L head",
            cylinders=8,
            casting="en bloc",
            head="detachable",
            valves="L head",
            lie="vertical",
        ),
        Outline(
            name="Two lying, overhead", cylinders=2, casting="in pairs", head="detachable", valves="overhead", lie="horizontal"
        ),
        Outline(
            name="One upright, air-cooled", cylinders=1, head="detachable", valves="overhead", lie="vertical", cooling="air"
        ),
    )
    return tuple(
        (
            outline.name,
            drawn(engine_section(outline, states, width="wide")),
            drawn(engine_section(outline, states, width="narrow")),
        )
        for outline in outlines
    )


def _samples() -> tuple[tuple[str, Strip | BoreMap | WallMap | SizePosterior | Curve], ...]:
    thou = 25.4e-6
    past = Finding(
        system="sample",
        part="part",
        item="sample",
        quantity="out of round",
        dimension="length",
        value=6.1 * thou,
        low=5.5 * thou,
        high=6.7 * thou,
        target_low=0.0,
        target_high=1 * thou,
        limit=5 * thou,
    )
    least = Finding(
        system="sample",
        part="part",
        item="sample",
        quantity="wall",
        dimension="length",
        value=200 * thou,
        low=180 * thou,
        high=220 * thou,
        limit=150 * thou,
        limit_is="least",
        as_fitted=210 * thou,
    )
    spots = tuple(
        (depth * 0.0254, direction, wear * thou * (1 + (direction == 90)))
        for depth, wear in ((0.5, 5.0), (1.7, 2.6), (3.0, 1.0), (4.6, 0.3))
        for direction in (0.0, 90.0)
    )
    wall = tuple(
        (depth, direction, 0.005 + 0.001 * (direction == 90) - depth / 50)
        for depth in (0.02, 0.08)
        for direction in (0.0, 90.0, 180.0, 270.0)
    )
    return (
        ("A finding past its limit", Strip(finding=past)),
        ("A least size, with the size as fitted", Strip(finding=least)),
        (
            "A bore",
            BoreMap(
                title="sample bore",
                spots=spots,
                travel_top=0.011,
                travel_bottom=0.112,
                worst=10 * thou,
                nominal=0.1143,
                clean_up=0.1147,
            ),
        ),
        ("Wall left", WallMap(title="sample wall", spots=wall, least=0.004)),
        (
            "Which size the drawing called for",
            SizePosterior(
                title="sample", candidates=((0.1143, "4 1/2", 0.86), (0.11455, "4.510", 0.11)), readings=(0.11431, 0.11434)
            ),
        ),
        (
            "Curves",
            Curve(
                title="sample",
                x_text="load, share of full",
                y_text="speed, rev/min",
                curves=(
                    ("rising", ((0.0, 478.0), (0.5, 462.0), (1.0, 450.0))),
                    ("falling", ((0.0, 484.0), (0.5, 470.0), (1.0, 456.0))),
                ),
                bands=(("aimed at", 445.0, 455.0),),
            ),
        ),
    )


def _plan() -> PlanStreams:
    stops = (
        PlanStop(key="a", title="measure the bores", when="done 3 March 2027", arm="cylinders", kind="done"),
        PlanStop(
            key="b",
            title="bore the block",
            when="about 12 April 2027; send by 20 March",
            arm="cylinders",
            kind="shop",
            after=("a",),
        ),
        PlanStop(key="c", title="pour the mains", when="too late: about 22 May 2027", arm="bearings", kind="shop", late=True),
        PlanStop(
            key="d",
            title="close the crankcase: clearances read",
            when="about 28 May 2027",
            arm="fit-up",
            kind="hold",
            after=("b", "c"),
        ),
    )
    return PlanStreams(
        title="sample plan", stops=stops, common="fit-up", end="can run: 1 June 2027", target="aimed at: 1 May 2027"
    )
