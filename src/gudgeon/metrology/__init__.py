"""Gauges and their uncertainty; readings of bores, journals, gears and gaps turned into estimates."""

from gudgeon.metrology.weigh import Weighed, weigh

__all__ = ["Weighed", "weigh"]
