"""Teardown, tags, photos and devices over the pages."""

from __future__ import annotations

import io
import json
from html import unescape
from importlib import import_module

import pytest
from PIL import Image

from gudgeon.web import app as application
from gudgeon.web.addresses import Addresses
from gudgeon.web.app import create_app
from gudgeon.web.pairing import Pairing
from gudgeon.workbench.devices import devices_of
from tests.web.conftest import TestClient

AT = Addresses("withy")


def jpeg(shade: int = 80) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (640, 480), (shade, 80, 70)).save(out, "JPEG")
    return out.getvalue()


def test_every_route_leads_to_a_view(monkeypatch):
    named = []
    monkeypatch.setattr(application, "answer", lambda *views: named.extend(views) or (lambda _: None))
    application._routes()
    for name in named:
        module, _, function = name.partition(".")
        assert callable(getattr(import_module(f"gudgeon.web.{module}"), function)), name


def test_a_part_is_noted_by_taps_with_its_photos(client, job):
    client.post(
        AT.note(system="cylinders"),
        data={
            "what": "note",
            "pick": "piston 2",
            "c2": "yes",
            "condition": "skirt bright",
            "left": "3 @ .002",
            "right": "2 @ .002",
        },
        files=[("pictures", ("1.jpg", jpeg(10))), ("more_pictures", ("2.jpg", jpeg(20)))],
    )
    (note,) = job.snapshot().parts
    assert (note.part, note.item, note.condition) == ("piston", "piston 2", "scored, skirt bright")
    assert note.shims == "left: 3 @ .002; right: 2 @ .002"
    assert len(note.pictures) == 2
    shown = unescape(client.get(AT.part(note.line)).text)
    assert "skirt bright" in shown
    assert all(AT.look(digest) in shown for digest in note.pictures)


@pytest.mark.parametrize("find", ["piston", "7", "box A", "bright box"])
def test_a_part_is_found_by_words_tag_and_box(client, find):
    client.post(AT.note(), data={"what": "note", "item": "piston 2", "condition": "bright", "stored": "box A", "tag": "7"})
    client.post(AT.note(), data={"what": "note", "item": "oil cup", "tag": "8"})
    assert "piston 2</a>" in client.get(AT.parts(find=find)).text
    assert "oil cup</a>" not in client.get(AT.parts(find=find)).text


def test_last_off_is_first_on(client, job):
    for item in ("oil cup", "cover", "piston 2"):
        client.post(AT.note(), data={"what": "note", "item": item})
    page = client.get(AT.parts(see="together")).text
    assert page.index("piston 2</a>") < page.index("cover</a>") < page.index("oil cup</a>")
    line = next(note.line for note in job.snapshot().parts if note.item == "piston 2")
    client.post(AT.parts(), data={"part": line, "what": "back", "on": "2027-03-01"})
    page = client.get(AT.parts(see="together")).text
    assert "1 of 3 are back" in page
    assert page.index("cover</a>") < page.index("piston 2</a>")


def test_a_tag_opens_its_part_or_the_form_for_it(client, job):
    client.post(AT.note(), data={"what": "note", "item": "cover", "tag": "14"})
    line = job.snapshot().parts[0].line
    assert str(client.get("/tag/14").url).endswith(AT.part(line))
    assert 'value="15"' in client.get("/tag/15").text
    assert client.get("/tag/x").status_code == 404
    sheet = client.get(f"{AT.page('tags')}/tags.pdf", params={"host": "192.168.1.20:8765", "first": "1", "count": "20"})
    assert sheet.content.startswith(b"%PDF")
    bad = client.get(f"{AT.page('tags')}/tags.pdf", params={"host": "javascript:alert(1)"})
    assert bad.status_code == 422


def test_what_is_drawn_on_a_photo_is_text_and_the_photo_stays(client, job):
    data = jpeg()
    client.post(AT.note(), data={"what": "note", "item": "cover"}, files={"pictures": ("1.jpg", data)})
    (picture,) = job.snapshot().pictures
    marks = [{"kind": "arrow", "x": 0.1, "y": 0.1, "to_x": 0.5, "to_y": 0.5, "text": "</text><script>alert(1)</script>"}]
    client.post(AT.look(picture.digest), data={"what": "marks", "marks": json.dumps(marks)})
    page = client.get(AT.look(picture.digest)).text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in page
    assert client.get(AT.picture(picture.digest)).content == data


@pytest.mark.parametrize(
    "marks", ["{", "[1]", '[{"kind": "arrow", "x": 7, "y": 0}]', '[{"kind": "<svg>", "x": 0, "y": 0}]', "[" * 5000]
)
def test_a_drawing_that_cannot_be_read_is_refused(client, job, marks):
    client.post(AT.note(), data={"what": "note", "item": "cover"}, files={"pictures": ("1.jpg", jpeg())})
    (picture,) = job.snapshot().pictures
    assert client.post(AT.look(picture.digest), data={"what": "marks", "marks": marks}).status_code == 422
    assert not job.snapshot().marks


def test_two_people_at_one_part_see_both_and_the_second_chooses(client, job):
    client.post(AT.note(), data={"what": "note", "item": "cover", "condition": "clean"})
    (note,) = job.snapshot().parts
    seen = job.snapshot().head
    form = {"what": "note", "item": "cover", "seen": seen}
    client.post(AT.part(note.line), data={**form, "condition": "one stud short"})
    second = client.post(AT.part(note.line), data={**form, "condition": "two studs short"})
    assert second.status_code == 409
    assert "<td>one stud short</td><td>two studs short</td>" in second.text
    assert job.snapshot().parts[0].condition == "one stud short"
    client.post(AT.part(note.line), data={**form, "seen": job.snapshot().head, "condition": "two studs short"})
    assert job.snapshot().parts[0].condition == "two studs short"


def test_of_several_files_one_that_is_no_picture_refuses_all(client, job):
    files = [("pictures", ("1.jpg", jpeg())), ("pictures", ("2.jpg", b"<svg onload=alert(1)>"))]
    assert client.post(AT.note(), data={"what": "note", "item": "cover"}, files=files).status_code == 422
    assert not job.snapshot().pictures
    assert not job.snapshot().parts


def test_a_device_stays_in_when_the_workbench_is_opened_again_until_it_is_ended(place):
    pairing = Pairing(devices_of(place), code="123456")
    with TestClient(
        create_app(place, lan=True, pairing=pairing), base_url="http://testserver", client=("192.0.2.7", 5)
    ) as phone:
        phone.post("/pair", data={"code": "123456", "device": "phone"})
        kept = dict(phone.cookies)
    again = {"base_url": "http://testserver", "client": ("192.0.2.7", 5), "cookies": kept}
    with TestClient(create_app(place, lan=True), **again) as phone:
        assert "The Withy Lock engine" in phone.get("/job/withy/bench").text
    assert kept["gudgeon-device"] not in devices_of(place).path.read_text()
    with TestClient(create_app(place, lan=True), base_url="http://testserver") as here:
        assert "phone" in here.get("/who").text
        here.post("/who", data={"end": devices_of(place).read()[0].digest})
    with TestClient(create_app(place, lan=True), **again) as phone:
        assert str(phone.get("/job/withy/bench").url).endswith("/pair")


def test_a_page_that_cannot_wait_says_that_it_is_being_reckoned(place):
    with TestClient(create_app(place, patience=0.0), base_url="http://testserver") as client:
        assert "Being reckoned" in client.get(AT.engine()).text
        assert client.get(AT.page("parts")).status_code == 200
