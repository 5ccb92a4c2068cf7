"""What to draw of the camshaft: lift of the lobes over the angle of the cam with the lash, key findings on a scale."""

from __future__ import annotations

import math

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Curve, Picture, Strip
from gudgeon.mechanics import cam_lift
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.bearings import CLEARANCE
from gudgeon.systems.camshaft.cam_set import CamSet, kind_of
from gudgeon.systems.camshaft.findings import findings
from gudgeon.systems.camshaft.followers import ROLLER_PLAY, ROLLER_ROUND
from gudgeon.systems.camshaft.lobes import LOST, lift_lost
from gudgeon.systems.judging import middle

STRIPS = (LOST, ROLLER_PLAY, ROLLER_ROUND, CLEARANCE)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture: one lift curve for each kind of lobe, then a strip per key finding."""
    cams = CamSet.of(bench)
    found: list[tuple[str, Picture]] = []
    for kind in ("intake", "exhaust"):
        curve = lift_curve(kind, cams)
        if curve is not None:
            found.append((f"{kind} lobes", curve))
    found += [(f"{finding.item} {finding.quantity}", Strip(finding=finding)) for finding in _key_findings(findings(bench))]
    return tuple(found)


def _key_findings(found: tuple[Finding, ...]) -> list[Finding]:
    """Of each key quantity the first authority whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in found:
        if finding.quantity not in STRIPS or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return list(chosen.values())


def lift_curve(kind: str, cams: CamSet) -> Curve | None:
    """Lift over cam angle from the nose: the worst lobe of a kind, by its table or as a cosine lobe, and what it was."""
    known = {
        lobe: middle(lost[0]) for lobe in cams.lobes if kind_of(lobe) == kind and (lost := lift_lost(lobe, cams)) is not None
    }
    if not known:
        return None
    worst = max(known, key=lambda lobe: known[lobe])
    lift, lash = cams.lift(worst), cams.lash(worst)
    assert lift is not None
    now = middle(lift[0])
    at_follower = 0.0 if lash is None else float(np.clip(np.median(lash[0]), 0.0, 0.9 * now))
    half = middle(cams.half_open(worst)[0])
    flank = float(np.asarray(cam_lift.harmonic_half_angle(lift=now, lash=at_follower, half_open=half)))
    angles = np.linspace(-1.1 * flank, 1.1 * flank, 45)
    table = cams.table(worst)
    if table is None:
        shown = (
            "cosine lobe of its lift and opening",
            _points(angles, cam_lift.harmonic_lift(angle=angles, lift=now, half_angle=flank)),
        )
    else:
        shown = ("as read", _points(table[0], np.median(table[1], axis=1)))
    new = cam_lift.harmonic_lift(angle=angles, lift=now + max(known[worst], 0.0), half_angle=flank)
    return Curve(
        title=f"{worst}: lift over the turn of the cam",
        x_text="cam, degree from the nose",
        y_text="lift at the follower [in]",
        curves=((f"{worst}, {shown[0]}", shown[1]), ("when new, cosine lobe", _points(angles, new))),
        bands=() if lash is None else (("lash", 0.0, at_follower / d.INCH),),
        marks=(("opens", -math.degrees(half)), ("closes", math.degrees(half))),
    )


def _points(angles: np.ndarray[tuple[int, ...], np.dtype[np.float64]], lifts: object) -> tuple[tuple[float, float], ...]:
    values = np.asarray(lifts, dtype=np.float64)
    return tuple((math.degrees(float(a)), float(y) / d.INCH) for a, y in zip(angles, values, strict=True))
