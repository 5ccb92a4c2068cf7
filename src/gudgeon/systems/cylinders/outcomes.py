"""What a remedy would give, on the same draws as the findings: each cylinder as it would be, its findings, its worth."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.finding import Finding
from gudgeon.handbook.materials import material
from gudgeon.handbook.rules import RuleRow, rules
from gudgeon.mechanics.press_fit import contact_pressure, least_wall_stress_bound
from gudgeon.mechanics.walls import hoop_stress
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cylinders import unknowns
from gudgeon.systems.cylinders.block import QUANTITIES, Block, full
from gudgeon.systems.cylinders.cleanup import WALL_LEFT as WALL
from gudgeon.systems.cylinders.cleanup import wall_left
from gudgeon.systems.cylinders.clearances import (
    CLEARANCE_WORST,
    GAP_HOT,
    GAP_TOP,
    gaps_of,
    hot_gap,
    lowest_size,
    worst_size,
)
from gudgeon.systems.cylinders.description import INCH
from gudgeon.systems.cylinders.spots import Bore, Draws, rings_of, skirt_of
from gudgeon.systems.cylinders.wear import ROUND, TAPER, WEAR, plain, roundness_of, taper_of, wear_of
from gudgeon.systems.judging import judged, share_kept

Flags = NDArray[np.bool_]

BORING_TOLERANCE = 0.001 * INCH
"""Width of the limits of size asked of a finished bore [m]; common practice of a boring shop."""

SHOP_FORM = 0.0002 * INCH
"""Out-of-round and taper left by boring and honing in good order, as a standard deviation [m]; from memory."""

HONE_TAKES = (0.0005 * INCH, 0.0015 * INCH)
"""Metal that breaking the glaze with a hone takes off the diameter [m]; from memory."""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """What is done to which cylinder.

    Attributes
    ----------
    sizes : finished bore asked of each cylinder that is cut [m], the lower limit of size.
    sleeved : cylinders that get a sleeve first.
    honed : cylinders that are only honed.
    new_rings : are all rings new?
    old_pistons : cylinders that are cut and keep their old piston all the same.
    """

    sizes: Mapping[str, float] = field(default_factory=dict)
    sleeved: tuple[str, ...] = ()
    honed: tuple[str, ...] = ()
    new_rings: bool = False
    old_pistons: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What comes of a choice.

    Attributes
    ----------
    quantities : per quantity and cylinder its draws [m]; what cannot be known is missing.
    cleans : per cylinder that is bored, whether it cleans up in that draw.
    walls : per cylinder that is cut, whether its wall stays thick enough in that draw.
    wall_measured : was the wall of every cylinder that is cut measured?
    """

    quantities: Mapping[str, Mapping[str, Draws]]
    cleans: Mapping[str, Flags]
    walls: Mapping[str, Flags]
    wall_measured: bool

    def clean(self, count: int) -> Flags:
        """Do all that are bored clean up?"""
        return _all(self.cleans, count)

    def wall(self, count: int) -> Flags:
        """Do all walls stay thick enough?"""
        return _all(self.walls, count)


def _all(flags: Mapping[str, Flags], count: int) -> Flags:
    return np.asarray(np.logical_and.reduce([*flags.values(), np.ones(count, dtype=bool)]), dtype=np.bool_)


def outcome(choice: Choice, block: Block) -> Outcome:
    """Every quantity of every cylinder after a choice."""
    quantities: dict[str, dict[str, Draws]] = {quantity: {} for quantity in QUANTITIES}
    cleans: dict[str, Flags] = {}
    walls: dict[str, Flags] = {}
    for bore in block.bores:
        size = choice.sizes.get(bore.item)
        found = _as_it_is(bore, block, choice) if size is None else _as_bored(bore, block, size, choice)
        for quantity, draws in found.items():
            quantities[quantity][bore.item] = draws
        if size is None:
            continue
        up = block.clean_ups[bore.item]
        if up is not None and bore.item not in choice.sleeved:
            cleans[bore.item] = up.kept_in_doubt(block.bench) <= size
        left, walls[bore.item] = _wall(bore, block, size, sleeved=bore.item in choice.sleeved)
        if left is not None:
            quantities[WALL][bore.item] = left
    measured = all(block.walls[item] is not None for item in choice.sizes)
    return Outcome(quantities=quantities, cleans=cleans, walls=walls, wall_measured=measured)


def _as_it_is(bore: Bore, block: Block, choice: Choice) -> dict[str, Draws]:
    """A cylinder that is not cut: run on, or honed, with its old rings or new ones."""
    bench = block.bench
    honed = unknowns.even(bench, f"hone in {bore.item}", *HONE_TAKES) if bore.item in choice.honed else full(bench, 0.0)
    found: dict[str, Draws] = {}
    if (wear := wear_of(bore)) is not None:
        found[WEAR] = wear + honed
    if pair := taper_of(bore):
        found[TAPER] = pair[0].draws - pair[1].draws
    if level := roundness_of(bore):
        found[ROUND] = level[1].draws - level[2].draws
    skirt = skirt_of(bench, bore.item)
    if skirt is not None and bore.worst is not None:
        found[CLEARANCE_WORST] = bore.worst.draws + honed - skirt.draws
    if choice.new_rings:
        found |= _new_rings(bore, block, opens_by=_growth_down(bore))
    else:
        found |= _old_rings(bore, block)
    return found


def _growth_down(bore: Bore) -> Draws | None:
    """How much larger the bore is at its worst level than at its least worn [m], by the way round."""
    top, low = worst_size(bore), lowest_size(bore)
    return None if top is None or low is None else top[0] - low[0]


def _old_rings(bore: Bore, block: Block) -> dict[str, Draws]:
    """The widest gap of the rings that were read, and the closest hot."""
    gaps = [gaps_of(bore, block.bench, ring) for ring in rings_of(block.bench, bore.item)]
    tops = [each.top for each in gaps if each.top is not None]
    lows = [each.low for each in gaps if each.low is not None]
    found: dict[str, Draws] = {}
    if tops:
        found[GAP_TOP] = np.asarray(np.max(tops, axis=0))
    size = lowest_size(bore)
    if lows and size is not None:
        found[GAP_HOT] = hot_gap(block.bench, gap=np.asarray(np.min(lows, axis=0)), diameter=size[0])
    return found


def _new_rings(bore: Bore, block: Block, *, opens_by: Draws | None, size: Draws | None = None) -> dict[str, Draws]:
    """New rings, gapped to the target where the bore is least worn."""
    target = block.gap_target(bore.item)
    gap = unknowns.even(block.bench, f"new ring gap in {bore.item}", target.low or 0.0, target.high or 0.0)
    found: dict[str, Draws] = {}
    if opens_by is not None:
        found[GAP_TOP] = gap + np.pi * np.maximum(opens_by, 0.0)
    low = lowest_size(bore)
    diameter = size if size is not None else low[0] if low is not None else None
    if diameter is not None:
        found[GAP_HOT] = hot_gap(block.bench, gap=gap, diameter=diameter)
    return found


def _as_bored(bore: Bore, block: Block, size: float, choice: Choice) -> dict[str, Draws]:
    """A cylinder bored or sleeved to a size, with a piston turned to it, or its old one, and rings gapped in it."""
    bench = block.bench
    finished = unknowns.even(bench, f"finished bore of {bore.item}", size, size + BORING_TOLERANCE)
    form = np.abs(SHOP_FORM * bench.named(f"form left by the shop in {bore.item}"))
    return {
        WEAR: full(bench, 0.0),
        TAPER: np.abs(SHOP_FORM * bench.named(f"taper left by the shop in {bore.item}")),
        ROUND: form,
        CLEARANCE_WORST: form + _clearance(bore, block, finished, old=bore.item in choice.old_pistons),
        **_new_rings(bore, block, opens_by=form, size=finished),
    }


def _clearance(bore: Bore, block: Block, finished: Draws, *, old: bool) -> Draws:
    skirt = skirt_of(block.bench, bore.item)
    if old and skirt is not None:
        return finished - skirt.draws
    target = block.clearance_target(bore.item)
    return unknowns.even(block.bench, f"clearance of the new piston in {bore.item}", target.low or 0.0, target.high or 0.0)


def old_piston_serves(block: Block, item: str, size: float) -> bool:
    """May a cylinder's old piston go into a finished bore: read, not cracked, not too tight and hardly too loose?"""
    skirt = skirt_of(block.bench, item)
    if skirt is None or block.cracked(item):
        return False
    clearance = size + BORING_TOLERANCE / 2 - skirt.draws
    practised, target = block.practices[CLEARANCE_WORST][item], block.clearance_target(item)
    loose = share_kept(clearance, practised.limits).mean() < 0.5 or not practised.deciding
    return bool(np.median(clearance) >= (target.low or 0.0)) and not loose


def _wall(bore: Bore, block: Block, size: float, *, sleeved: bool) -> tuple[Draws | None, Flags]:
    """The wall left, where it was measured, and whether it is enough, measured or guessed."""
    cut = sleeve_hole(size) if sleeved else size
    up, wall = block.clean_ups[bore.item], block.walls[bore.item]
    shift = up.shift if up is not None else full(block.bench, 0.0)
    if wall is not None:
        left = wall_left(wall, size=cut, shift=shift)
    else:
        original = bore.original if bore.original is not None else full(block.bench, size)
        left = unknowns.likely_wall(block.bench, bore.item, float(np.median(original))) - (cut - original) / 2.0
    if sleeved:
        enough = sleeve_stress(block, left=left, size=size) <= (rules("cylinder wall stress")[0].high or 40e6)
    else:
        enough = block.least_wall.kept(left)
    return (left if wall is not None else None), np.asarray(enough)


def sleeve_wall() -> float:
    """Wall of a repair sleeve [m]: the thinner of the trade's two."""
    return rules("sleeve wall")[0].low or 0.09375 * INCH


def sleeve_hole(size: float) -> float:
    """The hole that is bored for a sleeve [m], for a finished bore."""
    return size + 2.0 * sleeve_wall()


def sleeve_press(size: float) -> tuple[float, float]:
    """Interference to ask for a sleeve [m]: the lightest that an authority asks, within the most that any allows there.

    Old castings are thin and uneven, and the sleeve stands on a shoulder; heat does the rest.
    """
    row = min(rules("sleeve interference", purpose="target"), key=_lightest)
    most = min((each.high for each in rules("sleeve interference", purpose="limit", size=size) if each.high), default=1.0)
    return min(row.low or 0.0, most), min(row.high or 0.0, most)


def _lightest(row: RuleRow) -> float:
    """Sort key: the upper end of a press that is a press at its lower end too; under half a thou it is a push fit."""
    return (row.high or 1.0) if (row.low or 0.0) > 0.0005 * INCH else 1.0


def sleeve_stress(block: Block, *, left: Draws, size: float) -> Draws:
    """Greatest hoop stress in the casting round a sleeve [Pa]: from the press and from the gas together.

    The press by Lame with the least wall taken all round, a bound; the gas shared over sleeve and casting.
    """
    iron, hole = material("grey cast iron"), sleeve_hole(size)
    least = np.maximum(left, 1e-5)
    pressure = contact_pressure(
        interference=sleeve_press(size)[1],
        diameter=hole,
        outer_diameter=hole + 2.0 * least,
        inner_diameter=size,
        modulus_outer=iron.modulus,
        poisson_outer=iron.poisson,
        modulus_inner=iron.modulus,
        poisson_inner=iron.poisson,
    )
    press = least_wall_stress_bound(pressure=pressure, diameter=hole, least_wall=least)
    gas = hoop_stress(pressure=unknowns.explosion_pressure(block.bench), bore=size, wall=least + sleeve_wall())
    return np.asarray(np.add(press, gas))


def worth_of(found: Outcome, block: Block) -> Draws:
    """Worth of an outcome, 0 to 1, draw by draw.

    Per quantity: the share of the deciding authorities whose limit is kept, in the cylinder where it is least; the mean over
    the quantities. A quantity that is unknown in a cylinder is good or bad with an even chance. A bore that does not clean
    up, or a wall that turns out too thin, leaves nothing.
    """
    shares = [
        np.min([_share(found, block, quantity, item) for item in block.items], axis=0)
        for quantity in QUANTITIES
        if quantity != WALL
    ]
    worth = np.mean(shares, axis=0)
    return np.asarray(worth * found.clean(block.bench.count) * found.wall(block.bench.count))


def _share(found: Outcome, block: Block, quantity: str, item: str) -> Draws:
    draws = found.quantities[quantity].get(item)
    if draws is None:
        return (unread(block, quantity, item) > 0).astype(np.float64)
    return share_kept(draws, block.practices[quantity][item].limits)


def unread(block: Block, quantity: str, item: str) -> Draws:
    """A stand-in for something that nobody measured: above nought it turns out good, below it bad; an even chance."""
    return block.bench.named(f"{quantity} of {item}, not read")


def given(found: Outcome, block: Block, inputs: tuple[str, ...]) -> tuple[Finding, ...]:
    """The findings that one would have afterwards, one per authority."""
    result: list[Finding] = []
    for quantity in QUANTITIES:
        for item, draws in found.quantities[quantity].items():
            said = Said(f"{item}, {quantity}: about {{0}} afterwards.", (Amount(float(np.median(draws)), "length"),))
            blank = replace(plain(item, quantity), sentence=said, inputs=inputs, formula="expected, on the same draws")
            result += judged(blank, draws, block.practices[quantity][item])
    return tuple(result)


def unknown(found: Outcome, block: Block) -> tuple[str, ...]:
    """Quantities that are not known of every cylinder afterwards."""
    return tuple(q for q in QUANTITIES if q != WALL and len(found.quantities[q]) < len(block.bores))
