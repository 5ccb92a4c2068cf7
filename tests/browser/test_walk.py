"""The walk on a phone: readings by pad and by keys, the network gone and back, a verdict, an order, the inspection."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from gudgeon import workbench

pytestmark = pytest.mark.browser
BLOCK = "/job/withy/bench/cylinders?block=0"
RIDGE = "ridge"


def at_ridge(job):
    return [
        r
        for r in job.snapshot().readings
        if r.place.item == "cyl 1" and r.place.feature == "bore diameter" and r.place.station == RIDGE
    ]


def sign_in(phone, site):
    phone.goto(f"{site}/who?next=/job/withy/")
    phone.get_by_label("Name, as it will stand").fill("Ida Fenn")
    phone.get_by_role("button", name="Keep").click()
    phone.wait_for_url("**/job/withy/")


def press(phone, keys):
    for key in keys:
        phone.locator(f'#pad button[data-key="{key}"]').click()


def test_four_readings_by_pad_and_keys_one_not_reached(phone, site, place):
    sign_in(phone, site)
    phone.goto(site + BLOCK)
    assert phone.locator("#where").inner_text() == RIDGE, "the first empty line of the sheet is at hand"

    press(phone, "4.5012")
    expect(phone.locator("#echo")).to_contain_text("4.5012")
    phone.locator("#next").click()
    phone.wait_for_selector("#lines li:nth-child(5) .values span:not(.waits)")
    assert phone.locator("#direction").inner_text().startswith("45°")

    phone.keyboard.type("4.5015")  # a gauge that types like a keyboard, ending in Enter
    phone.keyboard.press("Enter")
    phone.get_by_role("button", name="not reached").click()
    phone.keyboard.type("4 1/2")
    phone.keyboard.press("Enter")
    expect(phone.locator("#lines .waits")).to_have_count(0)

    with workbench.open_job(place) as job:
        assert [reading.typed for reading in at_ridge(job)] == ["4.5012", "4.5015", "not reached", "4 1/2"]
        assert [reading.place.direction for reading in at_ridge(job)] == [0.0, 45.0, 90.0, 135.0]
        assert {reading.person for reading in at_ridge(job)} == {"Ida Fenn"}


def test_what_cannot_be_understood_comes_back_to_be_mended(phone, site, place):
    sign_in(phone, site)
    phone.goto(site + BLOCK)
    phone.keyboard.type("4..5")
    phone.keyboard.press("Enter")
    phone.wait_for_selector("#lines .refused")
    assert phone.locator("#reading").input_value() == "4..5"
    assert phone.locator("#where").inner_text() == RIDGE
    with workbench.open_job(place) as job:
        assert not at_ridge(job)
    phone.watched.complaints.clear()  # Chromium logs every 422 answer to a script


def test_with_the_network_gone_readings_wait_and_go_out_once_in_order(phone, site, place):
    sign_in(phone, site)
    phone.goto(site + BLOCK)
    phone.context.set_offline(True)
    for typed in ("4.5012", "4.5013", "4.5014"):
        phone.keyboard.type(typed)
        phone.keyboard.press("Enter")
    assert "3 readings waiting" in phone.locator("#waiting").inner_text()
    assert phone.locator("#lines .waits").count() == 3
    phone.context.set_offline(False)
    expect(phone.locator("#lines .waits")).to_have_count(0)
    assert not phone.locator("#waiting").is_visible()
    with workbench.open_job(place) as job:
        assert [reading.typed for reading in at_ridge(job)] == ["4.5012", "4.5013", "4.5014"]
    phone.reload()
    with workbench.open_job(place) as job:
        assert len(at_ridge(job)) == 3
    phone.watched.complaints.clear()  # and every request that met no network


def test_an_answer_lost_on_its_way_back_does_not_take_the_reading_twice(phone, site, place):
    sign_in(phone, site)
    phone.goto(site + BLOCK)
    lost = []

    def lose_first(route):
        if route.request.method == "POST" and not lost:
            route.fetch()
            lost.append(True)
            route.abort()
        else:
            route.continue_()

    phone.route("**/bench/**", lose_first)
    phone.keyboard.type("4.5012")
    phone.keyboard.press("Enter")
    expect(phone.locator("#lines .waits")).to_have_count(0)
    assert lost
    with workbench.open_job(place) as job:
        assert [reading.typed for reading in at_ridge(job)] == ["4.5012"]
    phone.watched.complaints.clear()


def test_verdict_order_return_inspection_record(phone, site, place):
    sign_in(phone, site)
    phone.goto(f"{site}/job/withy/remedies")
    card = phone.locator(".card").first
    card.get_by_text("Choose this").click()
    card.get_by_label("Why, in your words").fill("It lasts longest.")
    card.get_by_role("button", name="Settle it").click()
    assert "It lasts longest." in phone.locator(".verdict").inner_text()

    phone.goto(f"{site}/job/withy/orders")
    assert "It waits for" in phone.locator("main").inner_text()
    with workbench.open_job(place) as job:
        ready = next(draft for draft in workbench.orders(job) if not draft.held)
    phone.get_by_role("link", name=ready.title).click()
    phone.get_by_label("To which shop").fill("Lane End Grinding")
    phone.get_by_role("button", name="It has gone out").click()
    phone.get_by_role("button", name="It has come back").click()

    with workbench.open_job(place) as job:
        order = job.snapshot().orders[-1]
    for line in phone.locator(".return-lines input").all():
        item = line.locator("xpath=preceding-sibling::label/b").inner_text()
        asked = next(size for size in order.draft.asked if size.item == item)
        line.fill(f"{(asked.lower + asked.upper) / 2 / 0.0254:.4f}")
    phone.get_by_role("button", name="Take these readings").click()
    phone.wait_for_selector(".said")
    with workbench.open_job(place) as job:
        assert all(line.value is not None for line in workbench.inspection(job, order.id).lines)
    phone.get_by_label("Note or reason").fill("Agreed with the shop.")
    phone.get_by_role("button", name="Accept with a concession").click()
    assert "accepted with a concession" in phone.locator("main").inner_text()

    phone.goto(f"{site}/job/withy/record")
    phone.get_by_role("button", name="Check that nothing was altered").click()
    assert re.search(r"\d+ entries", phone.locator("[role=status]").inner_text())
    with phone.expect_download() as book:
        phone.get_by_role("link", name="The book so far").click()
    assert book.value.suggested_filename == "record.pdf"


def test_without_script_the_plain_form_does_the_same(browser, site, place):
    context = browser.new_context(viewport={"width": 390, "height": 844}, java_script_enabled=False)
    page = context.new_page()
    page.goto(site + BLOCK)
    page.get_by_label("Your name").fill("Ned Amble")
    page.get_by_label("Reading", exact=True).fill("4.5012")
    page.get_by_role("button", name="next").click()
    assert "Taken" in page.locator(".said").inner_text()
    context.close()
    with workbench.open_job(place) as job:
        assert [(reading.typed, reading.person) for reading in at_ridge(job)] == [("4.5012", "Ned Amble")]
