"""Sizes as people write them, units, amounts and draws. The ground floor: it stands on nothing else of ours.

``draws`` and ``propagate`` need numpy and are imported by name where they are used.
"""

from gudgeon.quantity.amount import Amount, Said, UnitChoice
from gudgeon.quantity.show import UnknownDimension, say, show, show_in, show_interval, written_size
from gudgeon.quantity.understood import NotUnderstood, Understood, understand
from gudgeon.quantity.units import UnknownUnit, dimension_of, from_si, to_si, unit_named

__all__ = [
    "Amount",
    "NotUnderstood",
    "Said",
    "Understood",
    "UnitChoice",
    "UnknownDimension",
    "UnknownUnit",
    "dimension_of",
    "from_si",
    "say",
    "show",
    "show_in",
    "show_interval",
    "to_si",
    "understand",
    "unit_named",
    "written_size",
]
