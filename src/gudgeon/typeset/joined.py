"""Several PDF/A files joined into one that is still PDF/A."""

from __future__ import annotations

import datetime as dt
import hashlib
import io
from collections.abc import Sequence
from typing import Any
from xml.sax.saxutils import escape as xml

from gudgeon.typeset.page import TypesetFault, moment, pdf

PRODUCER = "gudgeon"

_XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">
<dc:format>application/pdf</dc:format>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
{creator}<xmp:CreateDate>{date}</xmp:CreateDate><xmp:ModifyDate>{date}</xmp:ModifyDate>
<pdf:Producer>{producer}</pdf:Producer>
<pdfaid:part>2</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>"""


def join(pdfs: Sequence[bytes], *, title: str, author: str = "", date: dt.datetime | dt.date | str) -> bytes:
    """One PDF/A-2b of several, in order, with one output intent and its own metadata; outlines follow along.

    Page numbers are the caller's: hand each batch its first number before it is set. The structure tree is dropped (level B
    does not ask for one). The same input gives the same bytes. Raises TypesetFault when there is nothing to join.
    """
    from pypdf import PdfReader, PdfWriter

    if not pdfs:
        raise TypesetFault(f"“{title}” has no pages to join; at least one part would be right.")
    writer = PdfWriter()
    for part in pdfs:
        writer.append(PdfReader(io.BytesIO(part)))
    for page in writer.pages:
        for key in ("/StructParents", "/Tabs"):
            page.pop(key, None)
    _mark(writer, first=PdfReader(io.BytesIO(pdfs[0])), title=title, author=author, at=moment(date))
    writer.compress_identical_objects()
    digest = hashlib.sha256(b"".join(hashlib.sha256(part).digest() for part in pdfs) + title.encode()).digest()[:16]
    _identify(writer, digest)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def _mark(writer: Any, *, first: Any, title: str, author: str, at: dt.datetime) -> None:
    """Output intent, XMP and information dictionary: the three must be there and agree (ISO 19005-2, 6.2.3 and 6.6)."""
    from pypdf.generic import ArrayObject, DictionaryObject, NameObject, StreamObject, TextStringObject

    root = writer.root_object
    for key in ("/StructTreeRoot", "/MarkInfo", "/OutputIntents", "/Metadata"):
        root.pop(key, None)
    intents = first.trailer["/Root"].get("/OutputIntents")
    if intents is None:
        intents = _reader(pdf("", title=title, date=at)).trailer["/Root"]["/OutputIntents"]
    root[NameObject("/OutputIntents")] = ArrayObject([writer._add_object(intents[0].get_object().clone(writer))])
    creator = f"<dc:creator><rdf:Seq><rdf:li>{xml(author)}</rdf:li></rdf:Seq></dc:creator>\n" if author else ""
    stream = StreamObject()
    stream.set_data(
        _XMP.format(title=xml(title), creator=creator, date=at.strftime("%Y-%m-%dT%H:%M:%SZ"), producer=PRODUCER).encode(
            "utf-8"
        )
    )
    stream.update({NameObject("/Type"): NameObject("/Metadata"), NameObject("/Subtype"): NameObject("/XML")})
    root[NameObject("/Metadata")] = writer._add_object(stream)
    stamp = TextStringObject(at.strftime("D:%Y%m%d%H%M%SZ"))
    about = {"/Title": title, "/Author": author, "/Producer": PRODUCER}
    writer._info = DictionaryObject(
        {NameObject(key): TextStringObject(value) for key, value in about.items() if value}
        | {NameObject("/CreationDate"): stamp, NameObject("/ModDate"): stamp}
    ).clone(writer)
    writer.pdf_header = "%PDF-1.7"


def _reader(document: bytes) -> Any:
    from pypdf import PdfReader

    return PdfReader(io.BytesIO(document))


def _identify(writer: Any, digest: bytes) -> None:
    """A file identifier (ISO 19005-2, 6.1.3) made from the content, so that it is the same every time."""
    from pypdf.generic import ArrayObject, ByteStringObject

    writer._ID = ArrayObject([ByteStringObject(digest), ByteStringObject(digest)])
