"""What could be done about the lash: leave it, or set it."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.remedy import Need
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Practice
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import Matter, Quantity, Way, hours, listed, worn
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.lash import HOT, LASH, TOUCHES, growth, hot_lash, lash_practice, target_of
from gudgeon.systems.valves.steps import LASH as SUBJECT
from gudgeon.systems.valves.steps import SEATS, decided_first, last_step, step
from gudgeon.systems.valves.valve_set import ValveSet

FEELER = 0.001 * d.INCH
"""How closely lash is set by feeler [m]; common practice."""


def lash_matter(valves: ValveSet) -> Matter:
    """The lash of all valves that a cam opens."""
    items = tuple(item for item in valves.items if not valves.is_automatic(item))
    now: dict[str, dict[str, Draws]] = {LASH: {}, HOT: {}}
    inputs: list[str] = []
    for item in items:
        cold, hot = valves.reader.smallest(d.LASH, item), hot_lash(item, valves)
        if cold is not None:
            now[LASH][item] = cold.draws
            inputs += cold.inputs
        if hot is not None:
            now[HOT][item] = hot[0]
    practices = {
        LASH: {item: lash_practice(item, valves).practised for item in items},
        HOT: {item: Practice(limits=(TOUCHES,)) for item in items},
    }
    return Matter(
        system=d.KEY,
        subject=SUBJECT,
        bench=valves.bench,
        items=items,
        quantities=tuple(Quantity(name=name, part=d.VALVE, dimension="length", practices=practices[name]) for name in now),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def lash_ways(valves: ValveSet, matter: Matter) -> tuple[Way, ...]:
    """Leave it, or set it."""
    return _leave(matter), _set(valves, matter)


def _leave(matter: Matter) -> Way:
    past = worn(matter, LASH, HOT)
    return Way(
        name="lash-leave",
        title=Said("Leave the lash as it is"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        against_it=(Said(f"{listed(past)} stay past what its kind of engine is set to, or touch hot."),) if past else (),
        for_it=(Said("Once face, seat or follower is touched it must be set all the same."),),
    )


def _set(valves: ValveSet, matter: Matter) -> Way:
    after: dict[str, dict[str, Draws]] = {LASH: {}, HOT: {}}
    parameters: dict[str, float] = {}
    for item in matter.items:
        target = target_of(item, valves)
        low, high = target.low or 0.0, max(target.high or 0.0, (target.low or 0.0) + FEELER)
        parameters |= {f"{item} lash low": low, f"{item} lash high": high}
        after[LASH][item] = valves.reader.even(f"lash set at {item}", low, high)
        grown = growth(item, valves)
        if grown is not None:
            after[HOT][item] = after[LASH][item] - grown[0]
    lows = [value for name, value in parameters.items() if name.endswith("low")]
    likely = float(np.median(lows)) if lows else 0.0
    return Way(
        name="lash-set",
        title=Said("Set the lash to about {0}, cold", (Amount(likely, "length"),)),
        action="adjust",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        after=after,
        parameters=parameters,
        steps=(
            step(
                "lash",
                "Set the lash cold, follower on the heel of its cam; turn twice and try again",
                hours=hours(0.1, 0.2, 0.4, len(matter.items)),
                after=last_step(valves, SEATS),
                hold="lash of every valve read as fitted at the heel, and read again hot after the first run",
                works=("valve work",),
            ),
        ),
        needs=(
            decided_first(valves, SEATS, "grinding a face or a seat closes the lash by what the valve sinks"),
            *(
                Need(
                    kind="reading",
                    what=f"{item}: length over all",
                    met=valves.size(d.STEM_LENGTH, item) is not None,
                    why="what it grows hot is reckoned from it",
                    part=d.VALVE,
                    item=item,
                    feature=d.STEM_LENGTH.name,
                )
                for item in matter.items
            ),
        ),
        works=("valve work",),
        for_it=(
            Said("Costs nothing, and timing follows: a slow engine's wide figure shortens the opening, as its maker meant it."),
        ),
        against_it=(
            Said("A worn cam or roller makes the lash vary round the cam; set at the heel, not where it happens to stand."),
        ),
    )
