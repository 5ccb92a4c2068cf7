"""The record: bench sheets to write on, and the book of everything that was found, decided and done."""

from gudgeon.record.bench_sheet import bench_sheet_pdf
from gudgeon.record.binding import book
from gudgeon.record.contents import Book
from gudgeon.record.evidence import Evidence, evidence_for
from gudgeon.record.seal import head_of_book
from gudgeon.record.tags import Tag, tags_pdf

__all__ = ["Book", "Evidence", "Tag", "bench_sheet_pdf", "book", "evidence_for", "head_of_book", "tags_pdf"]
