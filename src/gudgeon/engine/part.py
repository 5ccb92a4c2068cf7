"""Parts: the kinds that a system knows, and what was noted of a real one at teardown."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from gudgeon.engine.outline import Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class PartKind:
    """A kind of part. ``count`` says how many the outline leads one to expect (None where it cannot tell);
    ``item`` names the n-th, counting from one ("cyl 1"). Where one number does not name an instance (several rings to a
    cylinder), ``names`` lists them in full and takes the place of ``count`` and ``item``."""

    kind: str
    title: str
    count: Callable[[Outline], int | None]
    item: str
    material: str = "grey cast iron"
    names: Callable[[Outline], tuple[str, ...]] | None = None

    def items(self, outline: Outline) -> tuple[str, ...]:
        """Names of the instances to expect, in order."""
        if self.names is not None:
            return self.names(outline)
        return tuple(self.item.format(n=n) for n in range(1, (self.count(outline) or 0) + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class PartNote:
    """What was noted of one part at teardown, in the owner's words.

    Attributes
    ----------
    tag : the number on the tag that hangs on it.
    back : the day it was put back (ISO), "" while it is off.
    line : identity of the first note of it; stays the same through all later ones, so that it can stand in an address.
    off : place in the order of taking off: the number of the entry that first noted it.
    """

    id: str
    part: str
    item: str
    tag: int | None = None
    place: str = ""
    orientation: str = ""
    marks: str = ""
    condition: str = ""
    shims: str = ""
    mates: str = ""
    stored: str = ""
    pictures: tuple[str, ...] = ()
    note: str = ""
    person: str = ""
    at: str = ""
    supersedes: str = ""
    back: str = ""
    line: str = ""
    off: int = 0
