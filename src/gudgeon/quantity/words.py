"""States and feels that stand instead of a figure or beside it, in the trade's words."""

from __future__ import annotations

import re

from gudgeon.quantity.meaning import Understood

NOT_TAKEN = frozenset(
    [
        "not reached",
        "could not reach",
        "cannot reach",
        "can't reach",
        "couldn't reach",
        "no access",
        "broken",
        "broken off",
        "broken out",
        "missing",
        "seized",
        "seized solid",
        "stuck",
        "stuck fast",
        "n/a",
        "na",
        "not applicable",
        "not taken",
        "not measured",
        "not read",
        "no reading",
        "unreadable",
        "not fitted",
        "gone",
        "worn away",
        "rusted away",
        "rusted solid",
        "not there",
        "absent",
        "-",
        "--",
        "---",
        "?",
    ]
)
_FEELS = frozenset(
    [
        "tight",
        "free",
        "slack",
        "loose",
        "drag",
        "drags",
        "snug",
        "stiff",
        "sticky",
        "rough",
        "smooth",
        "firm",
        "easy",
        "sloppy",
        "hot",
        "cold",
        "worn",
        "scored",
        "cracked",
        "pitted",
        "rusted",
        "bent",
        "sound",
        "good",
        "no play",
        "no shake",
        "no rock",
        "no drag",
        "touching",
        "just touching",
        "binds",
        "binding",
        "rubs",
        "rocks",
        "shakes",
        "pinched",
        "even",
        "uneven",
    ]
)
_MORE_OR_LESS = r"(?:(?:very|slightly|a bit|a little|just|too|quite|rather|light|slight|heavy|nice|good|half|barely) )*"
_FEEL = re.compile(_MORE_OR_LESS + "(" + "|".join(sorted(_FEELS, key=len, reverse=True)) + ")")
_STAMP = re.compile(r"(?:stamped|stamp|marked|size [0-9]+|pin pricked|pop marked) ?[a-z0-9 ./#-]*")
_THREAD = re.compile(
    r"(?:[0-9]+[ -])?[0-9]+/[0-9]+ ?- ?[0-9]{1,2}(?: [a-z]{2,4})?|(?:[0-9]+[ -])?[0-9]+/[0-9]+(?: ?in)? pipe(?: thread| tap)?"
    r"|[0-9]+ tpi (?:taper|parallel|left hand|lh|pipe)|m[0-9]+ ?x ?[0-9.]+"
)
_GEAR = re.compile(r"[0-9]+ ?dp[ ,]+[0-9]+ ?(?:t|teeth|tooth)")

BESIDE = re.compile(
    r"(?P<first>" + _MORE_OR_LESS + r"(?:tight|drag|drags|snug|stiff|firm|pinched)) (?:on|at|with) (?P<after>.+)"
    r"|(?P<before>.*[0-9].*?),? \(?(?P<last>" + _MORE_OR_LESS + r"(?:drag|drags|tight|snug|stiff|firm|cold|hot))\)?"
)
FREE_ON = re.compile(r"(?:(?:quite|just|very) )?(?:free|slack|loose|easy) (?:on|at|with) (.+)")


def in_words(text: str) -> Understood | None:
    """A state or feel that stands alone, a stamp, or the name of a thread or gear; None for anything else."""
    if text in NOT_TAKEN:
        words = "not taken" if text in ("-", "--", "---", "?", "n/a", "na") else text
        return Understood(kind="not taken", words=words, echo=words)
    if _FEEL.fullmatch(text):
        return Understood(kind="words", words=text, echo=text)
    if _STAMP.fullmatch(text):
        return Understood(kind="words", words=text, echo=f"{text} (a mark, not a size)")
    if _THREAD.fullmatch(text):
        return Understood(kind="words", words=text, echo=f"thread {text}")
    if _GEAR.fullmatch(text):
        return Understood(kind="words", words=text, echo=f"gear {text}")
    return None
