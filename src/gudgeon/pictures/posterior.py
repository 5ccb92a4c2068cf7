"""Which size the drawing called for: the candidates with their chances."""

from __future__ import annotations

from gudgeon.engine.picture import SizePosterior
from gudgeon.pictures.lettering import width_of
from gudgeon.pictures.svg import box, picture, words
from gudgeon.quantity import Amount, UnitChoice, show

WIDTH, ROW, MOST = 380.0, 26.0, 8


def draw_posterior(sizes: SizePosterior, *, units: UnitChoice) -> str:
    """One bar a candidate, likeliest first, its size as it would have been written, its chance in words."""
    rows = sorted(sizes.candidates, key=lambda row: -row[2])[:MOST]
    names = [written or show(Amount(size, "length"), units) for size, written, _ in rows]
    left = max([width_of(name, 13, bold=True) for name in names] + [40.0]) + 14
    right = WIDTH - 92
    body = []
    for n, ((_, _, chance), name) in enumerate(zip(rows, names, strict=True)):
        y = 10 + n * ROW
        body.append(words((left - 8, y + 14), name, "pic-name" if not n else "pic-text", anchor="end", size=13))
        body.append(
            box((left, y + 2), (left + max(1.5, (right - left) * chance), y + 18), "pic-bar" if not n else "pic-bar-other")
        )
        body.append(words((right + 6, y + 14), show(Amount(chance, "probability"), units), "pic-note", size=12))
    height = 14 + ROW * len(rows)
    if sizes.readings:
        span = [show(Amount(size, "length"), units) for size in (min(sizes.readings), max(sizes.readings))]
        text = f"unworn places read {span[0]}" if span[0] == span[1] else f"readings from {span[0]} to {span[1]}"
        body.append(words((6, height + 14), text, "pic-note", size=12))
        height += 22
    return picture(width=WIDTH, height=height, title=sizes.title, body="".join(body))
