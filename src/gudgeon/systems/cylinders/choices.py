"""Which remedies are on the table for the bores: the sensible ones by name, and what was left out and why."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from gudgeon.engine.remedy import Action, Intervention
from gudgeon.handbook.oversizes import Oversize
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cylinders.block import Block, round_up
from gudgeon.systems.cylinders.cleanup import common_oversizes
from gudgeon.systems.cylinders.description import INCH
from gudgeon.systems.cylinders.outcomes import Choice, old_piston_serves

SURE = 0.95
"""A size is sure to clean up when its chance is at least this."""

HARDLY = 0.05
"""A size with a smaller chance of cleaning up is left out."""


@dataclass(frozen=True, kw_only=True)
class Option:
    """A named choice, with the words that any remedy carries."""

    name: str
    title: Said
    action: Action
    intervention: Intervention
    original: str
    choice: Choice


def options(block: Block) -> tuple[Option, ...]:
    """Everything worth putting on the table, from doing nothing to sleeving all."""
    found = [_run_on(), _hone(block)]
    if not block.measured:
        return tuple(found)
    found += [*_common_sizes(block), *_own_sizes(block), *_sleeves(block)]
    return tuple(found)


def left_out(block: Block) -> Said:
    """Which of the common oversizes were not put on the table, and why; empty where none was left out."""
    if not block.measured or block.nominal is None:
        return Said("")
    worst = _largest_clean_up(block)
    small = [step.written for step in common_oversizes() if (worst <= block.nominal + step.amount).mean() < HARDLY]
    kept = _steps(block)
    large = [step.written for step in common_oversizes() if kept and step.amount > kept[-1].amount]
    pieces = []
    if small:
        pieces.append(f"{', '.join(small)} because not all would clean up")
    if large:
        pieces.append(f"{', '.join(large)} because a smaller one is sure to")
    return Said(f"Left off the table: {'; '.join(pieces)}.") if pieces else Said("")


def least_common_size(block: Block, items: tuple[str, ...] | None = None, *, sure: float = SURE) -> float:
    """The smallest size, in whole thou, that is sure to clean up some cylinders, or all, on their own centres [m]."""
    return round_up(float(np.quantile(_largest_clean_up(block, items), sure)))


def _largest_clean_up(block: Block, items: tuple[str, ...] | None = None) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    kept = [each.kept for item, each in block.clean_ups.items() if each is not None and (items is None or item in items)]
    return np.asarray(np.max(kept, axis=0), dtype=np.float64)


def _run_on() -> Option:
    return Option(
        name="run-on",
        title=Said("Run on as found, ridges cut, glaze left"),
        action="run on",
        intervention="removable",
        original="Everything stays: blocks, pistons and rings.",
        choice=Choice(),
    )


def _hone(block: Block) -> Option:
    return Option(
        name="hone",
        title=Said("Hone and fit new rings at the present size"),
        action="make good",
        intervention="re-doable",
        original="Blocks and pistons stay; a thou of metal goes, and the old rings go on the shelf.",
        choice=Choice(honed=block.items, new_rings=True),
    )


def _steps(block: Block) -> list[Oversize]:
    """The common oversizes from the first that may clean up all to the first that is sure to."""
    if block.nominal is None:
        return []
    worst, found = _largest_clean_up(block), []
    for step in common_oversizes():
        chance = float((worst <= block.nominal + step.amount).mean())
        if chance >= HARDLY:
            found.append(step)
        if chance >= SURE:
            break
    return found


def _common_sizes(block: Block) -> list[Option]:
    """All to one oversize: the common ones that may do, and the smallest that is sure to."""
    found = []
    for step in _steps(block):
        size = (block.nominal or 0.0) + step.amount
        title = Said(f"Bore all to {step.written}, {{0}}, keeping their centres", (Amount(size, "length"),))
        found.append(_bored(f"bore-all/{step.amount / INCH * 1000:03.0f}", title, dict.fromkeys(block.items, size)))
    least = least_common_size(block)
    if all(abs(option.choice.sizes[block.items[0]] - least) > 0.0005 * INCH for option in found):
        title = Said(
            "Bore all to the smallest size that cleans up, {0}, pistons turned to the holes", (Amount(least, "length"),)
        )
        found.append(_bored("bore-all/least", title, dict.fromkeys(block.items, least)))
    return found


def _own_sizes(block: Block) -> list[Option]:
    """Each to its own smallest size, where that saves metal."""
    sure = SURE ** (1.0 / len(block.items))  # so that all together are as sure as one size for all
    sizes = {item: least_common_size(block, (item,), sure=sure) for item in block.items}
    if len(sizes) < 2 or max(sizes.values()) - min(sizes.values()) < 0.0015 * INCH:
        return []
    ordered = sorted(sizes.values())
    title = Said(
        "Bore each to its own smallest size, {0} to {1}, a piston turned to each hole",
        (Amount(ordered[0], "length"), Amount(ordered[-1], "length")),
    )
    return [_bored("bore-each", title, sizes)]


def _sleeves(block: Block) -> list[Option]:
    """Sleeves in all, back to the nominal; or in the worst alone, matched to the size that cleans up the others."""
    found = []
    if block.nominal is not None:
        size = block.nominal
        serves = tuple(item for item in block.items if old_piston_serves(block, item, size))
        choice = Choice(sizes=dict.fromkeys(block.items, size), sleeved=block.items, new_rings=True, old_pistons=serves)
        found.append(
            Option(
                name="sleeve-all",
                title=Said("Sleeve all back to {0}", (Amount(size, "length"),)),
                action="make good",
                intervention="re-doable",
                original="Blocks stay, bored out for sleeves that can be renewed; "
                + (
                    "the old pistons stay in use."
                    if serves == block.items
                    else "old pistons that do not serve go on the shelf."
                ),
                choice=choice,
            )
        )
    if len(block.items) > 1:
        worst = block.worst_first()[0]
        others = tuple(item for item in block.items if item != worst)
        size = least_common_size(block, others)
        title = Said(f"Sleeve {worst} and bore all to {{0}}", (Amount(size, "length"),))
        found.append(
            Option(
                name="sleeve-worst",
                title=title,
                action="make good",
                intervention="irreversible",
                original=f"Blocks stay, {worst} with a sleeve; the old pistons and rings go on the shelf.",
                choice=Choice(sizes=dict.fromkeys(block.items, size), sleeved=(worst,), new_rings=True),
            )
        )
    return found


def _bored(name: str, title: Said, sizes: dict[str, float]) -> Option:
    return Option(
        name=name,
        title=title,
        action="make good",
        intervention="irreversible",
        original="Blocks stay, larger in the bore for good; the old pistons and rings go on the shelf.",
        choice=Choice(sizes=sizes, new_rings=True),
    )
