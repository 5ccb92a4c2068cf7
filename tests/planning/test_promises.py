"""Promises kept: the shrinkage at its two ends and against the conjugate result."""

import numpy as np
import pytest

from gudgeon.engine.order import Order, OrderDraft, OrderEvent
from gudgeon.planning.promises import PRIOR_ORDERS, KeptPromise, kept_promises, lateness, promised_day


def order(*, sent, promised, back, state="returned", shop="Hollow Mill"):
    draft = OrderDraft(key="k", system="s", verdict="v", title="t", to="shop", lines=(), asked=())
    events = (OrderEvent(state=state, on=back, note="", person="o", at=back),) if back else ()
    return Order(id="1", draft=draft, shop=shop, price=None, promised=promised, person="o", at=sent, events=events)


def test_days_are_counted_from_the_dates():
    rows = kept_promises([order(sent="2026-06-01T09:30:00Z", promised="2026-06-15", back="2026-06-29")])
    assert rows == (KeptPromise("Hollow Mill", 14, 28),)
    assert kept_promises([order(sent="2026-06-01", promised="", back="2026-06-29")]) == ()
    assert kept_promises([order(sent="2026-06-01", promised="2026-06-15", back="")]) == ()


def test_no_history_takes_the_word():
    found = lateness(())
    assert (found.median, found.log_spread) == (1.0, 0.0)
    assert found.of(20).table.max() == found.of(20).table.min() == 20


def test_a_long_history_takes_over():
    """Two hundred orders of twice the promise, spread by a fifth: the ratio of the data comes out."""
    chance = np.random.default_rng(4)
    rows = [KeptPromise("A", 10, 20 * float(np.exp(chance.normal(0, 0.2)))) for _ in range(200)]
    found = lateness(rows, shop="a")
    assert found.median == pytest.approx(2, rel=0.05)
    assert found.log_spread == pytest.approx(0.2, rel=0.15)


def test_one_order_by_the_conjugate_normal():
    """Normal mean with a prior of weight k at 0: posterior mean n ybar / (n + k) (Gelman et al., Bayesian Data Analysis, 3rd
    ed., 2.5). One shop is the whole history: shrunk once for all shops and once for the one, towards what all gave."""
    found = lateness([KeptPromise("A", 10, 20)])
    overall = np.log(2) / (1 + PRIOR_ORDERS)
    assert np.log(found.median) == pytest.approx(overall)
    here = lateness([KeptPromise("A", 10, 20)], shop="A")
    assert np.log(here.median) == pytest.approx((np.log(2) + PRIOR_ORDERS * overall) / (1 + PRIOR_ORDERS))
    assert 1 < found.median < here.median < 2


def test_the_spread_is_log_normal():
    from scipy.stats import lognorm

    found = lateness([KeptPromise("A", 10, 20), KeptPromise("B", 10, 11)], shop="A")
    oracle = lognorm(s=found.log_spread, scale=30 * found.median).ppf([0.1, 0.5, 0.9])
    assert found.of(30).at(np.array([0.1, 0.5, 0.9])) == pytest.approx(oracle, rel=1e-3)


def test_a_new_promise_takes_the_place_of_the_old():
    later = OrderEvent(state="promised", on="2026-08-01", note="", person="o", at="2026-07-01")
    asked = order(sent="2026-06-01", promised="2026-06-15", back="")
    assert str(promised_day(asked)) == "2026-06-15"
    assert (
        str(promised_day(Order(**{**{f: getattr(asked, f) for f in asked.__dataclass_fields__}, "events": (later,)})))
        == "2026-08-01"
    )


def test_a_date_that_is_none():
    with pytest.raises(ValueError, match="“mid June” was read as a date"):
        promised_day(order(sent="2026-06-01", promised="mid June", back=""))
