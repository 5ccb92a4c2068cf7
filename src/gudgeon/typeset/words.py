"""People's words on their way into a document: nothing that was typed may be read as markup, and no character is lost."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, is_dataclass
from functools import cache
from pathlib import Path

FONTS = Path(__file__).parent / "fonts"


@cache
def coverage() -> frozenset[int]:
    """Code points that the shipped fonts can show in the text faces (sans with its fallback)."""
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    points: set[int] = set()
    for name in ("ClearSans-Regular.ttf", "DejaVuSans.ttf"):
        with TTFont(FONTS / name, lazy=True) as font:
            points |= set(font.getBestCmap())
    return frozenset(points)


@cache
def _advances(bold: bool) -> dict[int, float]:
    from fontTools.ttLib import TTFont

    widths: dict[int, float] = {}
    for name in ("DejaVuSans.ttf", "ClearSans-Bold.ttf" if bold else "ClearSans-Regular.ttf"):
        with TTFont(FONTS / name, lazy=True) as font:
            units, advance = font["head"].unitsPerEm, font["hmtx"].metrics
            widths |= {point: advance[glyph][0] / units for point, glyph in font.getBestCmap().items()}
    return widths


def text_width(text: str, *, height: float, bold: bool = False) -> float:
    """Width of one line of text in the house's sans, in the unit of ``height`` (the size of the type), without kerning."""
    widths = _advances(bold)
    return height * sum(widths.get(ord(char), 0.6) for char in text)


def printable(text: str) -> str:
    """The text with every character that no shipped font can show written as ``[U+1F600]``.

    PDF/A forbids the empty box that a missing character would leave (ISO 19005-2, 6.2.11.8), and an empty box would lose
    what was typed. Line ends and tabs stay; other control characters are written out as well.
    """
    if text.isascii() and text.isprintable():
        return text
    known = coverage()
    return "".join(
        char if char in "\n\t" or (ord(char) in known and (char.isprintable() or char.isspace())) else f"[U+{ord(char):04X}]"
        for char in text.replace("\r\n", "\n").replace("\r", "\n")
    )


def quoted(text: str) -> str:
    """A typst string literal of the text, for use in code."""
    escaped = printable(text).replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    return f'"{escaped}"'


def escape(text: str) -> str:
    """Typst markup that shows exactly this text, whatever it holds.

    It is a string expression closed by a semicolon, so that nothing before or after it can lend it another meaning.
    """
    return f"#{quoted(text)};"


def data_file(value: object) -> bytes:
    """JSON bytes of plain data, mappings and dataclasses for a template to read; every text in it is made printable.

    The safest road into a document: a template shows a JSON text as text, never as markup. Numbers that are not finite are
    refused (ValueError).
    """
    return json.dumps(_printable(value), ensure_ascii=False, sort_keys=True, allow_nan=False).encode("utf-8")


def _printable(value: object) -> object:
    if isinstance(value, str):
        return printable(value)
    if is_dataclass(value) and not isinstance(value, type):
        return _printable(asdict(value))
    if isinstance(value, Mapping):
        return {str(key): _printable(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_printable(inner) for inner in value]
    return value
