"""An estimate: a value with its uncertainty, from all readings of one spot."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.place import FeatureKey, Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What the readings of one spot say, at 20 degree C and with the gauges' offsets taken out.

    Attributes
    ----------
    value : best estimate [SI].
    uncertainty : standard uncertainty [SI] (GUM, JCGM 100:2008), all components.
    own : the part of it that is not shared with other spots read by the same gauge [SI].
    freedom : effective degrees of freedom (Welch-Satterthwaite); ``inf`` where a type B component dominates.
    low, high : 90 % coverage interval [SI].
    gauge : name of the gauge offset shared with other estimates ("" for none); draws of it are common to all of them.
    shared : standard uncertainty of that shared offset [SI].
    readings : identities of the readings used.
    budget : one line per uncertainty component: its name, its standard uncertainty [SI], its source.
    interval : True where the readings only bracket the size (feelers, gauging strip).
    """

    place: Place
    dimension: str
    value: float
    uncertainty: float
    own: float
    freedom: float
    low: float
    high: float
    gauge: str = ""
    shared: float = 0.0
    readings: tuple[str, ...] = ()
    budget: tuple[tuple[str, float, str], ...] = ()
    interval: bool = False

    @property
    def key(self) -> FeatureKey:
        """The feature estimated."""
        return self.place.key
