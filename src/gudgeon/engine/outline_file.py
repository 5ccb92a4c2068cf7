"""The outline of an engine as a file that a person writes: TOML, every key optional. Described in docs/outline.md."""

from __future__ import annotations

import datetime
import difflib
import json
import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, get_args

from gudgeon.engine import outline as words
from gudgeon.engine.outline import Outline
from gudgeon.quantity import NotUnderstood, understand

FORMAT = "gudgeon outline 1"
UNITS = ("in", "mm")
LARGEST = 3.0
"""No bore, stroke or offset of an engine that one person takes apart is larger [m]."""


class NoOutline(ValueError):
    """The file can't be taken as an outline; ``line`` is where (0 where it can't be said), ``str()`` the sentence."""

    def __init__(self, sentence: str, line: int = 0) -> None:
        self.line = line
        super().__init__(f"Line {line}: {sentence}" if line else sentence)


@dataclass(frozen=True, slots=True)
class Key:
    """A key of the file: what it means, an example as it would be written, how its value is read.

    ``read`` takes the value that TOML gave and the file's unit, and raises ValueError with "... was read; ... would be right".
    """

    name: str
    meaning: str
    example: str
    read: Callable[[Any, str], Any]
    field: str = ""

    @property
    def target(self) -> str:
        """The field of the Outline that it fills."""
        return self.field or self.name


def _text(value: Any, _: str) -> str:
    if isinstance(value, bool | dict | list):
        raise ValueError(f"{_shown(value)} was read; a text in quotes would be right")
    if isinstance(value, datetime.date | datetime.time):
        return value.isoformat()
    return str(value).strip()


def _whole(least: int, most: int) -> Callable[[Any, str], int]:
    def read(value: Any, _: str) -> int:
        number = int(value) if isinstance(value, str) and value.strip().isdecimal() else value
        if not isinstance(number, int) or isinstance(number, bool) or not least <= number <= most:
            raise ValueError(f"{_shown(value)} was read; a whole number from {least} to {most} would be right")
        return number

    return read


def _one_of(*choices: Any) -> Callable[[Any, str], Any]:
    def read(value: Any, _: str) -> Any:
        wanted = _plain_words(value)
        for choice in choices:
            if _plain_words(choice) == wanted:
                return choice
        near = difflib.get_close_matches(wanted, [_plain_words(choice) for choice in choices], n=1)
        nearest = f" (nearest: “{next(word for word in choices if _plain_words(word) == near[0])}”)" if near else ""
        raise ValueError(f"{_shown(value)} was read; one of {', '.join(map(str, choices))} would be right{nearest}")

    return read


def _length(value: Any, unit: str) -> tuple[float, str]:
    typed = str(value).strip()
    if isinstance(value, bool | dict | list) or not typed:
        raise ValueError(f'{_shown(value)} was read; a size would be right, such as "5 1/8", "5.125 in" or "130 mm"')
    try:
        understood = understand(typed, unit=unit)
    except NotUnderstood as fault:
        raise ValueError(str(fault).rstrip(".")) from fault
    size = understood.value
    if understood.kind != "point" or understood.dimension != "length" or size is None or not 0 <= size <= LARGEST:
        raise ValueError(f'“{typed}” was read; one length would be right, such as "5 1/8", "5.125 in" or "130 mm"')
    bare = re.fullmatch(r"[\d\s./]+", typed) is not None
    return size, f"{typed} {unit}" if bare and unit != "in" else typed


def _speed(value: Any, _: str) -> float:
    found = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*(?:rpm|rev/min|r\.p\.m\.)?\s*", str(value), re.IGNORECASE)
    if isinstance(value, bool) or not found or not 0 < float(found[1]) <= 10_000:
        raise ValueError(f"{_shown(value)} was read; one speed in turns a minute would be right, such as 450")
    return float(found[1])


KEYS: tuple[Key, ...] = (
    Key("name", "what you call the engine", '"The mill engine"', _text),
    Key("maker", "", '"A. Founder and Son"', _text),
    Key("place", "where it was made, or where it stood", '"Saltmarsh"', _text),
    Key("built", "year, or what is known of it", '"about 1908"', _text),
    Key("serial", "number stamped on it", '"1 047"', _text),
    Key("casting_numbers", "numbers cast in", '"B 12, B 14"', _text),
    Key("plate", "what the plate says, word for word", '"8 H.P. 450 R.P.M."', _text),
    Key("power", "rated power, as written", '"8 hp"', _text),
    Key("cylinders", "how many", "3", _whole(1, 24)),
    Key("casting", "how the cylinders are cast", '"in pairs"', _one_of(*get_args(words.Casting))),
    Key("head", "does the head come off", '"integral"', _one_of(*get_args(words.Head))),
    Key("valves", "where the valves are", '"T head"', _one_of(*get_args(words.Valves))),
    Key("inlet", "opened by suction alone, or by a cam", '"automatic"', _one_of(*get_args(words.Inlet))),
    Key("lie", "how the cylinders stand", '"vertical"', _one_of(*get_args(words.Lie))),
    Key("strokes", "of the cycle", "4", _one_of(2, 4)),
    Key("bore", "from plate or catalogue, not a reading", '"5 1/8"', _length),
    Key("stroke", "from plate or catalogue", '"6 in"', _length),
    Key("offset", "of the cylinder axis from the crank axis", '"1/2"', _length),
    Key("rated_speed_rpm", "turns a minute", "450", _speed, "rated_speed"),
    Key("rotation", "seen facing the flywheel", '"clockwise"', _one_of(*get_args(words.Rotation))),
    Key("firing_order", "as marked or found", '"1 3 2"', _text),
    Key("bearings", "metal and make-up", '"poured babbitt, shims"', _text),
    Key("main_bearings", "how many", "4", _whole(1, 30)),
    Key("rings_per_piston", "how many", "3", _whole(0, 12)),
    Key("camshafts", "how many", "2", _whole(0, 4)),
    Key("gears", "timing gears, teeth if counted", '"crank 24, cam 48, spur"', _text),
    Key("oiling", "how it is oiled", '"splash, drip to the cylinders"', _text),
    Key("cooling", "how it is cooled", '"water, pump"', _text),
    Key("pump", "water or oil pump", '"gear pump on the magneto shaft"', _text),
    Key("ignition", "how it is fired", '"high-tension magneto"', _text),
    Key("magneto", "make, kind, drive", '"low tension, cam speed"', _text),
    Key("governor", "kind and place", '"flyballs on the camshaft"', _text),
    Key("governing", "how it holds its speed", '"throttling"', _one_of(*get_args(words.Governing))),
    Key("fuel", "", '"petrol, kerosene when hot"', _text),
    Key("flywheel", "size and how it is held", '"24 in, gib key"', _text),
    Key("flywheels", "where they sit", '"one end"', _one_of(*get_args(words.Flywheels))),
    Key("notes", "anything else", '"Standing since 1931."', _text),
)
_BY_NAME = {key.name: key for key in KEYS}
_LENGTHS = frozenset(key.name for key in KEYS if key.read is _length)


def read_outline(text: str, *, name: str = "") -> Outline:
    """The outline that a file describes. ``name`` (the folder's) stands in where the file gives none.

    Lengths without a unit of their own are in the file's ``unit``, inches unless it says "mm". Raises NoOutline.
    """
    data = _toml(text)
    unit = _head(data, text)
    fields: dict[str, Any] = {"name": name}
    for key_name, value in data.items():
        key = _BY_NAME.get(key_name)
        if key is None:
            raise NoOutline(_no_such_key(key_name, value), _line_of(key_name, text))
        try:
            read = key.read(value, unit)
        except ValueError as fault:
            raise NoOutline(f"{key_name}: {fault}.", _line_of(key_name, text)) from fault
        if key_name in _LENGTHS:
            fields[key.target], fields[f"{key.target}_typed"] = read
        else:
            fields[key.target] = read
    if not fields["name"]:
        raise NoOutline('The engine has no name in this file; add a line such as name = "The mill engine".')
    return Outline(**fields)


def write_outline(outline: Outline) -> str:
    """A file that reads back as this outline. What is unknown stands there as a comment with an example, to be filled in."""
    lines = [f"format = {_quoted(FORMAT)}", "", "# Fill in what you know and take the # away; anything may be left out.", ""]
    for key in KEYS:
        value = getattr(outline, key.target)
        written = _written(key, outline, value)
        meaning = f"  # {key.meaning}" if key.meaning else ""
        lines.append(f"{key.name} = {written}{meaning}" if written else f"# {key.name} = {key.example}{meaning}")
    return "\n".join(lines) + "\n"


def _written(key: Key, outline: Outline, value: Any) -> str:
    if value is None or value == "":
        return ""
    if key.name in _LENGTHS:
        typed = getattr(outline, f"{key.target}_typed")
        return _quoted(typed or f"{value * 1000:.10g} mm")
    return f"{value:.10g}" if isinstance(value, int | float) else _quoted(value)


def _quoted(text: str) -> str:
    # A JSON string is a TOML basic string, but for DEL, which TOML wants escaped (toml.io/en/v1.0.0#string).
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _toml(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text.removeprefix("\ufeff").replace("\r\n", "\n"))
    except tomllib.TOMLDecodeError as fault:
        found = re.search(r"\(at line (\d+)", str(fault))
        line = int(found[1]) if found else _line_of_second(text)
        raise NoOutline(_wrong_line(text, line, str(fault)), line) from fault


def _wrong_line(text: str, line: int, fault: str) -> str:
    typed = text.splitlines()[line - 1].strip() if 0 < line <= len(text.splitlines()) else ""
    if "overwrite" in fault:
        return f"“{typed}” gives a key a second time; each key stands once."
    unquoted = re.fullmatch(r"([A-Za-z_]+)\s*[=:]\s*([^\"'#=]+?)\s*(#.*)?", typed)
    if unquoted:
        return f'“{typed}” can\'t be read; a text stands in quotes: {unquoted[1]} = "{unquoted[2]}".'
    why = re.sub(r"\s*\(at .*\)$", "", fault)
    return f"“{typed}” can't be read ({why}); one key, =, and its value stand on a line, texts in quotes."


def _head(data: dict[str, Any], text: str) -> str:
    """Take format and unit out of the data; returns the unit of lengths that have none."""
    form = data.pop("format", FORMAT)
    if form != FORMAT:
        raise NoOutline(f"format {_shown(form)} was read; this gudgeon reads “{FORMAT}”.", _line_of("format", text))
    unit = data.pop("unit", "in")
    if unit not in UNITS:
        raise NoOutline(f'unit {_shown(unit)} was read; "in" or "mm" would be right.', _line_of("unit", text))
    return str(unit)


def _no_such_key(name: str, value: Any) -> str:
    if isinstance(value, Mapping):
        return f"{name} is read as a section, and an outline has none; take the line [{name}] away."
    near = difflib.get_close_matches(name.lower(), [*_BY_NAME, "format", "unit"], n=1, cutoff=0.5)
    right = f"did you mean {near[0]}?" if near else f"the keys are {', '.join(_BY_NAME)}."
    return f"{name} is no key of an outline; {right}"


def _line_of(name: str, text: str) -> int:
    """The line on which a key stands, 0 where it cannot be found."""
    stands = re.compile(rf"\s*\[?\s*[\"']?{re.escape(name)}[\"']?\s*[=.\]]")
    return next((number for number, line in enumerate(text.splitlines(), start=1) if stands.match(line)), 0)


def _line_of_second(text: str) -> int:
    """The line on which a key stands for the second time, 0 where none does."""
    seen: set[str] = set()
    for number, line in enumerate(text.splitlines(), start=1):
        if found := re.match(r"\s*[\"']?([\w-]+)[\"']?\s*=", line):
            if found[1] in seen:
                return number
            seen.add(found[1])
    return 0


def _plain_words(value: object) -> str:
    return re.sub(r"[\s_-]+", " ", str(value)).strip().lower()


def _shown(value: object) -> str:
    return "a table" if isinstance(value, Mapping) else f"“{value}”"
