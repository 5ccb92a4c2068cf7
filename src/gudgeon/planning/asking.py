"""What to find out next: the unknown and the roughly known, ranked by how far the plan hangs on them."""

from __future__ import annotations

import numpy as np

from gudgeon.planning.durations import pert_mean
from gudgeon.planning.laid import Laid
from gudgeon.planning.money import MoneyOutlook
from gudgeon.planning.outlook import Ask
from gudgeon.planning.simulate import BenchOutcome, simulate_bench

PROBE_DAYS = 28.0
"""An unknown wait is tried at nothing and at four weeks: a probe of how far the end moves, never a guess at the wait."""
PROBE_RUNS = 500
WORTH_SAYING_DAYS = 1.0
WORTH_SAYING_SHARE = 0.1


def ask_for(laid: Laid, outcome: BenchOutcome, *, money: MoneyOutlook) -> tuple[Ask, ...]:
    """The owner's hours; unknown waits; unknown prices; waits and prices known only roughly that spread the answer most."""
    asks = [*_hours(laid), *_unknown_waits(laid, outcome)]
    asks += [
        Ask(kind="price", name=name, sentence=f"Ask what “{name}” costs: the purse can't be told without it.")
        for name in money.unknown
    ]
    asks += _rough_waits(laid, outcome)
    asks += [
        Ask(
            kind="price known roughly", name=name, share=share,
            sentence=f"A firm price for “{name}” would settle {share:.0%} of the spread in the money.",
        )
        for name, share in money.spread_from
        if share >= WORTH_SAYING_SHARE
    ]  # fmt: skip
    return tuple(asks)


def _hours(laid: Laid) -> list[Ask]:
    hours = sum(pert_mean(d.hours) for d, now in zip(laid.drafts, laid.standing, strict=True) if d.hours and now.own_work)
    if laid.hours_known or hours == 0:
        return []
    sentence = f"Say how many hours a week you have: about {hours:.0f} hours of your own work can't be put to dates without it."
    return [Ask(kind="hours a week", name="hours a week", sentence=sentence)]


def _unknown_waits(laid: Laid, outcome: BenchOutcome) -> list[Ask]:
    """By item: how far the mean end moves when its wait goes from nothing to four weeks, all other unknowns at nothing."""
    some = slice(0, PROBE_RUNS)
    base = outcome.ends[some]
    hours, waits = laid.hours[some][: len(base)], laid.waits[some][: len(base)]
    by_item: dict[str, list[int]] = {}
    for place in laid.unknown:
        by_item.setdefault(laid.drafts[place].shop or laid.drafts[place].title, []).append(place)
    asks = []
    for name, places in by_item.items():
        tried = waits.copy()
        tried[:, places] += PROBE_DAYS
        moved = float(np.mean(simulate_bench(laid.plan, hours=hours, waits=tried).ends - base))
        free = max(float(np.median(outcome.slacks[:, places].min(axis=1))), 0.0)
        asks.append(Ask(kind="wait", name=name, days=moved, free_days=free, sentence=_wait_words(name, moved, free)))
    return sorted(asks, key=lambda ask: -ask.days)


def _wait_words(name: str, moved: float, free: float) -> str:
    if free < 1:
        return f"Ask how long “{name}” takes: nothing hides it, and every week of it moves the date by about a week."
    words = f"Ask how long “{name}” takes: it moves the date once it takes more than about {free:.0f} days"
    return f"{words}." if moved >= WORTH_SAYING_DAYS else f"{words}, so four weeks of it would do no harm."


def _rough_waits(laid: Laid, outcome: BenchOutcome) -> list[Ask]:
    """Known waits by their share of the spread of the end: squared correlation of wait and end over the runs (the first
    order share of variance where the end is near linear in it) times the standard deviation of the end."""
    ends = outcome.ends
    spread = float(ends.std())
    asks = []
    for place, (draft, now) in enumerate(zip(laid.drafts, laid.standing, strict=True)):
        wait = laid.waits[: len(ends), place]
        if not draft.shop or now.state == "done" or spread < WORTH_SAYING_DAYS or wait.std() < 0.5:
            continue
        share = float(np.corrcoef(wait, ends)[0, 1]) ** 2
        if share >= WORTH_SAYING_SHARE and share * spread >= WORTH_SAYING_DAYS:
            sentence = f"A firm date for “{draft.title}” would settle about {share:.0%} of the spread of the date."
            asks.append(Ask(kind="wait known roughly", name=draft.shop, days=share * spread, sentence=sentence))
    return sorted(asks, key=lambda ask: -ask.days)
