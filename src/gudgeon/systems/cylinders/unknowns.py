"""What no reading says, drawn with an origin: how the wear lies, what clean-up takes, temperatures at work, pressure.

Each is a draw under a name of the bench, so that findings and remedies meet the same world in the same draw.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.handbook.materials import Material, material
from gudgeon.handbook.rules import rules
from gudgeon.mechanics.walls import minimum_wall
from gudgeon.systems.cylinders.spots import Draws, number

WALL_TEMPERATURE = (70.0, 120.0)
"""Bore wall of a water-cooled engine at work [degree C], from a full thermosiphon to a hopper at the boil; from memory."""

SKIRT_ABOVE_WALL = (20.0, 90.0)
"""Piston skirt above the bore wall [K]; from memory."""

RING_ABOVE_WALL = (30.0, 111.0)
"""Ring above the bore wall [K]; the upper end is the 200 degree F on which the trade's .003 to .004 per inch rests."""

CORROSION = (0.3e-3, 1.0e-3)
"""Metal that rust takes from the jacket side and that must stay beyond the pressure's need [m]; from memory."""


def even(bench: Bench, name: str, low: float, high: float) -> Draws:
    """Draws spread evenly between two ends, under a name: the normal draws of that name through their own distribution."""
    return np.asarray(low + (high - low) * _shares(bench, name))


_KEPT: dict[object, dict[str, Draws]] = {}


def _shares(bench: Bench, name: str) -> Draws:
    """Draws spread evenly from nought to one; those of the bench asked for last are kept."""
    if bench.named not in _KEPT:
        _KEPT.clear()
        _KEPT[bench.named] = {}
    kept = _KEPT[bench.named]
    if name not in kept:
        places, shares = _normal()
        kept[name] = np.asarray(np.interp(bench.named(name), places, shares))
    return kept[name]


@cache
def _normal() -> tuple[Draws, Draws]:
    """The normal distribution as a table of 4,001 points to 5 standard deviations; read between them it is right to 1e-6."""
    places = np.linspace(-5.0, 5.0, 4001)
    return places, np.array([0.5 * math.erfc(-place / math.sqrt(2.0)) for place in places])


def share_on_one_side(bench: Bench, item: str) -> Draws:
    """Share of the wear that lies on one side of the bore: from half (even) to all of it, any as likely; common practice.

    The thrust side takes more than its half, but a diameter cannot say how much.
    """
    return even(bench, f"wear on one side of {item}", 0.5, 1.0)


def clean_up_allowance(bench: Bench, item: str) -> Draws:
    """Metal that the boring bar must take beyond the worn size to find clean metal all over, on the diameter [m]."""
    row = rules("clean-up allowance")[0]
    return even(bench, f"clean-up allowance of {item}", row.low or 0.0, row.high or 0.0)


def wall_temperature(bench: Bench) -> Draws:
    """Temperature of the bore wall at work [degree C]."""
    return even(bench, "bore wall temperature", *WALL_TEMPERATURE)


def skirt_temperature(bench: Bench) -> Draws:
    """Temperature of the piston skirt at work [degree C]."""
    return wall_temperature(bench) + even(bench, "skirt above bore wall", *SKIRT_ABOVE_WALL)


def ring_temperature(bench: Bench) -> Draws:
    """Temperature of the top ring at work [degree C]."""
    return wall_temperature(bench) + even(bench, "ring above bore wall", *RING_ABOVE_WALL)


def expansion(bench: Bench, name: str) -> Draws:
    """Expansion of a material with its uncertainty [1/K]."""
    found: Material = material(name)
    return np.asarray(found.expansion + found.expansion_uncertainty * bench.named(f"expansion of {found.name}"))


def piston_material(words: Callable[[str], str], bench: Bench, cylinder: str) -> tuple[str, bool]:
    """The handbook's name of what a cylinder's piston is made of, and whether it was noted.

    Taken to be grey iron where nothing was noted: pistons before 1915 were.
    """
    for item in bench.items("piston"):
        if number(item) == number(cylinder):
            noted = words(item).lower()
            if "alum" in noted or "alloy" in noted:
                return "aluminium 356", True
            if "iron" in noted or "holds" in noted or "magnet" in noted:
                return "grey cast iron", True
    return "grey cast iron", False


def explosion_pressure(bench: Bench) -> Draws:
    """Peak pressure in the cylinder [Pa], over the range that the books of the time print for the fuel."""
    rows = [row for row in rules("explosion pressure") if _fuel(bench) in row.applies] or list(rules("explosion pressure"))
    lows, highs = [row.low for row in rows if row.low], [row.high for row in rows if row.high]
    return even(bench, "explosion pressure", min(lows), max(highs))


def _fuel(bench: Bench) -> str:
    fuel = bench.snapshot.outline.fuel.lower()
    for word, name in (("kerosene", "kerosene"), ("paraffin", "kerosene"), ("alcohol", "alcohol"), ("natural", "natural gas")):
        if word in fuel:
            return name
    return "coal gas" if "gas" in fuel.split() else "gasoline"


def least_wall(bench: Bench, bore: float) -> Draws:
    """The least wall that may be left [m]: t = p D / (2 sigma), plus what rust may still take.

    Khurmi & Gupta, cylinder wall formula, without their reboring allowance, which is what boring uses up; stress of the
    handbook's row for grey iron, pressure of the books of the time.
    """
    stress = rules("cylinder wall stress")[0].high or 40e6
    rust = even(bench, "rust on the jacket side", *CORROSION)
    return np.asarray(minimum_wall(pressure=explosion_pressure(bench), bore=bore, stress=stress, allowance=rust))


WALL_OF_THE_TIME = (1 / 18, 1 / 12)
"""Wall of a water-cooled cylinder of the time over its bore: a quarter inch and more at 4 1/2 in; from memory."""


def likely_wall(bench: Bench, item: str, bore: float) -> Draws:
    """The thinnest wall to expect where none was measured [m]: what foundries of the time left, less a shifted core.

    Makers went thicker than the gas asks, for casting, stiffness and rust. A core that moved by up to the handbook's figure
    thins one side by as much. A guess that says how much a reading is worth; never a finding.
    """
    low, high = (share * bore for share in WALL_OF_THE_TIME)
    shift = even(bench, f"core shift of {item}", 0.0, rules("core shift")[0].high or 1.6e-3)
    return even(bench, "wall of this maker's cylinders", low, high) - shift


def likely_pit(bench: Bench, item: str) -> Draws:
    """The deepest pit to expect in a bore that nobody looked over [m]: none in nine bores of ten, else up to .25 mm.

    From memory; it says how much a look is worth, and is never a finding.
    """
    return 0.25e-3 * np.maximum(even(bench, f"pits in {item}", -9.0, 1.0), 0.0)
