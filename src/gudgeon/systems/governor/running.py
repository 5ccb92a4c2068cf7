"""What the governor does as a whole: speeds, spread, dead band and its parts, effort, and whether the engine hunts."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.system import Feature
from gudgeon.mechanics import governors
from gudgeon.mechanics.hunting import hunt
from gudgeon.quantity import Amount, Said
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.curve import Condition, Curve, as_found, curve_of, drag_read, missing
from gudgeon.systems.governor.governor_set import RPM, STOPS, GovernorSet, blank
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured
from gudgeon.systems.measured import Draws

FULL, LIGHT, SPREAD = "speed at full load", "speed without load", "speed spread"
SLACK, DRAG, DEAD, WANDER = "lost motion at the sleeve", "friction at the sleeve", "dead band", "spread with dead band"
EFFORT, HUNT = "effort for one in a hundred", "swing when hunting"
LAW = "virtual work at sleeve and weights; Khurmi and Gupta, Theory of Machines, ch. 18"
DAMPING = (0.05, 0.5)
"""Damping of a governor's own swing by oil and air, over critical; from memory, and nobody measures it."""
CASES, CHANGE = 48, 0.1


def running_findings(one: GovernorSet) -> tuple[Finding, ...]:
    """All that the governor as a whole says; one not-measured finding that lists what is missing where it cannot be told."""
    item, curve = one.only(d.GOVERNOR), curve_of(one)
    if curve is None:
        names = ", ".join(feature.title[0].lower() + feature.title[1:] for feature in missing(one))
        settle = f"To work the speed out, read: {names}."
        return tuple(
            not_measured(blank(item, quantity, dimension=dimension), settle=settle, practised=practised)
            for quantity, dimension, practised in (
                (FULL, "speed", one.rated_rules),
                (WANDER, "percent", one.spread_rules),
            )
        )
    return (
        *_speeds(item, curve),
        *_spread(item, curve),
        *_slack(item, curve),
        *_drag(item, curve),
        *_dead(item, curve),
        *_wander(item, curve),
        *_effort(item, curve),
        *_hunt(item, curve),
    )


def _speeds(item: str, curve: Curve) -> tuple[Finding, ...]:
    found: list[Finding] = []
    one = curve.governor
    assert one.gearing is not None
    for quantity, share, feature in ((FULL, 0.0, d.RUNS_LOADED), (LIGHT, 1.0, d.RUNS_LIGHT)):
        draws = curve.speed(share, as_found(one))
        where = "right down" if share == 0 else "right up"
        said = joined(
            Said(f"With the sleeve {where} it stands at {{0}} of the engine.", (Amount(middle(draws), "speed"),)),
            Said(f"It turns {one.gearing[2]}."),
            _as_run(one, feature, middle(draws)),
            _assumed(one) if share == 0 else Said(""),
        )
        line = replace(blank(item, quantity, dimension="speed"), sentence=said, inputs=curve.inputs, formula=LAW)
        found += judged(line, draws, one.rated_rules if share == 0 else Practice())
    return tuple(found)


def _as_run(one: GovernorSet, feature: Feature, reckoned: float) -> Said:
    """What the tachometer said, held against what was reckoned."""
    read = one.one(feature)
    if read is None:
        return Said("")
    amounts = (Amount(read.value, "speed"),)
    if abs(read.value / reckoned - 1) < 0.05:
        return Said("It was seen to run at {0}, which agrees.", amounts)
    return Said("It was seen to run at {0}: a weight, a length or the spring was misread, or something sticks.", amounts)


def _assumed(one: GovernorSet) -> Said:
    if one.hung or one.one(d.SLEEVE_ANGLE) is not None:
        return Said("")
    return Said("Its sleeve arms are taken to stand square at half travel.")


def _spread(item: str, curve: Curve) -> tuple[Finding, ...]:
    one = curve.governor
    draws = curve.spread(as_found(one))
    said = Said(f"From full load to none the speed rises by {100 * middle(draws):.1f} %.")
    if middle(draws) <= 0:
        said = Said(
            "It stands no faster at the top of its travel than at the bottom: it runs from stop to stop and cannot govern."
        )
    said = joined(said, authorities_differ(one.spread_rules, "percent"))
    line = replace(
        blank(item, SPREAD, dimension="percent"), sentence=said, inputs=curve.inputs, formula="2 (N2 − N1) / (N1 + N2); " + LAW
    )
    practised = replace(one.spread_rules, limits=(*one.spread_rules.limits, STOPS))
    return judged(line, draws, practised)


def _slack(item: str, curve: Curve) -> tuple[Finding, ...]:
    one, condition = curve.governor, as_found(curve.governor)
    parts = curve.slack(condition)
    draws = curve.lost(condition)
    ranked = sorted(((middle(part), name) for name, part in parts.items() if middle(part) > 1e-6), reverse=True)
    names = "; ".join(f"{name} {{{place + 1}}}" for place, (_, name) in enumerate(ranked))
    said = Said("In all {0} of the sleeve's travel is lost before the throttle answers.", (Amount(middle(draws), "length"),))
    if ranked:
        amounts = (Amount(middle(draws), "length"), *(Amount(value, "length") for value, _ in ranked))
        said = Said(f"In all {{0}} of the sleeve's travel is lost before the throttle answers: {names}.", amounts)
    if one.linkage_slack is None:
        said = joined(said, Said("The linkage to the throttle was not read and is not in it."))
    inputs = _joint_inputs(one)
    line = replace(
        blank(item, SLACK),
        sentence=said,
        inputs=inputs,
        formula="joints pressed one way lose c sin(atan μ), √(1 + (b/a)²) of it at a pivot; collar and thrust lose all",
        settle="" if one.linkage_slack is not None else "Read the joints of the throttle linkage.",
    )
    return judged(line, draws)


def _joint_inputs(one: GovernorSet) -> tuple[str, ...]:
    read = [
        *(
            each
            for feature in (d.PIN, d.HOLE, d.ROLLER, d.ROLLER_BORE, d.ROLLER_PIN, d.FLAT)
            for each in one.of_weights(feature)
        ),
        *(one.one(feature) for feature in (d.GROOVE, d.COLLAR_GROOVE, d.BLOCK, d.THRUST_SLACK)),
    ]
    found = [identity for each in read if each is not None for identity in each.inputs]
    return tuple(dict.fromkeys([*found, *(one.linkage_slack[1] if one.linkage_slack else ())]))


def _drag(item: str, curve: Curve) -> tuple[Finding, ...]:
    one, read = curve.governor, drag_read(curve.governor)
    draws = curve.drag(as_found(one))
    share = middle(draws / curve.holding(as_found(one)))
    how = "as read up and back" if read else "reckoned from pins and rollers, dry or gummed"
    said = Said(
        f"Friction holds the sleeve with {{0}} ({how}), {share:.0%} of what the weights pull.",
        (Amount(middle(draws), "force"),),
    )
    line = replace(
        blank(item, DRAG, dimension="force"),
        sentence=said,
        inputs=read[1] if read else curve.inputs,
        formula="half the difference of force up and back" if read else "μ R d / 2b at pins, μ Q (d/D) tan(lean) at rollers",
        settle="" if read else "Move the sleeve up and let it back by spring balance, linkage off, and read both forces.",
    )
    return judged(line, draws)


def _dead(item: str, curve: Curve) -> tuple[Finding, ...]:
    one, condition = curve.governor, as_found(curve.governor)
    draws = curve.dead_band(condition)
    by_friction = middle(draws - _by_slack(curve, condition))
    speed = middle(curve.speed(0.5, condition))
    said = Said(
        f"The speed may wander by {{0}} ({100 * middle(draws):.1f} %) before the throttle answers: "
        f"{100 * by_friction:.1f} % by friction, the rest by lost motion.",
        (Amount(speed * middle(draws), "speed"),),
    )
    line = replace(
        blank(item, DEAD, dimension="percent"),
        sentence=said,
        inputs=tuple(dict.fromkeys((*curve.inputs, *_joint_inputs(one)))),
        formula="√(1 + F/Q) − √(1 − F/Q), and lost motion × dN/ds; over the speed half way",
    )
    return judged(line, draws)


def _by_slack(curve: Curve, condition: Condition) -> Draws:
    low, half, high = (curve.speed(share, condition) for share in (0.0, 0.5, 1.0))
    return np.asarray(np.abs(high - low) / curve.travel.draws * curve.lost(condition) / half)


def _wander(item: str, curve: Curve) -> tuple[Finding, ...]:
    one = curve.governor
    draws = curve.wander(as_found(one))
    said = Said(f"Spread and dead band together: the speed may lie anywhere within {100 * middle(draws):.1f} %.")
    line = replace(
        blank(item, WANDER, dimension="percent"),
        sentence=said,
        inputs=tuple(dict.fromkeys((*curve.inputs, *_joint_inputs(one)))),
        formula="spread + dead band, against what a good maker allowed in all",
    )
    return judged(line, draws, one.spread_rules)


def _effort(item: str, curve: Curve) -> tuple[Finding, ...]:
    condition = as_found(curve.governor)
    draws = np.asarray(governors.effort(change=0.01, holding=curve.holding(condition)))
    work = middle(draws * curve.travel.draws)
    said = Said(
        "For a change of one in a hundred it pushes with {0} on average; "
        f"over its whole travel that would be {work:.2g} J of work, which moves throttle and joints.",
        (Amount(middle(draws), "force"),),
    )
    line = replace(
        blank(item, EFFORT, dimension="force"),
        sentence=said,
        inputs=curve.inputs,
        formula="c × force of the weights at the sleeve",
    )
    return judged(line, draws)


# ---- hunting


@dataclass(frozen=True, kw_only=True)
class Swing:
    """Hunting case by case: swing of speed over rated speed, nought where it settles; period [s] of those that swing."""

    speed: Draws
    period: Draws


def swing_of(curve: Curve, condition: Condition, name: str) -> Swing | None:
    """Run the loop for some draws; None while the wheel's run-up time is not known. Worked out once per condition's name."""
    one = curve.governor
    key = f"swing {name}"
    if key not in one.worked_out:
        one.worked_out[key] = None if one.run_up is None else _swing(curve, condition, one.run_up[0])
    kept = one.worked_out[key]
    assert kept is None or isinstance(kept, Swing)
    return kept


def _swing(curve: Curve, condition: Condition, run_up: Draws) -> Swing:
    one = curve.governor
    some = slice(0, CASES)
    holding = curve.holding(condition)[some]
    moving = np.asarray(
        governors.sleeve_mass(motion=curve.motion(0.5), mass=curve.mass, count=one.count, sleeve=_sleeve_mass(one))
    )[some]
    travel = curve.travel.draws[some]
    own = np.sqrt(np.maximum(moving * travel / (2 * holding), 1e-8))
    spread = curve.spread(condition)[some]
    low, high = np.log(DAMPING)
    damped = np.exp(one.reader.even("damping of the governor", low, high))[some]
    found = hunt(
        governor_time=own,
        spread=spread,
        friction=(curve.drag(condition)[some] / (2 * holding)),
        slack=curve.lost(condition)[some] / travel,
        damping=2 * damped * own * np.sqrt(np.maximum(spread, 0.002)),
        run_up=np.maximum(run_up[some], 0.2),
        charge_wait=_charge_wait(one),
        step_of_load=CHANGE,
    )
    swings = np.isfinite(found.period)
    return Swing(speed=np.where(swings, found.speed_swing, 0.0), period=found.period[swings])


def _sleeve_mass(one: GovernorSet) -> Draws:
    read = one.one(d.SLEEVE_MASS)
    return one.reader.full(0.3) if read is None else read.draws


def _charge_wait(one: GovernorSet) -> float:
    """Mean wait for the next charge [s]: half the time between two inlet strokes."""
    outline = one.bench.snapshot.outline
    speed = one.rated or 450 * RPM
    turns = (outline.strokes or 4) / 2 / (outline.cylinders or 1)
    return turns * np.pi / speed


def _hunt(item: str, curve: Curve) -> tuple[Finding, ...]:
    one, found = curve.governor, swing_of(curve, as_found(curve.governor), "as found")
    if one.bench.snapshot.outline.governing == "hit-and-miss":
        return ()
    if found is None:
        settle = "Read the flywheel (rim, or weight) and note the engine's power: whether it hunts depends on the wheel."
        return (not_measured(blank(item, HUNT, dimension="percent"), settle=settle),)
    share = float(np.mean(found.speed > 0))
    swing = middle(found.speed)
    if share < 0.1:
        text = "A step of load settles in nearly every case that was tried: it should not hunt."
    elif share > 0.9:
        text = f"It hunts in nearly every case that was tried, by about {100 * swing:.1f} % of speed."
    else:
        text = (
            f"It hunts in {share:.0%} of the cases that were tried. How strongly oil and air damp the weights decides, "
            "and nobody has measured that."
        )
    if found.period.size and share >= 0.1:
        text += f" A swing takes about {float(np.median(found.period)):.1f} s."
    behaviour = one.said(d.BEHAVIOUR)
    if share < 0.1 and "hunt" in behaviour[0]:
        text += " What was seen to hunt is then wandering within its dead band."
    said = joined(Said(text), Said(f"Noted: {behaviour[0]}.".replace("{", "(").replace("}", ")")) if behaviour[0] else Said(""))
    run_up = one.run_up
    line = replace(
        blank(item, HUNT, dimension="percent"),
        sentence=said,
        inputs=tuple(dict.fromkeys((*curve.inputs, *_joint_inputs(one), *(run_up[1] if run_up else ()), *behaviour[1]))),
        formula=f"engine, wheel, governor, friction and slack run through in time after a step of {CHANGE:.0%} of load; "
        f"{CASES} cases, damping from 5 to 50 % of critical (from memory)",
        settle="" if share < 0.1 or share > 0.9 else "Watch it run: time ten swings, or see that it stands still.",
    )
    return judged(line, found.speed)
