"""Ranking by the owner's priorities, what would change it, and the reading that would most change it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from gudgeon.engine.origin import Range
from gudgeon.engine.outline import Outline
from gudgeon.engine.prospect import PossibleReading, Prospect
from gudgeon.engine.remedy import Intervention, PricedItem, Remedy, Risk
from gudgeon.engine.snapshot import Aims, Snapshot
from gudgeon.quantity import Said
from gudgeon.quantity.draws import standard_normal
from gudgeon.reckoning.advice import advise, chance_below, scores
from gudgeon.reckoning.next_reading import GROUPS, next_readings

COUNT = 16_000


def remedy(
    key: str,
    *,
    merit: float,
    cost: float | None = None,
    days: float = 10.0,
    intervention: Intervention = "re-doable",
    possible: bool = True,
    risk: float = 0.0,
) -> Remedy:
    priced = () if cost is None else (PricedItem("work", 1),)
    return Remedy(
        key=key,
        system="s",
        subject="matter",
        title=Said(key),
        action="make good",
        items=(),
        intervention=intervention,
        original="",
        merit=merit,
        priced=priced,
        cost=None if cost is None else Range(cost, cost, cost, "test"),
        wait_days=Range(days, days, days, "test"),
        possible=possible,
        why_not="" if possible else "the wall is too thin",
        risks=(Risk("breaks", Range(risk, risk, risk, "test"), "lost"),) if risk else (),
    )  # fmt: skip


def advice(remedies: list[Remedy], **aims: float) -> tuple[str, ...]:
    snapshot = Snapshot(outline=Outline(name="x"), aims=Aims(**aims))  # type: ignore[arg-type]
    return advise(remedies, snapshot, None)[0].ranked


def test_chance_below_agrees_with_the_triangular_distribution() -> None:
    # Against scipy.stats.triang.
    from scipy.stats import triang

    span = Range(10.0, 14.0, 30.0, "test")
    for bound in (9.0, 10.0, 12.0, 14.0, 20.0, 30.0, 31.0):
        assert chance_below(span, bound) == pytest.approx(triang.cdf(bound, 0.2, loc=10.0, scale=20.0))
    assert chance_below(Range(5.0, 5.0, 5.0, "sure"), 5.0) == 1.0


def test_the_better_of_two_alike_comes_first() -> None:
    assert advice([remedy("a", merit=0.4), remedy("b", merit=0.6)]) == ("b", "a")


def test_doing_nothing_saves_nothing_when_it_does_not_serve() -> None:
    # By the rule stated at the head of the module: savings are credited in so far as a remedy serves.
    nothing = remedy("nothing", merit=0.0, intervention="removable")
    assert advice([nothing, remedy("work", merit=0.9, cost=3000.0, intervention="irreversible")], purse=3500.0)[0] == "work"


def test_an_impossible_remedy_is_not_ranked_and_all_impossible_says_why() -> None:
    assert advice([remedy("a", merit=0.9, possible=False), remedy("b", merit=0.1)]) == ("b",)
    snapshot = Snapshot(outline=Outline(name="x"))
    found = advise([remedy("a", merit=0.9, possible=False)], snapshot, None)[0]
    assert found.ranked == ()
    assert [said.text for said in found.reasons] == ["None of these can be done as things stand.", "a: the wall is too thin"]


def test_an_unknown_price_is_left_out_for_all_and_said() -> None:
    unknown = replace(remedy("a", merit=0.5, cost=1.0), cost=None, unpriced=("sleeve fitted and bored",))
    snapshot = Snapshot(outline=Outline(name="x"), aims=Aims(within_the_purse=3, purse=10.0))
    found = advise([unknown, remedy("b", merit=0.5, cost=1e6)], snapshot, None)[0]
    assert found.scores[0] == found.scores[1]
    assert any("no price is known yet for sleeve fitted and bored" in said.text for said in found.reasons)


def test_the_purse_and_the_date_move_the_choice() -> None:
    cheap, dear = remedy("cheap", merit=0.6, cost=100.0, days=200.0), remedy("dear", merit=0.7, cost=5000.0, days=20.0)
    purse = {"purse": 1000.0, "within_the_purse": 3, "by_the_date": 0}
    assert advice([cheap, dear], **purse)[0] == "cheap"
    date = {"run_by": "2027-05-01", "start": "2027-03-01", "by_the_date": 3, "within_the_purse": 0}
    assert advice([cheap, dear], **date)[0] == "dear"  # type: ignore[arg-type]


def test_a_risk_counts_against_a_remedy() -> None:
    assert advice([remedy("risky", merit=0.8, risk=0.5), remedy("safe", merit=0.7)])[0] == "safe"


@pytest.mark.parametrize("priorities", [(3, 1), (2, 1), (3, 2), (1, 1)])
def test_what_the_second_would_need_does_put_it_first(priorities: tuple[int, int]) -> None:
    # There and back: the priority that the sentence names is set, and the second then comes first.
    aims = Aims(longest_life=priorities[0], keep_original=priorities[1], by_the_date=0, within_the_purse=0)
    pair = [remedy("lasting", merit=0.95, intervention="irreversible"), remedy("gentle", merit=0.5, intervention="removable")]
    found = advise(pair, Snapshot(outline=Outline(name="x"), aims=aims), None)[0]
    said = found.second_would_win.text
    names = {"longest life": "longest_life", "keeping it original": "keep_original"}
    name = next((field for words, field in names.items() if f"if {words} had a priority of" in said), None)
    assert name is not None, said
    then = int(said.split("priority of ")[1].split()[0])
    changed = replace(aims, **{name: then})
    assert scores(pair, changed)[0][0].remedy.key == found.ranked[1]


def prospect(*, uncertainty: float, chance: float = 0.5) -> tuple[Prospect, np.ndarray]:
    hidden = standard_normal("hidden", count=COUNT)
    good = hidden > np.quantile(hidden, 1.0 - chance)
    return (
        Prospect(
            subject="matter",
            worth={"sure": np.full(COUNT, 0.55), "gamble": good.astype(float)},
            readings=(
                PossibleReading(
                    part="p", item="i", feature="hidden", why="it decides", would_show=hidden, uncertainty=uncertainty
                ),
                PossibleReading(
                    part="p", item="i", feature="beside the point", why="no", uncertainty=0.0,
                    would_show=standard_normal("other", count=COUNT),
                ),
            ),
        ),
        good,
    )  # fmt: skip


def test_perfect_information_changes_the_choice_as_often_as_the_gamble_pays() -> None:
    # Value of perfect information (Raiffa and Schlaifer): a sure .55 against 1 with chance .5; told which, one would take the
    # gamble in just the half of cases in which it pays. Results are told apart in groups, hence the tolerance of one group.
    found = next_readings(prospect(uncertainty=1e-9)[0], gain={"sure": 1.0, "gamble": 1.0})
    assert found[0].feature == "hidden"
    assert found[0].chance_of_change == pytest.approx(0.5, abs=1.0 / GROUPS)


def test_a_reading_that_has_nothing_to_do_with_it_is_not_named() -> None:
    names = [each.feature for each in next_readings(prospect(uncertainty=1e-9)[0], gain={"sure": 1.0, "gamble": 1.0})]
    assert names == ["hidden"]


def test_a_blunt_reading_changes_less_than_a_sharp_one() -> None:
    # With result y = x + e, the gamble is taken where P(x > 0 | y) exceeds the sure .55 by two standard errors of a group's
    # mean; x given y is normal with mean y / s^2 and standard deviation u / s, where s^2 = 1 + u^2 (plane Gaussian algebra).
    from scipy.stats import norm

    for uncertainty in (0.5, 1.0, 3.0):
        found = next_readings(prospect(uncertainty=uncertainty)[0], gain={"sure": 1.0, "gamble": 1.0})
        spread = np.hypot(1.0, uncertainty)
        threshold = norm.ppf(0.55 + 2.0 * 0.5 / np.sqrt(COUNT / GROUPS)) * uncertainty * spread
        exact = 1.0 - norm.cdf(threshold / spread)
        chance = found[0].chance_of_change if found else 0.0
        assert chance == pytest.approx(exact, abs=1.5 / GROUPS), uncertainty


def test_a_reading_may_make_an_impossible_remedy_possible() -> None:
    hidden = standard_normal("hidden", count=COUNT)
    found = next_readings(
        Prospect(
            subject="matter",
            worth={"poor": np.full(COUNT, 0.2), "best": np.full(COUNT, 0.9)},
            allowed={"best": hidden > 0},
            readings=(PossibleReading(part="p", item="i", feature="wall", would_show=hidden, uncertainty=1e-9, why="w"),),
        ),
        gain={"poor": 1.0, "best": 1.0},
    )
    assert found[0].chance_of_change == pytest.approx(0.5, abs=1.0 / GROUPS)


def test_the_cylinders_ask_for_their_walls_first() -> None:
    from gudgeon.systems.cylinders import SYSTEM
    from tests.systems.benches import three_cylinders

    bench = three_cylinders(wall=None).bench()
    remedies = tuple(SYSTEM.remedies(bench))
    found = advise(remedies, bench.snapshot, bench, systems=(SYSTEM,))[0]
    assert found.next_readings[0].feature == "wall thickness"
    assert 0.0 < found.next_readings[0].chance_of_change < 1.0
