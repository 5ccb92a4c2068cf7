"""Build the demo job: an invented engine as its owner has it in the middle of the first winter.

The cylinders are measured, one slip stands among the readings, prices and waits are in, the bores are settled and the block
is out at a shop, so that every page has something to show; the rings wait, because they must.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from importlib import resources
from pathlib import Path

from gudgeon import workbench
from gudgeon.demo.sketches import sketches
from gudgeon.engine.outline_file import read_outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.snapshot import Aims, PictureNote
from gudgeon.workbench.job import Job

OWNER = "M. Ashdown"
READINGS = "readings.csv"

# Invented figures, as an owner would have them from letters and telephone calls: for one of each, and days away.
PRICES: tuple[tuple[str, tuple[float, float, float] | None, tuple[float, float, float] | None, str, str], ...] = (
    ("bore a cylinder", (70, 90, 140), (14, 24, 49), "Fennimore Bros, boring", "letter of 3 November"),
    ("hone a cylinder", (25, 35, 50), (10, 20, 40), "Fennimore Bros, boring", "letter of 3 November"),
    ("sleeve fitted and bored", (190, 240, 330), (28, 42, 84), "Fennimore Bros, boring", "letter of 3 November"),
    ("piston made", (140, 175, 230), (35, 56, 98), "Tolliver Pistons", "telephone, asked twice"),
    ("ring made", (14, 18, 26), (14, 21, 42), "Copperdene Rings", "price list"),
    ("crankpin ground", (28, 36, 55), (14, 25, 50), "Harnham Crank Grinders", "letter of 9 November"),
    ("main journal ground", (28, 36, 55), (14, 25, 50), "Harnham Crank Grinders", "letter of 9 November"),
    ("journal built up and ground", (110, 150, 240), (28, 45, 90), "Harnham Crank Grinders", "letter of 9 November"),
    ("crankshaft straightened", (60, 90, 150), (10, 20, 40), "Harnham Crank Grinders", "letter of 9 November"),
    ("rod poured and bored", (85, 120, 180), (30, 60, 120), "Oxlode Bearing Shop", "telephone"),
    ("main poured and line bored", (120, 165, 260), (30, 60, 120), "Oxlode Bearing Shop", "telephone"),
    ("rod straightened", (18, 25, 40), (7, 14, 30), "Oxlode Bearing Shop", "telephone"),
    ("shim set for a bearing", (4, 6, 9), (5, 9, 20), "Oxlode Bearing Shop", "telephone"),
    ("valve made", (38, 48, 70), (21, 35, 70), "Copperdene Rings", "price list"),
    ("valve guide bush made", (8, 12, 20), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("valve refaced", (4, 6, 9), (3, 7, 14), "Fennimore Bros, boring", "letter of 3 November"),
    ("valve seat recut", (9, 12, 18), (3, 7, 14), "Fennimore Bros, boring", "letter of 3 November"),
    ("valve seat insert fitted", (30, 42, 65), (14, 24, 49), "Fennimore Bros, boring", "letter of 3 November"),
    ("valve spring made", (9, 12, 18), (14, 21, 35), "Sallow Springs", "letter of 9 November"),
    ("camshaft reground", (110, 150, 220), (28, 45, 90), "Oddie Cam Grinding", "telephone"),
    ("camshaft made", (420, 560, 800), (60, 90, 180), "Oddie Cam Grinding", "telephone"),
    ("cam roller and pin made", (18, 24, 36), (10, 18, 35), "Arkle & Son, turners", "asked over the counter"),
    ("follower made", (32, 44, 65), (14, 24, 45), "Arkle & Son, turners", "asked over the counter"),
    ("cam bearing bush made", (20, 28, 45), (14, 24, 49), "Fennimore Bros, boring", "letter of 3 November"),
    ("gear cut", (95, 130, 210), (21, 40, 84), "Stoneleigh Gear Cutting", "letter of 12 November"),
    ("pin made", (14, 20, 32), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("bush made", (9, 14, 22), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("lever or eye made", (45, 70, 120), (21, 40, 80), "Arkle & Son, turners", "asked over the counter"),
    ("screw made", (7, 11, 18), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("thread bushed", (18, 28, 45), (5, 10, 24), "Fennimore Bros, boring", "letter of 3 November"),
    ("set of balls", (5, 8, 14), (3, 6, 12), "Marrow Lane Bearings", "price list"),
    ("key made", (12, 18, 30), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("governor pin made", (5, 8, 14), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("governor roller and pin made", (12, 18, 28), (10, 18, 35), "Arkle & Son, turners", "asked over the counter"),
    ("governor lug built up and bored", (30, 45, 75), (14, 24, 49), "Arkle & Son, turners", "asked over the counter"),
    ("governor sleeve faced", (10, 15, 25), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("thrust ball", (0.2, 0.3, 0.5), (3, 5, 10), "Oxlode Bearing Shop", "telephone"),
    ("governor spring made", (14, 18, 28), (14, 21, 35), "Sallow Springs", "letter of 9 November"),
    ("throttle bush made", (6, 9, 15), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("throttle shaft made", (12, 18, 28), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("linkage pin made", (3, 5, 8), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("taper key made", (10, 16, 26), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("flywheel hub bored and bushed", (120, 180, 300), (28, 45, 90), "Fennimore Bros, boring", "telephone"),
    ("flywheel turned true", (80, 120, 200), (21, 35, 70), "Fennimore Bros, boring", "telephone"),
    ("clutch relined", (60, 85, 130), (10, 18, 35), "Copperdene Rings", "telephone"),
    ("magneto overhauled", (90, 130, 210), (21, 40, 84), "Candover Magnetos", "letter of 12 November"),
    ("water pump shaft made", (24, 34, 50), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("water pump bush made", (9, 14, 22), (7, 14, 28), "Arkle & Son, turners", "asked over the counter"),
    ("drive pin made", (2, 4, 7), (3, 7, 14), "Arkle & Son, turners", "asked over the counter"),
)

NOTES: tuple[tuple[str, str, str, str, str, str], ...] = (
    (
        "cylinder",
        "cyl 1",
        "front, nearest the gears",
        "I on the flange",
        "jacket scaled, bore ridged",
        "on the bench",
    ),
    ("cylinder", "cyl 2", "middle", "II on the flange", "best of the three", "on the bench"),
    ("cylinder", "cyl 3", "flywheel end", "III on the flange", "rust pits half way down, exhaust side", "on the bench"),
    ("piston", "piston 1", "from cyl 1", "I on the crown, arrow to the gears", "skirt bright both sides", "box A"),
    ("piston", "piston 2", "from cyl 2", "II on the crown", "clean", "box A"),
    ("piston", "piston 3", "from cyl 3", "III on the crown", "hairline at the pin boss, top ring in two", "box A"),
)


def build(folder: Path | str, *, say: Callable[[str], None] = lambda _: None) -> bool:
    """Build the demo job in ``folder`` unless it is there already; True when it was built. ``say`` is told each stage."""
    folder = Path(folder)
    if (folder / "job.sqlite").exists():
        return False
    outline = read_outline(_data("outline.toml").decode("utf-8"))
    with workbench.start(folder, person=OWNER, outline=outline) as job:
        say("taking the parts down and photographing them ...")
        _teardown(job)
        say("taking the readings in ...")
        workbench.take_text(job, _data(READINGS), source=READINGS, person=OWNER)
        say("writing prices and wishes down ...")
        _prices(job)
        say("deciding about the bores and sending the block out ...")
        _decide(job)
        say("working out when it can run (the first time on a machine takes a while longer) ...")
        workbench.forecast(job)
    return True


def _data(name: str) -> bytes:
    return resources.files("gudgeon.demo").joinpath(name).read_bytes()


def _teardown(job: Job) -> None:
    for tag, (part, item, place, marks, condition, stored) in enumerate(NOTES, 1):
        note = PartNote(id="", part=part, item=item, tag=tag, place=place, marks=marks, condition=condition, stored=stored)
        workbench.note_part(job, note, person=OWNER)
    for sketch in sketches():
        picture = PictureNote(
            digest="", name=sketch.name, part=sketch.part, item=sketch.item, taken=sketch.taken, note=sketch.note
        )
        workbench.add_picture(job, sketch.data, picture, person=OWNER)


def _prices(job: Job) -> None:
    for name, cost, wait, shop, origin in PRICES:
        workbench.price(job, name, person=OWNER, cost=cost, wait_days=wait, origin=origin, shop=shop)
    today = datetime.now(UTC).date()
    aims = Aims(
        run_by=_next_first_of_may(today).isoformat(),
        start=today.isoformat(),
        purse=3500,
        currency="crowns",
        hours_a_week=9,
        by_the_date=2,
        within_the_purse=2,
        keep_original=2,
        longest_life=1,
    )
    workbench.set_aims(job, aims, person=OWNER)


def _next_first_of_may(today: date) -> date:
    """The first of May that leaves at least five months: a season's date."""
    may = date(today.year, 5, 1)
    return may if may - today > timedelta(days=150) else date(today.year + 1, 5, 1)


def _decide(job: Job) -> None:
    subject = "cylinders: bores"
    advice = workbench.advice(job, subject)
    if advice is None or not advice.ranked:
        return
    workbench.settle(job, advice.ranked[0], reason="ranked first, and the walls will stand it", person=OWNER)
    ready = [draft for draft in workbench.orders(job) if not draft.held]
    if ready:
        promised = datetime.now(UTC).date() + timedelta(days=30)
        workbench.send(job, ready[0].key, shop="Fennimore Bros, boring", person=OWNER, promised=promised.isoformat())
