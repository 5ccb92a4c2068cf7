"""What came back against what was asked: the decision rule of ISO 14253-1."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import Literal

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.order import AskedSize, Inspected, Outcome
from gudgeon.outwork.sizes import in_words, other
from gudgeon.quantity import Amount, UnitChoice, show

Rule = Literal["expanded", "one-sided"]
RULES: dict[Rule, str] = {
    "expanded": "ISO 14253-1 with the expanded uncertainty, k = 2, as guard band",
    "one-sided": "ISO 14253-1:2017 with a guard band of 1.65 standard uncertainties (95 in 100, one-sided)",
}
LARGE = 0.0254 / 16  # lengths above it are shown with one digit more than is usual
TINY = 0.15  # a margin under this part of the uncertainty: no reading at the bench will settle it


@dataclass(frozen=True, slots=True)
class Spot:
    """One estimate against the limits: the interval the rule takes for it, and what that interval proves."""

    estimate: Estimate
    low: float
    high: float
    outcome: Outcome
    margin: float


def guard_factor(*, rule: Rule, freedom: float = float("inf")) -> float:
    """The guard band in standard uncertainties.

    ``expanded``: 2, or Student's t for 95.45 % where the degrees of freedom are few (JCGM 100:2008, G.4); ``one-sided``:
    1.65, or t for 95 %.
    """
    floor, level = (2.0, 0.97725) if rule == "expanded" else (1.65, 0.95)
    if freedom > 60:
        return floor
    from scipy.stats import t

    return max(floor, float(t.ppf(level, max(freedom, 1.0))))


def conformance(*, value: float, uncertainty: float, lower: float, upper: float) -> float:
    """Probability that the true value lies within the limits, the reading being normal about it.

    JCGM 106:2012, 7.4 (from memory): Phi((upper - value)/u) - Phi((lower - value)/u). With u = 0 it is 0 or 1.
    """
    if uncertainty <= 0:
        return float(lower <= value <= upper)
    normal = NormalDist(value, uncertainty)
    return normal.cdf(upper) - normal.cdf(lower)


def inspect(
    asked: AskedSize, estimates: Sequence[Estimate], *, units: UnitChoice = "inch", rule: Rule = "expanded"
) -> Inspected:
    """One asked size against the estimates of its feature, one per spot read.

    Every spot must lie inside the limits for the part to do so. A spot is proved inside when its whole interval is (value plus
    and minus the guard band; the bracket itself where the reading only brackets), proved outside when none of it is; between
    the two it cannot tell. The answer names the spot that decides and, where it cannot tell, the reading that would settle it.
    """
    wanted = _limits(asked, units)
    if not estimates:
        return Inspected(
            asked=asked,
            value=None,
            low=None,
            high=None,
            outcome="can't tell yet",
            sentence=f"{_name(asked)} was not read since it came back; {wanted} was asked. Read it as the bench sheet says.",
            rule=RULES[rule],
        )
    spots = [_spot(asked, estimate, rule) for estimate in estimates]
    decides = _deciding(spots)
    sentence = " ".join(filter(None, (_verdict(asked, decides, wanted, units, rule), _form(asked, spots, units))))
    return Inspected(
        asked=asked,
        value=decides.estimate.value,
        low=decides.low,
        high=decides.high,
        outcome=decides.outcome,
        sentence=sentence,
        readings=tuple(dict.fromkeys(reading for spot in spots for reading in spot.estimate.readings)),
        rule=RULES[rule],
    )


def _spot(asked: AskedSize, estimate: Estimate, rule: Rule) -> Spot:
    band = guard_factor(rule=rule, freedom=estimate.freedom) * estimate.uncertainty
    low, high = estimate.value - band, estimate.value + band
    if estimate.interval:
        low, high = min(low, estimate.low), max(high, estimate.high)
    margin = min(estimate.value - asked.lower, asked.upper - estimate.value)
    if asked.lower <= low and high <= asked.upper:
        return Spot(estimate, low, high, "accept", margin)
    outside = high < asked.lower or low > asked.upper
    return Spot(estimate, low, high, "send back" if outside else "can't tell yet", margin)


def _deciding(spots: Sequence[Spot]) -> Spot:
    """The spot that decides: the worst proved outside, else the nearest to a limit among those in doubt, else among all."""
    for outcome in ("send back", "can't tell yet"):
        if some := [spot for spot in spots if spot.outcome == outcome]:
            return min(some, key=lambda spot: spot.margin)
    return min(spots, key=lambda spot: spot.margin)


def _name(asked: AskedSize) -> str:
    return f"{asked.item} {asked.feature}".strip()


def _limits(asked: AskedSize, units: UnitChoice) -> str:
    if asked.dimension == "length":
        return in_words(lower=asked.lower, upper=asked.upper, units=units)
    return f"{_amount(asked.lower, asked.dimension, units)} to {_amount(asked.upper, asked.dimension, units)}"


def _amount(value: float, dimension: str, units: UnitChoice) -> str:
    amount = Amount(value, dimension, fine=dimension != "length" or abs(value) > LARGE)
    if dimension != "length":
        return show(amount, units)
    return f"{show(amount, units)} ({show(amount, other(units))})"


def _where(estimate: Estimate) -> str:
    place = estimate.place
    at = f" at {place.station}" if place.station else ""
    return at + (f", {place.direction:g}°" if place.direction is not None else "")


def _verdict(asked: AskedSize, spot: Spot, wanted: str, units: UnitChoice, rule: Rule) -> str:
    read = (
        f"{_name(asked)} reads {_amount(spot.estimate.value, asked.dimension, units)}{_where(spot.estimate)}, "
        f"give or take {_amount((spot.high - spot.low) / 2, asked.dimension, units)}"
    )
    if spot.outcome == "accept":
        return f"{read}: inside {wanted} (guard band taken off: {RULES[rule]})."
    if spot.outcome == "send back":
        return f"{read}: outside {wanted} by more than the reading could be wrong ({RULES[rule]})."
    return f"{read}: too near a limit of {wanted} to tell ({RULES[rule]}). {_settle(asked, spot, units, rule)}"


def _settle(asked: AskedSize, spot: Spot, units: UnitChoice, rule: Rule) -> str:
    estimate = spot.estimate
    inside = "" if estimate.interval else f" As read, {_chance(asked, estimate, units)} that it is inside (JCGM 106)."
    if estimate.interval:
        return "The reading only brackets the size; one that gives a figure would settle it."
    factor = guard_factor(rule=rule)
    if (
        abs(spot.margin) < TINY * estimate.uncertainty * factor
        or asked.upper - asked.lower < 2 * factor * estimate.uncertainty * TINY
    ):
        return (
            "It reads so near the limit that no better gauge is likely to settle it; "
            f"take it with a concession, or have it corrected.{inside}"
        )
    needed = abs(spot.margin) / factor
    repeats = estimate.uncertainty > 0 and estimate.own**2 > 0.5 * estimate.uncertainty**2
    how = "More repeats, or a" if repeats else "A"
    return (
        f"{how} reading good to {_amount(needed * factor, asked.dimension, units)} either way would settle it, "
        f"should it come out the same.{inside}"
    )


def _chance(asked: AskedSize, estimate: Estimate, units: UnitChoice) -> str:
    chance = conformance(value=estimate.value, uncertainty=estimate.uncertainty, lower=asked.lower, upper=asked.upper)
    return show(Amount(chance, "probability"), units)


def _form(asked: AskedSize, spots: Sequence[Spot], units: UnitChoice) -> str:
    """What the spots say of one another: read at one spot only, or differing by more than their own scatter explains."""
    if len(spots) == 1:
        return (
            "Read at one spot only." if spots[0].estimate.place.direction is not None or spots[0].estimate.place.station else ""
        )
    least = min(spots, key=lambda spot: spot.estimate.value).estimate
    most = max(spots, key=lambda spot: spot.estimate.value).estimate
    spread, tolerance = most.value - least.value, asked.upper - asked.lower
    scatter = 2 * (least.own**2 + most.own**2) ** 0.5
    straddles = len({spot.outcome for spot in spots}) > 1
    if spread <= scatter or not (straddles or spread > tolerance):
        return ""
    shape = "round" if least.place.station == most.place.station else "the same along its length"
    against = "more than the whole tolerance" if spread > tolerance else "within the tolerance in all, but not where it lies"
    return (
        f"It is not {shape}: from {_amount(least.value, asked.dimension, units)}{_where(least)} to "
        f"{_amount(most.value, asked.dimension, units)}{_where(most)}, a difference of "
        f"{_amount(spread, asked.dimension, units)}, {against}."
    )


@dataclass(frozen=True, slots=True)
class OrderOutcome:
    """What the lines of an order say together, and why, one sentence each."""

    outcome: Outcome
    sentences: tuple[str, ...]


def decide_order(lines: Sequence[Inspected], *, concessions: Mapping[str, str] | None = None) -> OrderOutcome:
    """The whole order: accepted when every asked size is.

    ``concessions`` are the owner's reasons, by ``"item feature"``; a size proved outside, or not settled, with a reason is
    taken as it is, and the order then stands accepted with a concession. Without one, a size proved outside sends the work
    back, and one in doubt leaves the order open. An order that asked for no size cannot be judged by size.
    """
    given = {name: reason.strip() for name, reason in (concessions or {}).items() if reason.strip()}
    if not lines:
        return OrderOutcome(
            "can't tell yet", ("No size was asked for, so there is none to hold the work against; look it over.",)
        )
    open_lines = [line for line in lines if line.outcome != "accept" and _name(line.asked) not in given]
    conceded = [line for line in lines if line.outcome != "accept" and _name(line.asked) in given]
    if back := [line for line in open_lines if line.outcome == "send back"]:
        return OrderOutcome("send back", tuple(line.sentence for line in back))
    if open_lines:
        return OrderOutcome("can't tell yet", tuple(line.sentence for line in open_lines))
    if conceded:
        said = tuple(f"{line.sentence} Taken all the same: {given[_name(line.asked)]}" for line in conceded)
        return OrderOutcome("accept with a concession", said)
    return OrderOutcome("accept", (f"All {len(lines)} sizes asked for are proved inside their limits ({lines[0].rule}).",))
