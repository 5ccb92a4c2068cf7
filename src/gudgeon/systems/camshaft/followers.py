"""Followers: play in the guide, roller on its pin, roller out of round, slot and pin that stop it turning, lost motion."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.system import Feature
from gudgeon.quantity import Amount, Said
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.cam_set import CamSet, Read, blank
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured

GUIDE, ROLLER_PLAY, ROLLER_ROUND = "follower clearance in its guide", "roller clearance on its pin", "roller out-of-round"
SLOT_PLAY, DISH, LOST_MOTION = "play that lets it turn", "hollow in its face", "lost motion in the joints"
_SUBJECTS = {
    GUIDE: "tappet clearance",
    ROLLER_PLAY: "roller on pin clearance",
    ROLLER_ROUND: "roller out-of-round",
    LOST_MOTION: "valve gear lost motion",
}


def follower_rules(quantity: str, follower: str, cams: CamSet) -> Practice:
    """What authorities say of a quantity of a follower."""
    size = cams.size(d.BODY if quantity == GUIDE else d.PIN, follower)
    return cams.rules(_SUBJECTS[quantity], size=size.value if size else 0.0127)


def follower_findings(follower: str, cams: CamSet) -> tuple[Finding, ...]:
    """All that one follower says."""
    rolls = cams.is_roller(follower)
    return (
        *_kind(follower, cams),
        *_play(follower, cams, GUIDE, "stands {0} slack in its guide: it tips, and wears its lobe on one edge"),
        *(_play(follower, cams, ROLLER_PLAY, "has its roller {0} slack on the pin") if rolls is not False else ()),
        *(
            _play(follower, cams, ROLLER_ROUND, "has a roller {0} out of round: a flat skids and cuts the cam")
            if rolls is not False
            else ()
        ),
        *_slot(follower, cams),
        *_dish(follower, cams),
        *_lost_motion(follower, cams),
        *_state(follower, cams),
    )


def play(follower: str, quantity: str, cams: CamSet) -> Read | None:
    """A clearance or out-of-round of a follower [m]; None where it was not read."""
    if quantity == GUIDE:
        return _difference(follower, d.GUIDE, d.BODY, cams)
    if quantity == ROLLER_PLAY:
        read = cams.size(d.PLAY, follower)
        return (read.draws, read.inputs) if read is not None else _difference(follower, d.EYE, d.PIN, cams)
    flat = cams.reader.largest(d.FLAT, follower)
    large, small = cams.reader.largest(d.ROLLER, follower), cams.reader.smallest(d.ROLLER, follower)
    if flat is not None:
        return flat.draws, flat.inputs
    if large is None or small is None or len(cams.reader.spots(d.ROLLER, follower)) < 2:
        return None
    return large.draws - small.draws, (*large.inputs, *small.inputs)


def _difference(follower: str, hole: Feature, shaft: Feature, cams: CamSet) -> Read | None:
    outer, inner = cams.reader.largest(hole, follower), cams.reader.smallest(shaft, follower)
    if outer is None or inner is None:
        return None
    return outer.draws - inner.draws, (*outer.inputs, *inner.inputs)


_SETTLE = {
    GUIDE: "Read body and guide of {0}.",
    ROLLER_PLAY: "Read the hole of the roller of {0} and its pin, or its play by indicator.",
    ROLLER_ROUND: "Turn the roller of {0} and read its least and its greatest diameter.",
}


def _play(follower: str, cams: CamSet, quantity: str, words: str) -> tuple[Finding, ...]:
    practised = follower_rules(quantity, follower, cams)
    line = blank(follower, quantity, part=d.FOLLOWER)
    read = play(follower, quantity, cams)
    if read is None:
        return (not_measured(line, settle=_SETTLE[quantity].format(follower), practised=practised),)
    said = joined(Said(f"{follower} {words}.", (Amount(middle(read[0]), "length"),)), authorities_differ(practised))
    formula = "largest − smallest diameter" if quantity == ROLLER_ROUND else "hole at its largest − shaft at its smallest"
    return judged(replace(line, sentence=said, inputs=read[1], formula=formula), read[0], practised)


def _kind(follower: str, cams: CamSet) -> tuple[Finding, ...]:
    if cams.is_roller(follower) is not None:
        return ()
    return (
        not_measured(
            blank(follower, "kind", part=d.FOLLOWER, dimension="words"),
            settle=f"Note whether {follower} is flat or has a roller.",
        ),
    )


def _slot(follower: str, cams: CamSet) -> tuple[Finding, ...]:
    read = _difference(follower, d.SLOT, d.SLOT_PIN, cams)
    line = blank(follower, SLOT_PLAY, part=d.FOLLOWER)
    if read is None:
        if not cams.is_roller(follower):
            return ()
        settle = f"Read the slot and the pin that stop {follower} turning: a roller that turns askew cuts its lobe."
        return (not_measured(line, settle=settle),)
    said = Said(
        f"{follower} has {{0}} between slot and pin; so much its roller can stand askew.",
        (Amount(middle(read[0]), "length"),),
    )
    return judged(replace(line, sentence=said, inputs=read[1], formula="slot width − pin width"), read[0])


def _dish(follower: str, cams: CamSet) -> tuple[Finding, ...]:
    read = cams.size(d.DISH, follower)
    if read is None:
        return ()
    said = Said(
        f"{follower} is hollowed {{0}} in its face; a new lobe on a hollow face does not last.", (Amount(read.value, "length"),)
    )
    line = replace(blank(follower, DISH, part=d.FOLLOWER), sentence=said, inputs=read.inputs, formula="as read")
    return judged(line, read.draws)


def _lost_motion(follower: str, cams: CamSet) -> tuple[Finding, ...]:
    practised = follower_rules(LOST_MOTION, follower, cams)
    roller, rocker = play(follower, ROLLER_PLAY, cams), cams.size(d.ROCKER_PLAY, follower)
    joints = [roller] if roller is not None else []
    joints += [(rocker.draws, rocker.inputs)] if rocker is not None else []
    if not joints:
        return ()
    draws = np.asarray(np.sum([joint[0] for joint in joints], axis=0))
    said = Said(
        f"{len(joints)} joint{'s' if len(joints) > 1 else ''} of {follower} add up to {{0}} of lost motion, "
        "which knocks and takes lift like lash; a feeler at the stem does not show it.",
        (Amount(middle(draws), "length"),),
    )
    line = replace(
        blank(follower, LOST_MOTION, part=d.FOLLOWER),
        sentence=said,
        inputs=tuple(identity for joint in joints for identity in joint[1]),
        formula="sum of the plays read; Pagé (1917), ch. XI: three joints at .005 are noisy",
        settle="" if rocker is not None else f"Read the play of lever or rocker on its pin for {follower} too.",
    )
    return judged(line, draws, practised)


def _state(follower: str, cams: CamSet) -> tuple[Finding, ...]:
    words, inputs = cams.reader.words(d.FOLLOWER_STATE, follower)
    if not words:
        return ()
    line = blank(follower, "condition", part=d.FOLLOWER, dimension="words")
    return (replace(line, sentence=Said(f"{follower}: {words}."), inputs=inputs, formula="as noted"),)
