from __future__ import annotations

from dataclasses import FrozenInstanceError, dataclass, field

import pytest

from gudgeon.engine.history import Entry
from gudgeon.engine.place import Place
from gudgeon.engine.quick import quick
from gudgeon.engine.reading import Reading
from gudgeon.quantity import Understood


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    number: int
    words: tuple[str, ...] = field(default_factory=tuple)


def test_quick_values_are_like_any_other() -> None:
    place = Place(part="cylinder", item="cyl 1", feature="bore")
    understood = Understood(kind="point", dimension="length", value=0.13)
    slow = Reading(id="r1", place=place, typed="5.118", unit="in", understood=understood, repeat=2)
    made = quick(Reading)(id="r1", place=place, typed="5.118", unit="in", understood=understood, repeat=2)
    assert made == slow
    assert hash(made) == hash(slow)
    assert repr(made) == repr(slow)
    assert type(made) is Reading
    assert made.key == slow.key
    with pytest.raises(FrozenInstanceError):
        made.note = "changed"  # type: ignore[misc]


def test_defaults_and_what_is_missing() -> None:
    assert quick(Tag)(number=7) == Tag(number=7)
    with pytest.raises(TypeError, match="number"):
        quick(Tag)()  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="colour"):
        quick(Entry)(colour="buff")  # type: ignore[call-arg]
