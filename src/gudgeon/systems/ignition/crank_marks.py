"""Dead centre by stop, firing order by crank and cam, and the events that lobe and lash would give."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding, Standing
from gudgeon.mechanics import cam_lift, slider_crank, timing
from gudgeon.quantity import Amount, Said
from gudgeon.systems.ignition import description as d
from gudgeon.systems.ignition.spark import after_centre, rim_diameter, rod_length
from gudgeon.systems.judging import joined, judged, middle, not_measured
from gudgeon.systems.kit import Kit, Read
from gudgeon.systems.measured import Measured, number

CENTRE, OLD, ORDER, EVENT = "dead centre on the rim", "old mark from dead centre", "firing order", "by lobe and lash"


def crank_findings(kit: Kit) -> tuple[Finding, ...]:
    """All findings on dead centre, firing order and lobes; nothing of a cylinder that was not written down under timing."""
    found: list[Finding] = []
    cylinders = kit.items(d.TIMING)
    for item in cylinders[:1]:
        found += _centre(kit, item, wanted=True)
    for item in cylinders[1:]:
        found += _centre(kit, item, wanted=False)
    found += _order(kit)
    for item in cylinders:
        found += _events(kit, item)
    return tuple(found)


def true_centre(kit: Kit, item: str) -> Read | None:
    """Inner dead centre on the rim, from the scratch that the marks were read from [m]; half way between the stop's marks.

    Where the cylinder is set off the crank, the middle is moved by what geometry says; a stop of unread depth is taken as 1 in.
    """
    before, after = kit.size(d.STOP_BEFORE, item), kit.size(d.STOP_AFTER, item)
    if before is None or after is None:
        return None
    draws = np.asarray(slider_crank.dead_centre_by_stop(before=before.draws, after=after.draws))
    outline, wheel = kit.bench.snapshot.outline, rim_diameter(kit)
    if outline.offset and outline.stroke and wheel is not None:
        depth = kit.size(d.STOP_DEPTH, item)
        off = slider_crank.stop_error(
            depth=depth.value if depth is not None else d.INCH,
            throw=outline.stroke / 2,
            rod=rod_length(kit, outline.stroke),
            offset=outline.offset,
        )
        draws = draws - _sense(before, after) * float(slider_crank.rim_distance(angle=off, diameter=wheel))
    return draws, (*before.inputs, *after.inputs)


def _sense(before: Measured, after: Measured) -> float:
    """1 where figures on the rim grow as the crank turns, -1 where they fall: the mark after the centre comes later."""
    return 1.0 if after.value >= before.value else -1.0


def _sense_of(kit: Kit, item: str) -> float:
    before, after = kit.size(d.STOP_BEFORE, item), kit.size(d.STOP_AFTER, item)
    return 1.0 if before is None or after is None else _sense(before, after)


def _centre(kit: Kit, item: str, *, wanted: bool) -> tuple[Finding, ...]:
    line, found = kit.blank(d.TIMING, item, CENTRE), true_centre(kit, item)
    if found is None:
        settle = f"Put a stop in the plug hole of {item}, turn to it from either side, and read both marks on the rim."
        said = Said(f"True dead centre of {item} was not found by a stop: no angle is better than the mark it is counted from.")
        return (not_measured(replace(line, sentence=said), settle=settle),) if wanted else ()
    draws, inputs = found
    wheel = rim_diameter(kit)
    said = Said(f"Dead centre of {item} lies {{0}} along the rim from the scratch.", (Amount(middle(draws), "length"),))
    if wheel is not None:
        spread = float(np.std(draws))
        degree = math.degrees(float(slider_crank.rim_angle(distance=spread, diameter=wheel)))
        one = float(slider_crank.rim_distance(angle=math.radians(1.0), diameter=wheel))
        said = joined(
            said, Said(f"It is good to about {max(degree, 0.05):.1f}°; a degree is {{0}} of rim.", (Amount(one, "length"),))
        )
    formula = "half way between the marks of a stop, turned to from either side; common practice"
    found_lines = list(judged(replace(line, sentence=said, inputs=inputs, formula=formula), draws))
    old = kit.size(d.OLD_MARK, item)
    if old is not None and wheel is not None:
        found_lines += _old_mark(kit, item, (_sense_of(kit, item) * (old.draws - draws), (*old.inputs, *inputs)), wheel)
    return tuple(found_lines)


def _old_mark(kit: Kit, item: str, off: Read, wheel: float) -> tuple[Finding, ...]:
    draws = np.asarray(slider_crank.rim_angle(distance=off[0], diameter=wheel))
    at = middle(draws)
    said = Said("The old mark stands at dead centre.")
    if abs(at) > math.radians(1.0):
        way = "later" if at > 0 else "earlier"
        said = Said(
            f"The old mark stands {{0}} from dead centre: everything timed to it comes {way} than it says.",
            (Amount(abs(at), "angle"),),
        )
    line = replace(kit.blank(d.TIMING, item, OLD, "angle"), sentence=said, inputs=off[1], formula="(mark − centre) / radius")
    return judged(line, draws)


def _order(kit: Kit) -> tuple[Finding, ...]:
    outline = kit.bench.snapshot.outline
    cylinders = outline.cylinders or len(kit.items(d.TIMING))
    if cylinders < 2 or not kit.items(d.TIMING):
        return ()
    line = kit.blank(d.TIMING, "engine", ORDER, "words")
    throws, lobes, inputs = _angles(kit, d.THROW), _angles(kit, d.LOBE_AFTER), _inputs(kit)
    said_order = _digits(outline.firing_order)
    try:
        by_crank = timing.possible_orders(throws, strokes=outline.strokes or 4) if len(throws) == cylinders else ()
        by_cam = timing.firing_order(lobes) if len(lobes) == cylinders else ()
    except timing.FiringFault as fault:
        return (replace(line, standing="doubtful", sentence=Said(str(fault)), inputs=inputs),)
    if not by_crank and not by_cam:
        settle = (
            "Read on the rim in which order the exhaust valves lift over two turns, and where each piston comes to the top."
        )
        said = (
            Said("Firing order: not examined.")
            if not said_order
            else Said(f"Firing order: {outline.firing_order}, as reported.")
        )
        return (not_measured(replace(line, sentence=said), settle=settle),)
    standing, said = _judged_order(by_crank, by_cam, said_order)
    formula = "like lobes follow each other in firing order; the crank allows each cylinder two places in two turns"
    return (replace(line, standing=standing, sentence=said, inputs=inputs, formula=formula),)


def _judged_order(
    by_crank: tuple[tuple[int, ...], ...], by_cam: tuple[int, ...], reported: tuple[int, ...]
) -> tuple[Standing, Said]:
    names = " or ".join("-".join(map(str, order)) for order in by_crank)
    if not by_cam:
        return "for information", Said(f"The crank allows the firing order {names}; the order of the exhaust lobes decides.")
    found = "-".join(map(str, by_cam))
    if by_crank and by_cam not in by_crank:
        return "doubtful", Said(
            f"By the cam it fires {found}, which the crank does not allow evenly ({names}): read both again."
        )
    if reported and reported != by_cam:
        return "doubtful", Said(f"By the cam it fires {found}; {'-'.join(map(str, reported))} was reported.")
    return "within", Said(f"It fires {found}.")


def _digits(text: str) -> tuple[int, ...]:
    found = tuple(int(char) for char in text if char.isdigit())
    return found[found.index(1) :] + found[: found.index(1)] if 1 in found else found


def _angles(kit: Kit, feature: object) -> dict[int, float]:
    """Per cylinder an angle that is counted from cylinder 1 [rad]; cylinder 1 stands at nought."""
    found = {1: 0.0}
    for item in kit.items(d.TIMING):
        read = kit.size(feature, item)  # type: ignore[arg-type]
        if read is not None and number(item).isdigit():
            found[int(number(item))] = read.value
    return found if len(found) > 1 else {}


def _inputs(kit: Kit) -> tuple[str, ...]:
    reads = [kit.size(feature, item) for item in kit.items(d.TIMING) for feature in (d.THROW, d.LOBE_AFTER)]
    return tuple(identity for read in reads if read is not None for identity in read.inputs)


def lobe_window(kit: Kit, kind: str, cylinder: str) -> tuple[Read, float] | None:
    """Crank angles after inner dead centre at which lobe and lash open a valve and shut it [rad], as (middle of opening,
    readings) and the closing angle; None where nose, lift table or lash was not read."""
    nose = after_centre(kit, d.EXHAUST_NOSE if kind == "exhaust" else d.INTAKE_NOSE, cylinder)
    lobe = next((item for item in kit.items("cam lobe") if kind in _plain(item) and number(item) == number(cylinder)), None)
    valve = next((item for item in kit.items("valve") if kind in _plain(item) and number(item) == number(cylinder)), None)
    if nose is None or lobe is None or valve is None:
        return None
    table, lash = kit.reader.at_sizes(d.LOBE_LIFT_AT, lobe), kit.reader.smallest(d.VALVE_LASH, valve)
    if len(table) < 5 or lash is None:
        return None
    angles, lifts = np.radians([figure for figure, _, _ in table]), np.array([each.value for _, _, each in table])
    try:
        opens, closes = cam_lift.events(angles=angles, lifts=lifts, lash=lash.value)
    except cam_lift.LiftTableFault:
        return None
    at = middle(nose[0])
    inputs = (*nose[1], *lash.inputs, *(i for _, _, each in table for i in each.inputs))
    return (np.asarray(nose[0] + 2 * opens), inputs), at + 2 * closes


def _plain(item: str) -> str:
    return item.lower().replace("inlet", "intake")


def _events(kit: Kit, cylinder: str) -> tuple[Finding, ...]:
    found: list[Finding] = []
    for kind in ("exhaust", "intake"):
        window = lobe_window(kit, kind, cylinder)
        if window is None:
            continue
        (opens, inputs), closes = window
        name = kind.replace("intake", "inlet")
        said = Said(
            f"{cylinder}: by its lobe and the lash as found the {name} stands open {{0}}, from {{1}} "
            f"{_side(middle(opens))} inner centre to {{2}} {_side(closes)} it.",
            (
                Amount(closes - middle(opens), "angle"),
                Amount(abs(middle(opens)), "angle"),
                Amount(abs(closes), "angle"),
            ),
        )
        line = kit.blank(d.TIMING, cylinder, f"{name} opens {EVENT}", "angle")
        line = replace(line, sentence=said, inputs=inputs, formula="nose ± twice the cam angle where lift passes the lash")
        found += judged(line, opens)
    return tuple(found)


def _side(angle: float) -> str:
    return "after" if angle >= 0 else "before"
