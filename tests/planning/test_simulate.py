"""The simulation against networkx, closed forms and itself told another way."""

from datetime import date

import numpy as np
import pytest
from scipy import stats

from gudgeon.engine.origin import Range
from gudgeon.planning.calendars import own_hours, shop_days
from gudgeon.planning.durations import MOST_GOES, drawn, drawn_goes, failures, hashed, spread_of, stream
from gudgeon.planning.network import network_of
from gudgeon.planning.simulate import BenchPlan, latest_send, ranked_by, simulate, simulate_bench

RUNS = 40_000
FIRST = date(2027, 1, 4)  # a Monday


def between(low, likely, high):
    return Range(low, likely, high, "test")


def test_the_table_is_the_beta():
    """Against scipy's beta distribution, at chances between the table's steps."""
    for low, likely, high in [(5, 8, 17), (0, 0, 10), (3, 5, 7), (1, 9.3, 10)]:
        place = (likely - low) / (high - low)
        chances = np.linspace(0.0117, 0.9871, 501)
        oracle = stats.beta(1 + 4 * place, 5 - 4 * place, loc=low, scale=high - low).ppf(chances)
        assert spread_of(between(low, likely, high)).at(chances) == pytest.approx(oracle, abs=2e-3 * (high - low))


def test_streams_are_even_and_unalike():
    numbers = np.arange(RUNS, dtype=np.uint64)
    first, second = hashed(stream("a"), numbers), hashed(stream("b"), numbers)
    assert stats.kstest(first, "uniform").pvalue > 1e-4
    assert abs(np.corrcoef(first, second)[0, 1]) < 5 / np.sqrt(RUNS)
    assert abs(np.corrcoef(first[1:], first[:-1])[0, 1]) < 5 / np.sqrt(RUNS)


@pytest.mark.parametrize("seed", [0, 1, 0xFFFFFFFFFFFFFFFF])
def test_the_compiled_stream_is_the_same(seed):
    from gudgeon.planning.loops import _mixed

    assert [_mixed(np.uint64(seed), np.uint64(n)) for n in range(5)] == list(hashed(seed, np.arange(5, dtype=np.uint64)))


def test_two_steps_in_a_row_add_means_and_variances():
    """Means and variances of independent steps add. Control: with a third step beside, the mean must not be the path's."""
    first, second = between(2, 4, 12), between(1, 6, 8)
    spreads = {"a": spread_of(first), "b": spread_of(second)}
    ends = simulate(network_of({"a": (), "b": ("a",)}), spreads, runs=RUNS).ends

    def beta(r):
        place = (r.likely - r.low) / (r.high - r.low)
        return stats.beta(1 + 4 * place, 5 - 4 * place, loc=r.low, scale=r.high - r.low)

    mean = beta(first).mean() + beta(second).mean()
    variance = beta(first).var() + beta(second).var()
    error = np.sqrt(variance / RUNS)
    assert ends.mean() == pytest.approx(mean, abs=5 * error)
    assert ends.var() == pytest.approx(variance, rel=5 * np.sqrt(2 / RUNS))
    beside = simulate(
        network_of({"a": (), "b": ("a",), "c": ()}), {**spreads, "c": spread_of(between(8, 11, 14))}, runs=RUNS
    ).ends
    assert beside.mean() > mean + 20 * error


def random_network(steps, links, number):
    chance = np.random.default_rng(number)
    rows = {str(i): set() for i in range(steps)}
    while sum(map(len, rows.values())) < links:
        a, b = sorted(chance.choice(steps, 2, replace=False))
        rows[str(b)].add(str(a))
    spreads = {key: spread_of(between(*np.sort(chance.uniform(0, 20, 3)))) for key in rows}
    return network_of({key: sorted(row) for key, row in rows.items()}), spreads


def test_every_run_against_networkx():
    import networkx

    network, spreads = random_network(60, 130, 3)
    outcome = simulate(network, spreads, runs=200, name="n")
    took = np.array([drawn(spreads[key], "n", key, runs=200) for key in network.keys])
    for run in range(200):
        graph = networkx.DiGraph()
        for place, row in enumerate(network.before):
            graph.add_edge(place, "end", weight=took[place, run])
            graph.add_weighted_edges_from((wanted, place, took[wanted, run]) for wanted in row)
        assert outcome.ends[run] == pytest.approx(networkx.dag_longest_path_length(graph), abs=1e-9)


def test_progress_stops_and_blocks_do_not_matter():
    network, spreads = random_network(10, 15, 5)
    calls = []
    whole = simulate(network, spreads, runs=70_000)
    part = simulate(network, spreads, runs=70_000, progress=lambda done, asked: calls.append((done, asked)))
    stopped = simulate(network, spreads, runs=70_000, progress=lambda *_: False)
    assert calls[-1] == (70_000, 70_000)
    assert (whole.ends == part.ends).all()
    assert len(stopped.ends) < 70_000
    assert (stopped.ends == whole.ends[: len(stopped.ends)]).all()


def test_too_few_runs_is_refused():
    network, spreads = random_network(3, 2, 1)
    with pytest.raises(ValueError, match="at least 100"):
        simulate(network, spreads, runs=10)
    with pytest.raises(ValueError, match="has no duration"):
        simulate(network, {}, runs=100)


def test_goes_are_geometric():
    """With chance p of failing, P(fails k times) = p^k (1 - p), and the mean total is the mean go times (1 - p^5)/(1 - p)."""
    p = 0.3
    fails = failures(between(p, p, p), "s", runs=RUNS)
    for k in range(MOST_GOES - 1):
        expected = p**k * (1 - p)
        assert np.mean(fails == k) == pytest.approx(expected, abs=5 * np.sqrt(expected / RUNS))
    once = spread_of(between(2, 4, 12))
    total = drawn_goes(once, between(p, p, p), "s", runs=RUNS)
    assert total.mean() == pytest.approx(5 * (1 - p**MOST_GOES) / (1 - p), rel=0.02)


def bench(links, *, hours, waits, hands=1, hours_a_week=7.0, away=(), rank=None, shares=(1,) * 7):
    """One plan whose rows of hours and waits are by key; an hour a day unless told otherwise."""
    network = network_of(links)
    own = own_hours(first=FIRST, hours_a_week=hours_a_week, away=away, shares=shares)
    plan = BenchPlan(
        network=network, calendars=(own, shop_days(first=FIRST)), shop=(1,) * len(network),
        rank=ranked_by([(rank or list(network.keys)).index(key) for key in network.keys]),
        release=(0.0,) * len(network), hands=hands,
    )  # fmt: skip
    row = lambda given: np.array([[float(given.get(key, 0)) for key in network.keys]])  # noqa: E731
    return plan, row(hours), row(waits)


def test_one_pair_of_hands_works_in_series_while_shops_run_side_by_side():
    plan, hours, waits = bench(dict.fromkeys("abcd", ()), hours={"a": 3, "b": 4}, waits={"c": 20, "d": 15})
    outcome = simulate_bench(plan, hours=hours, waits=waits)
    finish = dict(zip(plan.network.keys, outcome.finishes[0], strict=True))
    assert finish == pytest.approx({"a": 3, "b": 7, "c": 20, "d": 15})
    two, hours, waits = bench(dict.fromkeys("ab", ()), hours={"a": 3, "b": 4}, waits={}, hands=2)
    assert simulate_bench(two, hours=hours, waits=waits).ends == pytest.approx(4)


def test_away_days_shift_own_work_and_not_the_shop():
    away = (("2027-01-05", "2027-01-11"),)
    plan, hours, waits = bench({"own": (), "shop": ()}, hours={"own": 3}, waits={"shop": 3}, away=away)
    outcome = simulate_bench(plan, hours=hours, waits=waits)
    finish = dict(zip(plan.network.keys, outcome.finishes[0], strict=True))
    assert finish == pytest.approx({"own": 10, "shop": 3})


def test_the_bench_by_an_independent_telling():
    """The dispatching rule written again, a tenth of an hour at a time; both must end together to that step."""
    chance = np.random.default_rng(8)
    for _ in range(20):
        links = {str(i): [str(j) for j in range(max(0, i - 4), i) if chance.random() < 0.35] for i in range(12)}
        hours = {key: int(chance.integers(1, 40)) / 10 * (chance.random() < 0.7) for key in links}
        waits = {key: int(chance.integers(10, 90)) / 10 * (chance.random() < 0.3) for key in links}
        plan, h, w = bench(links, hours=hours, waits=waits, rank=list(links))
        assert simulate_bench(plan, hours=h, waits=w).ends[0] == pytest.approx(_told_slowly(links, hours, waits), abs=1e-6)


def _told_slowly(links, hours, waits):
    tick, busy, work, back, done = 0, None, {k: round(10 * h) for k, h in hours.items()}, {}, set()
    while len(done) < len(links):
        changed = True
        while changed:
            changed = False
            for key, row in links.items():
                if key in done or key in back or not set(row) <= done or (work[key] > 0):
                    continue
                back[key], changed = tick + round(10 * waits[key]), True
            for key, moment in list(back.items()):
                if moment <= tick and key not in done:
                    done.add(key)
                    changed = True
        if busy is None:
            busy = next((k for k, row in links.items() if work[k] > 0 and k not in done and set(row) <= done), None)
        if len(done) == len(links):
            break
        tick += 1
        if busy is not None:
            work[busy] -= 1
            if work[busy] == 0:
                busy = None
    return tick / 10


def test_no_slack_is_negative_and_the_chain_has_none():
    chance = np.random.default_rng(2)
    links = {str(i): [str(j) for j in range(max(0, i - 4), i) if chance.random() < 0.35] for i in range(15)}
    plan, _, _ = bench(links, hours={}, waits={}, shares=(1, 1, 1, 1, 1, 2.5, 2.5))
    hours, waits = chance.uniform(0.5, 5, (500, 15)), chance.uniform(1, 20, (500, 15)) * (chance.random(15) < 0.3)
    outcome = simulate_bench(plan, hours=hours, waits=waits, deadline=80.0)
    assert outcome.slacks.min() > -1e-6
    assert outcome.slacks[outcome.on_path].max() < 1e-6
    assert 0 < outcome.criticality.max() <= 1


@pytest.mark.parametrize("level", [0.5, 0.8])
def test_sending_at_the_latest_moment_keeps_the_level(level):
    """Run again with the step held back to the moment named: the date is kept at that level, and three days later not."""
    runs = 4_000
    spread = {"shop": between(10, 15, 40), "other": between(2, 6, 10)}
    links = {"shop": (), "other": (), "fit": ("shop", "other")}
    plan, _, _ = bench(links, hours={}, waits={})
    keys = plan.network.keys
    hours = np.array([drawn(spread_of(between(2, 3, 6)), key, runs=runs) * (key != "shop") for key in keys]).T
    waits = np.array([drawn(spread_of(spread["shop"]), key, runs=runs) * (key == "shop") for key in keys]).T
    place, deadline = plan.network.place("shop"), 40.0
    moment = latest_send(
        simulate_bench(plan, hours=hours, waits=waits, deadline=deadline), place, deadline=deadline, level=level
    )

    def kept(send):
        late = BenchPlan(**{**{f: getattr(plan, f) for f in plan.__dataclass_fields__},
                            "release": tuple(send if p == place else 0.0 for p in range(len(keys)))})  # fmt: skip
        return np.mean(simulate_bench(late, hours=hours, waits=waits).ends <= deadline)

    assert kept(moment) >= level - 2 / runs
    assert kept(moment + 3) < level - 0.02
