"""Steps, calendars, the schedule and its simulation: will it run this season, within the purse?"""
