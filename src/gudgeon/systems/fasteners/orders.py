"""Orders for screws, threaded bushes, balls and keys."""

from __future__ import annotations

from collections.abc import Sequence

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, OrderDraft, OrderLine
from gudgeon.engine.remedy import Need
from gudgeon.engine.sketching import pin_view
from gudgeon.engine.verdict import Verdict
from gudgeon.systems.drafting import Limits, asked_for, asked_size, band, both, reading_need, readings_behind
from gudgeon.systems.fasteners import description as d
from gudgeon.systems.fasteners.screws import Screw, written
from gudgeon.systems.fasteners.store import Store
from gudgeon.systems.fasteners.ways import (
    BALLS,
    BALLS_BOUGHT,
    HOLE_MENDED,
    KEY_MADE,
    KEYS,
    SCREW_MADE,
    SCREWS,
    told_apart,
)
from gudgeon.systems.proposing import warned

BELOW = (0.004 * d.INCH, 0.001 * d.INCH)
"""How far a screw's crests stand below the standard diameter [m]; common practice, a free fit."""
OVER = (0.002 * d.INCH, 0.006 * d.INCH)
"""How much over the keyway a key is made, to be filed to it [m]; common practice."""
TWO_TO_LOSE = 2


def orders(bench: Bench, verdict: Verdict) -> tuple[OrderDraft, ...]:
    """The orders of a verdict of this system; none for another's, or where nothing is bought or made."""
    store = Store.of(bench)
    drafts: tuple[OrderDraft | None, ...] = ()
    if verdict.subject == SCREWS:
        drafts = (_bushes(store, verdict), _screws(store, verdict))
    elif verdict.subject == BALLS:
        drafts = (_balls(store, verdict),)
    elif verdict.subject == KEYS:
        drafts = (_keys(store, verdict),)
    return tuple(draft for draft in drafts if draft is not None)


def _draft(store: Store, verdict: Verdict, items: Sequence[str], **more: object) -> OrderDraft:
    parts = (*d.THREADED, "ball", "key")
    return OrderDraft(
        system=d.KEY,
        verdict=verdict.id,
        rests_on=readings_behind(store.bench, items, parts),
        **more,  # type: ignore[arg-type]
    )


def _of(store: Store, items: Sequence[str]) -> tuple[Screw, ...]:
    return tuple(screw for screw in store.screws if screw.item in items and screw.thread is not None)


def _screws(store: Store, verdict: Verdict) -> OrderDraft | None:
    wanted = _of(store, tuple(asked_for(verdict, "new screw")))
    if not wanted:
        return None
    lines, asked, drawn, needs = [], list[AskedSize](), list[Drawing](), list[Need]()
    for screw in wanted:
        thread = screw.thread
        assert thread is not None
        limits = (thread.major - BELOW[0], thread.major - BELOW[1])
        length = screw.size("length")
        detail = (
            ("thread", f"{written(screw)}, {thread.per_inch:g} to the inch, {thread.flank_angle:g}°"),
            ("over the crests", band(limits)),
            ("length over all", both(length.value) if length else "not read yet"),
            ("strength", screw.words("grade") or "as SAE grade 2 or better; softer than what it screws into does no harm"),
            ("head, ends and finish", "as the old one, which goes with the order"),
        )
        lines.append(OrderLine(1, f"{screw.item}, {written(screw)}", "steel", detail))
        feature = d.THREAD[screw.part]["outside diameter"]
        asked.append(asked_size(feature, screw.item, limits, note="over the crests"))
        if length is not None:
            drawn.append(_drawing(screw, limits, length.value))
        needs += [
            told_apart(screw),
            reading_need(screw.reader, d.THREAD[screw.part]["length"], screw.item, why="a screw is made to its length"),
        ]
    return _draft(
        store,
        verdict,
        [screw.item for screw in wanted],
        key=f"{d.KEY}/screws",
        title="Screws and studs to the old thread",
        to="turner",
        lines=tuple(lines),
        asked=tuple(asked),
        drawings=tuple(drawn),
        needs=tuple(needs),
        leave_alone=("The old screws: they go with the order as patterns and come back.",),
        priced=SCREW_MADE,
    )


def _drawing(screw: Screw, limits: Limits, length: float) -> Drawing:
    return Drawing(
        number="".join(char for char in screw.item if char.isdigit()) or "1",
        title=f"Screw, {screw.item}",
        part=screw.part,
        item=screw.item,
        material="steel",
        finish="as the old one",
        views=(pin_view(diameter=limits, length=(length, length), title="Screw, over its crests"),),
        notes=(f"Thread {written(screw)}. Head and plain part as the old one, which goes with the sheet.",),
        job=screw.reader.bench.snapshot.outline.name,
    )


def _bushes(store: Store, verdict: Verdict) -> OrderDraft | None:
    wanted = _of(store, tuple(asked_for(verdict, "bushed")))
    if not wanted:
        return None
    lines = []
    needs = list[Need]()
    for screw in wanted:
        thread = screw.thread
        assert thread is not None
        engaged = screw.size("engaged length")
        out = thread.major + 2 * max(0.0625 * d.INCH, 1.5 * thread.pitch)
        lines.append(
            OrderLine(
                1,
                f"bush the hole of {screw.item} back to {written(screw)}",
                "steel bush in the casting",
                (
                    ("bush outside", f"about {both(out)}, a fine thread, screwed in with sealant and pinned"),
                    ("inside", written(screw)),
                    ("length", both(engaged.value) if engaged else "as the old thread; not read yet"),
                    ("square to", "the face, by a bush in the jig"),
                    ("beside it", "sound the metal to any water or oil space before drilling"),
                ),
            )
        )
        needs += [
            told_apart(screw),
            reading_need(
                screw.reader, d.THREAD[screw.part]["engaged length"], screw.item, why="the bush is as long as the old thread"
            ),
        ]
    return _draft(
        store,
        verdict,
        [screw.item for screw in wanted],
        key=f"{d.KEY}/bushed-holes",
        title="Holes bushed back to their thread",
        to="machine shop",
        lines=tuple(lines),
        asked=(),
        needs=tuple(needs),
        leave_alone=("Faces and every other hole.",),
        cautions=warned("boring"),
        priced=HOLE_MENDED,
    )


def _balls(store: Store, verdict: Verdict) -> OrderDraft | None:
    sizes, counts = asked_for(verdict, "ball"), asked_for(verdict, "count")
    if not sizes:
        return None
    lines, needs = [], list[Need]()
    for item, size in sizes.items():
        count = round(counts.get(item, 0.0))
        lines.append(
            OrderLine(
                count + TWO_TO_LOSE if count else 1,
                f"balls for {item}, {both(size)}",
                "hardened chrome steel",
                (
                    ("grade", "100 or finer, all of one lot: alike within .0002 in (0.005 mm)"),
                    ("count", f"{count} to a full ring and {TWO_TO_LOSE} to lose" if count else "not counted yet"),
                ),
            )
        )
        needs.append(reading_need(store.reader, d.BALL["ball count"], item, why="a full ring is ordered"))
    return _draft(
        store,
        verdict,
        tuple(sizes),
        key=f"{d.KEY}/balls",
        title="Loose balls",
        to="bearing supplier",
        lines=tuple(lines),
        asked=tuple(
            asked_size(d.BALL["diameter"], item, (size - 0.0001 * d.INCH, size + 0.0001 * d.INCH), note="several of the lot")
            for item, size in sizes.items()
        ),
        needs=tuple(needs),
        priced=BALLS_BOUGHT,
    )


def _keys(store: Store, verdict: Verdict) -> OrderDraft | None:
    widths = asked_for(verdict, "width")
    keys = {key.item: key for key in store.keys if key.item in widths}
    if not keys:
        return None
    lines, asked, needs = [], list[AskedSize](), list[Need]()
    for item, key in keys.items():
        trued = [
            spot.value
            for stage in ("fitted", "returned")
            for name in ("keyway width in shaft", "keyway width in hub")
            for spot in store.reader.spots(d.KEYS[name], item, stage=stage)
        ]
        keyway = max(trued, default=widths[item])
        limits = (keyway + OVER[0], keyway + OVER[1])
        thick, thin, length = (key.size(name) for name in ("thickness", "thickness at small end", "length"))
        taper = thick is not None and thin is not None and thick.value - thin.value > 0.002 * d.INCH
        detail = (
            ("width", f"{band(limits)}, to be filed to the keyway"),
            ("thickness", f"{both(thick.value + OVER[1])} at the thick end, to be filed" if thick else "not read yet"),
            ("taper", "1 in 96 (⅛ in a foot), or as the old key" if taper else "none, or as the old key"),
            ("length", both(length.value) if length else "not read yet"),
            ("head", "as the old key: a gib head is drawn out, a plain one driven from behind"),
        )
        lines.append(OrderLine(1, item, "key steel, .40 carbon, soft", detail))
        asked.append(asked_size(d.KEYS["width"], item, limits))
        needs += [
            Need(
                kind="work",
                what=f"{item}: both keyways trued and read",
                met=bool(trued),
                why="the key is made to the trued keyway",
                part="key",
                item=item,
                feature="keyway width in hub",
            ),
            *(
                reading_need(store.reader, d.KEYS[name], item, why="a key is made from its sheet")
                for name in ("length", "thickness")
            ),
        ]
    return _draft(
        store,
        verdict,
        tuple(keys),
        key=f"{d.KEY}/keys",
        title="Keys",
        to="turner and fitter",
        lines=tuple(lines),
        asked=tuple(asked),
        needs=tuple(needs),
        leave_alone=("The old keys: patterns for head and taper.",),
        cautions=warned("flywheel work"),
        priced=KEY_MADE,
    )
