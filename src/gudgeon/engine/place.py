"""Where on an engine a size is: the part, its instance, the feature, and the spot on the feature."""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True, order=True)
class FeatureKey:
    """One feature of one instance of a part: ``cylinder / cyl 2 / bore diameter``.

    The three words are kept exactly as the owner wrote them; systems recognise them, they do not rewrite them.
    """

    part: str
    item: str
    feature: str

    def __str__(self) -> str:
        return f"{self.item} {self.feature}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A spot on a feature.

    Attributes
    ----------
    station : the owner's word for the level ("1", "A", "below ring travel"); may be empty.
    depth : distance from the feature's datum face [m], or None where not stated.
    direction : direction of the measured diameter [degree]; 0 along the crank, 90 across it; None where not stated.
    """

    part: str
    item: str
    feature: str
    station: str = ""
    depth: float | None = None
    direction: float | None = None

    @property
    def key(self) -> FeatureKey:
        """The feature this spot belongs to."""
        return FeatureKey(self.part, self.item, self.feature)

    def without_direction(self) -> Place:
        """The same level, any direction."""
        return replace(self, direction=None)
