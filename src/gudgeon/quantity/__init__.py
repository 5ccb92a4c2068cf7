"""Sizes as people write them, units, amounts and draws. The ground floor: it stands on nothing else of ours."""

from gudgeon.quantity.amount import Amount, Said, UnitChoice
from gudgeon.quantity.understood import NotUnderstood, Understood, understand

__all__ = ["Amount", "NotUnderstood", "Said", "Understood", "UnitChoice", "understand"]
