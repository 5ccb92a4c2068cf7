"""The reckoning as a whole: draws, the order of systems, taking over, and nothing that a system could change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.system import System
from gudgeon.quantity import Said
from gudgeon.reckoning import Loop, reckon, reckon_with_bench
from tests.metrology.rows import INCH, job, row
from tests.reckoning.manuals import bore_rows

LINES = [line for number in (1, 2) for line in bore_rows(number, "5.1252", "5.1310", "5.1280")]
PIN = row("pin", "pin 1", "diameter", "1.0000", station="boss end")
BORE = FeatureKey("cylinder", "cyl 1", "bore diameter")


def system(key: str, *wants: str, seen: list[str] | None = None) -> System:
    def findings(bench: Bench) -> Sequence[Finding]:
        if seen is not None:
            seen.append(f"{key} saw {','.join(sorted(bench.findings))}")
        return [Finding(system=key, part="x", item="x 1", quantity="q", dimension="length", sentence=Said(key))]

    return System(key=key, title=key, introduction="", parts=(), features=(), wants=wants, findings=findings)


def test_systems_are_run_after_those_they_want() -> None:
    seen: list[str] = []
    systems = (system("governor", "linkage", seen=seen), system("linkage", "pins", seen=seen), system("pins", seen=seen))
    found = reckon(job(LINES), systems)
    assert seen == ["pins saw ", "linkage saw pins", "governor saw linkage"]
    assert [finding.system for finding in found.findings] == ["pins", "linkage", "governor"]


def test_a_loop_is_refused_with_a_sentence() -> None:
    with pytest.raises(Loop, match=r"circle: .*(rings wants valves|valves wants rings).* must go"):
        reckon(job(LINES), (system("rings", "valves"), system("valves", "rings")))


def test_wanting_a_system_that_is_not_there_is_refused_with_a_sentence() -> None:
    with pytest.raises(Loop, match="rings wants the findings of “valves”, and there is no such system; the systems are rings"):
        reckon(job(LINES), (system("rings", "valves"),))


def test_draws_agree_with_the_estimate() -> None:
    _, bench = reckon_with_bench(job(LINES), ())
    for estimate in bench.estimates[BORE]:
        draws = bench.spot(estimate)
        assert draws.shape == (bench.count,)
        assert draws.mean() == pytest.approx(estimate.value, abs=4 * estimate.uncertainty / np.sqrt(bench.count))
        assert draws.std() == pytest.approx(estimate.uncertainty, rel=0.05)


def test_draws_of_the_size_when_new_agree_with_the_manual() -> None:
    _, bench = reckon_with_bench(job(LINES), ())
    line = bench.specifications[BORE]
    draws = bench.original(BORE)
    assert draws is not None
    assert line.low is not None
    assert line.high is not None
    share = float(np.mean((draws > line.low) & (draws < line.high)))
    assert 0.75 < share < 0.99


def test_the_gauges_offset_cancels_in_wear() -> None:
    """Two spots read by one gauge: the doubt of their difference is that of their own parts alone (JCGM 101:2008, 6.4.8)."""
    _, bench = reckon_with_bench(job(LINES), ())
    worn, below = bench.estimates[BORE][2], bench.estimates[BORE][0]
    difference = bench.spot(worn) - bench.spot(below)
    assert difference.std() == pytest.approx(np.hypot(worn.own, below.own), rel=0.05)
    assert difference.std() < 0.6 * np.hypot(worn.uncertainty, below.uncertainty)
    original = bench.original(BORE)
    assert original is not None
    assert float(np.corrcoef(bench.spot(below), original)[0, 1]) > 0.5


def test_the_same_job_gives_the_same_answer() -> None:
    one, other = reckon_with_bench(job(LINES), ()), reckon_with_bench(job(LINES), ())
    assert dict(one[0].specifications) == dict(other[0].specifications)
    assert np.array_equal(one[1].spot(one[1].estimates[BORE][0]), other[1].spot(other[1].estimates[BORE][0]))
    assert one[0].made_from == other[0].made_from


def test_a_new_reading_changes_only_what_rests_on_it() -> None:
    before = reckon(job([*LINES, PIN]), ())
    newer = job([*LINES, PIN, row("pin", "pin 1", "diameter", "0.9998", station="other boss end")])
    after, fresh = reckon(newer, (), previous=before), reckon(newer, ())
    assert dict(after.specifications) == dict(fresh.specifications)
    assert dict(after.estimates) == dict(fresh.estimates)
    assert after.specifications[BORE] is before.specifications[BORE]
    assert after.made_from != before.made_from


def test_draws_are_taken_over_too() -> None:
    before, bench = reckon_with_bench(job([*LINES, PIN]), ())
    draws = bench.original(BORE)
    _, again = reckon_with_bench(job([*LINES, PIN, row("pin", "pin 1", "diameter", "0.9998")]), (), previous=before)
    assert again.original(BORE) is draws


def test_systems_cannot_change_what_they_see() -> None:
    _, bench = reckon_with_bench(job(LINES), ())
    with pytest.raises(ValueError, match="read-only"):
        bench.spot(bench.estimates[BORE][0])[0] = 0.0
    with pytest.raises(TypeError):
        bench.estimates[BORE] = ()  # type: ignore[index]


def test_what_came_back_from_the_shop_does_not_move_the_manual() -> None:
    back = [replace_stage(line, "5.1452") for line in bore_rows(1, "5.1452")]
    with_it, bench = reckon_with_bench(job([*LINES, *back]), ())
    without = reckon(job(LINES), ())
    assert with_it.specifications[BORE].nominal == without.specifications[BORE].nominal
    assert bench.returned[BORE][0].value == pytest.approx(5.1452 * INCH, abs=1e-5)


def replace_stage(line: dict[str, str], reading: str) -> dict[str, str]:
    return {**line, "reading": reading, "stage": "returned"}


def test_a_job_with_nothing_in_it_is_reckoned() -> None:
    found = reckon(job([]), (system("rings"),))
    assert [finding.system for finding in found.findings] == ["rings"]
    assert found.unknown == ()
    assert replace(found, made_from="").remarks == ()
