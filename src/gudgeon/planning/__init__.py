"""Steps, calendars, the schedule and its simulation: will it run this season, within the purse?"""

from gudgeon.planning.exports import calendar_file, plain_forecast, plan_table
from gudgeon.planning.forecast import forecast
from gudgeon.planning.outlook import Ask, Buffer, Dates, Forecast, LatestSend, StepOutlook
from gudgeon.planning.what_if import Change, Comparison, away_too, hours_changed, wait_changed, what_if

__all__ = [
    "Ask",
    "Buffer",
    "Change",
    "Comparison",
    "Dates",
    "Forecast",
    "LatestSend",
    "StepOutlook",
    "away_too",
    "calendar_file",
    "forecast",
    "hours_changed",
    "plain_forecast",
    "plan_table",
    "wait_changed",
    "what_if",
]
