"""Before the first start: the cranking pressure read again and held against what was foretold."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.cylinder_set import CylinderSet
from gudgeon.systems.compression.first_start import first_start, mended
from gudgeon.systems.judging import spread
from gudgeon.systems.proposing import OWN


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """One step once rings or seats of a cylinder were decided on; none before."""
    cylinders = CylinderSet.of(bench)
    done = [item for item in cylinders.items if mended(item, cylinders)]
    least = {item: spread(draws)[1] for item in done if (draws := first_start(item, cylinders)) is not None}
    if not least:
        return ()
    wanted = ", ".join(f"{item} {show(Amount(value, 'pressure'), 'inch')}" for item, value in least.items())
    after = {verdict.chosen.steps[-1].key for verdict in bench.snapshot.verdicts if verdict.chosen.steps
             and verdict.chosen.system in ("cylinders", "valves")}  # fmt: skip
    return (
        StepDraft(
            key=f"{d.KEY}/first-start",
            title="Crank it with every plug out and the throttle open, and read each cylinder as fitted",
            system=d.KEY,
            hours=Range(0.3, 0.5, 1.0, OWN),
            after=tuple(sorted(after)),
            hold=f"cranking pressure at least: {wanted}",
        ),
    )
