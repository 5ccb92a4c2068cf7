"""Published sizes of real engines found again from simulated wear; the source of each size stands in real_engines.py."""

from __future__ import annotations

import pytest

from gudgeon.engine.place import FeatureKey
from tests.published.real_engines import ENGINES, NAMES, worn
from tests.simulated import score

LIVES = 3
NEAR = score.NEAR * 1.001


@pytest.fixture(scope="module")
def answers() -> list[tuple[str, str, bool, bool | None]]:
    """Engine, family, published size found, interval of the piece holds what it measured when new."""
    found = []
    for name in ENGINES:
        for life in range(LIVES):
            engine = worn(name, life)
            said = score.reckoned(engine).specifications
            limits = {size.family: (size.lower, size.upper) for size in ENGINES[name]}
            for truth in engine.truths:
                specification = said[FeatureKey(*truth.key)]
                lower, upper = limits[truth.family]
                nominal = specification.nominal
                right = nominal is not None and lower - NEAR <= nominal <= upper + NEAR
                low, high = specification.low, specification.high
                held = None if low is None or high is None else low <= truth.new <= high
                found.append((name, truth.family, right, held))
    return found


def test_every_published_size_is_measured(answers: list[tuple[str, str, bool, bool | None]]) -> None:
    assert {family for _, family, _, _ in answers} == set(NAMES)
    assert len(answers) > 250


@pytest.mark.parametrize("name", ENGINES)
def test_published_sizes_are_found_again(answers: list[tuple[str, str, bool, bool | None]], name: str) -> None:
    rights = [right for engine, _, right, _ in answers if engine == name]
    assert sum(rights) / len(rights) >= 0.9


def test_nearly_all_published_sizes_are_found_again(answers: list[tuple[str, str, bool, bool | None]]) -> None:
    assert sum(right for _, _, right, _ in answers) / len(answers) >= 0.98


def test_intervals_hold_the_size_when_new(answers: list[tuple[str, str, bool, bool | None]]) -> None:
    held = [one for _, _, _, one in answers if one is not None]
    assert 0.85 <= sum(held) / len(held) <= 0.96


def test_control_other_sizes_are_not_taken_for_the_published_ones() -> None:
    """The same readings against sizes two thou larger must fail, or the band would be too wide to mean anything."""
    name = "Ford Model A, 1928"
    engine = worn(name, 0)
    said = score.reckoned(engine).specifications
    shifted = [
        said[FeatureKey(*truth.key)].nominal
        for truth in engine.truths
        if abs((said[FeatureKey(*truth.key)].nominal or 0.0) - (truth.nominal or 0.0) - 0.002 * 0.0254) <= NEAR
    ]
    assert len(shifted) <= len(engine.truths) // 10
