"""Measure the reconstruction on the simulated engines; write docs/reconstruction_calibration.md and its diagram.

Run from the project's folder: ``python docs/make_reliability.py``. About half a minute.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from tests.simulated import ceiling, score  # noqa: E402
from tests.simulated.engines import Engine, all_engines  # noqa: E402

SIDE, EDGE = 460.0, 64.0
BLUE, INK, PAPER = "#1f4e8c", "#1c1a17", "#f7f3ea"


def diagram(bins: Sequence[score.Bin]) -> str:
    """The reliability diagram: probability stated along, share that came true up, bars of one standard error."""
    width = SIDE + 2 * EDGE
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {width:.0f}" '
        'font-family="Helvetica, Arial, sans-serif" font-size="14" role="img">',
        "<title>Probability stated of a size against the share that was right</title>",
        f'<rect width="100%" height="100%" fill="{PAPER}"/>',
        f'<rect x="{EDGE}" y="{EDGE}" width="{SIDE}" height="{SIDE}" fill="none" stroke="{INK}"/>',
        f'<path d="M{_x(0)} {_y(0)}L{_x(1)} {_y(1)}" stroke="{INK}" stroke-dasharray="5 4"/>',
    ]
    for tenth in range(0, 11, 2):
        at = tenth / 10
        parts.append(f'<text x="{_x(at)}" y="{_y(0) + 20}" text-anchor="middle" fill="{INK}">{at:.1f}</text>')
        parts.append(f'<text x="{EDGE - 8}" y="{_y(at) + 5}" text-anchor="end" fill="{INK}">{at:.1f}</text>')
    for one in bins:
        low, high = max(0.0, one.right - one.error), min(1.0, one.right + one.error)
        parts.append(f'<path d="M{_x(one.said)} {_y(low)}V{_y(high)}" stroke="{BLUE}" stroke-width="2"/>')
        parts.append(f'<circle cx="{_x(one.said)}" cy="{_y(one.right)}" r="5" fill="{BLUE}"/>')
        beside = f'x="{_x(one.said) + 8:.1f}" y="{_y(one.right) + 17:.1f}" font-size="12"'
        parts.append(f'<text {beside} fill="{INK}">{one.count}</text>')
    parts.append(f'<text x="{_x(0.5)}" y="{_y(0) + 44}" text-anchor="middle" fill="{INK}">probability stated</text>')
    parts.append(f'<text x="{EDGE}" y="{EDGE - 14}" fill="{INK}">share right</text>')
    return "\n".join([*parts, "</svg>", ""])


def _x(share: float) -> float:
    return round(EDGE + share * SIDE, 1)


def _y(share: float) -> float:
    return round(EDGE + (1 - share) * SIDE, 1)


def page(engines: Sequence[Engine], judged: Sequence[score.Judged], doubts: Sequence[score.Doubts]) -> str:
    """The page with the measured figures."""
    best = ceiling.best_share(engines)
    reachable = sum(right for right, _ in best.values()) / sum(every for _, every in best.values())
    slips, found = sum(one.slips for one in doubts), sum(one.found for one in doubts)
    readings, false = sum(one.readings for one in doubts), sum(one.false for one in doubts)
    right = f"{score.right_share(judged):.3f}"
    held = f"{score.covered_share(judged):.3f}"
    tame = [one for one in judged if not engines[one.engine].maker.wild]
    return f"""# How far the reconstruction can be trusted

Measured on {len(engines)} simulated worn engines with {len(judged)} features and {readings} readings (`tests/simulated/`).
They were written from how makers of 1900 to 1930 dimensioned their engines and how engines wear, and from nothing in the
program. This page and its diagram are written by `python docs/make_reliability.py`.

| demand | wanted | measured |
|---|---|---|
| nominal right (within .0005 in; counts and pitches exact), two pieces or an unworn place read | .98 | {right} |
| the same without the engines meant to be outlandish | | {score.right_share(tame):.3f} |
| 90 % intervals that hold what the piece measured when new or last re-sized | .87 to .93 | {held} |
| misreadings that were asked about | | {found} of {slips} |
| readings asked about that were right | | {false} of {readings} |

![Probability stated of a size against the share that was right](pictures/reliability.svg)

The figure beside each dot is the number of features; the bar is one standard error, pieces of one size in one engine
counted as one.

| stated | features | mean stated | share right |
|---|---|---|---|
{_bin_rows(score.reliability(judged))}

## By family

“At best” is what one could reach who knew the true size of every piece when new, this maker's habits and the scatter of his
shop, with no gauge and no wear between (`tests/simulated/ceiling.py`): where pieces scatter by a thou and sizes were drawn to
half a thou, nobody can name the size each time. Over those families it comes to {reachable:.3f}.

| family | features | right | left open | at best | intervals hold | middle width, thou |
|---|---|---|---|---|---|---|
{_family_rows(judged, best)}
"""


def _bin_rows(bins: Sequence[score.Bin]) -> str:
    return "\n".join(f"| {one.low:.2f} to {one.high:.2f} | {one.count} | {one.said:.3f} | {one.right:.3f} |" for one in bins)


def _family_rows(judged: Sequence[score.Judged], best: dict[str, tuple[int, int]]) -> str:
    rows = []
    for family, members in score.by_family(judged).items():
        demanded = [one for one in members if one.counts]
        right = f"{score.right_share(demanded):.2f}" if demanded else ""
        silent = f"{sum(one.stated is None for one in demanded) / len(demanded):.2f}" if demanded else ""
        top = f"{best[family][0] / best[family][1]:.2f}" if family in best else ""
        stated = [one for one in members if one.covered is not None]
        held = f"{score.covered_share(stated):.2f}" if stated else ""
        rows.append(f"| {family} | {len(members)} | {right} | {silent} | {top} | {held} | {_width(stated)} |")
    return "\n".join(rows)


def _width(stated: Sequence[score.Judged]) -> str:
    widths = sorted(
        one.said.high - one.said.low
        for one in stated
        if one.said is not None and one.said.low is not None and one.said.high is not None
    )
    return f"{widths[len(widths) // 2] / 25.4e-6:.1f}" if widths else ""


def main() -> None:
    """Measure and write."""
    engines = all_engines()
    judged: list[score.Judged] = []
    doubts = []
    for engine in engines:
        reckoning = score.reckoned(engine)
        judged += score.judge(engine, reckoning.specifications)
        doubts.append(score.doubts(engine, reckoning))
    (HERE / "pictures").mkdir(exist_ok=True)
    (HERE / "pictures" / "reliability.svg").write_text(diagram(score.reliability(judged)), encoding="utf-8")
    (HERE / "reconstruction_calibration.md").write_text(page(engines, judged, doubts), encoding="utf-8")


if __name__ == "__main__":
    main()
