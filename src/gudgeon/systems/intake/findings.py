"""What throttle and linkage mean: clearance, leak and drag of the shaft, play of each joint, and all of it at the governor."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import the
from gudgeon.systems.intake import description as d
from gudgeon.systems.intake.intake_set import TOO_MUCH, IntakeSet, blank
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured
from gudgeon.systems.measured import Draws

SHAFT_PLAY, LEAK_AREA, LEAK = "throttle shaft clearance", "leak area of the shut throttle", "air past the shut throttle"
JOINT_PLAY, SLACK, DRAG = "play of the joint", "linkage slack at the governor", "throttle drag at the governor"


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where nothing of it was read or noted."""
    intake = IntakeSet.of(bench)
    if "findings" not in intake.worked_out:
        found: list[Finding] = []
        if bench.items(d.THROTTLE):
            found += [*_shaft(intake), *_leak(intake), *_state(intake)]
        found += [finding for item in (*intake.joints, *intake.levers) for finding in _joint(item, intake)]
        if intake.joints or intake.levers:
            found += _slack(intake)
        if bench.items(d.THROTTLE):
            found += _drag(intake)
        intake.worked_out["findings"] = tuple(found)
    return cast(tuple[Finding, ...], intake.worked_out["findings"])


def _shaft(intake: IntakeSet) -> list[Finding]:
    if not intake.clearances:
        settle = "Read the throttle's shaft and its hole at both ends."
        return [not_measured(blank(intake.throttle, SHAFT_PLAY), settle=settle, practised=intake.shaft_rules())]
    found: list[Finding] = []
    for level, (draws, inputs) in intake.clearances.items():
        said = Said(f"The throttle shaft has {{0}} at the {level}.", (Amount(middle(draws), "length"),))
        line = replace(
            blank(intake.throttle, f"{SHAFT_PLAY}, {level}"),
            sentence=joined(said, authorities_differ(intake.shaft_rules())),
            inputs=inputs,
            formula="hole − shaft",
        )
        found += judged(line, draws, intake.shaft_rules())
    return found


def _gap(intake: IntakeSet) -> Draws | None:
    read = intake.reader.largest(d.GAP, intake.throttle)
    return None if read is None else read.draws


def clearances_of(intake: IntakeSet) -> dict[str, Draws]:
    """Draws of the shaft's clearances by end."""
    return {level: draws for level, (draws, _) in intake.clearances.items()}


def leak_now(intake: IntakeSet) -> Draws | None:
    """Air past the shut throttle over idling air as found; None where neither shaft nor gap, or the engine's size, is known."""
    gap = _gap(intake)
    if not intake.clearances and (gap is None or intake.one(d.BORE) is None):
        return None
    return intake.leak_share(clearances_of(intake), gap)


def _leak(intake: IntakeSet) -> list[Finding]:
    gap, item = _gap(intake), intake.throttle
    read = [each for _, each in intake.clearances.values()]
    features = (intake.one(feature) for feature in (d.GAP, d.BORE))
    inputs = tuple(dict.fromkeys([i for each in read for i in each] + [i for each in features if each for i in each.inputs]))
    if not intake.clearances and gap is None:
        settle = "Read the shaft and its holes, the bore, and the gap of the shut disc."
        line = blank(item, LEAK, dimension="percent")
        return [not_measured(line, settle=settle, practised=Practice(limits=(TOO_MUCH,)))]
    area = intake.leak_area(clearances_of(intake), gap)
    round_shaft = middle(intake.leak_area(clearances_of(intake), None))
    across = 2 * np.sqrt(middle(area) / np.pi)
    said = Said("Shut, the throttle leaks like a hole of {0} across.", (Amount(across, "length"),))
    if gap is None:
        said = joined(said, Said("The gap of its disc was not read and is not in it."))
    line = replace(
        blank(item, LEAK_AREA, dimension="area"), sentence=said, inputs=inputs,
        formula="π d c / 2 at each end of the shaft; π D × gap at the disc",
    )  # fmt: skip
    found = list(judged(line, area))
    share = leak_now(intake)
    if share is None:
        settle = "Note bore, stroke, cylinders and rated speed on the outline."
        return [*found, not_measured(blank(item, LEAK, dimension="percent"), settle=settle)]
    by_shaft = round_shaft / max(middle(area), 1e-12)
    said = Said(
        f"That passes {middle(share):.0%} of the air that the engine idles on, {by_shaft:.0%} of it round the shaft, "
        "where no fuel goes with it: it idles weak and unevenly, and cannot be slowed below what leaks."
    )
    line = replace(
        blank(item, LEAK, dimension="percent"),
        sentence=said,
        inputs=inputs,
        formula="nozzle flow of the leak at idling suction (35 to 55 kPa absolute, discharge .55 to .75, from memory) over "
        "swept volume × filling",
        settle="" if intake.one(d.IDLE) else "Read the slowest speed that it runs at.",
    )
    return [*found, *judged(line, share, Practice(limits=(TOO_MUCH,)))]


def _state(intake: IntakeSet) -> list[Finding]:
    words, inputs = intake.reader.words(d.STATE, intake.throttle)
    if not words:
        return []
    text = f"Throttle: {words}.".replace("{", "(").replace("}", ")")
    if any(word in words.lower() for word in ("stick", "catch", "stiff", "jam")):
        text += " The slightest drag makes the governor go too far each way (TM 5-5065 §205); hanging open it runs away."
    line = blank(intake.throttle, "condition", dimension="words")
    return [replace(line, sentence=Said(text), inputs=inputs, formula="as noted")]


def _joint(item: str, intake: IntakeSet) -> tuple[Finding, ...]:
    fulcrum, practised = item in intake.levers, intake.joint_rules(item)
    read = intake.fulcrum_clearance(item) if fulcrum else intake.joint_play(item)
    line = blank(item, JOINT_PLAY, part=d.LEVER if fulcrum else d.JOINT)
    if read is None:
        settle = f"Read fulcrum pin and hole of {the(item)}." if fulcrum else f"Read pin and hole of {item}, or its play."
        return (not_measured(line, settle=settle, practised=practised),)
    where = f"The fulcrum of {the(item)}" if fulcrum else item[0].upper() + item[1:]
    said = Said(f"{where} has {{0}} of play.", (Amount(middle(read[0]), "length"),))
    line = replace(line, sentence=said, inputs=read[1], formula="as read, else hole − pin")
    return judged(line, read[0], practised)


def _slack(intake: IntakeSet) -> tuple[Finding, ...]:
    line = blank(d.LINKAGE, SLACK, part=d.JOINT)
    plays = intake.plays()
    parts = intake.slack({item: draws for item, (draws, _) in plays.items()})
    if not parts:
        return (not_measured(line, settle="Read pin and hole, or play, of every joint of the linkage."),)
    draws = np.asarray(np.sum(list(parts.values()), axis=0))
    ranked = sorted(((middle(part), name) for name, part in parts.items()), reverse=True)
    words = "; ".join(f"{name} {{{place}}}" for place, (_, name) in enumerate(ranked, 1))
    amounts = (Amount(middle(draws), "length"), *(Amount(value, "length") for value, _ in ranked))
    said = Said(f"The linkage loses {{0}} of the governor's travel: {words}.", amounts)
    if intake.pulled:
        said = joined(said, Said("A spring pulls it one way, so only friction in the joints is lost, not their whole play."))
    unread = [item for item in (*intake.joints, *intake.levers) if item not in plays]
    if unread:
        said = joined(said, Said(f"Not read, and not in it: {', '.join(unread)}."))
    no_arms = [
        item
        for item in intake.levers
        if intake.reader.size(d.DRIVING, item) is None or intake.reader.size(d.DRIVEN, item) is None
    ]
    if no_arms:
        said = joined(said, Said(f"Arms not read, and taken as alike: {', '.join(no_arms)}."))
    inputs = [identity for _, each in plays.values() for identity in each]
    line = replace(
        line,
        sentence=said,
        inputs=tuple(dict.fromkeys([*inputs, *intake.ratios[2]])),
        formula="sum of plays, each over the ratios of the levers before it",
        settle=f"Read {', '.join(unread)}." if unread else "",
    )
    return judged(line, draws)


def _drag(intake: IntakeSet) -> tuple[Finding, ...]:
    line, read = blank(d.LINKAGE, DRAG, part=d.THROTTLE, dimension="force"), intake.drag
    if read is None:
        settle = "Read the force that moves the throttle's lever, by spring balance."
        return (not_measured(line, settle=settle),)
    how = "as read at the lever" if read[2] else "reckoned from suction on the disc at part load"
    said = Said(f"The throttle drags with {{0}} at the governor, {how}.", (Amount(middle(read[0]), "force"),))
    line = replace(
        line, sentence=said, inputs=read[1],
        formula="force at the lever × ratio of the linkage" if read[2] else "μ p (π D² / 4) d / 2 over the lever, × ratio",
        settle="" if read[2] else "Read the force that moves the throttle's lever, by spring balance.",
    )  # fmt: skip
    return judged(line, read[0])
