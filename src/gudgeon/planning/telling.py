"""The forecast in sentences."""

from __future__ import annotations

from datetime import date

from gudgeon.planning.outlook import Forecast, LatestSend, in_ten, said_day, said_money


def sentences(told: Forecast, *, hours_known: bool) -> tuple[str, ...]:
    """What an experienced friend would say: the date, the purse, what to send and what to ask."""
    if not told.steps:
        return ("There is nothing on the plan yet.", *_money(told))
    rows = [*told.remarks, *_date(told), *_money(told), *_both(told), *_buffer(told)]
    rows += [row.sentence for row in told.latest_send if _pressing(row, told.today)]
    rows += [ask.sentence for ask in told.ask_for]
    if hours_known and told.order_words and told.can_tell:
        rows.append(told.order_words)
    return tuple(rows)


def _date(told: Forecast) -> list[str]:
    if all(step.state == "done" for step in told.steps):
        return ["Every step on the plan is done."]
    if not told.can_tell:
        return _cannot_tell(told)
    if told.finish is None:
        return ["At this pace it does not end within any date that can be written."]
    low, high = said_day(told.finish.low), said_day(told.finish.high)
    when = f"Likely by {said_day(told.finish.likely)}, between {low} and {high} 9 in 10."
    if told.target is None or told.chance_by_target is None:
        return [when]
    return [f"The engine can run by {said_day(told.target)}: {in_ten(told.chance_by_target)}.", when]


def _cannot_tell(told: Forecast) -> list[str]:
    waits = [f"“{ask.name}”" for ask in told.ask_for if ask.kind == "wait"]
    why = []
    if waits:
        why.append(f"nobody has said how long {', '.join(waits)} {'takes' if len(waits) == 1 else 'take'}")
    if any(ask.kind == "hours a week" for ask in told.ask_for):
        why.append("your hours a week are not given")
    if not why:
        why.append("some steps wait for each other in a circle")
    rows = [f"It can't be told yet when the engine runs: {' and '.join(why)}."]
    if told.not_before is not None:
        rows.append(f"Counting only what is known, not before {said_day(told.not_before)}.")
    if told.target is not None and told.best_chance is not None:
        if told.best_chance <= 0.005:
            rows.append(f"Running by {said_day(told.target)} is out of reach even if all the rest took no time.")
        else:
            best = in_ten(told.best_chance) if told.best_chance < 0.995 else "nothing known speaks against it"
            rows.append(f"By {said_day(told.target)}, if all the rest took no time: {best}. It can only be less.")
    return rows


def _money(told: Forecast) -> list[str]:
    money = told.money
    if money.high == 0 and not money.unknown:
        return []
    sum_ = said_money(money.likely, money.currency)
    if money.unknown:
        names = ", ".join(f"“{name}”" for name in money.unknown)
        rows = [f"It costs at least {sum_}, not counting {names}, for which there is no price."]
        if money.purse is not None and money.best_chance is not None and money.best_chance <= 0.005:
            rows.append(f"The purse of {said_money(money.purse, money.currency)} does not hold even what is priced.")
        return rows
    low, high = said_money(money.low, money.currency), said_money(money.high, money.currency)
    rows = [f"It costs about {sum_}, between {low} and {high} 9 in 10." if high != low else f"It costs {sum_}."]
    if money.purse is not None and money.chance_within is not None:
        rows.append(f"The purse of {said_money(money.purse, money.currency)} holds it: {in_ten(money.chance_within)}.")
    return rows


def _both(told: Forecast) -> list[str]:
    return [] if told.chance_of_both is None else [f"By the date and within the purse: {in_ten(told.chance_of_both)}."]


def _buffer(told: Forecast) -> list[str]:
    keep = told.buffer
    if keep is None or keep.days < 1:
        return []
    weeks = f"{keep.days} days" if keep.days < 21 else f"{round(keep.days / 7)} weeks"
    early, safe = said_day(keep.likely_end), said_day(keep.safe_end)
    return [f"Keep {weeks} in hand: work towards {early}, and promise no one a day before {safe}."]


def _pressing(row: LatestSend, today: date) -> bool:
    """Worth a sentence on the first page: due within two months, or past."""
    return row.on is None or (row.on - today).days <= 60


def latest_words(row: LatestSend, *, today: date) -> str:
    """The latest sending in a sentence."""
    title = f"“{row.title}” ({row.shop})"
    if row.on is None:
        well = row.if_all_goes_well
        if well is None or well < today:
            return f"{title}: too late for the date already, even if all goes well. Send it as soon as you can."
        kept = f"the date is kept less than {in_ten(row.level)} already"
        return f"{title}: send it at once, {said_day(well)} at the latest if all else goes well; {kept}."
    if row.on < today:
        return f"{title} should have gone out by {said_day(row.on)}. Send it as soon as you can."
    bound = "; unknown waits behind it make that earlier still" if row.at_most else ""
    return f"Send {title} by {said_day(row.on)} to keep the date {in_ten(row.level)}{bound}."
