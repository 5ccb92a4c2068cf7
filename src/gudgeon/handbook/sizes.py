"""Sizes that a drawing of the time may have called for, each with how likely it is before anything is measured."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from typing import Any, Literal

from gudgeon.handbook.shelf import INCH, UnknownName, check, source, table

Standard = Literal[
    "inch fraction", "inch decimal", "millimetre", "number drill", "letter drill", "wire gauge", "ball", "preferred"
]  # fmt: skip
NEEDS = ("title", "fractions", "source")
MAY = ("millimetres", "allowances", "decimals", "lists", "aliases")


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One size that a drawing may have called for.

    Attributes
    ----------
    nominal : the size itself, with any allowance in it [m].
    written : as a drawing or a list would write it: "3 7/8", "3 7/8 +.001", "1.560", "98 mm", "drill F".
    weight : prior weight, relative within one answer; it does not add up to one.
    standard : kind of size.
    base : the round size that the allowance is counted from [m]; equal to ``nominal`` where there is none.
    source : where the row or the weight comes from.
    """

    nominal: float
    written: str
    weight: float
    standard: Standard
    source: str
    base: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """Which sizes a family of features came in.

    Attributes
    ----------
    fractions : weight of inch fractions by denominator, in lowest terms.
    decimals : weight of multiples of a decimal of an inch.
    millimetres : weight of multiples of a millimetre.
    allowances : what a maker added to the round size, inch, with the share of drawings that did so.
    lists : named lists of sizes (drills, balls, wires) with the weight of each entry.
    """

    name: str
    title: str
    fractions: Mapping[int, float]
    decimals: Mapping[float, float]
    millimetres: Mapping[float, float]
    allowances: Mapping[float, float]
    lists: Mapping[str, float]
    source: str
    aliases: tuple[str, ...] = ()


@cache
def families() -> Mapping[str, Family]:
    """All families of sizes by name."""
    data = table("sizes.toml")
    found = {}
    for name, raw in data["family"].items():
        where = f"sizes.toml [family.{name}]"
        check(raw, where=where, needs=NEEDS, may=MAY)
        found[name] = Family(
            name=name,
            title=raw["title"],
            fractions={int(key): weight for key, weight in raw["fractions"].items()},
            decimals=_weights(raw.get("decimals", data["decimals"])),
            millimetres=_weights(raw.get("millimetres", data["millimetres"])),
            allowances=_weights(raw.get("allowances", {"0": 1.0})),
            lists=raw.get("lists", {}),
            aliases=tuple(raw.get("aliases", ())),
            source=source(raw["source"], where=where).title,
        )
    return found


def _weights(raw: Mapping[str, float]) -> dict[float, float]:
    return {float(key): weight for key, weight in raw.items()}


def family(name: str) -> Family:
    """One family of sizes by its name or an alias; raises ``UnknownName`` with the near ones."""
    every = {alias: each for each in families().values() for alias in (each.name, *each.aliases)}
    try:
        return every[name.strip().lower()]
    except KeyError:
        raise UnknownName("family of sizes", name, every) from None


def sizes(name: str, *, low: float, high: float, standards: Sequence[Standard] = ()) -> list[Size]:
    """Sizes of a family between two lengths, in rising order.

    Parameters
    ----------
    name : the family ("bore", "journal", "pin", "stem", "length", ...).
    low, high : ends of the range [m], both included.
    standards : keep only these kinds of size; none given keeps all.

    A size that comes about in two ways (3 7/8 + .001 and the decimal 3.876) is listed once, under its likelier writing,
    with the weights added. Coarser fractions weigh more; the weights are common practice and are meant to be overruled by
    readings. A range wider than two inches is refused, since nobody can mean it.

    Raises
    ------
    UnknownName
        for a family that is not in the table.
    ValueError
        where the range is empty or wider than two inches.
    """
    if not low <= high:
        raise ValueError(f"Sizes were asked for from {low} m to {high} m; the low end must come first.")
    if high - low > 2 * INCH:
        raise ValueError(f"Sizes were asked for over {high - low:.3f} m; a range may be two inches (0.0508 m) wide at most.")
    merged: dict[int, Size] = {}
    for each in _all(family(name), low, high):
        if each.nominal < low - 1e-12 or each.nominal > high + 1e-12 or (standards and each.standard not in standards):
            continue
        key = round(each.nominal * 1e9)  # one nanometre tells any two sizes of these systems apart
        before = merged.get(key)
        if before is None:
            merged[key] = each
        else:
            likelier = max(before, each, key=lambda size: size.weight)
            merged[key] = replace(likelier, weight=before.weight + each.weight)
    return sorted(merged.values(), key=lambda size: size.nominal)


def _all(kind: Family, low: float, high: float) -> Iterator[Size]:
    yield from _fractions(kind, low, high)
    yield from _decimals(kind, low, high)
    yield from _millimetres(kind, low, high)
    for name, weight in kind.lists.items():
        for each in named_sizes(name):
            yield replace(each, weight=weight)


def _fractions(kind: Family, low: float, high: float) -> Iterator[Size]:
    finest = max(kind.fractions)
    for allowance, share in kind.allowances.items():
        first = math.ceil((low / INCH - allowance) * finest - 1e-9)
        last = math.floor((high / INCH - allowance) * finest + 1e-9)
        for count in range(max(first, 1), last + 1):
            value = Fraction(count, finest)
            weight = kind.fractions.get(value.denominator)
            if weight is None:
                continue
            base = float(value) * INCH
            sign = f" {_thou(allowance)}" if allowance else ""
            yield Size(
                nominal=base + allowance * INCH,
                written=written_fraction(value) + sign,
                weight=weight * share,
                standard="inch fraction",
                source=kind.source,
                base=base,
            )


def _thou(allowance: float) -> str:
    return f"{'+' if allowance > 0 else '−'}{abs(allowance):.4f}".replace("0.", ".").rstrip("0").ljust(5, "0")


def written_fraction(value: Fraction) -> str:
    """A fraction as the trade writes it: 3 7/8, 5, 1/2."""
    whole, rest = divmod(value.numerator, value.denominator)
    part = f"{rest}/{value.denominator}" if rest else ""
    return " ".join(filter(None, (str(whole) if whole or not part else "", part)))


def _decimals(kind: Family, low: float, high: float) -> Iterator[Size]:
    for count, step, weight in _multiples(kind.decimals, low / INCH, high / INCH):
        value = count * step
        yield Size(
            nominal=value * INCH,
            written=f"{value:.3f}".removeprefix("0"),
            weight=weight,
            standard="inch decimal",
            source=kind.source,
            base=value * INCH,
        )


def _millimetres(kind: Family, low: float, high: float) -> Iterator[Size]:
    for count, step, weight in _multiples(kind.millimetres, low * 1e3, high * 1e3):
        value = count * step
        yield Size(
            nominal=value * 1e-3,
            written=f"{value:g} mm",
            weight=weight,
            standard="millimetre",
            source=kind.source,
            base=value * 1e-3,
        )


def _multiples(steps: Mapping[float, float], low: float, high: float) -> Iterator[tuple[int, float, float]]:
    """Every multiple of each step within the range, at its coarsest step only."""
    done: set[int] = set()
    for step in sorted(steps, reverse=True):
        for count in range(max(math.ceil(low / step - 1e-9), 1), math.floor(high / step + 1e-9) + 1):
            key = round(count * step * 1e6)
            if key not in done:
                done.add(key)
                yield count, step, steps[step]


@cache
def named_sizes(name: str) -> tuple[Size, ...]:
    """A list of sizes that go by a number or a letter: "number drills", "letter drills", "bearing balls", ...

    Raises ``UnknownName`` for a list that is not in the table.
    """
    lists = table("drills_wires_balls.toml")
    if name not in lists:
        raise UnknownName("list of sizes", name, lists)
    raw: Mapping[str, Any] = lists[name]
    where = f"drills_wires_balls.toml [{name}]"
    check(raw, where=where, needs=("standard", "prefix", "sizes", "source"), may=("memory",))
    title = source(raw["source"], where=where).title
    memory = raw.get("memory", ())
    return tuple(
        Size(
            nominal=inch * INCH,
            written=f"{raw['prefix']} {mark}".strip(),
            weight=1.0,
            standard=raw["standard"],
            source=f"{title} (from memory)" if memory == "all" or mark in memory else title,
            base=inch * INCH,
        )
        for mark, inch in raw["sizes"].items()
    )
