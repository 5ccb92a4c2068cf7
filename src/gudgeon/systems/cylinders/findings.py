"""All that the readings of cylinders, pistons and rings mean, cylinder by cylinder and for the block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cylinders.block import Block
from gudgeon.systems.cylinders.choices import left_out
from gudgeon.systems.cylinders.cleanup import (
    clean_up_findings,
    clean_up_of,
    common_nominal,
    common_oversizes,
    wall_findings,
    wall_of,
    wall_rules,
)
from gudgeon.systems.cylinders.clearances import fit_findings
from gudgeon.systems.cylinders.description import BORE
from gudgeon.systems.cylinders.spots import Bore
from gudgeon.systems.cylinders.wear import form_findings, plain, rules_for, wear_of
from gudgeon.systems.judging import judged, not_measured

BLOCK = "block"


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where no cylinder was read or noted."""
    block = Block.of(bench)
    if not block.bores:
        return ()
    if "findings" not in block.worked_out:
        block.worked_out["findings"] = _findings(block)
    return cast(tuple[Finding, ...], block.worked_out["findings"])


def _findings(block: Block) -> tuple[Finding, ...]:
    bench, found = block.bench, block.bores
    return (
        *form_findings(found, bench),
        *(finding for bore in found for finding in (*clean_up_findings(bore, bench), *wall_findings(bore, bench))),
        *fit_findings(found, bench),
        *block_findings(found, bench),
        *_left_off(block),
    )


def _left_off(block: Block) -> tuple[Finding, ...]:
    """The common oversizes that are not on the table, and why."""
    said = left_out(block)
    return (replace(plain(BLOCK, "sizes left off the table", dimension="words"), sentence=said),) if said else ()


def block_findings(found: Sequence[Bore], bench: Bench) -> tuple[Finding, ...]:
    """What can be said of all cylinders together."""
    return (*_same_nominal(found, bench), *_worst_wear(found, bench), *_least_wall(found, bench), *_common_size(found, bench))


def _same_nominal(found: Sequence[Bore], bench: Bench) -> tuple[Finding, ...]:
    known = {bore.item: bench.specification("cylinder", bore.item, BORE.name) for bore in found}
    sizes = {item: spec for item, spec in known.items() if spec is not None and spec.nominal is not None}
    blank = plain(BLOCK, "nominal bore of all cylinders")
    if len(sizes) < len(found):
        missing = ", ".join(item for item in known if item not in sizes)
        return (not_measured(blank, settle=f"Read {missing} below the ring travel, along and across the crank."),)
    nominal = common_nominal(found, bench)
    assert nominal is not None
    said = Said(f"All {len(found)} cylinders were made to {{0}}.", (Amount(nominal, "length"),))
    odd = [
        f"{item} {spec.written} {spec.rework}".strip()
        for item, spec in sizes.items()
        if abs((spec.nominal or 0.0) - nominal) > 1e-6 or spec.rework
    ]
    if odd:
        said = Said(f"Most cylinders were made to {{0}}; {'; '.join(odd)}.", (Amount(nominal, "length"),))
    return (
        replace(
            blank, value=nominal, low=nominal, high=nominal, sentence=said, formula="the nominal that most cylinders share"
        ),
    )


def _worst_wear(found: Sequence[Bore], bench: Bench) -> tuple[Finding, ...]:
    worn = {bore.item: (bore, wear) for bore in found if (wear := wear_of(bore)) is not None}
    blank = plain(BLOCK, "worst wear")
    if not worn:
        return (not_measured(blank, settle="Read the bores just below the ridge and below the ring travel."),)
    item = max(worn, key=lambda name: float(np.median(worn[name][1])))
    bore, draws = worn[item]
    said = Said(f"{item} is worn most: {{0}}.", (Amount(float(np.median(draws)), "length"),))
    if len(worn) < len(found):
        said = Said(f"Of those read, {item} is worn most: {{0}}.", said.amounts)
    blank = replace(blank, sentence=said, inputs=bore.inputs, formula="largest of the cylinders' wear")
    return judged(blank, draws, rules_for("bore wear", bore=bore, bench=bench))


def _least_wall(found: Sequence[Bore], bench: Bench) -> tuple[Finding, ...]:
    walls = [(bore, wall) for bore in found if (wall := wall_of(bore, bench)) is not None]
    blank = plain(BLOCK, "thinnest wall")
    if not walls:
        return (not_measured(blank, settle="Sound the cylinder walls with ultrasound before anything is bored."),)
    bore, wall = min(walls, key=lambda pair: pair[1].least.value)
    spot = wall.least
    at = "" if spot.direction is None else f" at {spot.direction:g} degree"
    unread = "" if len(walls) == len(found) else f" {len(found) - len(walls)} of {len(found)} cylinders were not sounded."
    said = Said(f"The thinnest wall is {{0}}, in {bore.item}{at}.{unread}", (Amount(spot.value, "length"),))
    blank = replace(blank, sentence=said, inputs=wall.inputs, formula="as read, the thinnest place of all")
    return judged(blank, spot.draws, wall_rules(bore, bench))


def _common_size(found: Sequence[Bore], bench: Bench) -> tuple[Finding, ...]:
    cleaned = [clean_up_of(bore, bench) for bore in found]
    nominal = common_nominal(found, bench)
    blank = plain(BLOCK, "smallest size that cleans up all cylinders")
    missing = [bore.item for bore, each in zip(found, cleaned, strict=True) if each is None]
    if missing:
        settle = f"Read {', '.join(missing)} just below the ridge and below the ring travel."
        return (not_measured(blank, settle=settle),)
    draws = np.asarray(np.max([each.kept for each in cleaned if each is not None], axis=0))
    amounts = [Amount(float(np.median(draws)), "length")]
    text = "All clean up on their own centres at about {0}"
    if nominal is not None:
        enough = next((step for step in common_oversizes() if float((draws <= nominal + step.amount).mean()) > 0.95), None)
        if enough is None:
            text += "; none of the common oversizes is sure to be enough"
        else:
            text += f"; the first common oversize that is sure to be enough is {{1}} ({enough.written})"
            amounts.append(Amount(nominal + enough.amount, "length"))
    inputs = tuple(identity for bore in found for identity in bore.inputs)
    blank = replace(
        blank,
        sentence=Said(f"{text}.", tuple(amounts)),
        inputs=inputs,
        formula="largest of the cylinders' clean-up sizes, each on its own centre",
    )
    return judged(blank, draws)
