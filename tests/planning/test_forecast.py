"""The forecast: what is known is counted, what is not is named, and words follow the numbers."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from gudgeon.engine.order import Order, OrderDraft, OrderEvent
from gudgeon.engine.origin import Range
from gudgeon.engine.outline import Outline
from gudgeon.engine.snapshot import Aims, Price, Snapshot
from gudgeon.engine.step import StepDone, StepDraft
from gudgeon.planning import away_too, forecast, hours_changed, wait_changed, what_if
from gudgeon.planning.outlook import in_ten

TODAY = date(2027, 1, 4)  # a Monday
RUNS = 2_000


def sure(value):
    return Range(value, value, value, "test")


def between(low, likely, high):
    return Range(low, likely, high, "test")


def step(key, *after, hours=None, shop="", hold="", may_fail=None):
    return StepDraft(key=key, title=key, system="cylinders", hours=hours, shop=shop, after=after, hold=hold, may_fail=may_fail)


def price(name, *, cost=None, wait=None, shop=""):
    return Price(name=name, cost=cost, wait_days=wait, shop=shop)


def job(*, aims=None, prices=(), orders=(), done=()):
    aims = aims or Aims(hours_a_week=7, run_by="2027-03-31", purse=1000, currency="USD")
    return Snapshot(
        outline=Outline(name="Fairweather 6 hp"), aims=aims, prices={p.name: p for p in prices}, orders=orders, done=done
    )


def told(drafts, snapshot, **kept):
    return forecast(drafts, snapshot=snapshot, today=TODAY, runs=RUNS, shares=(1,) * 7, **kept)


def order(key, *, sent="2026-12-05", promised="", price=None, priced="", shop="Hollow Mill", events=(), id="o1"):
    draft = OrderDraft(key=key, system="cylinders", verdict="v", title=key, to="shop", lines=(), asked=(), priced=priced)
    return Order(id=id, draft=draft, shop=shop, price=price, promised=promised, person="owner", at=sent, events=events)


def event(state, on):
    return OrderEvent(state=state, on=on, note="", person="owner", at=on)


SURE = [step("strip", hours=sure(3)), step("bore", "strip", shop="bore a cylinder"), step("fit", "bore", hours=sure(4))]
BORE = price("bore a cylinder", cost=sure(400), wait=sure(20))


def test_sure_durations_by_hand():
    """An hour a day: stripped on the 3rd day (6 January), away 20 days (back on the 27th as the 24th day begins), fitted in
    4 days, the last of them running into 31 January by the six-figure fraction of a day. Counted on a calendar by hand."""
    found = told(SURE, job(prices=[BORE]))
    by = {row.key: row for row in found.steps}
    assert by["strip"].finish.likely == date(2027, 1, 6)
    assert by["bore"].finish.likely == date(2027, 1, 27)
    assert by["fit"].finish.likely in (date(2027, 1, 30), date(2027, 1, 31))
    assert found.finish.low == found.finish.high
    assert found.chance_by_target == 1.0
    assert found.sentences[0] == "The engine can run by 31 March 2027: as good as certain."
    assert (found.money.low, found.money.high) == (400, 400)


def test_the_latest_sending_by_hand():
    """Back by 27 March leaves four one-hour days to the 31st; twenty days before is the 7th or 8th."""
    found = told(SURE, job(prices=[BORE]))
    (send,) = found.latest_send
    assert send.on in (date(2027, 3, 7), date(2027, 3, 8))
    assert send.on == send.if_all_goes_well


def test_the_target_day_itself_counts_and_the_day_before_does_not():
    found = told([step("send", shop="bore a cylinder")], job(prices=[BORE], aims=Aims(run_by="2027-01-24")))
    assert found.finish.likely == date(2027, 1, 24)
    assert found.chance_by_target == 1.0
    found = told([step("send", shop="bore a cylinder")], job(prices=[BORE], aims=Aims(run_by="2027-01-23")))
    assert found.chance_by_target == 0.0
    assert "as good as impossible" in found.sentences[0]


def test_an_unknown_wait_is_never_invented():
    found = told(SURE, job(prices=[price("bore a cylinder")]))
    assert not found.can_tell
    assert (found.finish, found.chance_by_target, found.buffer) == (None, None, None)
    assert found.not_before == date(2027, 1, 10)  # three and four days of one hour
    assert "nobody has said how long “bore a cylinder” takes" in found.sentences[0]
    assert [ask.kind for ask in found.ask_for] == ["wait", "price"]
    assert found.money.unknown == ("bore a cylinder",)
    assert found.money.chance_within is None
    assert {row.key for row in found.steps if row.not_before} == {"bore", "fit"}


def test_unknown_waits_are_ranked_by_how_far_the_end_hangs_on_them():
    """One has a long known wait beside it to hide behind, the other has not."""
    drafts = [
        step("a", shop="hidden"),
        step("b", shop="known"),
        step("c", "b", shop="bare"),
        step("end", "a", "c", hours=sure(1)),
    ]
    asks = told(drafts, job(prices=[price("known", wait=sure(60), cost=sure(1))])).ask_for
    waits = [ask for ask in asks if ask.kind == "wait"]
    assert [ask.name for ask in waits] == ["bare", "hidden"]
    assert waits[0].days == pytest.approx(28, abs=0.1)
    assert waits[1].days == pytest.approx(0, abs=1e-3)
    assert waits[1].free_days == pytest.approx(60, abs=0.1)
    assert "more than about 60 days" in waits[1].sentence


def test_hours_not_given_are_asked_for():
    found = told(SURE, job(prices=[BORE], aims=Aims(run_by="2027-03-31")))
    assert not found.can_tell
    assert found.ask_for[0].kind == "hours a week"
    assert "7 hours" in found.ask_for[0].sentence
    assert "your hours a week are not given" in found.sentences[0]


def test_a_loop_is_said_and_no_date_is_given():
    found = told([step("a", "b", hours=sure(1)), step("b", "a", hours=sure(1))], job())
    assert not found.can_tell
    assert "in a circle" in found.sentences[0]


def test_done_steps_are_behind_us():
    found = told(SURE, job(prices=[BORE], done=(StepDone(key="strip", on="2027-01-02", person="owner"),)))
    by = {row.key: row for row in found.steps}
    assert by["strip"].state == "done"
    assert by["strip"].finish.likely == date(2027, 1, 2)
    assert by["bore"].state == "ready"
    assert by["bore"].finish.likely == TODAY + timedelta(days=20)
    assert found.own_hours_left == 4


def test_a_promised_date_is_honoured_at_the_shop_s_word():
    out = order("bore", promised="2027-02-10", price=380)
    found = told(SURE, job(prices=[BORE], orders=(out,)))
    by = {row.key: row for row in found.steps}
    assert by["bore"].state == "under way"
    assert by["bore"].finish.low == by["bore"].finish.high == date(2027, 2, 10)
    assert by["bore"].promised == date(2027, 2, 10)
    assert "at the shop's word" in by["bore"].words
    assert (found.money.agreed, found.money.likely) == (380, 380)
    assert found.latest_send == ()


def test_an_order_is_matched_by_what_it_pays_for():
    out = order("cylinders/boring", promised="2027-02-10", priced="bore a cylinder")
    by = {row.key: row for row in told(SURE, job(prices=[BORE], orders=(out,))).steps}
    assert by["bore"].state == "under way"


def test_an_overdue_promise_is_not_a_date():
    found = told(SURE, job(prices=[BORE], orders=(order("bore", promised="2026-12-28"),)))
    assert not found.can_tell
    assert "overdue" in next(row.words for row in found.steps if row.key == "bore")


def test_what_came_back_and_was_accepted_is_done_and_what_was_not_looked_at_is_not():
    back = order("bore", promised="2026-12-28", events=(event("returned", "2026-12-30"),))
    by = {row.key: row for row in told(SURE, job(prices=[BORE], orders=(back,))).steps}
    assert (by["bore"].state, "not inspected in" in by["bore"].words) == ("under way", True)
    taken = replace(back, events=(*back.events, event("accepted", "2027-01-02")))
    by = {row.key: row for row in told(SURE, job(prices=[BORE], orders=(taken,))).steps}
    assert by["bore"].state == "done"


def test_a_hold_point_holds_what_comes_after():
    drafts = [step("test", hours=sure(1), hold="no crack found"), step("bore", "test", hours=sure(1))]
    by = {row.key: row for row in told(drafts, job()).steps}
    assert by["bore"].state == "held"
    assert "no crack found" in by["bore"].words


def test_money_and_purse():
    """Two independent sums of known mean: 400 sure and the mean of a PERT beta (300 + 4x400 + 800)/6 = 450."""
    drafts = [step("a", shop="one"), step("b", shop="two")]
    prices = [price("one", cost=sure(400), wait=sure(5)), price("two", cost=between(300, 400, 800), wait=sure(70))]
    found = told(drafts, job(prices=prices))
    assert np.mean(found.money.draws) == pytest.approx(850, abs=6)
    assert found.money.chance_within == pytest.approx(np.mean(found.money.draws <= 1000))
    assert 0.8 < found.money.chance_within < 1
    january, february = found.money.by[:2]
    assert (january.on, january.low, january.high) == (date(2027, 1, 31), 400, 400)
    assert february.high == 400
    assert found.money.by[-1].likely == pytest.approx(found.money.likely)


def test_the_chance_by_the_normal_sum():
    """Thirty like shop steps in a row: the end is near normal (central limit theorem); a chance from scipy's normal."""
    from scipy.stats import norm

    drafts = [step(str(i), *([str(i - 1)] if i else []), shop="x") for i in range(30)]
    wait = between(2, 4, 12)
    mean, sd = 30 * 5, np.sqrt(30 * (5 - 2) * (12 - 5) / 7)
    aims = Aims(run_by=(TODAY + timedelta(days=155)).isoformat())
    found = forecast(drafts, snapshot=job(aims=aims, prices=[price("x", wait=wait)]), today=TODAY, runs=10_000)
    assert found.chance_by_target == pytest.approx(norm.cdf((156 - mean) / sd), abs=0.03)


def test_what_if_the_same_draws_cancel():
    """A shop that takes just three days longer moves every run by three days; with fresh luck the runs would differ."""
    slower = replace(BORE, wait_days=between(13, 23, 43))
    snapshot = job(prices=[replace(BORE, wait_days=between(10, 20, 40))])
    change = wait_changed("bore a cylinder", slower.wait_days)
    found = what_if(SURE, snapshot=snapshot, today=TODAY, change=change, runs=RUNS, shares=(1,) * 7)
    assert (found.days_low, found.days, found.days_high) == pytest.approx((3, 3, 3), abs=1e-6)
    assert "3 days later" in found.sentences[0]


def test_what_if_a_week_is_lost_or_the_hours_double():
    snapshot = job(prices=[BORE])
    lost = what_if(
        SURE, snapshot=snapshot, today=TODAY, change=away_too(TODAY, TODAY + timedelta(days=6)), runs=RUNS, shares=(1,) * 7
    )
    assert lost.days == pytest.approx(7, abs=1e-3)
    more = what_if(SURE, snapshot=snapshot, today=TODAY, change=hours_changed(14), runs=RUNS, shares=(1,) * 7)
    assert more.days == pytest.approx(-3.5, abs=1e-3)
    assert snapshot.aims.away == ()


def test_what_if_another_shop_costs_more():
    change = wait_changed("bore a cylinder", sure(10), shop="Low Forge", cost=sure(520))
    found = what_if(SURE, snapshot=job(prices=[BORE]), today=TODAY, change=change, runs=RUNS, shares=(1,) * 7)
    assert found.money == pytest.approx(120)
    assert "It costs about USD 120 more." in found.sentences
    assert found.days == pytest.approx(-10, abs=1e-3)


def test_closed_weeks_and_failing_steps():
    found = told(SURE, job(prices=[BORE]), closed={"bore a cylinder": [("2027-01-10", "2027-01-16")]})
    assert next(row for row in found.steps if row.key == "bore").finish.likely == date(2027, 2, 3)
    drafts = [step("scrape", hours=sure(5), may_fail=sure(0.5))]
    ends = told(drafts, job()).ends
    assert np.mean(ends > 5.5) == pytest.approx(0.5, abs=0.05)
    assert ends.max() == pytest.approx(25)


def test_nothing_planned_and_bad_asking():
    assert forecast([], snapshot=job(), today=TODAY).sentences[0] == "There is nothing on the plan yet."
    with pytest.raises(ValueError, match="at least 100"):
        forecast(SURE, snapshot=job(), today=TODAY, runs=5)
    with pytest.raises(ValueError, match="between 0 and 1"):
        forecast(SURE, snapshot=job(), today=TODAY, level=80)
    with pytest.raises(ValueError, match="“next May” was read as a date"):
        forecast(SURE, snapshot=job(aims=Aims(run_by="next May")), today=TODAY)


def test_stopping_keeps_what_was_run():
    shares = []
    found = forecast(
        SURE, snapshot=job(prices=[BORE]), today=TODAY, runs=10_000, progress=lambda share: shares.append(share) or share < 0.3
    )
    assert 0 < found.runs < 10_000
    assert len(found.ends) == found.runs


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.7, "7 in 10"),
        (0.999, "as good as certain"),
        (0.97, "97 in 100"),
        (0.02, "2 in 100"),
        (0.001, "as good as impossible"),
    ],
)
def test_chances_in_words(chance, words):
    assert in_ten(chance) == words
