"""Outwork: orders and shop drawings that go to a shop, and the inspection of what comes back."""

from gudgeon.engine.drawing import DrawingFault
from gudgeon.outwork.dxf import drawing_dxf
from gudgeon.outwork.inspection import OrderOutcome, decide_order, inspect
from gudgeon.outwork.order_paper import order_pdf
from gudgeon.outwork.print_drawing import drawing_pdf
from gudgeon.outwork.svg import drawing_svg

__all__ = ["DrawingFault", "OrderOutcome", "decide_order", "drawing_dxf", "drawing_pdf", "drawing_svg", "inspect", "order_pdf"]
