"""The plan as streams: what each system still needs runs down its own arm, the arms meet at fit-up, and fit-up runs on to
the first run. Time runs down the page; every step is one line of words, so that nothing can overlap."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from gudgeon.pictures.lettering import wrapped
from gudgeon.pictures.svg import Point, disc, num, path, picture, words

WIDTH, LINE = 380.0, 15.0
ARM = 24.0
Kind = Literal["own", "shop", "hold", "done"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanStop:
    """One step on its arm. ``when`` is said in words; ``after`` names the stops that it waits for."""

    key: str
    title: str
    when: str
    arm: str
    kind: Kind
    after: tuple[str, ...] = ()
    late: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanStreams:
    """The stops in the order of time; the last arm is the common one, where the others meet."""

    title: str
    stops: tuple[PlanStop, ...]
    common: str
    end: str
    target: str = ""


def draw_plan(plan: PlanStreams) -> str:
    """The streams as one picture; a stop waits for those that a curve leads from."""
    arms = [arm for arm in dict.fromkeys(stop.arm for stop in plan.stops) if arm != plan.common]
    places = {arm: 26 + ARM * n for n, arm in enumerate(arms)}
    places[plan.common] = 26 + ARM * max(len(arms) - 1, 0) / 2 if arms else 26.0
    left = 26 + ARM * max(len(arms) - 1, 0) + 26
    at: dict[str, Point] = {}
    texts: list[str] = []
    y = 24.0
    heads = _heads(arms, places, left)
    y += heads[1]
    for stop in plan.stops:
        at[stop.key] = (places[stop.arm], y)
        lines = wrapped(stop.title, WIDTH - left - 8, 13)
        for n, line in enumerate(lines):
            texts.append(words((left, y + 4 + LINE * n), line, "pic-text", size=13))
        texts.append(words((left, y + 4 + LINE * len(lines)), stop.when, "pic-warn" if stop.late else "pic-note", size=12))
        y += LINE * (len(lines) + 1) + 13
    end = (places[plan.common], y + 6)
    body = [*_flows(plan, at, end), *heads[0], *texts, *(_knot(stop, at[stop.key]) for stop in plan.stops)]
    body.append(path([(end[0] - 12, end[1]), (end[0] + 12, end[1])], "pic-thick"))
    body.append(words((left, end[1] + 4), plan.end, "pic-name", size=13))
    y = end[1] + 20
    if plan.target:
        body.append(words((left, y + 4), plan.target, "pic-ask", size=12))
        y += 16
    return picture(width=WIDTH, height=y + 6, title=plan.title, body="".join(body))


def _heads(arms: Sequence[str], places: Mapping[str, float], left: float) -> tuple[list[str], float]:
    """The names of the arms, stepped so that each has a line of its own, leading down to its arm."""
    shapes, bottom = [], 10 + 16 * len(arms)
    for n, arm in enumerate(arms):
        y = 12 + 16 * n
        shapes.append(path([(left - 6, y - 4), (places[arm], y - 4), (places[arm], bottom + 8)], "pic-leader"))
        shapes.append(words((left, y), arm, "pic-name", size=12))
    return shapes, float(bottom)


def _flows(plan: PlanStreams, at: Mapping[str, Point], end: Point) -> list[str]:
    waited = {key for stop in plan.stops for key in stop.after}
    flows = []
    for stop in plan.stops:
        for key in stop.after:
            if key in at:
                flows.append(_flow(at[key], at[stop.key]))
    for stop in plan.stops:
        if stop.key not in waited:
            flows.append(_flow(at[stop.key], end))
    return flows


def _flow(a: Point, b: Point) -> str:
    """Straight down its arm; a curve where it joins another, turning just before it arrives."""
    if abs(a[0] - b[0]) < 0.1:
        return path([a, b], "pic-branch pic-thin")
    turn = max(a[1], b[1] - 34)
    middle = (turn + b[1]) / 2
    curve = f"M{num(a[0])} {num(a[1])}V{num(turn)}C{num(a[0])} {num(middle)} {num(b[0])} {num(middle)} {num(b[0])} {num(b[1])}"
    return f'<path class="pic-branch pic-thin" d="{curve}"/>'


def _knot(stop: PlanStop, at: Point) -> str:
    kind = {"own": "pic-knot", "shop": "pic-knot-shop", "hold": "pic-knot", "done": "pic-knot-done"}[stop.kind]
    if stop.kind == "hold":
        return path([(at[0], at[1] - 7), (at[0] + 7, at[1]), (at[0], at[1] + 7), (at[0] - 7, at[1])], kind, closed=True)
    return disc(at, 6.0 if stop.kind == "shop" else 5.0, kind)
