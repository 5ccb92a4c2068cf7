"""How long a reckoning of a whole engine takes: 600 features, 3,000 readings, 20,000 draws each, on one core.

Beside it, a general-purpose uncertainty library on the same model: every spot's corrected size as the mean of its repeats less
the gauge's offset, brought to 20 degree C, and every instance's largest and least size from its spots.

    python benchmarks/reckon_engine.py

Import and warming up are reported apart. Times are processor seconds of this process.
"""

from __future__ import annotations

import os
import time

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

SORTS = (
    # part, item, feature, instances, stations, directions, size, wear at each station, gauge, step
    (
        "cylinder",
        "cyl {}",
        "bore diameter",
        12,
        ("1", "2", "3", "below ring travel"),
        (0, 90),
        4.125,
        "adds",
        "dial_bore_gauge",
    ),
    ("piston", "piston {}", "skirt diameter", 12, ("skirt bottom",), (0, 90), 4.118, "takes", "outside_mic"),
    ("crankpin", "crankpin {}", "journal diameter", 12, ("A", "B"), (0, 90), 1.75, "takes", "outside_mic"),
    ("main", "main {}", "journal diameter", 13, ("A", "B", "C"), (0, 90), 2.0, "takes", "outside_mic"),
    ("pin", "pin {}", "diameter", 12, ("boss end", "rod"), (0, 90), 1.0, "takes", "outside_mic"),
    ("pin", "rod bush {}", "bush bore", 12, ("",), (0, 90), 1.001, "adds", "telescoping_gauge"),
)
FEATURES, READINGS = 600, 3000


def rows() -> list[dict[str, str]]:
    """A generated job: the sorts above, and numbered other shafts and holes until there are enough features."""
    import numpy as np

    chance = np.random.default_rng(1907)
    plan = [
        (part, item.format(n + 1), *rest)
        for part, item, feature, count, *tail in SORTS
        for rest in [(feature, *tail)]
        for n in range(count)
    ]
    number = 0
    while len(plan) < FEATURES:
        number += 1
        size = float(chance.integers(8, 48)) / 16
        for side in range(1, 5):
            wear = "takes" if number % 2 else "adds"
            feature = f"shaft {number} diameter" if wear == "takes" else f"bush {number} bore"
            plan.append(
                (
                    "linkage",
                    f"lever {side}",
                    feature,
                    ("", "worn"),
                    (0, 90),
                    size,
                    wear,
                    "outside_mic" if wear == "takes" else "telescoping_gauge",
                )
            )
    plan = plan[:FEATURES]
    found: list[dict[str, str]] = []
    for part, item, feature, stations, directions, size, wear, gauge in plan:
        greatest = float(np.exp(chance.normal(np.log(0.003), 0.5)))
        new = size + chance.normal(0, 0.0003)
        for place, station in enumerate(stations):
            share = 0.0 if station in ("below ring travel", "boss end") else 1 / (place + 1)
            for direction in directions:
                worn = greatest * share * (0.5 + 0.5 * direction / 90)
                true = new + (worn if wear == "adds" else -worn)
                found.append(_row(part, item, feature, station, direction, true + chance.normal(0, 0.0002), gauge, 1))
    while len(found) < READINGS:
        again = dict(found[int(chance.integers(0, len(found)))])
        again["repeat"] = "2"
        again["reading"] = f"{float(again['reading']) + chance.normal(0, 0.0002):.4f}"
        found.append(again)
    return [{**row, "row": str(number)} for number, row in enumerate(found[:READINGS], start=1)]


def _row(
    part: str, item: str, feature: str, station: str, direction: int, size: float, gauge: str, repeat: int
) -> dict[str, str]:
    return {
        "part": part, "item": item, "feature": feature, "station": station, "depth": "", "direction_deg": str(direction),
        "reading": f"{size:.4f}", "unit": "in", "instrument": gauge, "resolution": "0.0001", "repeat": str(repeat),
        "part_temp_c": "18", "note": "",
    }  # fmt: skip


def history(bodies: list[dict[str, str]]) -> list[object]:
    """The rows as a sealed history."""
    from gudgeon.engine.history import FIRST, sealed
    from gudgeon.engine.outline import Outline
    from gudgeon.engine.plain import to_plain

    at = "2026-01-05T09:00:00+00:00"
    first = {"outline": to_plain(Outline(name="benchmark", cylinders=12)), "format": 1}
    entries = [sealed(seq=1, id="job", kind="job", body=first, person="bench", at=at, previous=FIRST)]
    for body in bodies:
        entries.append(
            sealed(
                seq=len(entries) + 1,
                id=f"reading-{len(entries)}",
                kind="reading",
                body=body,
                person="bench",
                at=at,
                previous=entries[-1].digest,
            )
        )
    return list(entries)


def peer(weighed: object) -> float:
    """The same model with a general-purpose uncertainty library; seconds."""
    import uncertainties
    from uncertainties import umath

    del umath
    start = time.process_time()
    offsets: dict[str, object] = {}
    total = 0.0
    for spots in weighed.estimates.values():  # type: ignore[attr-defined]
        sizes = []
        for each in spots:
            offset = offsets.setdefault(each.gauge, uncertainties.ufloat(0.0, max(each.shared, 1e-12)))
            warm = uncertainties.ufloat(0.0, 1.0)
            sizes.append(uncertainties.ufloat(each.value, max(each.own, 1e-12)) * (1 + 11.5e-6 * warm) - offset)
        widest, least = max(sizes, key=lambda size: size.nominal_value), min(sizes, key=lambda size: size.nominal_value)
        total += (widest - least).std_dev + (sum(sizes) / len(sizes)).std_dev
    assert total > 0
    return time.process_time() - start


def main() -> None:
    start = time.process_time()
    from gudgeon.engine.fold import Fold
    from gudgeon.metrology import weigh
    from gudgeon.reckoning import reckon_with_bench
    from gudgeon.reckoning.reckon import feature_index
    from gudgeon.systems import ALL

    first = history(rows()[:200])
    small = Fold().feed(first).snapshot()
    reckon_with_bench(small, ())
    print(f"import and warming up           {time.process_time() - start:7.3f} s")
    entries = history(rows())
    for name, systems in (("readings, manual and draws", ()), ("with all systems", ALL)):
        fold = Fold().feed(entries[:-1])
        snapshot = fold.snapshot()
        start = time.process_time()
        reckoning, bench = reckon_with_bench(snapshot, systems)
        for key, spots in bench.estimates.items():
            bench.original(key)
            bench.spot(spots[0])
        cold = time.process_time() - start
        newer = fold.feed(entries[-1:]).snapshot()
        start = time.process_time()
        reckon_with_bench(newer, systems, previous=reckoning)
        again = time.process_time() - start
        print(f"{name:31s} {cold:7.3f} s cold, {again:7.3f} s after one new reading; {len(bench.estimates)} features")
    weighed = weigh(snapshot, feature_index(()))
    start = time.process_time()
    from gudgeon.quantity.draws import standard_normal

    for count, key in enumerate(weighed.estimates):
        standard_normal("peer", count, str(key), count=20_000)
    print(f"floor: 600 x 20,000 normal draws {time.process_time() - start:6.3f} s")
    other = peer(weighed)
    start = time.process_time()
    weigh(snapshot, feature_index(()))
    own = time.process_time() - start
    print(
        f"uncertainties on the same model {other:7.3f} s, our weighing of the readings {own:7.3f} s (ratio {other / own:.1f})"
    )


if __name__ == "__main__":
    main()
