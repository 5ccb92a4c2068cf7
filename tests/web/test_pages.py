"""The pages show what the calculation returned, in the reader's units, and take what a person sends."""

from __future__ import annotations

import re
from html import unescape

import pytest

from gudgeon import workbench
from gudgeon.quantity import Amount, say, show
from gudgeon.systems import ALL
from gudgeon.web.addresses import Addresses
from gudgeon.web.engine_page import group_of

AT = Addresses("withy")
PAGES = ["", "findings", "findings/cylinders", "doubtful", "bench", "bench/cylinders", "bench/cylinders?block=0", "remedies",
         "remedies/cylinders", "orders", "plan", "parts", "record", "refused", "outline", "bring-in"]  # fmt: skip


def text_of(response) -> str:
    return unescape(re.sub(r"<[^>]+>", " ", response.text))


@pytest.mark.parametrize("path", PAGES)
def test_every_page_of_the_job_answers(reading_client, path):
    response = reading_client.get(f"/job/withy/{path}")
    assert response.status_code == 200
    assert "The Withy Lock engine" in response.text


@pytest.mark.parametrize(
    "path", ["/who", "/patterns", "/pair", "/static/gudgeon.css", "/static/pictures.css", "/static/bench.js"]
)
def test_pages_outside_the_job_answer(reading_client, path):
    assert reading_client.get(path).status_code == 200


def test_the_only_job_is_where_the_door_leads(reading_client):
    response = reading_client.get("/", follow_redirects=False)
    assert response.headers["location"] == AT.engine()


@pytest.mark.parametrize(
    "path", ["/job/withy/nowhere", "/job/other/", "/job/withy/findings/gearbox", "/job/withy/orders/sent/none"]
)
def test_an_address_without_a_page_is_told_so(reading_client, path):
    response = reading_client.get(path)
    assert response.status_code in (404, 422)
    assert "Not done" in response.text


def test_the_first_page_is_light(reading_client):
    # The house's own bound: 150 kB without photos, stylesheets and scripts included.
    page = reading_client.get(AT.engine())
    linked = re.findall(r'(?:href|src)="(/static/[^"]+)"', page.text)
    total = len(page.content) + sum(len(reading_client.get(address).content) for address in linked)
    assert total < 150_000


def test_no_page_names_an_outside_address_or_carries_script_or_style_of_its_own(reading_client):
    for path in [AT.root + "/" + path for path in PAGES] + ["/patterns", "/who"]:
        html = reading_client.get(path).text.replace("http://www.w3.org/2000/svg", "")
        assert "http://" not in html, path
        assert "https://" not in html, path
        assert not re.search(r"<style|\sstyle=|\son[a-z]+=|<script(?![^>]*src=)", html), path


@pytest.mark.parametrize("units", ["inch", "millimetre"])
def test_findings_are_shown_as_the_reckoning_gave_them(client, job, units):
    client.cookies.set("gudgeon-units", units)
    pages = {system.key: text_of(client.get(AT.findings(system.key))) for system in ALL}
    behind: dict[str, str] = {}
    for finding in job.reckoning().findings:
        if finding.value is not None:
            assert show(Amount(finding.value, finding.dimension), units) in pages[finding.system]
        if finding.limit is not None:
            why = AT.why(finding.system, finding.part, finding.item, finding.quantity)
            shown = behind.setdefault(why, "") or text_of(client.get(f"{why}&piece=1"))
            behind[why] = shown
            assert show(Amount(finding.limit, finding.dimension), units) in shown
            assert finding.limit_origin.source in shown


def test_every_piece_that_a_page_folds_away_answers_with_and_without_the_script(reading_client):
    for system in ALL:
        page = reading_client.get(AT.findings(system.key))
        assert len(page.content) < 200_000
        addresses = [unescape(found) for found in re.findall(r'data-piece="([^"]+)"', page.text)]
        for address in addresses[:3] + addresses[-1:]:
            assert f'href="{address}"'.replace("&", "&amp;") in page.text
            piece, whole = reading_client.get(f"{address}&piece=1"), reading_client.get(address)
            assert (piece.status_code, whole.status_code) == (200, 200)
            assert "<html" not in piece.text
            assert "Back to the findings" in whole.text


def test_the_manual_is_shown_with_its_chance_and_its_runners_up(client, job):
    specifications = [spec for spec in job.reckoning().specifications.values() if spec.key.part == "cylinder"]
    for spec in specifications:
        shown = text_of(client.get(AT.drawing_called_for("cylinders", group_of(spec.key.item))))
        if spec.nominal is not None:
            assert show(Amount(spec.probability, "probability"), "inch") in shown
            assert not spec.runners_up or spec.runners_up[0].written in shown


def test_remedies_are_shown_with_the_recommendation_first(client, job):
    shown = text_of(client.get(AT.remedies("cylinders")))
    reckoning = job.reckoning()
    own = [remedy for remedy in reckoning.remedies if remedy.system == "cylinders"]
    ranked = next(advice.ranked for advice in reckoning.advice if advice.subject == own[0].subject)
    best = next(remedy for remedy in own if remedy.key == ranked[0])
    titles = [say(remedy.title, "inch") for remedy in own]
    assert all(title in shown for title in titles)
    assert shown.index(say(best.title, "inch")) == min(shown.index(title) for title in titles)


def test_a_name_that_is_html_is_shown_as_text(client):
    note = {"item": "<img src=x onerror=alert(1)>", "condition": "<script>alert(1)</script>"}
    assert client.post(AT.note(), data=note).status_code == 200
    page = client.get(AT.page("parts")).text
    assert "<script>alert" not in page
    assert "<img src=x" not in page
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page


# ---- readings


def reading_form(**more):
    return {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "station": "middle of ring travel",
            "direction_deg": "90", "unit": "in", "line": "18", **more}  # fmt: skip


def test_a_reading_by_the_plain_form_is_taken_and_the_next_line_comes_up(client, job):
    before = len(job.snapshot().readings)
    response = client.post(AT.bench("cylinders", 0), data=reading_form(reading="4.5041"), follow_redirects=False)
    assert response.status_code == 303
    assert response.headers["location"] == AT.bench("cylinders", 0, 19)
    taken = job.snapshot().readings
    assert len(taken) == before + 1
    assert (taken[-1].typed, taken[-1].place.station, taken[-1].person) == ("4.5041", "middle of ring travel", "Ida Fenn")


def test_a_reading_sent_twice_with_one_ticket_is_taken_once(client, job):
    before = len(job.snapshot().readings)
    for _ in range(2):
        response = client.post(
            AT.bench("cylinders", 0), data=reading_form(reading="4.5041", ticket="t77"), headers={"accept": "application/json"}
        )
        assert response.json()["id"] == "t77"
    assert len(job.snapshot().readings) == before + 1


def test_a_reading_that_cannot_be_understood_is_refused_in_a_sentence_and_stays_in_the_field(client, job):
    before = job.snapshot().entries
    response = client.post(AT.bench("cylinders", 0), data=reading_form(reading="4..5"))
    assert response.status_code == 422
    assert 'value="4..5"' in response.text
    assert "Not done." in response.text
    assert job.snapshot().entries == before


def test_without_a_name_nothing_is_written_and_the_name_typed_with_the_form_is_kept(place, job):
    from gudgeon.web.app import create_app
    from tests.web.conftest import TestClient

    with TestClient(create_app(place), base_url="http://testserver") as stranger:
        refused = stranger.post(AT.bench("cylinders", 0), data=reading_form(reading="4.5041"))
        assert refused.status_code == 422
        assert "names a person" in refused.text
        stranger.post(AT.bench("cylinders", 0), data=reading_form(reading="4.5041", who="Ned  Amble"))
        assert job.snapshot().readings[-1].person == "Ned Amble"
        assert "Ned Amble" in stranger.get(AT.engine()).text


def test_the_echo_says_what_would_be_understood(reading_client):
    echo = reading_client.get("/job/withy/echo", params={"reading": "+3", "unit": "thou", "base": "5 1/8"}).json()
    assert "5.128" in echo["echo"]
    assert "sentence" in reading_client.get("/job/withy/echo", params={"reading": "5..1"}).json()


def test_a_doubtful_reading_is_asked_about_and_can_be_corrected_or_stood_by(client, job):
    client.post(AT.bench("cylinders", 0), data=reading_form(reading="5.4006", station="below ring travel"))
    (doubt,) = [doubt for doubt in job.reckoning().doubts if doubt.reading.typed == "5.4006"]
    asked = client.get(AT.page("doubtful"))
    assert doubt.sentence in unescape(asked.text)
    client.post(AT.page("doubtful"), data={"reading": doubt.reading.id, "answer": "stands"})
    standing = job.snapshot().readings[-1]
    assert standing.confirmed
    assert standing.supersedes == doubt.reading.id
    client.post(AT.page("doubtful"), data={"reading": standing.id, "answer": "corrected", "typed": "4.5006"})
    assert job.snapshot().readings[-1].typed == "4.5006"
    assert all(reading.id != standing.id for reading in job.snapshot().readings)


# ---- files


def test_a_file_with_a_bad_line_is_refused_whole_then_its_good_lines_taken_and_the_bad_one_mended(client, job):
    data = (
        b"part,item,feature,station,direction_deg,reading,unit\ncylinder,cyl 2,bore diameter,ridge,0,4.5012,in\n"
        b"cylinder,cyl 2,bore diameter,ridge,90,4..5,in\n"
    )
    before = len(job.snapshot().readings)
    refused = client.post(AT.page("bring-in"), files={"file": ("evening.csv", data)})
    assert refused.status_code == 422
    assert "line 3" in refused.text
    assert "4..5" in refused.text
    assert len(job.snapshot().readings) == before
    client.post(AT.page("bring-in"), files={"file": ("evening.csv", data)}, data={"good_only": "yes"})
    assert len(job.snapshot().readings) == before + 1
    row = job.snapshot().refused[-1]
    assert "4..5" in client.get(AT.page("refused")).text
    mended = {
        "mends": row.id,
        "part": "cylinder",
        "item": "cyl 2",
        "feature": "bore diameter",
        "station": "ridge",
        "direction_deg": "90",
        "reading": "4.5015",
        "unit": "in",
    }
    client.post(AT.page("refused"), data=mended)
    assert not job.snapshot().refused
    assert job.snapshot().readings[-1].typed == "4.5015"


def test_a_photo_is_kept_untouched_and_shown_small(client, job):
    from io import BytesIO

    from PIL import Image

    out = BytesIO()
    Image.new("RGB", (1600, 1200), (90, 80, 70)).save(out, "JPEG")
    client.post(
        AT.note(),
        data={"item": "piston 2", "condition": "skirt scored"},
        files={"pictures": ("../../etc/passwd.jpg", out.getvalue())},
    )
    digest = job.snapshot().parts[-1].pictures[0]
    assert client.get(AT.picture(digest)).content == out.getvalue()
    with Image.open(BytesIO(client.get(AT.picture(digest, "small")).content)) as small:
        assert max(small.size) <= 480
    assert job.snapshot().pictures[-1].name == "passwd.jpg"


def test_a_file_that_is_no_picture_is_refused(client, job):
    response = client.post(AT.note(), data={"item": "piston 2"}, files={"pictures": ("a.jpg", b"<svg onload=alert(1)>")})
    assert response.status_code == 422
    assert "no picture" in response.text
    assert not job.snapshot().pictures


# ---- from verdict to inspection


def test_from_verdict_to_inspected_in(client, job):
    best = job.reckoning().advice[0].ranked[0]
    assert client.post(AT.remedies("cylinders"), data={"remedy": best, "reason": ""}).status_code == 422
    client.post(AT.remedies("cylinders"), data={"remedy": best, "reason": "It lasts longest."})
    assert job.snapshot().verdicts[-1].reason == "It lasts longest."

    drafts = workbench.orders(job)
    listed = text_of(client.get(AT.page("orders")))
    for draft in drafts:
        assert draft.title in listed
        assert all(need.what in listed for need in draft.held)
    ready = next(draft for draft in drafts if not draft.held)
    held = next(draft for draft in drafts if draft.held)

    refused = client.post(AT.draft(held.key), data={"shop": "The ring maker"})
    assert refused.status_code == 422
    assert "is held" in refused.text
    assert 'value="The ring maker"' in refused.text

    page = client.get(AT.draft(ready.key))
    for kind, magic in (("pdf", b"%PDF"), ("dxf", b"  0"), ("svg", b"<")):
        drawing = client.get(f"{AT.draft(ready.key)}/drawing/0.{kind}")
        assert drawing.content.lstrip()[:4].startswith(magic.strip()[:1]), kind
    assert "order.pdf" in page.text
    assert client.get(f"{AT.draft(ready.key)}/order.pdf").content.startswith(b"%PDF")

    client.post(AT.draft(ready.key), data={"shop": "Lane End Grinding", "price": "240", "promised": "2027-04-12"})
    order = job.snapshot().orders[-1]
    assert (order.shop, order.price, order.promised) == ("Lane End Grinding", 240.0, "2027-04-12")

    sent = AT.sent(order.id)
    client.post(sent, data={"state": "returned"})
    asked = order.draft.asked[0]
    middle = (asked.lower + asked.upper) / 2 / 0.0254
    lines = len(re.findall(r'name="reading_\d+"', client.get(sent).text))
    form = {f"reading_{n}": f"{middle:.4f}" for n in range(lines)} | {"reading_of": "returned", "instrument": "dial bore gauge"}
    client.post(sent, data=form)
    found = workbench.inspection(job, order.id)
    assert all(line.value is not None for line in found.lines)
    shown = text_of(client.get(sent))
    assert all(line.outcome in shown for line in found.lines)

    no_reason = client.post(sent, data={"state": "accepted with a concession"})
    assert no_reason.status_code == 422
    client.post(sent, data={"state": "accepted with a concession", "note": "A tenth over, agreed."})
    assert job.snapshot().orders[-1].state == "accepted with a concession"


def test_aims_prices_and_steps_are_kept(client, job):
    client.post(
        AT.page("plan"),
        data={
            "what": "aims",
            "run_by": "2027-05-01",
            "purse": "3,500",
            "currency": "GBP",
            "hours_a_week": "8",
            "keep_original": "3",
        },
    )
    aims = job.snapshot().aims
    assert (aims.run_by, aims.purse, aims.currency, aims.hours_a_week, aims.keep_original) == (
        "2027-05-01",
        3500.0,
        "GBP",
        8.0,
        3,
    )
    name = workbench.prices_asked(job)[0]
    client.post(
        AT.page("plan"),
        data={"what": "price", "name": name, "cost_low": "60", "cost_high": "90", "wait_likely": "21", "origin": "quotation"},
    )
    price = job.snapshot().prices[name]
    assert (price.cost.low, price.cost.likely, price.cost.high, price.wait_days.likely) == (60.0, 75.0, 90.0, 21.0)
    bad = client.post(AT.page("plan"), data={"what": "aims", "run_by": "May"})
    assert bad.status_code == 422
    assert "2027-05-01" in bad.text


def test_the_outline_is_put_back_as_it_was_typed(client, job):
    page = client.get(AT.page("outline")).text
    fields = dict(re.findall(r'<input id="k-[^"]+" name="([^"]+)" value="([^"]*)"', page))
    fields = {name: unescape(value) for name, value in fields.items()}
    for name, choices in re.findall(r'<select id="k-[^"]+" name="([^"]+)">(.*?)</select>', page, re.DOTALL):
        fields[name] = next(iter(re.findall(r"<option selected>([^<]*)", choices)), "")
    for name, value in re.findall(r'<textarea id="k-[^"]+" name="([^"]+)"[^>]*>(.*?)</textarea>', page, re.DOTALL):
        fields[name] = unescape(value)
    before = job.snapshot().outline
    client.post(AT.page("outline"), data=fields)
    assert job.snapshot().outline == before
    wrong = client.post(AT.page("outline"), data=fields | {"cylinders": "three"})
    assert wrong.status_code == 422
    assert 'value="three"' in wrong.text


def test_the_record_is_a_pdf_and_the_check_says_what_verify_says(client, job):
    assert client.get(AT.page("record") + "/book.pdf").content.startswith(b"%PDF")
    shown = text_of(client.get(AT.page("record") + "?check=1"))
    assert str(workbench.verify(job)).splitlines()[0] in shown
    assert client.get(AT.page("record") + "?check=1&against=/etc/passwd").status_code == 422
    head = job.snapshot().head
    assert "nothing was altered" in text_of(client.get(f"{AT.page('record')}?check=1&against={head}"))


def test_a_bench_sheet_can_be_printed(reading_client):
    assert reading_client.get(AT.bench("cylinders") + "/sheet.pdf").content.startswith(b"%PDF")


def test_a_shed_lists_its_jobs_and_each_opens(built, tmp_path):
    import shutil

    from gudgeon.web.app import create_app
    from tests.web.conftest import TestClient

    for name in ("first", "second"):
        shutil.copytree(built, tmp_path / "shed" / name)
    with TestClient(create_app(tmp_path / "shed"), base_url="http://testserver") as client:
        listed = client.get("/").text
        for name in ("first", "second"):
            assert f'href="/job/{name}/"' in listed
            assert client.get(f"/job/{name}/bench").status_code == 200
        assert client.get("/job/..%2Ffirst/").status_code == 404
