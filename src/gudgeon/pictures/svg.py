"""SVG text, written by hand: shapes with class names and no style of their own, every text escaped, the same bytes twice."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from html import escape

Point = tuple[float, float]


def num(value: float) -> str:
    """A coordinate with one decimal at most."""
    text = f"{value:.1f}"
    return text[:-2] if text.endswith(".0") else text


def attribute(name: str, value: str) -> str:
    """One attribute with its leading space, or nothing for an empty value."""
    return f' {name}="{escape(value, quote=True)}"' if value else ""


def path(points: Sequence[Point], kind: str, *, closed: bool = False, fill: str = "") -> str:
    """A line through points."""
    steps = "L".join(f"{num(x)} {num(y)}" for x, y in points)
    return f'<path class="{kind}" d="M{steps}{"z" if closed else ""}"{attribute("fill", fill)}/>'


def outline(contours: Iterable[Sequence[Point]], kind: str, *, fill: str = "") -> str:
    """An area with holes: closed contours under the even-odd rule."""
    steps = "".join("M" + "L".join(f"{num(x)} {num(y)}" for x, y in contour) + "z" for contour in contours)
    return f'<path class="{kind}" fill-rule="evenodd" d="{steps}"{attribute("fill", fill)}/>'


def box(a: Point, b: Point, kind: str, *, fill: str = "", round: float = 0) -> str:
    """A rectangle between two opposite corners."""
    x, y = min(a[0], b[0]), min(a[1], b[1])
    w, h = abs(a[0] - b[0]), abs(a[1] - b[1])
    corner = f' rx="{num(round)}"' if round else ""
    return (
        f'<rect class="{kind}" x="{num(x)}" y="{num(y)}" width="{num(w)}" height="{num(h)}"{corner}{attribute("fill", fill)}/>'
    )


def disc(centre: Point, radius: float, kind: str, *, fill: str = "") -> str:
    """A circle."""
    return f'<circle class="{kind}" cx="{num(centre[0])}" cy="{num(centre[1])}" r="{num(radius)}"{attribute("fill", fill)}/>'


def words(at: Point, text: str, kind: str = "pic-text", *, anchor: str = "", size: float = 0) -> str:
    """A text on one line. ``anchor`` is "middle" or "end"; ``size`` overrides the class's type size."""
    set_size = f' font-size="{num(size)}"' if size else ""
    return (
        f'<text class="{kind}" x="{num(at[0])}" y="{num(at[1])}"{attribute("text-anchor", anchor)}{set_size}>'
        f"{escape(text, quote=False)}</text>"
    )


def arrowhead(tip: Point, towards: Point, *, length: float = 7.0, half: float = 2.2) -> str:
    """A filled arrowhead at ``tip``, pointing the way from ``towards`` to ``tip``."""
    dx, dy = tip[0] - towards[0], tip[1] - towards[1]
    norm = (dx * dx + dy * dy) ** 0.5 or 1.0
    ux, uy = dx / norm, dy / norm
    back = (tip[0] - ux * length, tip[1] - uy * length)
    return path(
        [tip, (back[0] - uy * half, back[1] + ux * half), (back[0] + uy * half, back[1] - ux * half)], "pic-tip", closed=True
    )


def leader(points: Sequence[Point]) -> str:
    """A thin leader ending in an arrowhead at its last point."""
    return path(points, "pic-leader") + arrowhead(points[-1], points[-2])


def picture(
    *, width: float, height: float, title: str, body: str, hatches: bool = False, role: str = "img", kind: str = "picture"
) -> str:
    """A whole SVG. Where ``hatches`` is set, ``{hatch}``, ``{hatch2}``, ``{dots}`` in the body name its section linings;
    their ids come from the content, so that several pictures stand on one page without a clash."""
    definitions = ""
    if hatches:
        ident = "p" + hashlib.sha256((title + body).encode()).hexdigest()[:8]
        body = (
            body.replace("{hatch}", f"url(#{ident}a)")
            .replace("{hatch2}", f"url(#{ident}b)")
            .replace("{dots}", f"url(#{ident}c)")
        )
        definitions = (
            f'<defs><pattern id="{ident}a" width="5" height="5" patternTransform="rotate(45)" patternUnits="userSpaceOnUse">'
            '<path class="pic-hatch" d="M0 0V5"/></pattern>'
            f'<pattern id="{ident}b" width="4" height="4" patternTransform="rotate(-45)" patternUnits="userSpaceOnUse">'
            '<path class="pic-hatch" d="M0 0V4"/></pattern>'
            f'<pattern id="{ident}c" width="3.2" height="3.2" patternTransform="rotate(30)" patternUnits="userSpaceOnUse">'
            '<circle class="pic-dot" cx="1.2" cy="1.2" r=".65"/></pattern></defs>'
        )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{kind}" viewBox="0 0 {num(width)} {num(height)}"'
        f'{attribute("role", role)} aria-label="{escape(title, quote=True)}">{definitions}{body}</svg>'
    )
