"""Which test to make next: for each that was not made, how much surer it would make one of who leaks most.

A test's outcomes are played through on the draws that fit what was read. Within each outcome the likeliest leader is named; the
chance of naming it rightly, averaged over outcomes, is the test's worth. Nothing here mends metal.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import cast

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, Remedy
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Said
from gudgeon.quantity.draws import generator
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.cylinder_set import CylinderSet
from gudgeon.systems.compression.leaks import MODEL, PATHS, Leaks, chance_heard, leak_down, leaks_of, oiled
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, warned

SUBJECT = "compression: which test next"
GAUGE = 2.5 * d.PSI
BINS = 12
SOAP = 0.01e-6
"""Effective area whose bubbles are seen under soap water [m2]; from memory."""


@dataclass(frozen=True, kw_only=True)
class Test:
    """A test: its name, what it costs in hours at the bench, how to make it, and the words that settle a finding."""

    __test__ = False  # no test of pytest's

    key: str
    title: str
    hours: tuple[float, float, float]
    how: str
    outcomes: Callable[[str, Leaks, CylinderSet], Draws]
    made: Callable[[str, CylinderSet], bool]
    after: str = ""

    def settle(self, item: str) -> str:
        """The sentence that asks for it."""
        return f"{self.how.format(item=item)}"


def leader(areas: Mapping[str, Draws]) -> Draws:
    """Number of the path that leaks most, draw by draw."""
    return np.asarray(np.argmax(np.stack([areas[path] for path in PATHS]), axis=0))


def leader_chances(leaks: Leaks) -> dict[str, float]:
    """Chance of each path to be the one that leaks most."""
    counts = np.bincount(leader(leaks.areas).astype(np.intp), minlength=len(PATHS))
    return {path: float(count) / float(counts.sum()) for path, count in zip(PATHS, counts, strict=True)}


def _noise(name: str, item: str, size: int) -> Draws:
    return generator("compression test", name, item).standard_normal(size)


def _binned(foretold: Draws, name: str, item: str) -> Draws:
    """Outcome of a pressure test, its reading in bins of equal chance."""
    shown = foretold + np.hypot(GAUGE, MODEL * foretold) * _noise(name, item, len(foretold))
    return np.searchsorted(np.quantile(shown, np.arange(1, BINS) / BINS), shown).astype(np.float64)


def _oil(item: str, leaks: Leaks, cylinders: CylinderSet) -> Draws:
    area, volume = oiled(leaks.areas, leaks.volume, cylinders, leaks.rows)
    gain = cylinders.gauge(area, volume, leaks.rows) - cylinders.gauge(leaks.total, leaks.volume, leaks.rows)
    return _binned(gain, "oil", item)


def _heard_at(item: str, leaks: Leaks, paths: Sequence[str]) -> Draws:
    code = np.zeros(len(leaks.rows))
    for path in paths:
        chance = generator("compression test", "ear", item, path).random(len(leaks.rows))
        code = 2 * code + (chance < chance_heard(leaks.areas[path]))
    return code


def _leak_test(item: str, leaks: Leaks, cylinders: CylinderSet) -> Draws:
    held = _binned(leak_down(leaks.total, cylinders, leaks.rows), "leak-down", item)
    return held * float(2 ** len(PATHS)) + _heard_at(item, leaks, PATHS)


def _listening(item: str, leaks: Leaks, _: CylinderSet) -> Draws:
    return _heard_at(item, leaks, PATHS)


def _soap(_: str, leaks: Leaks, __: CylinderSet) -> Draws:
    return np.asarray(leaks.areas["plug"] > SOAP, dtype=np.float64) + 2 * (leaks.areas["plug"] > 20 * SOAP)


def _words(item: str, cylinders: CylinderSet) -> bool:
    return bool(cylinders.reader.words(d.HEARD, item)[0])


TESTS = (
    Test(
        key="oil-test",
        title="Oil test: a spoonful on each piston, and the cranking pressure again",
        hours=(0.3, 0.5, 1.0),
        how="Read the cranking pressure of {item} again with a tablespoon of oil on its piston.",
        outcomes=_oil,
        made=lambda item, cylinders: cylinders.read(d.OILED, item) is not None,
    ),
    Test(
        key="leak-test",
        title="Leak test with two gauges, and listen where it goes",
        hours=(0.5, 1.0, 2.0),
        how="Leak-test {item} at inner dead centre, crank blocked; listen at intake, exhaust, breather, and look at the water.",
        outcomes=_leak_test,
        made=lambda item, cylinders: cylinders.read(d.LEAK_DOWN, item) is not None,
    ),
    Test(
        key="listen",
        title="Listen at intake, exhaust, breather and water with air in the cylinder",
        hours=(0.2, 0.3, 0.5),
        how="Put air into {item} at inner dead centre, crank blocked, and write where it hisses and where it does not.",
        outcomes=_listening,
        made=_words,
    ),
    Test(
        key="soap-water",
        title="Soap water round plug, igniter and joints, air in the cylinder",
        hours=(0.2, 0.3, 0.5),
        how="Brush soap water round the plug and joints of {item} with air in it.",
        outcomes=_soap,
        made=_words,
    ),
)


def chance_after(outcome: Draws, first: Draws) -> float:
    """Chance of naming the leader rightly once an outcome is known: per outcome its commonest leader."""
    codes, inverse = np.unique(outcome, return_inverse=True)
    counts = np.bincount(inverse * len(PATHS) + first.astype(np.intp), minlength=len(codes) * len(PATHS))
    return float(counts.reshape(len(codes), len(PATHS)).max(axis=1).sum()) / len(first)


def worth_of_tests(item: str, leaks: Leaks, cylinders: CylinderSet) -> dict[str, float]:
    """Chance of naming the leader rightly after each test that was not made, and as it stands under ""."""
    key = f"tests of {item}"
    if key not in cylinders.worked_out:
        first = leader(leaks.areas)
        found = {"": max(leader_chances(leaks).values())}
        for test in TESTS:
            if not test.made(item, cylinders):
                found[test.key] = chance_after(test.outcomes(item, leaks, cylinders), first)
        cylinders.worked_out[key] = found
    return cast(dict[str, float], cylinders.worked_out[key])


def best_test(item: str, leaks: Leaks, cylinders: CylinderSet) -> Test | None:
    """The test that would tell most, where one would tell at least five in a hundred more and who leaks is not yet sure."""
    worth = worth_of_tests(item, leaks, cylinders)
    best = max((test for test in TESTS if test.key in worth), key=lambda test: worth[test.key], default=None)
    return best if best is not None and worth[""] < 0.9 and worth[best.key] > worth[""] + 0.05 else None


def test_remedies(cylinders: CylinderSet) -> tuple[Remedy, ...]:
    """The tests as ways to settle who leaks, beside leaving it at what is known; none where nothing was read or all is sure."""
    known = {item: leaks for item in cylinders.items if (leaks := leaks_of(item, cylinders)) is not None}
    worth = {item: worth_of_tests(item, leaks, cylinders) for item, leaks in known.items()}
    unsure = [item for item in known if best_test(item, known[item], cylinders) is not None]
    if not unsure:
        return ()
    now = float(np.mean([worth[item][""] for item in unsure]))
    found = [_remedy("as-it-is", Said("Leave it at what the readings say"), None, now, now, tuple(unsure))]
    for test in TESTS:
        wanted = [item for item in unsure if test.key in worth[item]]
        if wanted:
            after = float(np.mean([worth[item].get(test.key, worth[item][""]) for item in unsure]))
            found.append(_remedy(test.key, Said(test.title), test, after, now, tuple(wanted)))
    return tuple(found)


def hours_for(one: tuple[float, float, float], cylinders: int) -> Range:
    """Hours at the bench for a test of so many cylinders: half of it is getting ready."""
    low, likely, high = (each * (1 + cylinders) / 2 for each in one)
    return Range(low, likely, high, OWN)


def _remedy(key: str, title: Said, test: Test | None, merit: float, now: float, wanted: tuple[str, ...]) -> Remedy:
    hours = None if test is None else hours_for(test.hours, len(wanted))
    steps: tuple[StepDraft, ...] = ()
    cautions = () if test is None or test.key == "oil-test" else warned("leak-down test")
    if test is not None:
        named = ", ".join(wanted)
        steps = (StepDraft(key=f"{d.KEY}/{key}", title=f"{test.title}: {named}", system=d.KEY, hours=hours, cautions=cautions),)
    said = Said(f"The worst leak is named rightly {merit:.0%} of the time after it; {now:.0%} now.")
    return Remedy(
        key=f"{d.KEY}/{key}",
        system=d.KEY,
        subject=SUBJECT,
        title=title,
        action="run on",
        items=wanted,
        intervention="removable",
        original="nothing of the engine is changed",
        own_hours=hours or Range(0.0, 0.0, 0.0, OWN),
        cost=Range(0.0, 0.0, 0.0, "nothing is bought"),
        wait_days=Range(0.0, 0.0, 0.0, "nothing is sent out"),
        needs=() if test is None else (Need(kind="work", what="every plug out, throttle open, crank free to turn", met=True),),
        steps=steps,
        cautions=cautions,
        merit=merit,
        for_it=(said,) if test is not None else (),
        against_it=(Said("Rings and valves are then done on a guess."),) if test is None and now < 0.7 else (),
    )
