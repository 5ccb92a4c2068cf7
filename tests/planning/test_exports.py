"""Calendar and table against their standards (RFC 5545, RFC 4180) by reading them back."""

import csv
import io
import json
from datetime import date

import pytest

from gudgeon.engine.origin import Range
from gudgeon.engine.outline import Outline
from gudgeon.engine.snapshot import Aims, Price, Snapshot
from gudgeon.engine.step import StepDraft
from gudgeon.planning import calendar_file, forecast, plain_forecast, plan_table

TITLE = "Bore; hone, and “true” the groove – größer als vorher, so that this line must surely be folded once"


@pytest.fixture(scope="module")
def outlook():
    drafts = [
        StepDraft(key="=bore", title=TITLE, system="s", shop="bore"),
        StepDraft(key="fit", title="Fit\nup", system="s", hours=Range(1, 2, 5, "t"), after=("=bore",)),
    ]
    prices = {"bore": Price(name="bore", cost=Range(1, 2, 3, "t"), wait_days=Range(5, 9, 30, "t"))}
    snapshot = Snapshot(outline=Outline(name="x"), aims=Aims(run_by="2027-05-01", hours_a_week=5, purse=10), prices=prices)
    return forecast(drafts, snapshot=snapshot, today=date(2027, 1, 4), runs=500)


def test_calendar_lines(outlook):
    data = calendar_file(outlook, name="x", stamp="20270104T000000Z")
    lines = data.split(b"\r\n")
    assert lines[-1] == b""
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert max(map(len, lines)) <= 75
    for line in lines:
        line.decode()  # no character is cut in two
    assert any(line.startswith(b" ") for line in lines)


def test_calendar_read_back(outlook):
    unfolded = calendar_file(outlook, name="x", stamp="20270104T000000Z").decode().replace("\r\n ", "")
    rows = [line.split(":", 1) for line in unfolded.split("\r\n") if line]
    assert rows[0] == ["BEGIN", "VCALENDAR"]
    events = unfolded.split("BEGIN:VEVENT")[1:]
    assert all(
        event.count("UID:") == event.count("DTSTAMP:20270104T000000Z") == event.count("DTSTART;VALUE=DATE:") == 1
        for event in events
    )
    summaries = [value for name, value in rows if name == "SUMMARY"]
    back = summaries[0].replace("\\,", ",").replace("\\;", ";")
    assert back == f"Send at the latest: {TITLE}"
    uids = [value for name, value in rows if name == "UID"]
    assert len(set(uids)) == len(uids)


def test_uids_stay_when_dates_move(outlook):
    again = calendar_file(outlook, name="x", stamp="20280101T000000Z")
    first = calendar_file(outlook, name="x", stamp="20270104T000000Z")
    uid = lambda data: [line for line in data.split(b"\r\n") if line.startswith(b"UID")]  # noqa: E731
    assert uid(again) == uid(first)
    assert uid(first) != uid(calendar_file(outlook, name="another", stamp="20270104T000000Z"))


def test_table_read_back(outlook):
    rows = list(csv.DictReader(io.StringIO(plan_table(outlook))))
    assert [row["title"] for row in rows] == [TITLE, "Fit\nup"]
    assert rows[0]["step"] == "'=bore"  # a spreadsheet must not take it for a formula
    assert date.fromisoformat(rows[0]["finish likely"]) == outlook.steps[0].finish.likely
    assert rows[1]["waits for"] == "'=bore"


def test_plain_is_json(outlook):
    plain = json.loads(json.dumps(plain_forecast(outlook), allow_nan=False))
    assert plain["finish"]["likely"] == outlook.finish.likely.isoformat()
    assert "ends" not in plain
    assert plain["sentences"] == list(outlook.sentences)
