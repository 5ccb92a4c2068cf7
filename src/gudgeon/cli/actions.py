"""What each command does: one function of the workbench, then print."""

from __future__ import annotations

import json
import sys
import time
from argparse import Namespace
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon import workbench
from gudgeon.cli import device, tables
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.job import Job

if TYPE_CHECKING:
    from gudgeon.planning import Change


def _job(wanted: Namespace) -> Job:
    return workbench.open_job(Path(wanted.job))


def _date(typed: str, name: str) -> date:
    try:
        return date.fromisoformat(typed)
    except ValueError:
        raise Refused(f"“{typed}” was read as {name}; a date such as 2027-05-01 would be right.") from None


def _write(path: str, data: bytes) -> None:
    target = Path(path)
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(data)
    print(f"{target}: {len(data) / 1000:,.0f} kB written.")


def demo(wanted: Namespace) -> int:
    """Build the demo job if it is not there, and serve it."""
    from gudgeon.demo import build

    folder = Path(wanted.folder)
    if build(folder, say=lambda line: print(line, flush=True)):
        print(f"{folder}: the demo job was built.")
    if wanted.no_serve:
        return 0
    return _serve(folder, port=wanted.port, lan=False, open_browser=not wanted.no_open)


def serve(wanted: Namespace) -> int:
    """Serve the pages of a job or a shed."""
    return _serve(Path(wanted.place), port=wanted.port, lan=wanted.lan, open_browser=not wanted.no_open)


def _serve(place: Path, *, port: int, lan: bool, open_browser: bool) -> int:
    from gudgeon.web import serve as serve_pages

    serve_pages(place, port=port, lan=lan, open_browser=open_browser)
    return 0


def new(wanted: Namespace) -> int:
    """Start a job."""
    from gudgeon.engine.outline_file import read_outline

    folder = Path(wanted.job)
    outline = None
    if wanted.outline:
        try:
            text = Path(wanted.outline).read_text("utf-8")
        except UnicodeDecodeError:
            raise Refused(f"{wanted.outline} is not UTF-8 text; an outline is a TOML file (docs/outline.md).") from None
        outline = read_outline(text, name=folder.resolve().name)
    with workbench.start(folder, person=device.person(wanted.person), outline=outline) as job:
        print(f"{folder}: a job for “{job.snapshot().outline.name}” was started.")
    return 0


def person(wanted: Namespace) -> int:
    """Keep or show who sits here."""
    if wanted.name or wanted.units:
        print(f"Kept in {device.keep(name=wanted.name, units=wanted.units)}.")
    print(f"Changes from this device are written down under “{device.person()}”; sizes are shown in {device.units()}.")
    return 0


def aims(wanted: Namespace) -> int:
    """Set or show what the owner wants."""
    from dataclasses import replace

    with _job(wanted) as job:
        kept = job.snapshot().aims
        given = {
            "run_by": _date(wanted.run_by, "the date to run by").isoformat() if wanted.run_by else None,
            "start": _date(wanted.start, "the day work starts").isoformat() if wanted.start else None,
            "purse": wanted.purse,
            "currency": wanted.currency,
            "hours_a_week": wanted.hours,
            "by_the_date": wanted.by_the_date,
            "within_the_purse": wanted.within_the_purse,
            "keep_original": wanted.keep_original,
            "longest_life": wanted.longest_life,
        }
        if changed := {name: value for name, value in given.items() if value is not None}:
            kept = workbench.set_aims(job, replace(kept, **changed), person=device.person(wanted.person))
        print(tables.aims(kept))
    return 0


def tags(wanted: Namespace) -> int:
    """Write tags to print."""
    with _job(wanted) as job:
        numbers = range(wanted.first, wanted.first + wanted.count)
        _write(wanted.output, workbench.tags_paper(job, numbers, host=wanted.host))
    return 0


def sheet(wanted: Namespace) -> int:
    """Write a bench sheet."""
    with _job(wanted) as job:
        _write(wanted.output, workbench.sheet_paper(job, wanted.system, units=device.units(wanted.units)))
    return 0


def describe(wanted: Namespace) -> int:
    """Print what a system says of itself, or list the systems."""
    from gudgeon.systems import ALL, system_named

    if wanted.system:
        print(tables.described(system_named(wanted.system), device.units(wanted.units)))
    else:
        print(tables.columns([(system.key, system.title) for system in ALL], ("system", "title")))
    return 0


def take(wanted: Namespace) -> int:
    """Take a file of readings in."""
    with _job(wanted) as job:
        taken = workbench.take(job, Path(wanted.file), person=device.person(wanted.person), good_only=wanted.good_only)
        print(taken)
        for fault in taken.refused:
            print(f"  kept as refused, {fault}")
        if doubts := job.reckoning().doubts:
            print(f"{len(doubts)} doubtful; `gudgeon reckon {wanted.job}` asks about each.")
    return 0


def correct(wanted: Namespace) -> int:
    """Correct a reading, or stand by it."""
    with _job(wanted) as job:
        identity = _reading_identity(job, wanted.reading)
        who = device.person(wanted.person)
        if wanted.typed is None:
            reading = workbench.confirm(job, identity, person=who)
            print(f"{reading.place.key}: “{reading.typed}” stands, confirmed by {who}.")
        else:
            reading = workbench.correct(job, identity, wanted.typed, person=who)
            print(f"{reading.place.key}: now “{reading.typed}” ({reading.understood.echo}); the old reading is kept.")
    return 0


def _reading_identity(job: Job, typed: str) -> str:
    readings = job.snapshot().readings
    found = [reading for reading in readings if typed in (reading.id, str(reading.row))]
    if len(found) == 1:
        return found[0].id
    if not found:
        raise Refused(f"“{typed}” is no row number or identity of a reading in this job; `gudgeon reckon --json` names them.")
    names = ", ".join(f"{reading.id} ({reading.source}, {reading.place.key})" for reading in found)
    raise Refused(f"Row {typed} stands for {len(found)} readings: {names}; give the identity of one.")


def reckon(wanted: Namespace) -> int:
    """Print the reckoning."""
    from gudgeon.systems import system_named

    system = system_named(wanted.system).key if wanted.system else ""
    with _job(wanted) as job:
        snapshot, reckoning = job.snapshot(), job.reckoning()
        if wanted.json:
            json.dump(workbench.answers(snapshot, reckoning, system), sys.stdout, indent=1, ensure_ascii=False)
            print()
        else:
            print(tables.reckoning(snapshot, reckoning, system, device.units(wanted.units)))
    return 0


def settle(wanted: Namespace) -> int:
    """Record a verdict, or list the remedies."""
    units = device.units(wanted.units)
    with _job(wanted) as job:
        if wanted.remedy:
            verdict = workbench.settle(job, wanted.remedy, reason=wanted.because, person=device.person(wanted.person))
            print(tables.verdict(verdict, units))
        elif wanted.json:
            json.dump(tables.remedies_plain(job.reckoning(), units), sys.stdout, indent=1, ensure_ascii=False)
            print()
        else:
            print(tables.remedies(job.reckoning(), job.snapshot(), units))
    return 0


def price(wanted: Namespace) -> int:
    """Keep a price or a wait, or list what is asked."""
    with _job(wanted) as job:
        if not wanted.item:
            print(tables.prices(workbench.prices_asked(job), job.snapshot()))
            return 0
        if not wanted.cost and not wanted.days:
            raise Refused(f"Neither a cost nor a wait was given for “{wanted.item}”; give --cost, --days or both.")
        workbench.price(
            job,
            wanted.item,
            person=device.person(wanted.person),
            cost=tuple(wanted.cost) if wanted.cost else None,
            wait_days=tuple(wanted.days) if wanted.days else None,
            origin=wanted.origin,
            shop=wanted.shop,
        )
        print(tables.prices((wanted.item,), job.snapshot()))
    return 0


def forecast(wanted: Namespace) -> int:
    """Print the forecast, and write it as calendar or table."""
    from gudgeon import planning

    today = _date(wanted.today, "today") if wanted.today else date.today()
    with _job(wanted) as job:
        changes = _changes(wanted, job)
        outlook = workbench.forecast(job, today=today, progress=_progress())
        if wanted.json:
            json.dump(tables.forecast_plain(outlook), sys.stdout, indent=1, ensure_ascii=False)
            print()
        else:
            print(tables.forecast(outlook, workbench.plan(job), device.units()))
        for comparison in workbench.what_if(job, changes, today=today):
            print(*comparison.sentences, sep="\n", file=sys.stderr if wanted.json else sys.stdout)
        if wanted.ics:
            stamp = f"{today:%Y%m%d}T000000Z"
            _write(wanted.ics, planning.calendar_file(outlook, name=job.snapshot().outline.name, stamp=stamp))
        if wanted.csv:
            _write(wanted.csv, planning.plan_table(outlook).encode("utf-8"))
    return 0


def _changes(wanted: Namespace, job: Job) -> tuple[Change, ...]:
    """The changes that a forecast is to be tried with."""
    from gudgeon.planning import away_too, hours_changed

    waits = []
    for item, *days in wanted.if_wait:
        try:
            low, likely, high = map(float, days)
        except ValueError:
            raise Refused(
                f"“{' '.join(days)}” was read as days for “{item}”; three numbers such as 14 24 49 would be right."
            ) from None
        waits.append(workbench.changed_wait(job, item, low, likely, high))
    lost = [away_too(_date(first, "the first day lost"), _date(last, "the last day lost")) for first, last in wanted.if_away]
    return (*waits, *lost, *(hours_changed(hours) for hours in wanted.if_hours))


def _progress() -> Callable[[float], bool]:
    started = time.monotonic()

    def tell(share: float) -> bool:
        if sys.stderr.isatty() and time.monotonic() - started > 1:
            print(f"\rsimulating {share:4.0%}", end="" if share < 1 else "\n", file=sys.stderr, flush=True)
        return True

    return tell


def done(wanted: Namespace) -> int:
    """Mark a step as finished."""
    on = _date(wanted.on, "the day it was finished").isoformat() if wanted.on else ""
    with _job(wanted) as job:
        step = workbench.mark_done(job, wanted.step, on=on, person=device.person(wanted.person))
        print(f"{step.key}: finished {step.on}.")
    return 0


def order(wanted: Namespace) -> int:
    """List, print or send orders."""
    with _job(wanted) as job:
        if not wanted.key:
            print(tables.orders(workbench.orders(job), job.snapshot()))
            return 0
        if wanted.output:
            for path in workbench.write_order(job, wanted.key, Path(wanted.output), units=device.units(wanted.units)):
                print(f"{path} written.")
        if wanted.send:
            if wanted.promised:
                _date(wanted.promised, "the date promised")
            sent = workbench.send(
                job,
                wanted.key,
                shop=wanted.shop,
                person=device.person(wanted.person),
                price=wanted.price,
                promised=wanted.promised,
                overrule=wanted.overrule,
            )
            print(f"“{sent.draft.title}” is marked as sent to {sent.shop}.")
        if not wanted.output and not wanted.send:
            print(tables.order(workbench.draft_named(job, wanted.key), device.units(wanted.units)))
    return 0


def receive(wanted: Namespace) -> int:
    """Inspect an order in."""
    units, who = device.units(wanted.units), device.person(wanted.person)
    with _job(wanted) as job:
        if not wanted.key:
            print(tables.out(job.snapshot()))
            return 0
        order = workbench.order_named(job, wanted.key)
        if wanted.sheet:
            _write(wanted.sheet, workbench.return_paper(job, order.id, units=units))
        if wanted.file:
            print(workbench.take(job, Path(wanted.file), person=who))
        if wanted.accept:
            workbench.note_order(job, order.id, "accepted", person=who, on=wanted.on)
        elif wanted.concede is not None:
            workbench.note_order(job, order.id, "accepted with a concession", person=who, on=wanted.on, note=wanted.concede)
        elif wanted.send_back is not None:
            workbench.note_order(job, order.id, "sent back", person=who, on=wanted.on, note=wanted.send_back)
        print(tables.inspection(workbench.inspection(job, order.id), units))
    return 0


def record(wanted: Namespace) -> int:
    """Write the book."""
    with _job(wanted) as job:
        _write(wanted.output, workbench.record_book(job, units=device.units(wanted.units)))
    return 0


def verify(wanted: Namespace) -> int:
    """Check the job; 1 when something was altered."""
    with _job(wanted) as job:
        result = workbench.verify(job, against=wanted.against or "")
        print(result)
        return 0 if result.whole else 1
