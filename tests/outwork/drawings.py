"""Drawings of an invented engine for the tests."""

from gudgeon.engine.drawing import Drawing
from gudgeon.engine.sketching import (
    Groove,
    bored_hole_section,
    pin_view,
    piston_blank,
    plain_bush_section,
    ring_views,
    sleeve_section,
)

IN = 0.0254


def drawing(*views, number="H-01", **more):
    said = {
        "title": "Trial piece",
        "part": "cylinder",
        "item": "cyl 2",
        "material": "grey cast iron",
        "finish": "as turned",
        "job": "Harrow marine engine, Lower Quay",
        "date": "2026-03-14",
        "drawn_by": "the owner",
    }
    return Drawing(number=number, views=views, **{**said, **more})


def size(inches):
    return (inches * IN, inches * IN)


def between(low, high):
    return (low * IN, high * IN)


BORE = between(5.1450, 5.1460)


def sheets():
    """One of every kind of view."""
    groove = [
        Groove(from_crown=x * IN, width=between(0.2505, 0.2510), depth=between(0.19, 0.20)) for x in (0.375, 0.875, 1.375)
    ]
    return {
        "bore": drawing(
            bored_hole_section(
                bore=BORE,
                length=size(9),
                wall=0.5 * IN,
                datum="top face",
                finish="Ra 0.4 to 0.8 µm",
                centre="keep the centre of the unworn\nbore below the ring travel",
            ),
            notes=("Bore square to the base flange.", "Do not touch the stamped number on the flange or the paint round it."),
        ),
        "blind bore": drawing(bored_hole_section(bore=BORE, length=size(9), head=0.6 * IN, datum="base flange")),
        "butt ring": drawing(*ring(joint="butt")),
        "mitre ring": drawing(*ring(joint="mitre"), units="millimetre", projection="first angle"),
        "step ring": drawing(*ring(joint="step")),
        "sleeve": drawing(
            sleeve_section(
                outside=between(5.503, 5.504),
                inside=between(4.98, 4.99),
                length=between(9, 9.01),
                shoulder=(between(5.75, 5.76), between(0.187, 0.188)),
                notes=("press fit", "bore to size after fitting"),
            )
        ),
        "piston": drawing(
            *piston_blank(
                skirt=between(5.135, 5.136),
                length=between(5.5, 5.51),
                lands=between(5.115, 5.118),
                grooves=groove,
                pin=(2.75 * IN, between(1.2490, 1.2495)),
            )
        ),
        "pin and bush": drawing(
            pin_view(diameter=between(1.2485, 1.2488), length=between(4.5, 4.51), bore=between(0.75, 0.76)),
            plain_bush_section(outside=between(1.503, 1.504), inside=between(1.249, 1.2495), length=between(2, 2.01)),
        ),
    }


def ring(*, joint, bore=BORE):
    return ring_views(
        bore=bore, width=between(0.2485, 0.2490), wall=between(0.170, 0.180), gap=between(0.015, 0.020), joint=joint
    )
