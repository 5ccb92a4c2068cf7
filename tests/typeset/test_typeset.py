"""Documents are read back with pypdf, an independent reader; PDF/A rules are those of ISO 19005-2, named clause by clause."""

import io
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from gudgeon.typeset import TypesetFault, coverage, data_file, escape, join, pdf, printable

HOSTILE = (
    '#panic("x")',
    '"; #panic("x")',
    "\\",
    '\\" #1',
    "@reference and <label>",
    "$ x $ ] [ } { ) (",
    "`raw` ```block```",
    "// not a comment /* nor this */",
    "= not a heading",
    "*not bold* _nor slanted_",
    "5⅛ ⌀ 20 °C ± 3 µm × 2 − 1",
)


def document(source, **more):
    return pdf(source, title=more.pop("title", "Trial"), date=more.pop("date", "2026-05-01"), **more)


def text_of(data):
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)


def flat(text):
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("typed", HOSTILE)
def test_typed_words_are_shown_as_typed(typed):
    """Followed by what would be a method call and a content block, so that an expression left open would show."""
    shown = flat(text_of(document(f"A{escape(typed)}.len() [B] (C)")))
    assert shown == flat(f"A{typed}.len() [B] (C)")


@settings(max_examples=25, deadline=None)
@given(st.text(max_size=60))
def test_any_text_can_be_set(typed):
    text_of(document(escape(typed)))


@settings(max_examples=25, deadline=None)
@given(st.text(alphabet=st.characters(min_codepoint=33, max_codepoint=126), min_size=1, max_size=20))
def test_any_ascii_comes_back(typed):
    assert flat(text_of(document(escape(typed)))) == typed


def test_words_in_a_data_file_are_not_markup():
    data = data_file({"said": '#panic("x") *b* $x$'})
    assert '#panic("x") *b* $x$' in text_of(document('#let d = json("d.json")\n#d.said', files={"d.json": data}))


def test_a_character_no_font_has_is_spelled_out():
    """U+1F600 is an emoji; none of the shipped fonts has it, and PDF/A-2 forbids the empty box (6.2.11.8)."""
    assert printable("ok \U0001f600") == "ok [U+1F600]"
    assert "[U+1F600]" in text_of(document(escape("\U0001f600")))


def test_the_signs_of_the_trade_are_in_the_fonts():
    assert {ord(sign) for sign in "⅛⅜⅝⅞½¼¾°±µ×⌀−≤≥"} <= coverage()


def test_the_same_input_gives_the_same_bytes():
    assert document("= Once") == document("= Once")
    assert document("= Once") != document("= Once", date="2026-05-02")


def check_archival(data):
    """What ISO 19005-2 asks and a plain reader can see: 6.1.2 header, 6.1.3 identifier and no encryption, 6.2.3 one output
    intent with a profile, 6.2.11.4 fonts embedded, 6.6.4 the version mark in XMP, which agrees with the title."""
    reader = PdfReader(io.BytesIO(data))
    root = reader.trailer["/Root"]
    assert data.startswith(b"%PDF-1.7")
    assert all(byte > 127 for byte in data.split(b"\n", 2)[1][1:5])
    assert reader.trailer["/ID"]
    assert "/Encrypt" not in reader.trailer
    intents = root["/OutputIntents"]
    assert len(intents) == 1
    assert intents[0]["/S"] == "/GTS_PDFA1"
    assert intents[0]["/DestOutputProfile"].get_data()[36:40] == b"acsp"
    xmp = root["/Metadata"].get_data().decode()
    assert "<pdfaid:part>2</pdfaid:part>" in xmp
    assert "<pdfaid:conformance>B</pdfaid:conformance>" in xmp
    for page in reader.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            descriptor = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
            assert "/FontFile2" in descriptor or "/FontFile3" in descriptor
    return reader, xmp


def test_a_document_is_archival():
    reader, xmp = check_archival(document("= Heading\nwords", title="A & B", author="the owner"))
    assert reader.metadata.title == "A & B"
    assert "A &amp; B" in xmp


def test_joined_documents_stay_archival_and_in_order():
    parts = [document(f"= Part {n}\nwords {n}") for n in (1, 2, 3)]
    whole = join(parts, title="All <three>", author="the owner", date="2026-05-01")
    reader, xmp = check_archival(whole)
    assert [f"words {n}" in page.extract_text() for n, page in enumerate(reader.pages, start=1)] == [True] * 3
    assert reader.metadata.title == "All <three>"
    assert "All &lt;three&gt;" in xmp
    assert xmp.count("pdfaid:part>") == 2
    assert "/StructTreeRoot" not in reader.trailer["/Root"]
    assert whole == join(parts, title="All <three>", author="the owner", date="2026-05-01")
    assert [item.title for item in reader.outline] == ["Part 1", "Part 2", "Part 3"]


def test_page_numbers_go_on_where_the_caller_says():
    shown = text_of(document('#import "house.typ": *\n#show: house.with(first: 51, cells: (("engine", [x]),))\nwords'))
    assert "51" in shown


def test_a_font_that_is_not_shipped_is_refused():
    with pytest.raises(TypesetFault, match="font"):
        document('#text(font: "Comic Nothing", fallback: false)[words]')


def test_a_fault_names_the_document():
    with pytest.raises(TypesetFault, match="“Trial” could not be set: unclosed"):
        document("#(")


def test_a_date_that_is_none_is_refused():
    with pytest.raises(TypesetFault, match="“May” was given as the document's date; a date such as 2026-05-01"):
        document("words", date="May")


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_figures_are_tabular(weight):
    """A figure is as wide as any other, as columns of sizes need; the typesetter itself measures, and stops when not."""
    document(
        '#import "house.typ": *\n#show: house.with(cells: ())\n'
        f'#set text(weight: "{weight}")\n'
        "#context for digit in range(10) { assert.eq(measure(str(digit) * 3).width, measure([000]).width) }"
    )


def test_the_licences_are_beside_the_fonts():
    from gudgeon.typeset.words import FONTS

    words = (FONTS / "LICENCES.txt").read_text("utf-8")
    assert all(name in words for name in ("Clear Sans", "Old Standard", "DejaVu"))
    assert sum(path.stat().st_size for path in FONTS.iterdir()) < 1.5e6
