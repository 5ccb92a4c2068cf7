"""What to draw of the oiling: dip and drips on their scales, the thinnest film by grade of oil."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.picture import Curve, Picture
from gudgeon.systems.kit import Kit, strips
from gudgeon.systems.oiling import description as d
from gudgeon.systems.oiling.film import TOUCHING, thinnest
from gudgeon.systems.oiling.findings import findings
from gudgeon.systems.oiling.splash import DIP

STRIPS = (DIP, d.DRIP.name, d.TIP_GAP.name, d.SIDE_GAP.name)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture."""
    kit = Kit.of(bench, d.KEY)
    found: list[tuple[str, Picture]] = []
    curve = film_curve(kit) if kit.items(d.OIL) else None
    if curve is not None:
        found.append(("oil by film", curve))
    return (*found, *strips(findings(bench), STRIPS))


def film_curve(kit: Kit) -> Curve | None:
    """Least film of the worst bearing over the grade; None where no bearing's film was reckoned."""
    found = thinnest(kit)
    if found is None:
        return None
    points = tuple((float(name.split()[1]), film / (1e-3 * d.INCH)) for name, film in found.by_grade.items())
    touching = TOUCHING / (1e-3 * d.INCH)
    return Curve(
        title=f"{found.item}: least oil film by grade",
        x_text="SAE grade",
        y_text="least film [thou]",
        curves=((found.item, points),),
        bands=(("faces begin to touch", 0.0, touching),),
    )
