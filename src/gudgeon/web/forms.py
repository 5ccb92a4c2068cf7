"""What a form brings: texts on bounded lines, numbers and dates read with a sentence where they are none, and files."""

from __future__ import annotations

import math
from collections.abc import AsyncIterator, Iterator, Mapping
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from datetime import date
from typing import BinaryIO

from starlette.datastructures import UploadFile
from starlette.requests import Request

from gudgeon.web import words
from gudgeon.workbench.faults import Refused

LONGEST = 4000
LONG = {"outline": 100_000, "marks": 40_000}
MOST_FIELDS, MOST_FILES = 400, 40


@dataclass(frozen=True, slots=True)
class Sent:
    """A file that came: the name it had there (never used as a path), its size, and the place its bytes wait in until they
    are read, so that of twenty photos one at a time is in memory."""

    name: str
    size: int
    file: BinaryIO

    @property
    def data(self) -> bytes:
        """The bytes."""
        self.file.seek(0)
        return self.file.read()


@dataclass(frozen=True, slots=True)
class Form(Mapping[str, str]):
    """The fields as typed, and the files."""

    fields: Mapping[str, str] = field(default_factory=dict)
    files: Mapping[str, tuple[Sent, ...]] = field(default_factory=dict)

    def __getitem__(self, name: str) -> str:
        return self.fields[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.fields)

    def __len__(self) -> int:
        return len(self.fields)

    def text(self, name: str) -> str:
        """A field without the space around it, "" where it is missing."""
        return self.fields.get(name, "").strip()

    def many(self, name: str) -> tuple[Sent, ...]:
        """The files of a field that hold anything."""
        return tuple(sent for sent in self.files.get(name, ()) if sent.size)

    def number(self, name: str, *, what: str, example: str) -> float | None:
        """A number, None for an empty field. Raises Refused."""
        typed = self.text(name)
        if not typed:
            return None
        try:
            value = float(typed.replace(",", "").replace(" ", ""))
        except ValueError:
            value = math.nan
        if not math.isfinite(value):
            raise Refused(words.BAD_NUMBER.format(typed=typed, what=what, example=example))
        return value

    def span(self, name: str, *, what: str, example: str) -> tuple[float, float, float] | None:
        """Low, likely and high from three fields; one alone stands for all three; None where all are empty."""
        ends = [self.number(f"{name}_{end}", what=what, example=example) for end in ("low", "likely", "high")]
        given = [end for end in ends if end is not None]
        if not given:
            return None
        low = ends[0] if ends[0] is not None else min(given)
        high = ends[2] if ends[2] is not None else max(given)
        likely = ends[1] if ends[1] is not None else (low + high) / 2
        return low, likely, high

    def day(self, name: str, *, what: str) -> str:
        """An ISO date, "" for an empty field. Raises Refused."""
        typed = self.text(name)
        if not typed:
            return ""
        try:
            return date.fromisoformat(typed).isoformat()
        except ValueError:
            raise Refused(words.BAD_DATE.format(typed=typed, what=what)) from None


@asynccontextmanager
async def sent_form(request: Request) -> AsyncIterator[Form]:
    """The form of a request; its files are there until the block is left."""
    values: dict[str, str] = {}
    files: dict[str, list[Sent]] = {}
    async with request.form(max_fields=MOST_FIELDS, max_files=MOST_FILES, max_part_size=1_000_000) as data:
        for name, value in data.multi_items():
            if isinstance(value, UploadFile):
                if value.size or value.filename:
                    sent = Sent(plain_name(value.filename or ""), value.size or 0, value.file)
                    files.setdefault(name, []).append(sent)
            else:
                values[name] = value[: LONG.get(name, LONGEST)]
        yield Form(values, {name: tuple(found) for name, found in files.items()})


def plain_name(name: str) -> str:
    """The last piece of a file name, printable, without anything that could lead to another folder."""
    piece = name.replace("\\", "/").rsplit("/", 1)[-1]
    return "".join(letter for letter in piece if letter.isprintable() and letter not in '<>:"|?*').strip(". ")[:120] or "file"
