"""Typesetting: PDF/A-2b from typst source, in the house's print style, with its own fonts and the same bytes every time."""

from gudgeon.typeset.joined import join
from gudgeon.typeset.page import TypesetFault, date_or_epoch, marks, page_count, pdf
from gudgeon.typeset.words import FONTS, coverage, data_file, escape, printable, quoted, text_width

__all__ = [
    "FONTS",
    "TypesetFault",
    "coverage",
    "data_file",
    "date_or_epoch",
    "escape",
    "join",
    "marks",
    "page_count",
    "pdf",
    "printable",
    "quoted",
    "text_width",
]
