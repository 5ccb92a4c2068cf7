"""Sizes that are only bracketed: go and no-go, over, under, between, full and bare."""

from __future__ import annotations

import re

from gudgeon.quantity.meaning import Slip, Understood
from gudgeon.quantity.term import INCH, Term, term
from gudgeon.quantity.units import Unit

_NO_GO = r"(?:no[ -]?go(?:es)?|not ?go|won'?t(?: go)?|will not(?: go)?|does not(?: go)?|doesn'?t(?: go)?|stops|stopped)"
_GO = r"(?:goes(?: in)?|go|enters|passes)"
_JOIN = r"(?:,|;|/| and| but| -)? *"
_BOTH = (
    re.compile(rf"{_GO} (?P<go>.+?){_JOIN}{_NO_GO} (?P<no>.+)"),
    re.compile(rf"{_NO_GO} (?P<no>.+?){_JOIN}{_GO} (?P<go>.+)"),
    re.compile(rf"(?P<go>.+?) {_GO}{_JOIN}(?P<no>[0-9.].*?) {_NO_GO}"),
    re.compile(rf"(?P<no>.+?) {_NO_GO}{_JOIN}(?P<go>[0-9.].*?) {_GO}"),
)
_ONE = (
    (re.compile(rf"(?:{_NO_GO} (?P<a>.+)|(?P<b>.+?) {_NO_GO})"), "high"),
    (re.compile(rf"(?:{_GO} (?P<a>.+)|(?P<b>.+?) {_GO})"), "low"),
    (re.compile(r"(?:over|more than|greater than|larger than|bigger than|above|at least|>=?) ?(?P<a>.+)(?P<b>)"), "low"),
    (re.compile(r"(?:under|less than|smaller than|below|at most|not over|<=?) ?(?P<a>.+)(?P<b>)"), "high"),
    (re.compile(r"(?P<a>.+?) (?:or more|or over|plus|min(?:imum)?|at least)(?P<b>)"), "low"),
    (re.compile(r"(?P<a>.+?) (?:or less|or under|max(?:imum)?|at most)(?P<b>)"), "high"),
)
_BETWEEN = re.compile(r"(?:between|from) (?P<low>.+?) (?:and|to) (?P<high>.+)|(?P<low2>[0-9.].*?) (?:to|\.\.\.?) (?P<high2>.+)")
_DASHED = re.compile(r"(?P<low>[0-9]*\.[0-9]+) ?- ?(?P<high>[0-9]*\.[0-9]+.*)")
_BY_EYE = re.compile(r"(?:(?:a|an) )?(?P<word>full|strong|fat|heavy|bare|scant|shy|light|weak) (?P<size>[0-9.].*)")
_FULL = frozenset({"full", "strong", "fat", "heavy"})


def bracketed(text: str, column: Unit | None) -> Understood | None:
    """The bracket that ``text`` states, or None where it states none. Raises Slip."""
    if found := _BY_EYE.fullmatch(text):
        return _by_eye(found.group("word"), found.group("size"), column)
    for pattern in _BOTH:
        if found := pattern.fullmatch(text):
            return _between(found.group("go"), found.group("no"), column, gauged=True)
    if found := _BETWEEN.fullmatch(text) or _DASHED.fullmatch(text):
        parts = [part for part in found.groups() if part is not None]
        return _between(parts[0], parts[1], column, gauged=False)
    for pattern, end in _ONE:
        if found := pattern.fullmatch(text):
            return at_end(found.group("a") or found.group("b"), end, column, words="")
    return None


def _between(first: str, second: str, column: Unit | None, *, gauged: bool) -> Understood | None:
    after = term(second, column) if column is not None else _lenient(second)
    before = term(first, after.unit if after is not None and after.own else column)
    if after is None or before is None:
        return None
    for each in (before, after):
        _refuse_bare_whole(each)
    low, high = sorted((before, after), key=lambda each: each.value)
    if low.value == high.value:
        raise Slip("has the same size at both ends", "two sizes, as in go .003 no-go .004, would be right")
    if not gauged and low is not before:
        raise Slip("has its larger end first", f"{high.shown} and {low.shown} the other way round would be right")
    return Understood(
        kind="interval", dimension=low.unit.dimension, value=(low.value + high.value) / 2, low=low.value, high=high.value,
        step=min(low.step, high.step), words=low.unit.datum, echo=_echo(low, high),
    )  # fmt: skip


def _lenient(text: str) -> Term | None:
    return term(text, None)


def _echo(low: Term, high: Term) -> str:
    own = "" if low.unit is high.unit else low.unit.after
    return f"between {low.shown}{own} and {high.shown}{high.unit.after}"


def _refuse_bare_whole(each: Term) -> None:
    """ "go 3" is meant in thou by one person and would be three inches to another."""
    if each.unit.symbol == "in" and each.form == "whole" and not each.own:
        raise Slip(f"has a whole {each.shown} in an inch column", f"{each.shown} thou or {each.shown}.000 would be right")


def at_end(text: str, end: str, column: Unit | None, *, words: str) -> Understood | None:
    """A bracket with one end only: "over .010"."""
    limit = term(text, column)
    if limit is None:
        return None
    _refuse_bare_whole(limit)
    low, high = (limit.value, None) if end == "low" else (None, limit.value)
    echo = f"{'over' if end == 'low' else 'under'} {limit.shown}{limit.unit.after}"
    return Understood(
        kind="interval", dimension=limit.unit.dimension, low=low, high=high, step=limit.step, words=words or limit.unit.datum,
        echo=f"{echo} ({words})" if words else echo,
    )  # fmt: skip


def _by_eye(word: str, size: str, column: Unit | None) -> Understood | None:
    """ "full 1/4" lies somewhere between the line and the next one on the rule: 1/64 in, or half a millimetre.

    The finest lines on a common steel rule of the time; common practice. A size in finer parts keeps its own step.
    """
    line = term(size, column)
    if line is None or line.unit.dimension != "length":
        return None
    apart = min(0.0005 if line.unit.metric else INCH.factor / 64, line.step)
    low, high = (line.value, line.value + apart) if word in _FULL else (line.value - apart, line.value)
    how = "over" if word in _FULL else "under"
    return Understood(
        kind="interval", dimension="length", value=(low + high) / 2, low=low, high=high, step=apart, words=word,
        echo=f"{word} {line.shown}{line.unit.after} (a little {how}, by eye)",
    )  # fmt: skip
