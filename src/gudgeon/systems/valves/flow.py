"""Lift and room for the gas: lift against diameter, curtain against port, gas speed at rated speed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.handbook.proportions import proportions
from gudgeon.mechanics import valve_flow
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured
from gudgeon.systems.measured import Draws
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.valve_set import ValveSet, blank

LIFT, AREA, SPEED = "valve lift", "room round the valve over the port", "gas speed at the valve"


def flow_findings(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    """Lift, area and gas speed of one valve."""
    return (*_lift(item, valves), *_area(item, valves), *_speed(item, valves))


def _lift(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    lift, head = valves.size(d.LIFT, item), valves.size(d.HEAD, item) or valves.size(d.PORT, item)
    if lift is None or head is None:
        missing = "lift" if lift is None else "head diameter"
        return (not_measured(blank(item, LIFT), settle=f"Read the {missing} of {item}."),)
    practised = replace(valves.rules("valve lift", item=item, size=head.value), targets=())
    share = middle(lift.draws / head.draws)
    built = [row for row in proportions("valve lift") if row.as_built]
    said = joined(
        Said(
            f"{item} lifts {{0}}, {share:.2f} of its diameter; a quarter gives as much room as the port ({{1}}).",
            (Amount(lift.value, "length"), Amount(float(valve_flow.lift_for_port(diameter=head.value)), "length")),
        ),
        Said(f"Built at the time: {'; '.join(f'{row.authority} {row.low:.2f}' for row in built[:3])}."),
    )
    line = replace(
        blank(item, LIFT), sentence=said, inputs=(*lift.inputs, *head.inputs), formula="as read; d/4 by plane geometry"
    )
    return judged(line, lift.draws, practised)


def areas(item: str, valves: ValveSet) -> tuple[Draws, Draws, tuple[str, ...]] | None:
    """Curtain and port area [m2] with their readings; None where lift, head or port were not read."""
    lift, head, port = (valves.size(feature, item) for feature in (d.LIFT, d.HEAD, d.PORT))
    if lift is None or port is None:
        return None
    angle, read, _ = valves.angle(item)
    stem = valves.reader.smallest(d.STEM, item)
    outer = np.asarray(head.draws if head is not None else port.draws)
    inner = np.minimum(port.draws, outer)
    curtain = valve_flow.curtain_area(lift=lift.draws, head=outer, seat_width=(outer - inner) / 2, angle=angle)
    free = valve_flow.port_area(port=port.draws, stem=stem.draws if stem is not None else 0.0)
    inputs = (*lift.inputs, *port.inputs, *(head.inputs if head else ()), *read)
    return np.asarray(curtain), np.asarray(free), inputs


def _area(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    found = areas(item, valves)
    if found is None:
        settle = f"Read lift, head and port diameter of {item}."
        return (not_measured(blank(item, AREA, dimension="ratio"), settle=settle),)
    curtain, free, inputs = found
    share = curtain / free
    said = Said(
        f"Open, {item} leaves {{0}} round its edge and {{1}} in its port: "
        + ("the port is the narrower." if middle(share) > 1 else "the lift is what holds the gas back."),
        (Amount(middle(curtain), "area"), Amount(middle(free), "area")),
    )
    line = replace(
        blank(item, AREA, dimension="ratio"),
        sentence=said,
        inputs=inputs,
        formula="least area between the cones / π/4 (port² − stem²); Heywood 6.3.2",
    )
    return judged(line, share)


def _speed(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    outline = valves.bench.snapshot.outline
    practised = valves.rules("gas speed at a valve", item=item)
    found = areas(item, valves)
    if found is None or outline.bore is None or outline.stroke is None or outline.rated_speed is None:
        missing = "bore, stroke and rated speed in the outline" if found is not None else f"lift, head and port of {item}"
        settle = f"{'Put' if found is not None else 'Read'} {missing}."
        return (not_measured(blank(item, SPEED, dimension="velocity"), settle=settle, practised=practised),)
    piston = valve_flow.mean_piston_speed(stroke=outline.stroke, speed=outline.rated_speed * np.pi / 30)
    area = valve_flow.free_area(curtain=found[0], port=found[1])
    draws = np.asarray(valve_flow.mean_gas_speed(bore=outline.bore, piston_speed=piston, area=area))
    said = joined(
        Said(
            f"At {outline.rated_speed:.0f} rev/min the gas runs {{0}} through {item} on average.",
            (Amount(middle(draws), "velocity"),),
        ),
        authorities_differ(practised, "velocity"),
    )
    line = replace(
        blank(item, SPEED, dimension="velocity"),
        sentence=said,
        inputs=found[2],
        formula="piston area × mean piston speed / least area; area = piston area × piston speed / 5,000 (motor book c.1915)",
    )
    return judged(line, draws, Practice(targets=practised.targets))
