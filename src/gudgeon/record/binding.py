"""The book set, batch by batch, numbered through, and bound into one file."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from gudgeon.engine.snapshot import natural
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import say
from gudgeon.record.contents import (
    Book,
    entry_row,
    finding_rows,
    grades,
    in_groups,
    loose_pictures,
    not_examined,
    order_row,
    outline_rows,
    part_row,
    parts_of,
    reading_row,
    signed,
    specification_row,
    specifications,
    verdict_row,
)
from gudgeon.record.photograph import all_on_paper
from gudgeon.record.seal import seal_svg
from gudgeon.typeset import data_file, date_or_epoch, join, marks, page_count, pdf, printable

TEMPLATE = Path(__file__).parent / "book.typ"
PARTS_A_BATCH = 50
FINDINGS_A_BATCH = 200
ROWS_A_BATCH = 1500

Chapter = dict[str, Any]
Batch = list[Chapter]
Place = Mapping[str, Any]
Shown = Collection[str]


def book(contents: Book) -> bytes:
    """The printed record as PDF/A-2b, the same bytes every time.

    Title page with the seal, contents, the engine, its own manual, the parts as found, a chapter for each system, doubtful
    readings, decisions, outwork, plan, cautions, what was not examined, all readings as typed, who did what when, and an index
    by part. Up to 50 parts it is set in one go; above that in batches, numbered through, so that it needs no more room.
    """
    setting = _Setting(contents)
    body: list[bytes] = []
    places: list[Place] = []
    first = 1
    for chapters in _batches(contents, setting.photos.keys()):
        pages, found = setting.set(chapters, first=first)
        body.append(pages)
        places += found
        first += page_count(pages)
    index, _ = setting.set([_index(places)], first=first)
    front, _ = setting.set(_front(contents, places, index_on=first), first=1, numbers="i")  # so that it moves no number
    return join([front, *body, index], title=_name(contents), date=date_or_epoch(contents.date))


def _name(contents: Book) -> str:
    return f"{contents.outline.name or 'An engine'}: the record so far"


class _Setting:
    """Sets batches of chapters, each with only the pictures that it shows."""

    def __init__(self, contents: Book) -> None:
        self.contents = contents
        self.files: dict[str, Callable[[], bytes]] = {}
        for number, (_, svg) in enumerate(contents.svgs.items()):
            self.files[f"drawing-{number}.svg"] = lambda svg=svg: printable(svg).encode("utf-8")  # type: ignore[misc]
        self.photos = all_on_paper(contents.pictures)
        for digest, photo in self.photos.items():
            self.files[f"photo-{digest}.jpg"] = lambda photo=photo: photo  # type: ignore[misc]
        if contents.head:
            self.files["seal.svg"] = lambda: seal_svg(
                name=contents.outline.name, entries=contents.snapshot.entries, head=contents.head
            )

    def set(self, chapters: Batch, *, first: int, numbers: str = "1") -> tuple[bytes, list[Place]]:
        """The pages of a batch, and the places on them that contents and index point to."""
        contents = self.contents
        data = {
            "engine": contents.outline.name or "not named",
            "edition": contents.edition,
            "date": contents.date[:10],
            "short-head": f"{contents.head[:16]}…" if contents.head else "not sealed",
            "first": first,
            "numbers": numbers,
            "chapters": chapters,
        }
        files = {"book.json": data_file(data)}
        for name in _files_of(chapters):
            files[name] = self.files[name]()
        source, title, date = TEMPLATE.read_text("utf-8"), _name(contents), date_or_epoch(contents.date)
        pages = pdf(source, files=files, title=title, date=date, tagged=False)
        return pages, [*marks(source, files=files, title=title, date=date)]


def _files_of(value: object) -> Iterator[str]:
    """Names of the files that a batch shows, found under the keys that hold them."""
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if key in ("file", "picture", "qr") and isinstance(inner, str) and inner:
                yield inner
            else:
                yield from _files_of(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _files_of(inner)


def _front(contents: Book, places: Sequence[Place], *, index_on: int) -> Batch:
    outline = contents.outline
    under = [outline.maker, outline.place, outline.built, f"no. {outline.serial}" if outline.serial else ""]
    title = {
        "kind": "title",
        "name": outline.name or "An engine",
        "under": ", ".join(filter(None, under)),
        "date": contents.date[:10],
        "sentences": _title_sentences(contents),
        "head": in_groups(contents.head),
        "entries": contents.snapshot.entries,
        "qr": "seal.svg" if contents.head else "",
    }
    rows = [place for place in places if place["kind"] == "chapter"]
    rows.append({"name": "Index by part", "level": 1, "page": index_on})
    return [title, {"kind": "contents", "rows": rows}]


def _title_sentences(contents: Book) -> list[str]:
    snapshot = contents.snapshot
    counts = (
        f"In it stand {_count(len(snapshot.readings), 'reading')}, {_count(len(snapshot.verdicts), 'decision')}, "
        f"{_count(len(snapshot.orders), 'order')} and {_count(len(snapshot.pictures), 'picture')}, "
        f"of {_count(len(parts_of(contents)), 'part')}."
    )
    return [
        "What was found, decided and done, each line with where it came from and who wrote it. " + counts,
        "It says no more than the readings, orders and tests in the job bear out. What is not named here was not examined; "
        "what was only told by the owner is marked as told.",
    ]


def _count(number: int, noun: str) -> str:
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"


def _index(places: Sequence[Place]) -> Chapter:
    pages: dict[str, set[int]] = {}
    for place in places:
        if place["kind"] == "part":
            pages.setdefault(str(place["name"]), set()).add(int(place["page"]))
    return {"kind": "index", "rows": [(name, runs(pages[name])) for name in sorted(pages, key=natural)]}


def runs(pages: set[int]) -> str:
    """Page numbers with neighbours run together: 3, 7–9."""
    out: list[list[int]] = []
    for page in sorted(pages):
        if out and page == out[-1][-1] + 1:
            out[-1].append(page)
        else:
            out.append([page])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in out)


def _batches(contents: Book, shown: Shown) -> list[Batch]:
    chapters = list(_chapters(contents, shown))
    if len(parts_of(contents)) <= PARTS_A_BATCH and len(contents.snapshot.readings) <= ROWS_A_BATCH:
        return [chapters]
    return [[chapter] for chapter in chapters]


def _chapters(contents: Book, shown: Shown) -> Iterator[Chapter]:
    snapshot, units, reckoning = contents.snapshot, contents.units, contents.reckoning
    names = {name: f"drawing-{number}.svg" for number, name in enumerate(contents.svgs)}
    yield {"kind": "engine", "rows": outline_rows(contents.outline), "picture": names.pop("engine", "")}
    yield {"kind": "manual", "grades": grades(), "rows": [specification_row(spec, units) for spec in specifications(reckoning)]}
    yield from _part_chapters(contents, shown)
    yield from _system_chapters(contents, names)
    yield _doubts(contents)
    yield {
        "kind": "decisions",
        "rows": [verdict_row(verdict, snapshot, units) for verdict in snapshot.verdicts],
        "replaced": [
            (old.subject, say(old.chosen.title, units), old.reason, signed(old.person, old.at))
            for old in snapshot.superseded
            if isinstance(old, Verdict)
        ],
    }
    yield {
        "kind": "outwork",
        "rows": [order_row(order, contents.inspections.get(order.id, ()), units) for order in snapshot.orders],
    }
    yield {
        "kind": "plan",
        "sentences": list(contents.forecast),
        "steps": contents.steps,
        "done": [(step.on, step.key, step.note, step.person) for step in snapshot.done],
    }
    if cautions := [{"hazard": c.hazard.rstrip("."), "say": c.say, "source": c.source} for c in contents.cautions]:
        yield {"kind": "cautions", "rows": cautions}
    yield {"kind": "unexamined", "rows": not_examined(contents)}
    if loose := [_photo(contents, picture.digest, shown) for picture in loose_pictures(contents)]:
        yield from ({"kind": "pictures", "rows": some} for some in _slices(loose, PARTS_A_BATCH))
    yield from _long("readings", "Readings as typed", [reading_row(reading) for reading in snapshot.readings])
    yield from _long("history", "Who did what, when", [entry_row(entry) for entry in contents.history])


def _long(kind: str, title: str, rows: Sequence[Sequence[str]]) -> Iterator[Chapter]:
    for number, some in enumerate(_slices(rows, ROWS_A_BATCH)):
        yield {"kind": kind, "title": title if not number else f"{title}, continued", "more": number > 0, "rows": some}


def _slices(rows: Sequence[Any], size: int) -> Iterator[Sequence[Any]]:
    for start in range(0, len(rows), size):
        yield rows[start : start + size]


def _part_chapters(contents: Book, shown: Shown) -> Iterator[Chapter]:
    notes = sorted(contents.snapshot.parts, key=lambda note: (natural(note.item), note.part))
    rows = [part_row(note) for note in notes]
    for row in rows:
        row["pictures"] = [_photo(contents, digest, shown) for digest in row["pictures"]]
    for number, some in enumerate(_slices(rows, PARTS_A_BATCH)):
        yield {"kind": "parts", "title": "The parts as found" + (", continued" if number else ""), "rows": some}


def _photo(contents: Book, digest: str, shown: Shown) -> dict[str, str]:
    note = next((picture for picture in contents.snapshot.pictures if picture.digest == digest), None)
    said = [note.name, note.note, note.item, note.taken[:10], note.person] if note else []
    missing = "" if digest in shown else "not shown: the file is missing or in a form that cannot be read here"
    caption = ", ".join(filter(None, [*said, missing, f"file {digest[:12]}"]))
    return {"file": f"photo-{digest}.jpg" if digest in shown else "", "caption": caption}


def _system_chapters(contents: Book, names: Mapping[str, str]) -> Iterator[Chapter]:
    findings = contents.reckoning.findings if contents.reckoning else ()
    keys = dict.fromkeys([*contents.titles, *(finding.system for finding in findings)])
    placed: set[str] = set()
    for key in keys:
        mine = [finding for finding in findings if finding.system == key]
        own = [name for name in names if name not in placed and _belongs(name, key, {finding.item for finding in mine})]
        placed |= set(own)
        rows = finding_rows(mine, contents.units)
        title = contents.titles.get(key, key.capitalize())
        for number, some in enumerate(_slices(rows, FINDINGS_A_BATCH) if len(rows) > FINDINGS_A_BATCH else [rows]):
            yield {
                "kind": "system",
                "title": title if not number else f"{title}, continued",
                "introduction": "" if number else contents.introductions.get(key, ""),
                "rows": some,
                "pictures": []
                if number
                else [{"file": names[name], "caption": re.sub(rf"^{re.escape(key)}[:/] *", "", name)} for name in own],
            }
    if rest := [name for name in names if name not in placed]:
        yield {"kind": "pictures", "rows": [{"file": names[name], "caption": name} for name in rest]}


def _belongs(name: str, key: str, items: Collection[str]) -> bool:
    """Whether a picture goes with a system: its name starts with the system's key, or names a part that was found there."""
    return name.startswith((f"{key}:", f"{key}/")) or any(re.search(rf"\b{re.escape(item)}\b", name) for item in items if item)


def _doubts(contents: Book) -> Chapter:
    snapshot, reckoning = contents.snapshot, contents.reckoning
    corrected = [reading_row(old) for old in snapshot.superseded if not isinstance(old, Verdict)]
    return {
        "kind": "doubts",
        "doubts": [doubt.sentence for doubt in reckoning.doubts] if reckoning else [],
        "remarks": list(reckoning.remarks) if reckoning else [],
        "refused": [(str(row.row), row.line, row.reason, signed(row.person, row.at)) for row in snapshot.refused],
        "corrected": [(f"{row[1]} {row[2]}, {row[3]}".rstrip(", "), row[4], row[5], row[6], row[7]) for row in corrected],
    }
