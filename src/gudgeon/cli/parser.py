"""The words of the command line. Nothing heavy is imported here, so that ``--help`` comes at once."""

from __future__ import annotations

import argparse
from importlib import metadata
from typing import TypeAlias

_EXAMPLES = """\
a first evening:
  gudgeon new my-engine --outline outline.toml
  gudgeon sheet my-engine cylinders -o sheet.pdf       print it, take it to the bench
  gudgeon take my-engine readings.csv
  gudgeon reckon my-engine
  gudgeon serve my-engine --lan                        the same on a phone

`gudgeon demo` builds an invented engine and opens the workbench on it.
"""


def build_parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    parser = argparse.ArgumentParser(
        prog="gudgeon",
        description="The workbench of a person bringing a very old engine back to life without a manual.",
        epilog=_EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"gudgeon {metadata.version('gudgeon')}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    _build_job_commands(commands)
    _build_reading_commands(commands)
    _build_deciding_commands(commands)
    _build_outwork_commands(commands)
    _build_record_commands(commands)
    return parser


_Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


def _command(commands: _Commands, name: str, action: str, help: str, *, writes: bool = False) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = commands.add_parser(name, help=help, description=help[0].upper() + help[1:] + ".")
    command.set_defaults(action=action)
    if writes:
        command.add_argument(
            "--person", metavar="NAME", help="who makes this change (else $GUDGEON_PERSON, or your login name)"
        )
    return command


def _job(command: argparse.ArgumentParser) -> None:
    command.add_argument("job", metavar="JOB", help="folder of the job")


def _units(command: argparse.ArgumentParser) -> None:
    choice = command.add_mutually_exclusive_group()
    choice.add_argument("--inch", dest="units", action="store_const", const="inch", help="show sizes in inches")
    choice.add_argument("--mm", dest="units", action="store_const", const="millimetre", help="show sizes in millimetres")


def _output(command: argparse.ArgumentParser, what: str) -> None:
    command.add_argument("-o", "--output", metavar=what, required=True, help="file to write")


def _build_job_commands(commands: _Commands) -> None:
    demo = _command(commands, "demo", "demo", "build the demo job if it is not there, then serve it")
    demo.add_argument("folder", metavar="DIR", nargs="?", default="demo-job", help="where to build it (default: demo-job)")
    demo.add_argument("--no-open", action="store_true", help="do not open a browser")
    demo.add_argument("--no-serve", action="store_true", help="build it and stop")
    demo.add_argument("--port", type=int, default=0, metavar="N", help="port to serve on (default: a free one from 8765)")

    new = _command(commands, "new", "new", "start a job; with nothing known, from the readings alone", writes=True)
    _job(new)
    new.add_argument("--outline", metavar="FILE", help="what is known of the engine, in TOML (docs/outline.md)")

    serve = _command(commands, "serve", "serve", "serve the pages of a job, or of a shed of jobs")
    serve.add_argument("place", metavar="JOB|SHED", nargs="?", default=".", help="folder of a job or of jobs (default: here)")
    serve.add_argument("--lan", action="store_true", help="let phones on the local network in, each paired once")
    serve.add_argument("--port", type=int, default=0, metavar="N", help="port to serve on (default: a free one from 8765)")
    serve.add_argument("--no-open", action="store_true", help="do not open a browser")

    person = _command(
        commands, "person", "person", "say who you are on this device, and whether you read inches or millimetres"
    )
    person.add_argument("name", nargs="?", metavar="NAME", help="your name, as it will stand in the record")
    _units(person)

    aims = _command(commands, "aims", "aims", "say what is wanted: a date, a purse, hours; or show it", writes=True)
    _job(aims)
    aims.add_argument("--run-by", metavar="DATE", help="the date it must run by, as 2027-05-01")
    aims.add_argument("--start", metavar="DATE", help="the day work starts")
    aims.add_argument("--purse", type=float, metavar="MONEY", help="what may be spent in all")
    aims.add_argument("--currency", metavar="WORD", help="the currency of every sum in this job")
    aims.add_argument("--hours", type=float, metavar="H", help="hours a week at the bench")
    for name, text in _PRIORITIES:
        aims.add_argument(f"--{name}", type=int, choices=(0, 1, 2, 3), metavar="0..3", help=text)


_PRIORITIES = (
    ("by-the-date", "how much the date matters"),
    ("within-the-purse", "how much the purse matters"),
    ("keep-original", "how much original metal matters"),
    ("longest-life", "how much long life matters"),
)


def _build_reading_commands(commands: _Commands) -> None:
    sheet = _command(commands, "sheet", "sheet", "write a bench sheet to print")
    _job(sheet)
    sheet.add_argument("system", metavar="SYSTEM", help="which system's sheet (cylinders, ...)")
    _output(sheet, "FILE.pdf")
    _units(sheet)

    tags = _command(commands, "tags", "tags", "write tags to print, for bags, boxes and parts that go out")
    _job(tags)
    tags.add_argument("--host", metavar="HOST", required=True, help="where phones find the workbench, as 192.168.1.20:8765")
    tags.add_argument("--first", type=int, default=1, metavar="N", help="the first number (default: 1)")
    tags.add_argument("--count", type=int, default=40, metavar="N", help="how many (default: 40, four sheets)")
    _output(tags, "FILE.pdf")

    describe = _command(commands, "describe", "describe", "what a system is made of: its CSV names, levels, fits and sources")
    describe.add_argument("system", metavar="SYSTEM", nargs="?", default="", help="which one; left out: list them")
    _units(describe)

    take = _command(commands, "take", "take", "take readings in from a CSV file (docs/csv.md)", writes=True)
    _job(take)
    take.add_argument("file", metavar="FILE.csv", help="the readings")
    take.add_argument(
        "--good-only", action="store_true", help="take the good lines and keep the others as refused, to be mended"
    )

    correct = _command(commands, "correct", "correct", "correct a reading, or stand by a doubtful one", writes=True)
    _job(correct)
    correct.add_argument("reading", metavar="ROW|ID", help="the reading's row number, or its identity from --json")
    correct.add_argument("typed", metavar="TEXT", nargs="?", help="what was meant; left out: the reading stands as it is")

    reckon = _command(commands, "reckon", "reckon", "estimates, findings, the reconstructed manual, doubtful readings")
    _job(reckon)
    reckon.add_argument("system", metavar="SYSTEM", nargs="?", default="", help="one system only")
    reckon.add_argument("--json", action="store_true", help="as JSON (docs/json.md)")
    _units(reckon)


def _build_deciding_commands(commands: _Commands) -> None:
    settle = _command(commands, "settle", "settle", "record a verdict; without one, show what could be done", writes=True)
    _job(settle)
    settle.add_argument("remedy", metavar="REMEDY", nargs="?", help="key of the remedy, as listed without it")
    settle.add_argument("--because", metavar="TEXT", default="", help="the reason, for the record")
    settle.add_argument("--json", action="store_true", help="list the remedies as JSON")
    _units(settle)

    price = _command(
        commands, "price", "price", "say what a thing costs and how long a shop takes; or list what is asked", writes=True
    )
    _job(price)
    price.add_argument("item", metavar="THING", nargs="?", help="the thing, as listed without it")
    price.add_argument("--cost", type=float, nargs=3, metavar=("LOW", "LIKELY", "HIGH"), help="money for one of them")
    price.add_argument(
        "--days", type=float, nargs=3, metavar=("LOW", "LIKELY", "HIGH"), help="days from sending to having it back"
    )
    price.add_argument(
        "--from", dest="origin", default="", metavar="TEXT", help="whose figure it is: a quotation, your own guess"
    )
    price.add_argument("--shop", default="", metavar="NAME", help="which shop")

    forecast = _command(commands, "forecast", "forecast", "when it can run, and for how much")
    _job(forecast)
    forecast.add_argument("--json", action="store_true", help="as JSON")
    forecast.add_argument("--today", metavar="DATE", help="reckon from this day instead of today")
    forecast.add_argument(
        "--if-wait", nargs=4, action="append", default=[], metavar=("THING", "LOW", "LIKELY", "HIGH"),
        help="what if a shop took so many days instead",
    )  # fmt: skip
    forecast.add_argument(
        "--if-away", nargs=2, action="append", default=[], metavar=("FROM", "TO"), help="what if these days were lost"
    )
    forecast.add_argument(
        "--if-hours", type=float, action="append", default=[], metavar="H", help="what if with so many hours a week"
    )
    forecast.add_argument("--ics", metavar="FILE.ics", help="also write promised and latest dates as a calendar")
    forecast.add_argument("--csv", metavar="FILE.csv", help="also write the plan as a table")

    done = _command(commands, "done", "done", "say that a step of the plan is finished", writes=True)
    _job(done)
    done.add_argument("step", metavar="STEP", help="key of the step, as the forecast lists it")
    done.add_argument("--on", metavar="DATE", default="", help="the day it was finished (default: today)")


def _build_outwork_commands(commands: _Commands) -> None:
    order = _command(commands, "order", "order", "list orders, print one with its drawings, or mark it sent", writes=True)
    _job(order)
    order.add_argument("key", metavar="ORDER", nargs="?", help="key of the order, as listed without it")
    order.add_argument("-o", "--output", metavar="FOLDER", help="write the order (PDF) and its drawings (PDF, DXF, SVG) there")
    order.add_argument("--send", action="store_true", help="mark it as sent")
    order.add_argument("--shop", default="", metavar="NAME", help="where it goes")
    order.add_argument("--price", type=float, metavar="MONEY", help="the agreed price")
    order.add_argument("--promised", default="", metavar="DATE", help="the date promised")
    order.add_argument("--overrule", default="", metavar="WHY", help="send a held order all the same, and say why")
    _units(order)

    receive = _command(commands, "receive", "receive", "inspect an order in: readings against what was asked", writes=True)
    _job(receive)
    receive.add_argument("key", metavar="ORDER", nargs="?", help="key of the order; left out: list what is out")
    receive.add_argument("file", metavar="FILE.csv", nargs="?", help="readings of what came back (stage: returned)")
    choice = receive.add_mutually_exclusive_group()
    choice.add_argument("--accept", action="store_true", help="accept it as asked")
    choice.add_argument("--concede", metavar="WHY", help="accept it with a concession")
    choice.add_argument("--send-back", metavar="WHY", help="send it back")
    receive.add_argument("--on", metavar="DATE", default="", help="the day (default: today)")
    receive.add_argument("--sheet", metavar="FILE.pdf", help="write the sheet for inspecting it in")
    _units(receive)


def _build_record_commands(commands: _Commands) -> None:
    record = _command(commands, "record", "record", "write the book so far")
    _job(record)
    _output(record, "FILE.pdf")
    _units(record)
    verify = _command(commands, "verify", "verify", "check that nothing in the job was altered since")
    _job(verify)
    verify.add_argument("--against", metavar="HEAD|BOOK.pdf", help="the head printed in a book, or the book itself")
