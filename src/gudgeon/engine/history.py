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
    if _checked(value):
        return json.dumps(value, separators=(",", ":"), ensure_ascii=False, sort_keys=True).encode("utf-8")
    return json.dumps(_ordered(value), separators=(",", ":"), ensure_ascii=False).encode("utf-8")


def _checked(value: object) -> bool:
    """Refuse what cannot be sealed. True where the order of keys by code points, which is json's, is the canonical one."""
    kind = type(value)
    if kind is str or value is None or kind is bool:
        return True
    if isinstance(value, Mapping):
        simple = type(value) is dict
        for key, inner in value.items():
            if not isinstance(key, str):
                raise TypeError(f"The key {key!r} cannot be sealed: keys are texts.")
            simple &= (key.isascii() or max(key) < "\ud800") & _checked(inner)
        return simple
    if isinstance(value, list | tuple):
        simple_ones = [_checked(inner) for inner in value]  # every one is looked at, also behind one that is not simple
        return all(simple_ones)
    if isinstance(value, int):
        if abs(value) > _LARGEST:
            raise ValueError(f"The whole number {value} is too large to be sealed: write it as text.")
        return True
    if isinstance(value, float):
        raise TypeError(f"The float {value!r} cannot be sealed: write it as text.")
    raise TypeError(f"{value!r} of kind {kind.__name__} cannot be sealed: write it as text.")


def _ordered(value: object) -> object:
    """The value with keys sorted by their UTF-16 code units (RFC 8785, section 3.2.3)."""
    if isinstance(value, Mapping):
        return {key: _ordered(value[key]) for key in sorted(value, key=lambda key: str(key).encode("utf-16-be"))}
    if isinstance(value, list | tuple):
        return [_ordered(inner) for inner in value]
    return value


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
