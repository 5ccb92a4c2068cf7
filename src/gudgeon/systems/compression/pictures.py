"""What to draw: the indicator diagram of the cylinder that shows least, tight and as it leaks; its pressures on one scale."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.picture import Curve, Picture, Strip
from gudgeon.mechanics import compression as model
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.cylinder_set import COLD, RATIO_ROD, SURFACE, CylinderSet
from gudgeon.systems.compression.findings import findings
from gudgeon.systems.compression.leaks import leaks_of
from gudgeon.systems.compression.pressures import DRY
from gudgeon.systems.judging import middle

_POINTS = 60


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """The indicator diagram, then a strip per cranking pressure."""
    cylinders = CylinderSet.of(bench)
    curve = indicator(cylinders)
    strips = [each for each in findings(bench) if each.quantity == DRY and each.value is not None]
    found: list[tuple[str, Picture]] = [] if curve is None else [("indicator diagram", curve)]
    return (*found, *((f"{each.item} {each.quantity}", Strip(finding=each)) for each in strips))


def indicator(cylinders: CylinderSet) -> Curve | None:
    """Gauge pressure over crank angle of the weakest cylinder, with the leaks found, without any, and as an ideal gas would."""
    read = {item: each.value for item in cylinders.items if (each := cylinders.read(d.DRY, item)) is not None}
    known = [item for item in read if leaks_of(item, cylinders) is not None]
    if not known:
        return None
    item = min(known, key=lambda each: read[each])
    leaks = leaks_of(item, cylinders)
    assert leaks is not None
    ambient = middle(cylinders.barometer[0])
    curves = []
    for name, area, film in (
        ("no leak, no heat", 0.0, 0.0),
        ("no leak", 0.0, float(np.mean(model.ANNAND))),
        ("as it leaks", middle(leaks.total), float(np.mean(model.ANNAND))),
    ):
        angle, _, pressure = model.indicator(_lane(item, area, film, cylinders)[0], step=np.radians(1.0))
        some = np.linspace(0, len(angle) - 1, min(_POINTS, len(angle))).astype(int)
        points = tuple((float(np.degrees(angle[i]) - 180), float(pressure[i] - ambient) / d.PSI) for i in some)
        curves.append((name, points))
    at = float(np.degrees(middle(cylinders.closing[0]))) - 180
    return Curve(
        title=f"{item}: pressure while it is cranked",
        x_text="crank angle from inner dead centre [degree]",
        y_text="gauge pressure [psi]",
        curves=tuple(curves),
        marks=(("inner dead centre", 0.0), ("intake shut", at)),
        bands=(("as read", read[item] / d.PSI - 2.5, read[item] / d.PSI + 2.5),),
    )


def _lane(item: str, area: float, film: float, cylinders: CylinderSet) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    volume = cylinders.volume(item)
    assert volume is not None
    assert cylinders.bore is not None
    assert cylinders.stroke is not None
    cold = float(np.mean(COLD))
    return model.cases(
        bore=cylinders.bore,
        stroke=cylinders.stroke,
        rod=float(np.mean(RATIO_ROD)) * cylinders.stroke / 2,
        clearance_volume=middle(volume[0]),
        speed=middle(cylinders.speed[0]),
        intake_closes=middle(cylinders.closing[0]),
        ambient=middle(cylinders.barometer[0]),
        leak_area=area,
        charge_temperature=cold,
        wall_temperature=cold,
        film=film,
        surface=float(np.mean(SURFACE[cylinders.bench.snapshot.outline.valves])),
    )
