"""What must not get in: foreign hosts, foreign pages, too much, unpaired devices, wrong paths."""

from __future__ import annotations

import pytest

from gudgeon.web.app import create_app
from gudgeon.web.forms import plain_name
from gudgeon.web.guard import MOST_BYTES, POLICY, host_name
from gudgeon.web.pairing import TRIES, WAIT, Pairing
from gudgeon.web.people import cleaned
from tests.web.conftest import TestClient

READING = {"part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "reading": "4.5041"}


@pytest.mark.parametrize(
    "host", ["evil.example", "localhost.evil.example", "127.0.0.1.evil.example", "", "a b", "127.0.0.1@evil.example"]
)
def test_a_foreign_host_is_refused(reading_client, host):
    assert reading_client.get("/job/withy/", headers={"host": host}).status_code in (400, 421)


@pytest.mark.parametrize("host", ["localhost", "localhost:8765", "127.0.0.1:8765", "[::1]:8765"])
def test_our_own_names_are_answered(reading_client, host):
    assert reading_client.get("/job/withy/", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"origin": "http://testserver:81"},
    ],
)
def test_a_change_from_a_foreign_page_is_refused_and_nothing_is_written(client, job, headers):
    before = job.snapshot().entries
    response = client.post("/job/withy/bench/cylinders?block=0", data=READING, headers=headers)
    assert response.status_code == 403
    assert job.snapshot().entries == before


@pytest.mark.parametrize("headers", [{"origin": "http://testserver"}, {"sec-fetch-site": "same-origin"}, {}])
def test_a_change_from_our_own_page_is_taken(client, job, headers):
    before = job.snapshot().entries
    client.post("/job/withy/bench/cylinders?block=0", data=READING, headers=headers)
    assert job.snapshot().entries == before + 1


def test_nothing_is_changed_by_looking(client, job):
    before = job.snapshot().entries
    for path in (
        "",
        "plan?what=aims",
        "bench/cylinders?block=0&reading=4.5",
        "remedies/cylinders?remedy=cylinders/run-on&reason=x",
    ):
        client.get(f"/job/withy/{path}")
    assert job.snapshot().entries == before


def test_every_answer_carries_the_policy_without_inline_script(reading_client):
    for path in ("/job/withy/", "/nowhere", "/static/bench.js"):
        headers = reading_client.get(path).headers
        assert headers["content-security-policy"] == POLICY
        assert headers["x-content-type-options"] == "nosniff"
    assert "unsafe" not in POLICY


def test_a_body_that_says_it_is_too_large_is_refused_before_it_is_read(reading_client):
    response = reading_client.post("/job/withy/bring-in", content=b"x", headers={"content-length": str(MOST_BYTES + 1)})
    assert response.status_code == 413


@pytest.mark.parametrize(
    "path", ["/static/../app.py", "/static/%2e%2e/app.py", "/static/..%2fapp.py", "/job/withy/pictures/..%2f..%2fjob.sqlite"]
)
def test_paths_do_not_lead_out(reading_client, path):
    assert reading_client.get(path).status_code == 404


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("../../etc/passwd", "passwd"),
        ("C:\\Users\\x\\p.jpg", "p.jpg"),
        ("a\x00b\n.csv", "ab.csv"),
        ("", "file"),
        ("..", "file"),
        ('a"><script>.csv', "ascript.csv"),
    ],
)
def test_a_file_name_is_a_name_and_no_path(name, kept):
    assert plain_name(name) == kept


def test_a_person_is_one_line():
    assert cleaned(" Ida\r\nFenn\x00 ") == "IdaFenn"
    assert len(cleaned("x" * 500)) == 60


@pytest.mark.parametrize(("host", "name"), [("LocalHost:1", "localhost"), ("[::1]", "[::1]"), ("a/b", ""), ("x:port", "")])
def test_host_names(host, name):
    assert host_name(host) == name


def test_who_leads_nowhere_else(client):
    for target in ("//evil.example", "https://evil.example", "/\\evil.example"):
        response = client.post("/who", data={"name": "Ida", "next": target}, follow_redirects=False)
        assert response.headers["location"] == "/"


# ---- devices


@pytest.fixture
def pairing():
    return Pairing(code="123456")


@pytest.fixture
def phone(place, pairing):
    with TestClient(
        create_app(place, lan=True, pairing=pairing), base_url="http://testserver", client=("192.0.2.7", 5000)
    ) as made:
        yield made


def test_a_device_that_is_not_paired_sees_the_form_for_the_code_and_nothing_else(phone):
    assert str(phone.get("/job/withy/").url).endswith("/pair")
    assert phone.post("/job/withy/bench/cylinders?block=0", data=READING).status_code == 401
    assert phone.get("/job/withy/pictures/x", follow_redirects=False).status_code == 303


def test_the_code_pairs_one_device_once(phone, pairing, place):
    assert phone.post("/pair", data={"code": "123 456", "device": "phone"}).status_code == 200
    assert "The Withy Lock engine" in phone.get("/job/withy/").text
    assert pairing.code != "123456"
    with TestClient(
        create_app(place, lan=True, pairing=pairing), base_url="http://testserver", client=("192.0.2.8", 1)
    ) as other:
        assert other.post("/pair", data={"code": "123456"}).status_code == 422
        assert str(other.get("/job/withy/").url).endswith("/pair")


def test_a_scanned_code_is_not_taken_by_looking(phone, pairing):
    phone.get("/pair?code=123456")
    assert not pairing.devices


def test_codes_cannot_be_tried_out():
    now = [0.0]
    pairing = Pairing(code="123456", clock=lambda: now[0])
    for _ in range(TRIES):
        assert pairing.pair("000000", name="x") is None
    assert pairing.pair("123456", name="x") is None, "the right code too is not taken while resting"
    now[0] = WAIT + 1
    assert pairing.pair("123456", name="x")


def test_a_pairing_can_be_ended_from_this_machine_only(phone, pairing, place):
    phone.post("/pair", data={"code": "123456", "device": "phone"})
    digest = next(iter(pairing.devices))
    assert phone.post("/who", data={"end": digest}).status_code == 422
    with TestClient(create_app(place, lan=True, pairing=pairing), base_url="http://testserver") as here:
        assert "phone" in here.get("/who").text
        here.post("/who", data={"end": digest})
    assert str(phone.get("/job/withy/").url).endswith("/pair")
