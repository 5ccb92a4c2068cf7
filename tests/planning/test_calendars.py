"""Hours and dates, there and back."""

from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.engine.origin import Range
from gudgeon.planning.calendars import away_days, own_hours, shop_days
from gudgeon.planning.durations import certain, spread_of

MONDAY = date(2027, 1, 4)


def test_a_week_holds_the_week_s_hours():
    calendar = own_hours(first=MONDAY, hours_a_week=10)
    assert calendar.by(7) == pytest.approx(10)
    assert calendar.by(5) == pytest.approx(5)  # five evenings of one hour, then two days of two and a half
    assert calendar.day(calendar.finish(0, 10)) == date(2027, 1, 10)
    assert calendar.day(calendar.finish(0, 10.01)) == date(2027, 1, 11)


def test_days_away_are_lost():
    calendar = own_hours(first=MONDAY, hours_a_week=10, away=(("2027-01-04", "2027-01-17"),))
    assert calendar.day(calendar.finish(0, 1)) == date(2027, 1, 18)


def test_nothing_before_the_beginning():
    calendar = own_hours(first=MONDAY, hours_a_week=7, begin=date(2027, 2, 1), shares=(1,) * 7)
    assert calendar.day(calendar.finish(0, 1)) == date(2027, 2, 1)


def test_a_shop_s_closed_weeks():
    calendar = shop_days(first=MONDAY, closed=(("2027-01-11", "2027-01-24"),))
    assert calendar.finish(0, 10) == pytest.approx(24)
    assert calendar.finish(0, 7) == pytest.approx(7)
    assert calendar.start(24, 7) == pytest.approx(3)  # ten open days by then; three of them may go by first


def test_no_hours_never_end():
    calendar = own_hours(first=MONDAY, hours_a_week=0)
    assert calendar.finish(0, 1) == np.inf
    assert calendar.day(np.inf) is None


@pytest.mark.parametrize("away", [("2027-13-01", "2027-02-01"), ("tomorrow", "2027-02-01")])
def test_a_date_that_is_none(away):
    with pytest.raises(ValueError, match="two dates like"):
        away_days([away])


def test_a_span_the_wrong_way_round():
    with pytest.raises(ValueError, match="ends before it begins"):
        away_days([("2027-02-01", "2027-01-01")])


@pytest.mark.parametrize("hours", [-1, 200, float("nan")])
def test_hours_that_no_week_has(hours):
    with pytest.raises(ValueError, match="between 0 and 168"):
        own_hours(first=MONDAY, hours_a_week=hours)


@settings(deadline=None)
@given(st.floats(0, 3000), st.floats(0.01, 500), st.floats(1, 60))
def test_there_and_back(moment, work, hours_a_week):
    calendar = own_hours(first=MONDAY, hours_a_week=hours_a_week, away=(("2027-03-01", "2027-03-20"),))
    end = calendar.finish(moment, work)
    assert calendar.by(end) - calendar.by(moment) == pytest.approx(work, abs=1e-6)
    assert calendar.start(end, work) >= moment - 1e-6
    assert calendar.by(calendar.start(end, work)) == pytest.approx(calendar.by(moment), abs=1e-6)


def test_what_is_left_of_a_wait():
    """Given that twelve days have gone without it, what is left is the upper tail: checked by sorting draws out."""
    spread = spread_of(Range(10, 14, 30, "test"))
    chances = (np.arange(200_000) + 0.5) / 200_000
    whole = spread.at(chances)
    left = spread.left_after(15)
    assert left.at(chances).mean() == pytest.approx(whole[whole > 15].mean() - 15, rel=2e-3)
    assert spread.left_after(31) is None
    assert certain(20).left_after(5).table == pytest.approx(15)
