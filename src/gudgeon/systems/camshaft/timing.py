"""Valve timing as found, against what books of the time give for its kind of engine, and how long each valve stands open."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.quantity import Amount, Said
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.cam_set import CamSet, blank, event
from gudgeon.systems.engine_kind import engines_of, which_engines
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured

# event, subject of the rules, sign that turns "after its centre" into the subject's own sense
EVENTS = (
    ("exhaust opens", "exhaust opens before outer centre", -1.0),
    ("exhaust closes", "exhaust closes after inner centre", 1.0),
    ("intake opens", "inlet opens after inner centre", 1.0),
    ("intake closes", "inlet closes after outer centre", 1.0),
)
OPEN = "stands open"


def timing_rules(subject: str, cams: CamSet) -> Practice:
    """What books of the time give for an event: those for its kind of engine first, all of them side by side, no limits."""
    engines, _ = which_engines(cams.bench.snapshot.outline)
    practised = cams.rules(subject, size=0.1)
    ranked = sorted(practised.targets, key=lambda target: engines_of(target.origin.page) != engines)
    return Practice(targets=tuple(ranked))


def timing_findings(cylinder: str, cams: CamSet) -> tuple[Finding, ...]:
    """The events of one cylinder; those of an automatic inlet are not timed."""
    automatic = cams.bench.snapshot.outline.inlet == "automatic"
    found: list[Finding] = []
    for name, subject, sign in EVENTS:
        if automatic and name.startswith("intake"):
            continue
        found += _event(cylinder, name, subject, sign, cams)
    return (*found, *_open(cylinder, cams))


def _event(cylinder: str, name: str, subject: str, sign: float, cams: CamSet) -> tuple[Finding, ...]:
    practised = timing_rules(subject, cams)
    line = blank(cylinder, subject, part=d.TIMING, dimension="angle")
    read = event(cams, cylinder, name)
    if read is None:
        settle = f"Read where the {name.replace('intake', 'inlet')} on cylinder {cylinder}, from its dead centre, on the rim."
        return (not_measured(line, settle=settle, practised=practised),)
    draws = sign * read[0]
    target = practised.target
    at = middle(draws)
    words = subject if at >= 0 else subject.replace("before", "AFTER").replace("after", "before").replace("AFTER", "after")
    text = words.replace(" before", " {0} before").replace(" after", " {0} after")
    said = joined(Said(f"{cylinder}: {text}.", (Amount(abs(at), "angle"),)), _gears(cylinder, name, cams))
    if target is not None and target.low is not None:
        away = math.degrees(at - (target.low + (target.high or target.low)) / 2)
        if abs(away) > 12:
            said = joined(
                said,
                Said(f"That is {abs(away):.0f}° from what its kind had; look at lash, lobe and the marks on the gears."),
            )
    why = which_engines(cams.bench.snapshot.outline)[1]
    said = joined(said, Said(f"{why[0].upper()}{why[1:]}."), authorities_differ(practised, "angle"))
    line = replace(line, sentence=said, inputs=read[1], formula="as read on the flywheel, lash as found")
    return judged(line, draws, practised)


def _gears(cylinder: str, name: str, cams: CamSet) -> Said:
    """What the events of a cylinder taken together say of the gears: a tooth out or not."""
    feature = next(each for each in d.EVENTS if each.name == name)
    key = cams.reader.key(feature, cylinder)
    known = cams.bench.specification(key.part, key.item, key.feature)
    if known is None or not known.rework:
        return Said("")
    return Said(f"All events together point to the {known.rework}: look for the marks.")


def _open(cylinder: str, cams: CamSet) -> tuple[Finding, ...]:
    found: list[Finding] = []
    for kind in ("exhaust", "intake"):
        opens, closes = event(cams, cylinder, f"{kind} opens"), event(cams, cylinder, f"{kind} closes")
        if opens is None or closes is None:
            continue
        draws = math.pi + closes[0] - opens[0]
        said = Said(
            f"{cylinder}: the {kind.replace('intake', 'inlet')} stands open {{0}}, wherever the gears are set; "
            "wide lash and a worn lobe shorten it.",
            (Amount(middle(draws), "angle"),),
        )
        line = replace(
            blank(cylinder, f"{kind} {OPEN}", part=d.TIMING, dimension="angle"),
            sentence=said,
            inputs=(*opens[1], *closes[1]),
            formula="180° + closing after its centre − opening after its centre",
        )
        found += judged(line, np.asarray(draws))
    return tuple(found)
