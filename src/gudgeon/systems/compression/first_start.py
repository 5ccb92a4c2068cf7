"""Forwards: what the gauge should show at the first start, after what was decided, and the least to accept."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount, Said
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.cylinder_set import CylinderSet, blank, inputs_of
from gudgeon.systems.compression.leaks import NEW, Leaks, leaks_of, picked, spanned
from gudgeon.systems.compression.pressures import MODEL_TEXT, missing
from gudgeon.systems.judging import Limit, Practice, Target, joined, judged, not_measured, spread
from gudgeon.systems.measured import Draws, number

FIRST, AS_FITTED = "pressure at first start", "cranking pressure as fitted"
FORETOLD = Origin("E", "reckoned before the first start, from the leaks as found and what was made good", "its 5 % end")


def mended(item: str, cylinders: CylinderSet) -> tuple[str, ...]:
    """Paths of a cylinder that the standing verdicts make good, by the remedies that were chosen."""
    standing: dict[str, Verdict] = {verdict.subject: verdict for verdict in cylinders.bench.snapshot.verdicts}
    found: list[str] = []
    for verdict in standing.values():
        chosen = verdict.chosen
        if chosen.action == "run on" or number(item) not in {number(each) for each in chosen.items}:
            continue
        if chosen.system == "cylinders":
            found.append("rings")
        elif chosen.system == "valves" and "seat" in verdict.subject:
            named = [each.lower() for each in chosen.items if number(each) == number(item)]
            found += [path for path in ("intake", "exhaust") if any(path[:2] in each for each in named)]
    return tuple(dict.fromkeys(found))


def first_start(item: str, cylinders: CylinderSet) -> Draws | None:
    """Gauge pressure [Pa] after what was decided, the rest leaking as it does now; None where it cannot be said."""
    key = f"first start of {item}"
    if key not in cylinders.worked_out:
        leaks = leaks_of(item, cylinders)
        cylinders.worked_out[key] = None if leaks is None else _after(item, leaks, cylinders)
    return cast("Draws | None", cylinders.worked_out[key])


def _after(item: str, leaks: Leaks, cylinders: CylinderSet) -> Draws:
    areas = dict(leaks.areas)
    for path in mended(item, cylinders):
        areas[path] = picked(spanned(f"new {path} of {item}", NEW[path], cylinders), leaks.rows)
    return cylinders.gauge(np.asarray(sum(areas.values())), leaks.volume, leaks.rows)


def first_start_findings(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    """What to expect and the least to accept."""
    line = blank(item, FIRST)
    draws = first_start(item, cylinders)
    if draws is None:
        settle = missing(item, cylinders) or f"Read the cranking pressure of {item}, dry, until the gauge stands."
        return (not_measured(line, settle=settle),)
    paths = mended(item, cylinders)
    value, low, high = spread(draws)
    what = " and ".join({"rings": "new rings", "intake": "intake seat", "exhaust": "exhaust seat"}[path] for path in paths)
    amounts = tuple(Amount(each, "pressure") for each in (value, low, high))
    said = Said(
        f"After {what} expect {{0}} at {item} ({{1}} to {{2}}). Accept it from {{1}}: same gauge, same speed, six turns.",
        amounts,
    )
    if not paths:
        said = Said(f"Nothing that leaks was decided on at {item}: as it is, {{0}} again ({{1}} to {{2}}).", amounts)
    if "rings" in paths:
        said = joined(said, Said("New rings may show less until they have run some hours with extra oil (Pagé 1917)."))
    inputs = inputs_of(cylinders.volume(item)[1], cylinders.barometer[1], cylinders.speed[1])  # type: ignore[index]
    formula = "leaks as found, those made good as new; accepted from the 5 % end; " + MODEL_TEXT
    found = judged(replace(line, sentence=said, inputs=inputs, formula=formula), draws)
    return (*(replace(each, target_low=low, target_high=high) for each in found), *_as_fitted(item, low, high, cylinders))


def _as_fitted(item: str, low: float, high: float, cylinders: CylinderSet) -> tuple[Finding, ...]:
    """The pressure read as fitted against the figure that was foretold."""
    read = cylinders.reader.size(d.DRY, item, stage="fitted")
    if read is None:
        return ()
    said = Said(
        f"{item} shows {{0}} as fitted; from {{1}} it is accepted.", (Amount(read.value, "pressure"), Amount(low, "pressure"))
    )
    practised = Practice(
        targets=(Target(low=low, high=high, origin=FORETOLD, authority="reckoned"),),
        limits=(Limit(size=low, most=False, origin=FORETOLD),),
    )
    line = replace(blank(item, AS_FITTED), sentence=said, inputs=read.inputs, formula="as read at the first start")
    return tuple(replace(each, as_fitted=read.value) for each in judged(line, read.draws, practised))
