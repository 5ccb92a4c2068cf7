from __future__ import annotations

import hashlib
import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.engine.history import FIRST, Entry, canonical, first_fault, sealed

WHOLE = st.integers(min_value=-(2**53) + 1, max_value=2**53 - 1)
JSON = st.recursive(
    st.none() | st.booleans() | WHOLE | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=12,
)


# -- canonical bytes ------------------------------------------------------------------------------------------------------


def test_strings_and_literals_of_rfc_8785() -> None:
    """RFC 8785, section 3.2.2, sample object without its numbers; expected text from the same section."""
    sample = json.loads(r"""{
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
    }""")
    assert canonical(sample).decode("utf-8") == r'{"literals":[null,true,false],"string":"€$\u000f\nA' + r"""'B\"\\\\\"/"}"""


def test_order_of_keys_of_rfc_8785() -> None:
    """RFC 8785, section 3.2.3: by UTF-16 code units, under which the grinning face comes before the Hebrew letter."""
    sample = json.loads(r"""{
        "\u20ac": "Euro Sign",
        "\r": "Carriage Return",
        "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "1": "One",
        "\ud83d\ude00": "Emoji: Grinning Face",
        "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis"
    }""")
    assert list(json.loads(canonical(sample)).values()) == [
        "Carriage Return",
        "One",
        "Control",
        "Latin Small Letter O With Diaeresis",
        "Euro Sign",
        "Emoji: Grinning Face",
        "Hebrew Letter Dalet With Dagesh",
    ]


def test_nested_keys_are_ordered_too() -> None:
    """RFC 8785, section 3.2.3: applied recursively; arrays keep their order."""
    assert canonical({"b": [{"z": 1, "a": 2}, 3], "a": {}}) == b'{"a":{},"b":[{"a":2,"z":1},3]}'


@pytest.mark.parametrize("value", [5.125, [1, [2.0]], {"a": {"b": float("nan")}}])
def test_floats_are_refused(value: object) -> None:
    with pytest.raises(TypeError, match="cannot be sealed: write it as text"):
        canonical(value)


def test_whole_numbers_that_readers_differ_in_are_refused() -> None:
    """RFC 7493 (I-JSON), section 2.2: integers beyond 2**53 - 1 are not interoperable; RFC 8785 builds on I-JSON."""
    assert canonical(2**53 - 1) == b"9007199254740991"
    with pytest.raises(ValueError, match="too large to be sealed"):
        canonical(2**53)


@pytest.mark.parametrize("value", [{1: "a"}, {"a": {1, 2}}, b"bytes"])
def test_what_json_has_no_word_for_is_refused(value: object) -> None:
    with pytest.raises(TypeError, match="cannot be sealed"):
        canonical(value)


def test_lone_surrogate_is_refused() -> None:
    """RFC 8785, section 3.2.2.2: must end with an error."""
    with pytest.raises(ValueError):
        canonical("\ud800")


@given(JSON)
def test_canonical_there_and_back(value: object) -> None:
    written = canonical(value)
    assert json.loads(written) == value
    assert canonical(json.loads(written)) == written


# -- the chain ------------------------------------------------------------------------------------------------------------


def chain(count: int) -> list[Entry]:
    entries: list[Entry] = []
    previous = FIRST
    for seq in range(1, count + 1):
        entry = sealed(
            seq=seq, id=f"e{seq}", kind="reading", body={"reading": f"5.12{seq}"}, person="Owner", at="T", previous=previous
        )
        entries.append(entry)
        previous = entry.digest
    return entries


def test_digest_is_sha_256_of_the_canonical_bytes() -> None:
    """Written out by hand, key by key."""
    (entry,) = chain(1)
    by_hand = (
        '{"at":"T","body":{"reading":"5.121"},"id":"e1","kind":"reading","person":"Owner","previous":"'
        + 64 * "0"
        + '","seq":1}'
    )
    assert entry.digest == hashlib.sha256(by_hand.encode()).hexdigest()


def test_whole_chain_has_no_fault() -> None:
    assert first_fault(chain(6)) is None
    assert first_fault([]) is None


@pytest.mark.parametrize(
    "change",
    [{"body": {"reading": "5.0"}}, {"person": "Mate"}, {"at": "U"}, {"kind": "aims"}, {"id": "x"}, {"digest": "0" * 64}],
)
def test_altered_entry_is_named(change: dict[str, object]) -> None:
    entries = chain(6)
    entries[2] = replace(entries[2], **change)  # type: ignore[arg-type]
    fault = first_fault(entries)
    assert fault is not None
    assert fault.seq == 3
    assert "altered" in fault.sentence


def test_first_of_two_altered_entries_is_named() -> None:
    entries = chain(6)
    for place in (4, 1):
        entries[place] = replace(entries[place], person="Mate")
    fault = first_fault(entries)
    assert fault is not None
    assert fault.seq == 2


@pytest.mark.parametrize("seq", [1, 3, 5])
def test_removed_entry_is_named(seq: int) -> None:
    entries = chain(6)
    del entries[seq - 1]
    fault = first_fault(entries)
    assert fault is not None
    assert (fault.seq, fault.sentence) == (seq, f"Entry {seq} is missing: entry {seq + 1} stands in its place.")


def test_swapped_entries_are_named() -> None:
    entries = chain(6)
    entries[2], entries[3] = replace(entries[3], seq=3), replace(entries[2], seq=4)
    fault = first_fault(entries)
    assert fault is not None
    assert fault.seq == 3


def test_entry_sealed_anew_is_named_and_not_the_honest_one_after_it() -> None:
    entries = chain(6)
    old = entries[2]
    entries[2] = sealed(
        seq=3, id=old.id, kind=old.kind, body={"reading": "5.0"}, person=old.person, at=old.at, previous=old.previous
    )
    fault = first_fault(entries)
    assert fault is not None
    assert fault.seq == 3
    assert "entry 4 was written after another one" in fault.sentence


def test_history_of_another_job_put_before_is_named() -> None:
    entries = chain(6)
    entries[0] = sealed(seq=1, id="x", kind="job", body={}, person="Owner", at="T", previous=FIRST)
    fault = first_fault(entries)
    assert fault is not None
    assert fault.seq == 1
    assert "may have been rewritten" not in fault.sentence


def test_beginning_that_is_no_beginning_is_named() -> None:
    first = sealed(seq=1, id="x", kind="job", body={}, person="Owner", at="T", previous="1" * 64)
    fault = first_fault([first])
    assert fault is not None
    assert fault.seq == 1


def test_float_smuggled_in_is_an_alteration() -> None:
    entries = chain(3)
    entries[1] = replace(entries[1], body={"reading": 5.0})
    fault = first_fault(entries)
    assert fault is not None
    assert fault.seq == 2


def test_float_behind_an_odd_key_is_refused_too() -> None:
    with pytest.raises(TypeError, match="cannot be sealed"):
        canonical([{"\U0001f600": 1}, 2.5])
