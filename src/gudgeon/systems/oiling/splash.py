"""Splash and drips: how deep the dippers go, how long a trough lasts, drops a minute, oil used, smoke."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Limit, Practice, authorities_differ, joined, judged, middle, not_measured
from gudgeon.systems.kit import Kit, Read
from gudgeon.systems.measured import number
from gudgeon.systems.oiling import description as d

DIP, HELD, DRIP = "dip", "oil above the dipper's tip", "drip"
TOUCHES = Limit(size=0.0, most=False, origin=Origin("E", "geometry: a dipper that does not touch carries no oil", ""))


def dip(kit: Kit, item: str) -> tuple[Read, str] | None:
    """How deep a trough's dipper goes [m], and how it is known: trough less tip, else as read on the rod of its number."""
    depth, tip = kit.size(d.DEPTH, item), kit.size(d.TIP, item)
    if depth is not None and tip is not None:
        draws = np.asarray(depth.draws - tip.draws)
        return (draws, (*depth.inputs, *tip.inputs)), "oil at its overflow − tip above the floor, engine level"
    for rod in kit.items("rod"):
        read = kit.size(d.ROD_DIP, rod)
        if read is not None and number(rod) == number(item):
            return (read.draws, read.inputs), f"as read on {rod}"
    return None


def dip_rules(kit: Kit) -> Practice:
    """What is said of the dip: books differ, one is from memory; only that it touches decides."""
    return Practice(targets=kit.rules("rod dip").targets, limits=(TOUCHES,))


def trough_findings(kit: Kit, item: str) -> tuple[Finding, ...]:
    """All findings on one trough and its dipper."""
    settle = (
        "Look at the dipper: straight, facing the way it runs, its hole clear to the bearing; fill the trough and see it hold."
    )
    return (*_dip(kit, item), *_held(kit, item), *kit.noted(d.TROUGH_STATE, item, settle=settle))


def _dip(kit: Kit, item: str) -> tuple[Finding, ...]:
    practised, line, found = dip_rules(kit), kit.blank(d.TROUGH, item, DIP), dip(kit, item)
    if found is None:
        said = Said(
            f"How deep the dipper of {item} goes is unknown: measure it. No book was found that gives it for a trough; "
            "a cautious start is just touching, then a little more until the bearing stays cool without smoke."
        )
        settle = "Read the oil's depth at the overflow and the dipper's tip above the floor, crank at its lowest, engine level."
        return (not_measured(replace(line, sentence=said), settle=settle, practised=practised),)
    (draws, inputs), how = found
    at = middle(draws)
    said = Said(f"The dipper of {item} goes {{0}} into the oil.", (Amount(at, "length"),))
    if at <= 0:
        said = Said(f"The dipper of {item} passes {{0}} above the oil: its bearing runs dry.", (Amount(-at, "length"),))
    elif at > 0.5 * d.INCH:
        said = joined(said, Said("That is deep for a trough: look for light smoke in puffs, and oil drawn past the rings."))
    line = replace(line, sentence=joined(said, authorities_differ(practised)), inputs=inputs, formula=how)
    return judged(line, draws, practised)


def _held(kit: Kit, item: str) -> tuple[Finding, ...]:
    """Oil that a trough holds above the dipper's tip: what it may lose before the bearing runs dry."""
    long, wide, found = kit.size(d.TROUGH_LONG, item), kit.size(d.TROUGH_WIDE, item), dip(kit, item)
    if long is None or wide is None or found is None:
        return ()
    draws = np.asarray(long.draws * wide.draws * np.maximum(found[0][0], 0.0))
    said = Said(
        f"{item.capitalize()} holds {{0}} above the dipper's tip; when that is gone the bearing is dry.",
        (Amount(middle(draws), "volume"),),
    )
    inputs = (*long.inputs, *wide.inputs, *found[0][1])
    return judged(
        replace(kit.blank(d.TROUGH, item, HELD, "volume"), sentence=said, inputs=inputs, formula="length × width × dip"), draws
    )


def oiler_findings(kit: Kit, item: str) -> tuple[Finding, ...]:
    """All findings on one drip oiler."""
    feeds = kit.words(d.FEEDS, item).lower()
    subject = "bearing drip" if any(word in feeds for word in ("bearing", "main", "rod", "crank")) else "cylinder drip"
    return (
        *kit.as_read(
            d.DRIP, item, text=f"{item} gives {{0}}. Figures of cars do not bind a farm engine: find by trial, and keep.",
            settle=f"Count the drops of {item} for a minute, oil warm.", practised=kit.rules(subject),
        ),
        *kit.noted(d.FEEDS, item),
        *kit.noted(d.OILER_STATE, item),
    )  # fmt: skip


def use_findings(kit: Kit, item: str) -> tuple[Finding, ...]:
    """What the oil in use says: hourly use, temperature, smoke."""
    found: list[Finding] = []
    for feature, text in ((d.USED, "It uses {0} in an hour."), (d.WARM, "The oil stands at {0} at work.")):
        if kit.size(feature, item) is not None:
            found += kit.as_read(feature, item, text=text, settle="")
    smoke = kit.words(d.SMOKE, item).lower()
    found += kit.noted(d.SMOKE, item)
    if "puff" in smoke:
        said = Said("Light smoke in puffs is too much oil; one puff in so many turns is one cylinder's (Rathbun §116).")
        found.append(replace(kit.blank(d.OIL, item, "sign of too much oil", "words"), sentence=said, formula="as noted"))
    return tuple(found)
