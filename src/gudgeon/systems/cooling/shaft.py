"""Pump shaft, bushes, packing and drive pin: clearance, wear, groove under the packing, end play, what shears first."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.handbook.rules import rules
from gudgeon.mechanics import pins
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cooling import description as d
from gudgeon.systems.cooling.water import horsepower
from gudgeon.systems.judging import Limit, Practice, authorities_differ, joined, judged, middle, not_measured
from gudgeon.systems.kit import Kit, Read
from gudgeon.systems.measured import Draws

IN_BUSH, WEAR, SCORE, SHEARS, OVER_WORK = (
    "shaft in its bush", "shaft wear", "groove under the packing", "torque that shears the drive pin",
    "drive pin, over its work",
)  # fmt: skip
BUSHES = ("in the bush", "in the other bush")
GROOVE = Limit(
    size=0.005 * d.INCH,
    most=True,
    origin=Origin("E", "from memory", "packing does not seal over a deeper groove"),
    decides=False,
)
"""A groove that packing no longer follows; shown, and since it is from memory it does not decide."""
PUMP_POWER = (0.01, 0.05)
"""Power that a pump takes over that of the engine; from memory."""


def clearance(kit: Kit, item: str) -> Read | None:
    """Worst clearance of shaft in bush [m], bush by bush where both were read at the same place, else of the means."""
    pairs = [
        (bush, shaft)
        for level in BUSHES
        if (bush := kit.reader.level(d.BUSH, item, level)) is not None
        and (shaft := kit.reader.level(d.SHAFT, item, level)) is not None
    ]
    if not pairs:
        bush, shaft = kit.reader.largest(d.BUSH, item), kit.reader.smallest(d.SHAFT, item)
        pairs = [(bush, shaft)] if bush is not None and shaft is not None else []
    if not pairs:
        return None
    bush, shaft = max(pairs, key=lambda pair: pair[0].value - pair[1].value)
    return np.asarray(bush.draws - shaft.draws), (*bush.inputs, *shaft.inputs)


def new_size(kit: Kit, item: str) -> float | None:
    """What the shaft measured when new [m]: the nominal, else its unworn part, else the largest that was read."""
    nominal = kit.reader.nominal(d.SHAFT, item)
    if nominal is not None:
        return nominal
    read = kit.reader.level(d.SHAFT, item, "unworn") or kit.reader.largest(d.SHAFT, item)
    return None if read is None else read.value


def shaft_wear(kit: Kit, item: str) -> Read | None:
    """What the shaft has lost at its thinnest [m]; against its unworn part, else its size when new."""
    worst, unworn = kit.reader.smallest(d.SHAFT, item), kit.reader.level(d.SHAFT, item, "unworn")
    original = unworn.draws if unworn is not None else kit.reader.original(d.SHAFT, item)
    if worst is None or original is None:
        return None
    return np.asarray(original - worst.draws), (*(unworn.inputs if unworn is not None else ()), *worst.inputs)


def shaft_findings(kit: Kit, item: str) -> tuple[Finding, ...]:
    """All findings on one pump's shaft, bushes, packing and drive pin."""
    return (
        *_in_bush(kit, item),
        *_wear(kit, item),
        *_score(kit, item),
        *kit.as_read(
            d.END_PLAY, item, text=f"The shaft of the {item} has {{0}} end play.",
            settle="Read the end play of the pump shaft.", practised=kit.rules("water pump end play"),
            more=lambda _: Said("It is part of the impeller's clearance at its worst."),
        ),
        *_pin(kit, item),
        *kit.noted(d.PACKING, item, settle="Write down what packing is in the gland; treat the old as asbestos."),
        *_drips(kit, item),
        *kit.noted(d.CUP, item, settle="See that the cups feed the bushes: passage clear, felt soft; a dry bush wears."),
        *kit.noted(d.STATE, item),
    )  # fmt: skip


def _in_bush(kit: Kit, item: str) -> tuple[Finding, ...]:
    practised = kit.rules("water pump shaft clearance", size=new_size(kit, item) or 0.5 * d.INCH)
    line, read = kit.blank(d.PUMP, item, IN_BUSH), clearance(kit, item)
    if read is None:
        settle = f"Read the shaft of the {item} and its bushes, in each bush, with and across the pull."
        return (not_measured(line, settle=settle, practised=practised),)
    said = joined(
        Said(f"The shaft of the {item} has {{0}} in its bush at the worst.", (Amount(middle(read[0]), "length"),)),
        Said("No packing holds water round a shaft that shakes."),
        authorities_differ(practised),
    )
    bore, shaft = kit.fitted(d.BUSH, item), kit.fitted(d.SHAFT, item)
    fitted = bore - shaft if bore is not None and shaft is not None else None
    formula = "bush − shaft, the worse of the two bushes, at 20 degree C"
    return judged(replace(line, sentence=said, inputs=read[1], formula=formula, as_fitted=fitted), read[0], practised)


def _wear(kit: Kit, item: str) -> tuple[Finding, ...]:
    line, read = kit.blank(d.PUMP, item, WEAR), shaft_wear(kit, item)
    if read is None:
        return (not_measured(line, settle=f"Read the shaft of the {item} where nothing rubs: it shows the size when new."),)
    said = Said(f"The shaft of the {item} has lost {{0}} where it is thinnest.", (Amount(middle(read[0]), "length"),))
    return judged(replace(line, sentence=said, inputs=read[1], formula="unworn − thinnest"), read[0])


def score(kit: Kit, item: str) -> Read | None:
    """Groove under the packing, on a side [m]: as read, else half of what the shaft is thinner there."""
    read = kit.size(d.SCORE, item)
    if read is not None:
        return read.draws, read.inputs
    under, unworn = kit.reader.level(d.SHAFT, item, "under the packing"), kit.reader.level(d.SHAFT, item, "unworn")
    if under is None or unworn is None:
        return None
    return np.asarray((unworn.draws - under.draws) / 2), (*under.inputs, *unworn.inputs)


def _score(kit: Kit, item: str) -> tuple[Finding, ...]:
    practised = Practice(limits=(GROOVE,))
    line, read = kit.blank(d.PUMP, item, SCORE), score(kit, item)
    if read is None:
        settle = "Draw the old packing and read the groove under it, or the shaft there and beside it."
        return (not_measured(line, settle=settle, practised=practised),)
    said = Said(
        "The packing has worn a groove of {0} on a side. Over-tight packing does it: a few drops a minute are wanted.",
        (Amount(max(middle(read[0]), 0.0), "length"),),
    )
    return judged(replace(line, sentence=said, inputs=read[1], formula="as read, or half the difference"), read[0], practised)


def _drips(kit: Kit, item: str) -> tuple[Finding, ...]:
    if kit.size(d.DRIPS, item) is None:
        return ()
    return kit.as_read(
        d.DRIPS, item, text="The gland lets {0} through, running.", settle="", practised=kit.rules("gland drip"),
        more=lambda drops: Said("Dry is too tight: it cuts the shaft." if drops <= 0 else ""),
    )  # fmt: skip


def strength(kit: Kit, item: str) -> tuple[Draws, str]:
    """Shear strength of the drive pin [Pa] by its noted material, soft steel where none was noted, and in words."""
    text = kit.words(d.PIN_MATERIAL, item).lower()
    brass = "brass" in text or "bronze" in text
    row = next(each for each in rules("shear strength of a pin") if ("brass" in each.applies) == brass)
    return kit.reader.even(f"shear strength, {'brass' if brass else 'steel'}", row.low or 0.0, row.high or 0.0), row.applies


def shearing(kit: Kit, item: str) -> Read | None:
    """Torque at which the drive pin shears [N m]."""
    pin, shaft = kit.reader.smallest(d.PIN, item), kit.size(d.PIN_SHAFT, item)
    if pin is None or shaft is None:
        return None
    torque = pins.cross_pin_torque(strength=strength(kit, item)[0], shaft=shaft.draws, pin=pin.draws)
    return np.asarray(torque), (*pin.inputs, *shaft.inputs)


def work_torque(kit: Kit, item: str, horsepower: float | None) -> Draws | None:
    """Torque that the pump takes at rated speed [N m], from a share of the engine's power."""
    ratio, rated = kit.size(d.RATIO, item), kit.bench.snapshot.outline.rated_speed
    if ratio is None or not rated or horsepower is None:
        return None
    power = kit.reader.even("power of the pump", *PUMP_POWER) * horsepower * 745.7
    return np.asarray(power / (ratio.draws * rated * np.pi / 30))


def pin_over_work(kit: Kit, item: str) -> Read | None:
    """How many times its work the drive pin would carry before it shears."""
    read, work = shearing(kit, item), work_torque(kit, item, horsepower(kit))
    return None if read is None or work is None else (np.asarray(read[0] / work), read[1])


def _pin(kit: Kit, item: str) -> tuple[Finding, ...]:
    line, read = kit.blank(d.PUMP, item, SHEARS, "torque"), shearing(kit, item)
    if read is None:
        return (not_measured(line, settle="Read the drive pin and the shaft it goes through, and say what it is made of."),)
    words = strength(kit, item)[1]
    noted = kit.words(d.PIN_MATERIAL, item).lower()
    said = Said(f"The drive pin shears at about {{0}} ({words}).", (Amount(middle(read[0]), "torque"),))
    if not noted:
        said = joined(said, Said("Its material was not noted; soft steel is taken."))
    if any(word in noted for word in ("hard", "drill rod", "silver steel", "bolt")):
        said = joined(said, Said("A hard pin does not let go: when ice or a stone holds the pump, the gears break instead."))
    over = pin_over_work(kit, item)
    if over is not None:
        said = joined(said, Said(f"That is about {middle(over[0]):.0f} times what the pump takes at its work."))
    line = replace(
        line, sentence=said, inputs=read[1], formula="strength × D × π d² / 4, two planes; pump power 1 to 5 % of the engine's"
    )
    return judged(line, read[0])
