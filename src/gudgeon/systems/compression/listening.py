"""What was heard, in words: the places where air hisses or bubbles, and those said to be quiet."""

from __future__ import annotations

import re
from collections.abc import Mapping

PLACES: Mapping[str, str] = {
    "rings": r"crank ?case|breather|oil filler|sump|dip ?stick|rings?\b",
    "intake": r"intake|inlet|carburet|air horn|mixer|suction",
    "exhaust": r"exhaust|muffler|silencer|tail ?pipe",
    "plug": r"plug|igniter|gasket|joint|outside",
    "water": r"water|radiator|hopper|jacket|bubbl|coolant",
}
"""Path of the leak, and the words for the place where it is heard."""

_QUIET = re.compile(r"\b(?:not|no|none|nothing|quiet|silent|never|tight)\b")
_ONLY = re.compile(r"\bonly\b")
_NOWHERE = re.compile(r"^\W*(?:nothing|none|nowhere|quiet|tight|silent|no)\b[^,;]*$")


def heard(words: str) -> dict[str, bool]:
    """Per path True where it was heard and False where it was said to be quiet; paths that were not spoken of are left out.

    "exhaust, not intake" hears one and denies the other; "crankcase only" and "nothing" deny all the rest.
    """
    text = words.lower().replace("nothing at", "not at")
    if _NOWHERE.match(text) and not any(re.search(each, text) for each in PLACES.values()):
        return dict.fromkeys(PLACES, False)
    found: dict[str, bool] = {}
    for clause in re.split(r"[,;.]|\bbut\b|\band (?=not|no|nothing)", text):
        quiet = _QUIET.search(clause) is not None
        for path, places in PLACES.items():
            if re.search(places, clause):
                found[path] = not quiet
    if _ONLY.search(text):
        found |= {path: False for path in PLACES if path not in found}
    return found
