"""Small things that steps and orders of every system are made of: steps, sizes in words, parameters of a verdict, needs.

Shared by systems; it knows none of them.
"""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.engine.bench import Bench
from gudgeon.engine.order import AskedSize
from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need
from gudgeon.engine.step import StepDraft
from gudgeon.engine.system import Feature
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.measured import Reader
from gudgeon.systems.proposing import warned

INCH = 0.0254
Limits = tuple[float, float]


def step(
    system: str,
    name: str,
    title: str,
    *,
    hours: Range | None = None,
    shop: str = "",
    after: tuple[str, ...] = (),
    hold: str = "",
    may_fail: Range | None = None,
    works: tuple[str, ...] = (),
) -> StepDraft:
    """A step of a system; ``after`` names steps of it without its key, others in full."""
    return StepDraft(
        key=f"{system}/{name}",
        title=title,
        system=system,
        hours=hours,
        shop=shop,
        after=tuple(each if "/" in each else f"{system}/{each}" for each in after),
        hold=hold,
        may_fail=may_fail,
        cautions=warned(*works),
    )


def last_step(bench: Bench, subject: str) -> tuple[str, ...]:
    """The last step of what was decided on a matter; none while it is not decided or asks for no work."""
    verdict = bench.snapshot.verdict_on(subject)
    return (verdict.chosen.steps[-1].key,) if verdict is not None and verdict.chosen.steps else ()


def asked_for(verdict: Verdict, word: str) -> dict[str, float]:
    """Per instance the parameter that ends in a word."""
    found = verdict.chosen.parameters
    return {item: found[f"{item} {word}"] for item in verdict.chosen.items if f"{item} {word}" in found}


def the(item: str) -> str:
    """An instance in a sentence: one without a number takes the article ("the flywheel", but "joint 2")."""
    return item if any(sign.isdigit() for sign in item) else f"the {item}"


def both(value: float, dimension: str = "length") -> str:
    """A size in inch with millimetre after it: an order goes to either kind of shop."""
    amount = Amount(value, dimension, fine=dimension == "length" and value > INCH / 16)
    return f"{show(amount, 'inch')} ({show(amount, 'millimetre')})"


def band(limits: Limits) -> str:
    """Limits of size in both units."""
    return f"{both(limits[0])} to {both(limits[1])}"


def asked_size(feature: Feature, item: str, limits: Limits, *, name: str = "", note: str = "") -> AskedSize:
    """One size asked of a shop; ``name`` where the feature's own carries a figure."""
    return AskedSize(
        part=feature.part,
        item=item,
        feature=name or feature.name,
        dimension=feature.dimension,
        lower=limits[0],
        upper=limits[1],
        note=note,
    )


def reading_need(reader: Reader, feature: Feature, item: str, *, why: str, what: str = "") -> Need:
    """That a feature be read, or noted in words, before an order goes."""
    met = reader.size(feature, item) is not None or bool(reader.words(feature, item)[0])
    return Need(
        kind="reading",
        what=f"{item}: {what or feature.title.lower()}",
        met=met,
        why=why,
        part=feature.part,
        item=item,
        feature=feature.name,
    )


def readings_behind(bench: Bench, items: Iterable[str], parts: Iterable[str]) -> tuple[str, ...]:
    """Identities of the current readings of some instances."""
    names, kinds = set(items), set(parts)
    return tuple(
        reading.id
        for key, readings in bench.snapshot.by_feature.items()
        if key.item in names and key.part in kinds
        for reading in readings
    )
