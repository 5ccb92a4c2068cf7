"""The steps of each remedy in their order, what each waits for, and its hours at the bench."""

from __future__ import annotations

from gudgeon.engine.caution import Caution
from gudgeon.engine.origin import Range
from gudgeon.engine.step import StepDraft
from gudgeon.handbook.cautions import cautions
from gudgeon.systems.cylinders.block import Block
from gudgeon.systems.cylinders.choices import Option
from gudgeon.systems.cylinders.description import KEY

OWN = "common practice, a home shop; from memory"

BORE, HONE, SLEEVE, PISTON, RING = (
    "bore a cylinder",
    "hone a cylinder",
    "sleeve fitted and bored",
    "piston made",
    "ring made",
)


def warned(*works: str) -> tuple[Caution, ...]:
    """The cautions of some kinds of work, each once."""
    rows = [row for work in works for row in cautions(work)]
    return tuple(dict.fromkeys(Caution(hazard=row.hazard, say=row.say, source=row.source) for row in rows))


def _hours(low: float, likely: float, high: float, each: int = 1) -> Range:
    return Range(low * each, likely * each, high * each, OWN)


def steps(option: Option, block: Block) -> tuple[StepDraft, ...]:
    """All steps of a remedy, from the test of the castings to rings in their grooves."""
    if option.name == "run-on":
        return _run_on(len(block.items))
    if option.name == "hone":
        return _hone(len(block.items))
    return _cut(option, block)


def _step(
    name: str,
    title: str,
    *,
    hours: Range | None = None,
    shop: str = "",
    after: tuple[str, ...] = (),
    hold: str = "",
    may_fail: Range | None = None,
    works: tuple[str, ...] = (),
) -> StepDraft:
    return StepDraft(
        key=f"{KEY}/{name}",
        title=title,
        system=KEY,
        hours=hours,
        shop=shop,
        after=tuple(f"{KEY}/{each}" for each in after),
        hold=hold,
        may_fail=may_fail,
        cautions=warned(*works),
    )


def _run_on(count: int) -> tuple[StepDraft, ...]:
    return (
        _step("ridge", "Cut the ridges and clean the bores", hours=_hours(0.5, 1, 2, count)),
        _step(
            "clean-pistons",
            "Clean pistons and grooves, look for cracks, free the rings",
            hours=_hours(1, 1.5, 3, count),
            after=("ridge",),
            works=("ring fitting",),
        ),
    )


def _hone(count: int) -> tuple[StepDraft, ...]:
    return (
        _leak_test(count),
        _step("ridge", "Cut the ridges", hours=_hours(0.5, 1, 2, count)),
        _step("hone", "Hone at the shop", shop=HONE, after=("leak-test", "ridge"), works=("honing",)),
        _read_bores(count, after="hone", what="the honed bores"),
        *_grooves_and_rings(count, bore_read="read-bores"),
    )


def _cut(option: Option, block: Block) -> tuple[StepDraft, ...]:
    count, sleeved = len(block.items), option.choice.sleeved
    found = [
        _leak_test(count),
        _step("sound-walls", "Sound the walls right round", hours=_hours(0.3, 0.5, 1, count)),
    ]
    before = ("leak-test", "sound-walls")
    if sleeved:
        found.append(
            _step(
                "sleeve",
                f"Sleeve {', '.join(sleeved)} at the shop and bore",
                shop=SLEEVE,
                after=before,
                may_fail=Range(0.02, 0.05, 0.12, OWN),
                works=("sleeve fitting",),
            )
        )
    if len(sleeved) < count:
        found.append(
            _step(
                "bore",
                "Bore at the shop, each on its own centre",
                shop=BORE,
                after=before,
                works=("boring",),
                may_fail=Range(0.01, 0.03, 0.08, OWN),
            )
        )
    last = tuple(name for name, there in (("sleeve", bool(sleeved)), ("bore", len(sleeved) < count)) if there)
    found.append(_read_bores(count, after=last[0], what="the finished bores", also=last[1:]))
    if len(option.choice.old_pistons) < count:
        found.append(_step("pistons", "Pistons turned to the holes", shop=PISTON, after=("read-bores",)))
        found.append(
            _step(
                "read-pistons",
                "Inspect the pistons in: skirts, lands, grooves",
                hours=_hours(0.3, 0.5, 1, count),
                after=("pistons",),
                hold="skirt and groove width of every piston read and accepted",
            )
        )
        return (*found, *_grooves_and_rings(count, bore_read="read-bores", pistons="read-pistons"))
    return (*found, *_grooves_and_rings(count, bore_read="read-bores"))


def _leak_test(count: int) -> StepDraft:
    return _step(
        "leak-test",
        "Look for cracks and test the jackets with water",
        hours=_hours(0.5, 1, 2, count),
        hold="jackets seen tight before money goes into the castings",
        works=("pressure test",),
    )


def _read_bores(count: int, *, after: str, what: str, also: tuple[str, ...] = ()) -> StepDraft:
    return _step(
        "read-bores",
        f"Inspect in: read {what} at three levels, along and across",
        hours=_hours(0.3, 0.5, 1, count),
        after=(after, *also),
        hold="every bore read against the order and accepted",
    )


def _grooves_and_rings(count: int, *, bore_read: str, pistons: str = "") -> tuple[StepDraft, ...]:
    true = (
        ()
        if pistons
        else (
            _step(
                "grooves",
                "True the ring grooves and read their width",
                hours=_hours(0.5, 1, 2, count),
                hold="width of every groove read; the rings are ordered from it",
            ),
        )
    )
    return (
        *true,
        _step(
            "rings", "Rings made to the finished bores and trued grooves", shop=RING, after=(bore_read, pistons or "grooves")
        ),
        _step(
            "fit-rings",
            "Gap each ring in the least worn part of its bore and fit it to its groove",
            hours=_hours(1, 1.5, 3, count),
            after=("rings",),
            hold="end gap and side clearance of every ring read",
            works=("ring fitting",),
        ),
    )


def own_hours(drafts: tuple[StepDraft, ...]) -> Range | None:
    """All hours at the bench of some steps together."""
    hours = [draft.hours for draft in drafts if draft.hours is not None]
    if not hours:
        return None
    return Range(sum(h.low for h in hours), sum(h.likely for h in hours), sum(h.high for h in hours), OWN)
