"""How wide a text is and where it breaks. Conservative, so that a label is never cut whatever sans face the reader has."""

from __future__ import annotations

# Advance widths in thousandths of the type size, as in DejaVu Sans (read from the face with a font library). It is among the
# widest of the sans faces that systems fall back on, so a text in another one takes less room.
_WIDTHS = {
    280: "ijl'", 300: "IJ", 325: " ,.·’", 345: "/:;\\|", 360: "f-", 400: "()[]t!", 415: "r", 500: "\"*_`°–", 530: "sz“”?",
    560: "cLFk", 600: "vxyPTYaoe", 640: "ESbdghnpqu0123456789${}", 695: "KAVBRXZC", 755: "UHN", 790: "DGOQ&", 840: "w#+<=>^~×±",
    1000: "MmW%@—",
}  # fmt: skip
_WIDTH_OF = {letter: width for width, letters in _WIDTHS.items() for letter in letters}
WIDEST = 1000


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """Width of a text at a type size, in the same unit as ``size``; never less than what common sans faces need.

    A bold face is taken as 14 % wider (DejaVu Sans Bold against DejaVu Sans over the lower-case alphabet).
    """
    thousandths = sum(_WIDTH_OF.get(letter, WIDEST) for letter in text)
    return thousandths * size / 1000 * (1.14 if bold else 1.0)


def wrapped(text: str, width: float, size: float, *, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than ``width``. A word that is wider by itself is broken between letters."""
    lines: list[str] = []
    for word in text.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(joined, size, bold=bold) <= width:
            lines[-1] = joined
            continue
        pieces = _pieces(word, width, size, bold=bold)
        lines.extend(pieces)
    return tuple(lines)


def _pieces(word: str, width: float, size: float, *, bold: bool) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_of(pieces[-1] + letter, size, bold=bold) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces
