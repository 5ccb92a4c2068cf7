"""Keys: slack in both keyways, size against the period's rule, taper, shear and crushing at the torque carried."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.mechanics import keys as mechanics
from gudgeon.quantity import Amount, Said
from gudgeon.systems.fasteners import description as d
from gudgeon.systems.judging import Limit, Practice, Target, joined, judged, known_rules, not_measured, origin_of
from gudgeon.systems.measured import Draws, Measured, Reader

SLACK, RULE, TAPER, SHEAR, CRUSH, STATE = (
    "slack of the key",
    "key against the old rule",
    "taper of the key",
    "shear stress of the key",
    "crushing stress of the key",
    "condition",
)
LOOSE = 0.002 * d.INCH
"""A key slacker than this hammers its keyways out [m]; common practice, the owner's own limit."""


@dataclass(frozen=True, kw_only=True)
class Keyed:
    """One key with its keyways."""

    reader: Reader
    item: str

    def size(self, name: str) -> Measured | None:
        """A size, the mean of its spots."""
        return self.reader.size(d.KEYS[name], self.item)

    @property
    def keyway(self) -> Measured | None:
        """The wider of the two keyways."""
        read = [self.reader.largest(d.KEYS[name], self.item) for name in ("keyway width in shaft", "keyway width in hub")]
        known = [each for each in read if each is not None]
        return max(known, key=lambda each: each.value, default=None)

    @property
    def slack(self) -> Draws | None:
        """Wider keyway less key [m]; None where either was not read."""
        width = self.reader.smallest(d.KEYS["width"], self.item)
        if self.keyway is None or width is None:
            return None
        return np.asarray(self.keyway.draws - width.draws)

    @property
    def practised(self) -> Practice:
        """What is said of slack."""
        row = known_rules("key slack")[0]
        target = Target(low=row.low, high=row.high, origin=origin_of(row), authority=row.authority)
        limit = Limit(size=LOOSE, most=True, origin=Origin("F", "a slacker key hammers its keyways out; common practice"))
        return Practice(targets=(target,), limits=(limit,))

    def words(self) -> str:
        """Its condition."""
        return self.reader.words(d.KEYS["condition"], self.item)[0]

    @property
    def sheared(self) -> bool:
        """Was it noted as sheared or rolled?"""
        return any(sign in self.words().lower() for sign in ("shear", "rolled", "crack"))


def key_findings(key: Keyed) -> tuple[Finding, ...]:
    """All that the readings of one key say."""
    return (*_slack(key), *_rule(key), *_taper(key), *_stress(key), *_state(key))


def _blank(key: Keyed, quantity: str, dimension: str = "length") -> Finding:
    return Finding(system=d.KEY, part="key", item=key.item, quantity=quantity, dimension=dimension)


def _slack(key: Keyed) -> tuple[Finding, ...]:
    draws, width, shaft = key.slack, key.size("width"), key.size("shaft diameter")
    if draws is None or width is None or key.keyway is None:
        settle = f"Read the width of {key.item} and of both its keyways."
        return (not_measured(_blank(key, SLACK), settle=settle, practised=key.practised),)
    said = Said(f"{key.item} has {{0}} of slack in its wider keyway.", (Amount(float(np.median(draws)), "length"),))
    if shaft is not None:
        rock = math.degrees(float(np.asarray(mechanics.rock(slack=max(float(np.median(draws)), 0.0), shaft=shaft.value))))
        said = joined(said, Said("What it drives may rock by {0}.", (Amount(math.radians(rock), "angle"),)))
    line = replace(
        _blank(key, SLACK),
        sentence=said,
        inputs=(*key.keyway.inputs, *width.inputs),
        formula="wider keyway − key's least width",
    )
    return judged(line, draws, key.practised)


def _rule(key: Keyed) -> tuple[Finding, ...]:
    shaft, width = key.size("shaft diameter"), key.size("width")
    if shaft is None:
        return ()
    wide = known_rules("key width")[0].at(shaft.value)[0] or 0.0
    row = next(each for each in known_rules("key thickness") if "sunk" in each.applies)
    thick = row.at(shaft.value)[0] or 0.0
    said = Said(
        f"For a shaft of {{0}} the old rule gives {key.item} {{1}} by {{2}}.",
        (Amount(shaft.value, "length"), Amount(wide, "length"), Amount(thick, "length")),
    )
    if width is not None and width.value < 0.8 * wide:
        said = joined(said, Said("It is narrower than that: many makers were, but look at it for rolling."))
    line = replace(
        _blank(key, RULE),
        value=wide,
        low=wide,
        high=wide,
        sentence=said,
        inputs=shaft.inputs,
        formula=f"¼ d + ⅛, ⅛ d + ⅛ in; {row.source}",
    )
    return (line,)


def _taper(key: Keyed) -> tuple[Finding, ...]:
    thick, thin, length = key.size("thickness"), key.size("thickness at small end"), key.size("length")
    if thick is None or thin is None or length is None:
        return ()
    draws = np.asarray((thick.draws - thin.draws) / length.draws)
    row = known_rules("key taper")[0]
    middle = float(np.median(draws))
    written = f"1 in {1 / middle:.0f}" if middle > 1e-4 else "none"
    said = Said(f"{key.item} tapers {written}; {row.authority} has 1 in 96, ⅛ in a foot.")
    line = replace(
        _blank(key, TAPER, "ratio"),
        sentence=said,
        inputs=(*thick.inputs, *thin.inputs, *length.inputs),
        formula="(thick end − thin end) / length",
    )
    target = Target(low=row.low, high=row.high, origin=origin_of(row), authority=row.authority)
    return judged(line, draws, Practice(targets=(target,)))


def _stress(key: Keyed) -> tuple[Finding, ...]:
    torque, shaft, width, length = key.size("torque"), key.size("shaft diameter"), key.size("width"), key.size("length")
    if torque is None or shaft is None or width is None or length is None:
        return ()
    inputs = (*torque.inputs, *shaft.inputs, *width.inputs, *length.inputs)
    carried = np.abs(torque.draws)
    shear = np.asarray(mechanics.key_shear(torque=carried, shaft=shaft.draws, width=width.draws, length=length.draws))
    row = known_rules("key shear stress")[0]
    limit = Limit(size=row.high or 0.0, most=True, origin=origin_of(row), decides=False)
    found = list(
        judged(
            replace(
                _blank(key, SHEAR, "stress"),
                sentence=Said(f"{key.item} is sheared with {{0}}.", (Amount(float(np.median(shear)), "stress"),)),
                inputs=inputs,
                formula="2 T / (d w l); Shigley 7-7",
            ),
            shear,
            Practice(limits=(limit,)),
        )
    )
    thick = key.size("thickness")
    if thick is not None:
        crush = np.asarray(
            mechanics.key_crushing(torque=carried, shaft=shaft.draws, thickness=thick.draws, length=length.draws)
        )
        line = replace(
            _blank(key, CRUSH, "stress"),
            sentence=Said("Its side is pressed with {0}.", (Amount(float(np.median(crush)), "stress"),)),
            inputs=(*inputs, *thick.inputs),
            formula="4 T / (d t l); Shigley 7-7",
        )
        found += judged(line, crush)
    return tuple(found)


def _state(key: Keyed) -> tuple[Finding, ...]:
    words = key.words()
    if not words:
        return ()
    return (replace(_blank(key, STATE, "words"), sentence=Said(f"{key.item}: {words}."), formula="as noted"),)
