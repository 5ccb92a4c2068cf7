"""The size at which a bore cleans up, and the wall that is left then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.handbook.oversizes import Oversize, oversizes
from gudgeon.handbook.rules import rules
from gudgeon.mechanics import walls
from gudgeon.mechanics.bores import clean_up_diameter, following_shift
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cylinders import unknowns
from gudgeon.systems.cylinders.description import BORE, WALL
from gudgeon.systems.cylinders.spots import Bore, Draws, inputs_of, size_of
from gudgeon.systems.cylinders.wear import pit_of, plain, size_for_rules, wear_of, words_read
from gudgeon.systems.judging import Limit, Practice, joined, judged, not_measured

CLEAN_KEPT, CLEAN_FOLLOWED = "clean-up size, keeping the original centre", "clean-up size, following the wear"
WALL_NOW, WALL_LEFT = "wall now, thinnest", "wall left after clean-up"

COMMON_WEIGHT = 0.5
"""Oversizes of the handbook with at least this weight are those that pistons and rings were commonly sold in."""


@dataclass(frozen=True, kw_only=True)
class CleanUp:
    """Clean-up of one bore, draw by draw [m]: diameters keeping the centre and following the wear, shift of the centre."""

    item: str
    kept: Draws
    followed: Draws
    shift: Draws
    wear: Draws
    pits_read: bool

    def kept_in_doubt(self, bench: Bench) -> Draws:
        """The diameter that keeps the centre, with the pits that may be there where nobody looked."""
        return self.kept if self.pits_read else self.kept + 2.0 * unknowns.likely_pit(bench, self.item)


def common_oversizes() -> tuple[Oversize, ...]:
    """The oversizes that pistons and rings were commonly sold in, smallest first."""
    return tuple(step for step in oversizes("cylinder") if step.weight >= COMMON_WEIGHT)


def clean_up_of(bore: Bore, bench: Bench) -> CleanUp | None:
    """Clean-up of a bore; None where its wear is not known."""
    wear = wear_of(bore)
    if wear is None or bore.worst is None or bore.original is None:
        return None
    pit = pit_of(bench, bore.item)
    depth = np.maximum(pit.draws, 0.0) if pit else np.zeros(bench.count)
    share, allowance = unknowns.share_on_one_side(bench, bore.item), unknowns.clean_up_allowance(bench, bore.item)
    shift = np.asarray(following_shift(worn=bore.worst.draws, original=bore.original, one_sided=share, scratch_depth=depth))
    same = {
        "worn": np.maximum(bore.worst.draws, bore.original),
        "original": bore.original,
        "one_sided": share,
        "scratch_depth": depth,
        "allowance": allowance,
    }
    return CleanUp(
        item=bore.item,
        kept=np.asarray(clean_up_diameter(**same)),
        followed=np.asarray(clean_up_diameter(**same, shift=shift)),
        shift=np.maximum(shift, 0.0),
        wear=wear,
        pits_read=pit is not None,
    )


def clean_up_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """The two clean-up sizes of a bore; for information."""
    found = clean_up_of(bore, bench)
    if found is None:
        settle = f"Read {bore.item} just below the ridge and below the ring travel."
        return (not_measured(plain(bore.item, CLEAN_KEPT), settle=settle),)
    allowance = rules("clean-up allowance")[0]
    source = f"allowance {allowance.typed} ({allowance.source})"
    inputs = inputs_of([spot for spot in (bore.worst, *bore.unworn) if spot is not None])
    settle = (
        ""
        if found.pits_read
        else f"Look {bore.item} over for pits and scratches: each deepens the clean-up by twice its depth."
    )
    blank = plain(bore.item, CLEAN_KEPT)
    kept = replace(
        blank,
        sentence=joined(
            Said(
                f"Bored on its own centre {bore.item} cleans up at about {{0}}.",
                (Amount(float(np.median(found.kept)), "length"),),
            ),
            Said("" if found.pits_read else "Pits were not read and are taken as none."),
        ),
        inputs=inputs,
        formula=f"twice the radius to the deepest place, half to all of the wear lying on one side, + {source}",
        settle=settle,
    )
    followed = replace(
        blank,
        quantity=CLEAN_FOLLOWED,
        sentence=Said(
            "Set to the worn hole it cleans up at about {0}, but its centre moves by up to {1}.",
            (Amount(float(np.median(found.followed)), "length"), Amount(float(np.quantile(found.shift, 0.95)), "length")),
        ),
        inputs=inputs,
        formula=f"least circle round the worn walls + {source}; the centre moves midway between them",
        settle=settle,
    )
    return (*judged(kept, found.kept), *judged(followed, found.followed))


@dataclass(frozen=True, kw_only=True)
class WallSpot:
    """Wall read at one place [m], and what the bore now measures there."""

    draws: Draws
    direction: float | None
    depth: float | None
    bore_here: Draws
    inputs: tuple[str, ...]
    value: float


@dataclass(frozen=True, kw_only=True)
class Wall:
    """The wall of one cylinder as it was read."""

    item: str
    spots: tuple[WallSpot, ...]

    @property
    def least(self) -> WallSpot:
        """The thinnest spot, by its estimate."""
        return min(self.spots, key=lambda spot: spot.value)

    @property
    def directions(self) -> int:
        """In how many directions it was read."""
        return len({spot.direction for spot in self.spots} - {None})

    @property
    def inputs(self) -> tuple[str, ...]:
        """Identities of the readings."""
        return tuple(dict.fromkeys(identity for spot in self.spots for identity in spot.inputs))


def wall_of(bore: Bore, bench: Bench) -> Wall | None:
    """The wall of a cylinder; None where it was not read."""
    read = size_of(bench, "cylinder", bore.item, WALL.name, aliases=WALL.aliases)
    if read is None:
        return None
    spots = tuple(
        WallSpot(
            draws=bench.spot(each),
            direction=each.place.direction,
            depth=each.place.depth,
            bore_here=_bore_at(bore, bench, station=each.place.station, depth=each.place.depth, direction=each.place.direction),
            inputs=each.readings,
            value=each.value,
        )
        for each in read.estimates
    )
    return Wall(item=bore.item, spots=spots)


def _bore_at(bore: Bore, bench: Bench, *, station: str, depth: float | None, direction: float | None) -> Draws:
    """The bore where the wall was read: the nearest spot by level and line; the size when new where none is near."""
    travel = [spot for spot in bore.spots if spot.in_travel]
    level = [spot for spot in travel if station and spot.label.lower() == station.lower()]
    if not level and depth is not None:
        placed = [spot for spot in travel if spot.depth is not None]
        near = min(placed, key=lambda spot: abs((spot.depth or 0.0) - depth), default=None)
        level = [spot for spot in placed if near is not None and spot.label == near.label]
    if level and direction is not None:
        line = direction % 180.0
        turned = [spot for spot in level if spot.direction is not None]
        if turned:
            return min(turned, key=lambda spot: _turn(spot.direction or 0.0, line)).draws
    if level:
        return np.asarray(np.mean([spot.draws for spot in level], axis=0))
    if bore.original is not None:
        return bore.original
    return np.full(bench.count, bore.spots[0].estimate.value if bore.spots else size_for_rules(bore, bench))


def _turn(a: float, b: float) -> float:
    difference = abs(a - b) % 180.0
    return min(difference, 180.0 - difference)


def wall_left(wall: Wall, *, size: Draws | float, shift: Draws | float = 0.0) -> Draws:
    """The thinnest wall after boring to ``size``, over all the spots that were read [m].

    Each spot loses half the growth of its own diameter; kept on the original centre, the side that wore less loses the shift of
    the worn hole on top. Which side that is no diameter tells, so it is taken at every spot, on the safe side.
    """
    left = [
        np.asarray(walls.wall_left(wall=spot.draws, original=spot.bore_here, finished=size, shift=shift)) for spot in wall.spots
    ]
    return np.asarray(np.min(left, axis=0))


def wall_rules(bore: Bore, bench: Bench) -> Practice:
    """The least wall that may be left: the upper end of what pressure and rust ask for."""
    size = size_for_rules(bore, bench)
    least = float(np.quantile(unknowns.least_wall(bench, size), 0.95))
    source = "t = p D / (2 s) + rust (Khurmi & Gupta, without reboring allowance)"
    page = (
        f"p to {float(np.max(unknowns.explosion_pressure(bench))) / 1e6:.1f} MPa (books of the time), s 40 MPa, rust .3 to 1 mm"
    )
    return Practice(limits=(Limit(size=least, most=False, origin=Origin("E", source, page)),))


def wall_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """The thinnest wall now, and what is left when the bore is made to clean up."""
    wall, found = wall_of(bore, bench), clean_up_of(bore, bench)
    practised = wall_rules(bore, bench)
    if wall is None:
        settle = f"Sound the wall of {bore.item} with ultrasound right round at two levels; old cores shifted."
        return (not_measured(plain(bore.item, WALL_LEFT), settle=settle, practised=practised),)
    few = (
        ""
        if wall.directions >= 8
        else f"Read in {wall.directions or 'no stated'} directions only; it may be thinner between them."
    )
    more = "" if not few else f"Sound the wall of {bore.item} at all eight directions."
    now = replace(
        plain(bore.item, WALL_NOW),
        sentence=joined(
            Said(f"The wall of {bore.item} is {{0}} at its thinnest.", (Amount(wall.least.value, "length"),)), Said(few)
        ),
        inputs=wall.inputs,
        formula="as read, the thinnest place",
        settle=more,
    )
    result = list(judged(now, np.asarray(np.min([spot.draws for spot in wall.spots], axis=0)), practised))
    if found is not None:
        left = wall_left(wall, size=found.kept, shift=found.shift)
        after = replace(
            plain(bore.item, WALL_LEFT),
            sentence=Said("Cleaned up on its own centre it keeps about {0}.", (Amount(float(np.median(left)), "length"),)),
            inputs=(*wall.inputs, *bore.inputs),
            formula="wall − (clean-up size − bore there) / 2 − (share − 1/2) × wear, the least of all places read",
            settle=more,
        )
        result += judged(after, left, practised)
        result += _at_steps(bore, bench, wall, found, practised)
    return tuple(result)


def _at_steps(bore: Bore, bench: Bench, wall: Wall, found: CleanUp, practised: Practice) -> list[Finding]:
    """Wall left at each of the trade's oversizes that may clean up, and at the first that surely does."""
    nominal = size_for_rules(bore, bench)
    result: list[Finding] = []
    for step in common_oversizes():
        size = nominal + step.amount
        if float((found.followed <= size).mean()) < 0.05:
            continue
        left = wall_left(wall, size=size, shift=found.shift)
        blank = plain(bore.item, f"wall left at {step.written}")
        chance = _kept_chance(found, size)
        said = Said(
            f"Bored to {{0}}, {bore.item} keeps about {{1}} of wall and cleans up with a chance of {chance:.0%}.",
            (Amount(size, "length"), Amount(float(np.median(left)), "length")),
        )
        formula = f"wall − (size − bore there) / 2 − (share − 1/2) × wear; oversize: {step.source}"
        result += judged(replace(blank, sentence=said, inputs=wall.inputs, formula=formula), left, practised)
        if chance > 0.95:
            break
    return result


def _kept_chance(found: CleanUp, size: float) -> float:
    return float((found.kept <= size).mean())


def crack_known(bench: Bench, item: str) -> bool:
    """Was the casting looked over for cracks or tested for leaks?"""
    return any(words_read(bench, item, feature)[0] for feature in ("crack", "leak test"))


def common_nominal(bores: Sequence[Bore], bench: Bench) -> float | None:
    """The nominal bore that most cylinders share [m]; the largest where they tie; None where none is known."""
    found = [bench.specification("cylinder", bore.item, BORE.name) for bore in bores]
    sizes = [round(each.nominal, 7) for each in found if each is not None and each.nominal is not None]
    return max(set(sizes), key=lambda size: (sizes.count(size), size)) if sizes else None
