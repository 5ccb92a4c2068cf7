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


def canonical(value: object) -> bytes:
    """Canonical JSON bytes. Raises TypeError for a float, whose text form is not the same everywhere."""
    _refuse_floats(value)
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode("utf-8")


def _refuse_floats(value: object) -> None:
    if isinstance(value, float):
        raise TypeError(f"The float {value!r} cannot be sealed: write it as text.")
    if isinstance(value, Mapping):
        for inner in value.values():
            _refuse_floats(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            _refuse_floats(inner)


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
    """The first entry that was changed, removed or moved since it was written; None when the chain is whole."""
    previous, expected = FIRST, 1
    for entry in entries:
        if entry.seq != expected:
            return Fault(expected, f"Entry {expected} is missing: entry {entry.seq} stands in its place.")
        if entry.previous != previous:
            return Fault(entry.seq, f"Entry {entry.seq} does not follow entry {entry.seq - 1}: its link names another one.")
        if hashlib.sha256(entry.canonical()).hexdigest() != entry.digest:
            return Fault(entry.seq, f"Entry {entry.seq} ({entry.kind}, {entry.at}) was altered after it was written.")
        previous, expected = entry.digest, expected + 1
    return None
