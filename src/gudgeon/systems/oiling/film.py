"""Which oil: the least film of the bearings at every grade, carried over from what the bearings' own findings say of one."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.handbook.oils import oils
from gudgeon.mechanics.film_table import eccentricity
from gudgeon.mechanics.oil import dynamic, walther
from gudgeon.quantity import Amount, Said
from gudgeon.systems.bearing_duty import FINISH, INLET, Duty
from gudgeon.systems.judging import joined, not_measured
from gudgeon.systems.kit import Kit
from gudgeon.systems.oiling import description as d

CHOICE = "oil by film"
FILM, CLEARANCE = "oil film, mean load", "vertical clearance"
"""Names of the bearings' findings that are asked for."""
GRADES = ("SAE 20", "SAE 30", "SAE 40", "SAE 50", "SAE 60")
SLENDER = 1.0
"""Length of a bearing over its diameter; common practice of the time, .8 to 1.3."""
TOUCHING = 3.0 * sum(FINISH) / 2.0
"""Film at which the faces begin to touch [m]: three times their roughness together; from memory."""
LEAST_DOUBT = 0.5
GRID = np.geomspace(1e-3, 3.0, 400)
"""Sommerfeld numbers among which the running one is looked for."""


@dataclass(frozen=True, kw_only=True)
class Thinnest:
    """The bearing with the thinnest film: its name, film and clearance on the diameter [m], its film at every grade [m]."""

    item: str
    film: float
    clearance: float
    by_grade: dict[str, float]
    inputs: tuple[str, ...]


def thinnest(kit: Kit) -> Thinnest | None:
    """The bearing of thinnest film among the findings asked for; None where none was reckoned."""
    films, clearances = _found(kit, FILM), _found(kit, CLEARANCE)
    known = [(finding.value or 0.0, item) for item, finding in films.items() if item in clearances and finding.value]
    if not known:
        return None
    film, item = min(known)
    clearance = clearances[item].value or 0.0
    if not 0.0 < film < 0.5 * clearance:
        return None
    return Thinnest(
        item=item, film=film, clearance=clearance, by_grade=carried_over(kit, film=film, clearance=clearance),
        inputs=tuple(dict.fromkeys((*films[item].inputs, *clearances[item].inputs))),
    )  # fmt: skip


def _found(kit: Kit, quantity: str) -> dict[str, Finding]:
    """Findings of the bearings by instance, the first of each."""
    found: dict[str, Finding] = {}
    for system in ("bearings", "crankshaft"):
        for finding in kit.bench.findings.get(system, ()):
            if finding.quantity == quantity and finding.value is not None:
                found.setdefault(finding.item, finding)
    return found


def carried_over(kit: Kit, *, film: float, clearance: float) -> dict[str, float]:
    """Least film at every grade [m], from the film at the grade in use: S goes as viscosity, load and speed kept.

    Temperature is kept too; a thicker oil runs a little warmer and gives a part of it back.
    """
    duty = Duty(bench=kit.bench, reader=kit.reader)
    middle = sum(INLET) / 2 + 20.0
    film_at = 0.5 * clearance * (1.0 - np.asarray(eccentricity(sommerfeld=GRID, slenderness=SLENDER)))
    running = float(np.interp(film, film_at, GRID))
    in_use = duty.viscosity(middle)
    return {
        name: float(np.interp(running * _viscosity(name, middle) / in_use, GRID, film_at)) for name in GRADES if name in oils()
    }


def _viscosity(name: str, temperature: float) -> float:
    grade = oils()[name]
    constants = walther(temperature=(40.0, 100.0), kinematic=(sum(grade.at_40) / 2, sum(grade.at_100) / 2))
    return float(dynamic(temperature=temperature, constants=constants))


def chosen(found: Thinnest) -> str:
    """The thinnest grade whose film stays over touching, else the thickest: thin oil flows, cools and splashes better."""
    return next((name for name in found.by_grade if found.by_grade[name] >= TOUCHING), GRADES[-1])


def film_findings(kit: Kit, item: str) -> tuple[Finding, ...]:
    """Which grade the bearings ask for, and what is in use."""
    line, found = kit.blank(d.OIL, item, CHOICE), thinnest(kit)
    grade = kit.noted(d.GRADE, item)
    if found is None:
        settle = "Read journals, bearings and their lengths: which oil they ask for is reckoned from their film."
        return (not_measured(line, settle=settle), *grade)
    name = chosen(found)
    in_use, named = Duty(bench=kit.bench, reader=kit.reader).oil
    of_use = "in use" if named else "taken for granted"
    said = joined(
        Said(
            f"{found.item} has the thinnest film, {{0}} with {in_use.name}, which was {of_use}. {name} is the thinnest "
            "grade that keeps its faces apart, {1}; thinner flows and splashes better, and thicker runs warmer.",
            (Amount(found.film, "length"), Amount(found.by_grade[name], "length")),
        ),
        Said("Clearance does more than oil: no oil makes a film in a bearing that is worn wide or oval."),
    )
    line = replace(
        line,
        value=found.film,
        sentence=said,
        inputs=found.inputs,
        formula=(
            "Raimondi and Boyd (1958), length of one diameter taken; ASTM D341; film over three times the roughness (from "
            "memory); load, speed and temperature kept"
        ),
    )
    return (line, *grade)
