"""Shop drawings of pins, rollers, a collar ring and the spring of a governor."""

from __future__ import annotations

from gudgeon.engine.drawing import Drawing, View
from gudgeon.engine.sketching import Limits, pin_view, sleeve_section
from gudgeon.mechanics.springs import SpringMade
from gudgeon.systems.drafting import both
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.measured import number
from gudgeon.systems.spring_views import spring_view


def pin(item: str, one: GovernorSet, *, diameter: Limits, length: Limits) -> Drawing:
    """A pivot pin of a weight."""
    return _drawing(
        one,
        item,
        number=f"GP{number(item)}",
        title=f"Governor pin, {item}",
        part="governor pin",
        material="mild steel, case-hardened",
        finish="ground or lapped after hardening",
        views=(pin_view(diameter=diameter, length=length),),
        notes=("Cotter holes, head and oil hole as the old pin, which goes with this sheet.",),
    )


def roller(item: str, one: GovernorSet, *, outside: Limits, bore: Limits, width: Limits) -> Drawing:
    """A roller."""
    return _drawing(
        one,
        item,
        number=f"GR{number(item)}",
        title=f"Governor roller, {item}",
        part="governor roller",
        material="mild steel, case-hardened .03 in deep at least",
        finish="outside and bore ground after hardening, true to each other within .001 in",
        views=(sleeve_section(outside=outside, inside=bore, length=width, title="Roller, section"),),
        notes=("Both rollers to one size within .0005 in: the sleeve must not cock. Edges broken .010 in.",),
    )


def roller_pin(item: str, one: GovernorSet, *, diameter: Limits, length: Limits) -> Drawing:
    """The pin of a roller."""
    return _drawing(
        one,
        item,
        number=f"GQ{number(item)}",
        title=f"Pin of the governor roller, {item}",
        part="governor roller pin",
        material="mild steel, case-hardened",
        finish="ground or lapped after hardening",
        views=(pin_view(diameter=diameter, length=length),),
        notes=("Riveting or cotter as the old pin, which goes with this sheet; ends left soft where they are riveted.",),
    )


def collar_ring(one: GovernorSet, item: str, *, outside: Limits, bore: Limits, thickness: Limits) -> Drawing:
    """The ring that brings a faced sleeve up again."""
    return _drawing(
        one,
        item,
        number="GC1",
        title="Ring behind the governor sleeve",
        part="governor collar",
        material="steel, hard or bronze against steel",
        finish="faces flat and parallel within .0005 in",
        views=(sleeve_section(outside=outside, inside=bore, length=thickness, title="Ring, section"),),
        notes=("As thick as what is faced off the sleeve: measure the faced sleeve first.",),
    )


def spring_sheet(
    item: str, one: GovernorSet, made: SpringMade, *, outside: Limits, wire: str, material: str, pairs: tuple[Limits, Limits]
) -> Drawing:
    """The spring sheet; ``pairs`` are length and force with the sleeve down and right up."""
    down, up = pairs
    notes = (
        f"Sleeve down: {both(down[1], 'force')} within 5 % at {both(down[0])}.",
        f"Sleeve right up: {both(up[1], 'force')} within 5 % at {both(up[0])}.",
        f"Rate {both(float(made.rate), 'stiffness')} within 7 %: it sets how the speed spreads. Wire {wire}; about "
        f"{float(made.total):.2f} coils in all, {float(made.active):.2f} working. "
        f"Solid {both(float(made.solid_length))} at most.",
        "Ends closed and ground square. Rate first, then forces; wire and coils may be changed to meet them.",
    )
    return _drawing(
        one,
        item,
        number="GS1",
        title="Governor spring",
        part="governor spring",
        material=material,
        finish="oiled; stress relieved, pressed solid before it is measured",
        views=(spring_view(made, outside=outside),),
        notes=notes,
    )


def _drawing(
    one: GovernorSet,
    item: str,
    *,
    number: str,
    title: str,
    part: str,
    material: str,
    finish: str,
    views: tuple[View, ...],
    notes: tuple[str, ...],
) -> Drawing:
    return Drawing(
        number=number,
        title=title,
        part=part,
        item=item,
        material=material,
        finish=finish,
        views=views,
        notes=notes,
        job=one.bench.snapshot.outline.name,
    )
