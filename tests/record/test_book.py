"""The book is read back with pypdf, its pictures with Pillow, its seal with the history it was printed from."""

import dataclasses
import io
import re

import pytest
from PIL import Image
from pypdf import PdfReader

from gudgeon.engine.fold import fold
from gudgeon.engine.history import first_fault
from gudgeon.engine.order import Inspected
from gudgeon.record import book, head_of_book
from gudgeon.record.binding import runs
from gudgeon.record.photograph import on_paper
from tests.record.job import ASKED, contents, entries, finding, history, photo, reading, reckoning


def pages_of(data):
    return [re.sub(r"\s+", " ", page.extract_text()) for page in PdfReader(io.BytesIO(data)).pages]


@pytest.fixture(scope="module")
def printed():
    return pages_of(book(contents()))


def whole(pages):
    return " ".join(pages)


@pytest.mark.parametrize(
    "words",
    [
        "Harrow marine engine",
        "bore, as stated 5 1/8 in",
        "maker not known",
        "stamped I",
        "ridge at the top #1",
        "Below ring travel it reads 5 1/8, where no ring ever ran.",
        "or else: 130 mm, 6 in 100",
        "To settle it: the bore of cylinder 2 below ring travel",
        "past the limit",
        "at most .0050 in past the limit 98 in 100 past it",
        "A handbook, p. 12 (E: handbook or design ratio)",
        "Row 8 sits low of its neighbours.",
        "cylinder,cyl 2,bore,5..13",
        "two points in one figure",
        "It would burn oil as it stands.",
        "Turned down: Sleeve to the old size",
        "Quayside Boring",
        "It will run by the first of May, 7 in 10.",
        "A cylinder weighs more than one person should lift.",
        "read, but no rule here speaks of it",
        "after cleaning",
        "kept a picture, bore 1.jpg",
        "A. Owner",
    ],
)
def test_it_holds(printed, words):
    assert words in whole(printed)


def test_readings_stand_as_typed_and_a_corrected_one_is_kept(printed):
    """5.131 was corrected to 5.1311: both are in the book, the old one in its own list."""
    assert "5.131 in" in whole(printed)
    assert "5.1311 in" in whole(printed)
    kept = next(page for page in printed if "Replaced by a later reading, and kept" in page and not page.startswith("Contents"))
    list_of_old = kept.split("Replaced by a later reading, and kept")[1]
    assert "5.131 in" in list_of_old
    assert "5.1311" not in list_of_old


def test_contents_and_index_name_the_right_pages(printed):
    """Each chapter's page number in the contents is the sheet number at the foot of the page that carries its heading."""
    listing = next(page for page in printed if page.startswith("Contents"))
    feet = {re.search(r"sheet (\d+)$", page).group(1): page for page in printed if re.search(r"sheet (\d+)$", page)}
    found = re.findall(
        r"(Its own manual|Decisions|Outwork|Readings as typed|Who did what, when|Index by part)[ .]*?(\d+)", listing
    )
    assert len(found) == 6
    for title, number in found:
        assert title in feet[number], (title, number)
    index = next(page for page in printed if page.startswith("Index by part"))
    first = re.search(r"cyl 2 (\d+)", index).group(1)
    assert "cyl 2" in feet[first]


def test_the_seal_is_the_head_of_the_history():
    log = history()
    assert first_fault(log) is None
    data = book(contents())
    assert head_of_book(data) == log[-1].digest
    assert head_of_book(book(contents(head=""))) == ""
    assert head_of_book(b"%PDF-1.7 nothing") == ""


def test_the_same_job_gives_the_same_book():
    assert book(contents()) == book(contents())
    assert book(contents()) != book(contents(edition="second"))


def test_units_follow_the_reader():
    """.0060 in is 0.152 mm at 25.4 mm to the inch."""
    assert ".0060 in" in whole(pages_of(book(contents())))
    shown = whole(pages_of(book(contents(units="millimetre"))))
    assert "0.152 mm" in shown
    assert "Out of round by 0.152 mm; rings will not follow it." in shown


@pytest.mark.parametrize("word", ["overhauled", "rebuilt", "restored", "as new", "good condition", "made good", "remade"])
def test_no_word_without_its_evidence(printed, word):
    """The verdict is to make good and nothing was done yet: only "decided: make good" may stand."""
    assert not re.search(rf"\b{word}\b", whole(printed).lower())
    assert "decided: make good" in whole(printed)


def test_what_nobody_measured_is_never_good(printed):
    assert "not measured" in whole(printed)
    assert "Nothing in this record speaks for what stands here. Not examined is not good." in whole(printed)


def test_an_empty_job_makes_a_book_that_says_so():
    log = entries(*[(entry.kind, entry.body) for entry in history()[:1]])
    snapshot = fold(log)
    bare = contents(
        snapshot=snapshot,
        reckoning=None,
        svgs={},
        pictures={},
        forecast=(),
        steps=(),
        cautions=(),
        history=tuple(log),
        titles={},
    )
    shown = whole(pages_of(book(bare)))
    for words in ("Nothing can be said yet", "Nothing was decided yet", "No work was sent out", "no readings, no decisions"):
        assert words in shown


def test_inspections_are_printed_with_their_sentences():
    found = Inspected(
        asked=ASKED, value=None, low=None, high=None, outcome="can't tell yet", sentence="Read it across as well."
    )
    shown = whole(pages_of(book(contents(inspections={"e9": (found,)}))))
    assert "can't tell yet" in shown.replace("’", "'")
    assert "Read it across as well." in shown


def test_a_photo_is_turned_upright_and_made_small():
    """EXIF orientation 6 (CIPA DC-008: rows run from the right) turns a landscape photo upright."""
    with Image.open(io.BytesIO(on_paper(photo((2000, 1000), orientation=6)))) as image:
        assert image.size == (500, 1000)


def test_a_photo_that_cannot_be_read_is_named():
    data = book(contents(pictures={"ab" * 32: b"not a picture"}))
    assert "not shown: the file is missing or in a form that cannot be read here" in whole(pages_of(data))
    assert "abababababab" in whole(pages_of(data))


def test_photos_are_in_the_book():
    images = [image for page in PdfReader(io.BytesIO(book(contents()))).pages for image in page.images]
    assert any(Image.open(io.BytesIO(image.data)).size == (400, 300) for image in images)


def test_hostile_words_are_words():
    log = history()
    evil = entries(
        *[(entry.kind, entry.body) for entry in log], reading("cyl 1", "bore diameter", '#panic("x") $ @x', note="*b* \\")
    )
    assert '#panic("x") $ @x' in whole(pages_of(book(contents(snapshot=fold(evil), history=tuple(evil)))))


def test_many_parts_are_bound_in_batches_with_numbers_going_on():
    many = [finding(f"cyl {n}") for n in range(1, 231)]
    log = entries(
        *[(entry.kind, entry.body) for entry in history()],
        *[reading(f"cyl {n}", "bore diameter", "5.13", row=str(n)) for n in range(1, 231)],
    )
    data = book(contents(reckoning=reckoning(many), snapshot=fold(log), history=tuple(log)))
    pages = pages_of(data)
    numbers = [int(match.group(1)) for page in pages if (match := re.search(r"sheet (\d+)$", page))]
    assert numbers == list(range(1, len(numbers) + 1))
    assert len(pages) == len(numbers) + 2
    assert "cyl 230" in pages[-1]
    reader = PdfReader(io.BytesIO(data))
    assert len(reader.trailer["/Root"]["/OutputIntents"]) == 1
    assert "Cylinders, pistons and rings, continued" in whole(pages)


def test_neighbouring_pages_run_together():
    assert runs({3, 7, 8, 9, 12}) == "3, 7–9, 12"


def test_a_drawing_without_a_chapter_is_shown_all_the_same():
    some = contents()
    more = dataclasses.replace(some, svgs={**some.svgs, "odd one": some.svgs["engine"]})
    assert "odd one" in whole(pages_of(book(more)))
