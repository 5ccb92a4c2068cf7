"""The canonical bytes of an entry and its place in the history chain.

Every acknowledged change is one entry. Its digest covers its own content and the digest of the entry before it, so a change,
removal or reordering of any earlier entry shows. Canonical bytes follow the rules of RFC 8785 (JSON Canonicalization Scheme)
for the values used here: keys sorted, no spaces, UTF-8, and no floats; numbers that people typed are kept as text.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

FIRST = "0" * 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One acknowledged change.

    Attributes
    ----------
    seq : 1 for the first, without gaps.
    id : the entry's identity; for an entry sent by a phone, the ticket the phone gave it, so that it is delivered once.
    kind : what changed ("job", "reading", "verdict", ...).
    body : the content, JSON without floats.
    person, at : who, and when (ISO 8601, UTC).
    previous, digest : the chain.
    """

    seq: int
    id: str
    kind: str
    body: Mapping[str, Any]
    person: str
    at: str
    previous: str
    digest: str = ""

    def canonical(self) -> bytes:
        """The bytes the digest is taken over."""
        return canonical(
            {
                "seq": self.seq,
                "id": self.id,
                "kind": self.kind,
                "body": self.body,
                "person": self.person,
                "at": self.at,
                "previous": self.previous,
            }
        )


_LARGEST = 2**53 - 1
"""Whole numbers beyond it are not the same in every reader of JSON (RFC 7493, section 2.2)."""


def canonical(value: object) -> bytes:
    """Canonical JSON bytes (RFC 8785).

    Raises TypeError for a float, whose text form is not the same everywhere, and for anything else that JSON has no word
    for; ValueError for a whole number beyond 2**53 - 1 and for a lone surrogate.
    """
    return json.dumps(_ordered(value), separators=(",", ":"), ensure_ascii=False).encode("utf-8")


def _ordered(value: object) -> object:
    """The value with its keys in canonical order, refused where it cannot be sealed."""
    if value is None or isinstance(value, str | bool):
        return value
    if isinstance(value, int):
        if abs(value) > _LARGEST:
            raise ValueError(f"The whole number {value} is too large to be sealed: write it as text.")
        return value
    if isinstance(value, float):
        raise TypeError(f"The float {value!r} cannot be sealed: write it as text.")
    if isinstance(value, Mapping):
        return {key: _ordered(value[key]) for key in sorted(value, key=_utf16)}
    if isinstance(value, list | tuple):
        return [_ordered(inner) for inner in value]
    raise TypeError(f"{value!r} of kind {type(value).__name__} cannot be sealed: write it as text.")


def _utf16(key: object) -> bytes:
    """RFC 8785, section 3.2.3: keys are sorted by their UTF-16 code units, which is not the order of code points."""
    if not isinstance(key, str):
        raise TypeError(f"The key {key!r} cannot be sealed: keys are texts.")
    return key.encode("utf-16-be")


def sealed(*, seq: int, id: str, kind: str, body: Mapping[str, Any], person: str, at: str, previous: str) -> Entry:
    """An entry with its digest (SHA-256 of its canonical bytes)."""
    bare = Entry(seq=seq, id=id, kind=kind, body=body, person=person, at=at, previous=previous)
    return Entry(
        seq=seq,
        id=id,
        kind=kind,
        body=body,
        person=person,
        at=at,
        previous=previous,
        digest=hashlib.sha256(bare.canonical()).hexdigest(),
    )


@dataclass(frozen=True, slots=True)
class Fault:
    """The first thing found wrong in a chain: at which entry, and what."""

    seq: int
    sentence: str


def first_fault(entries: Iterable[Entry]) -> Fault | None:
    """The first entry that was changed, removed or moved since it was written; None when the chain is whole.

    An entry that was altered and given a new digest is found by the one after it, which still names the old digest. How
    far back such a rewriting began cannot be told from the chain alone; the sentence says so.
    """
    before: Entry | None = None
    for expected, entry in enumerate(entries, start=1):
        if entry.seq != expected:
            return Fault(expected, f"Entry {expected} is missing: entry {entry.seq} stands in its place.")
        intact = _digest_holds(entry)
        if entry.previous != (before.digest if before else FIRST):
            return _broken_link(before, entry, intact)
        if not intact:
            return Fault(expected, f"Entry {expected} ({entry.kind}, {entry.at}) was altered after it was written.")
        before = entry
    return None


def _digest_holds(entry: Entry) -> bool:
    try:
        return hashlib.sha256(entry.canonical()).hexdigest() == entry.digest
    except (TypeError, ValueError):
        return False


def _broken_link(before: Entry | None, entry: Entry, intact: bool) -> Fault:
    if before is None or not intact:
        return Fault(
            entry.seq, f"Entry {entry.seq} ({entry.kind}, {entry.at}) was altered or moved: its link is not as it was."
        )
    back = "" if before.seq == 1 else " Entries before it may have been rewritten with it."
    return Fault(
        before.seq,
        f"Entry {before.seq} ({before.kind}, {before.at}) was altered and sealed anew: "
        f"entry {entry.seq} was written after another one.{back}",
    )
