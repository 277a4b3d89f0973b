"""Bytes come back as they were, however they were packed, and damage is noticed."""

import pytest
from book_firings import log_bytes
from hypothesis import given as for_any
from hypothesis import strategies as st

from firing_review.book import packing
from firing_review.book.packing import Packing, checksum, pack, unpack
from firing_review.firing.errors import InputError


@for_any(st.binary(max_size=300), st.integers(1, 60))
def test_any_bytes_come_back_and_are_never_longer(data, times):
    whole = data * times
    way, packed = pack(whole)
    assert unpack(way, packed, checksum(whole), "book") == whole
    assert len(packed) <= len(whole)


def test_each_length_is_packed_in_its_own_way(monkeypatch):
    monkeypatch.setattr(packing, "LONG_BYTES", 50_000)
    text = log_bytes()
    assert len(text) > packing.SHORT_BYTES
    assert [pack(data)[0] for data in (b"", b"a" * 999, text, text * 20)] == [
        Packing.PLAIN,
        Packing.ZLIB,
        Packing.XZ,
        Packing.ZLIB,
    ]


@pytest.mark.parametrize("data", [log_bytes()[:2000], log_bytes()])
def test_bytes_cut_short_or_changed_are_refused(data):
    way, packed = pack(data)
    for damaged in (packed[:-3], packed[:20], b"", packed[:-9] + b"?" + packed[-8:]):
        with pytest.raises(InputError, match="damaged bytes"):
            unpack(way, damaged, checksum(data), "book")
    with pytest.raises(InputError, match="damaged bytes"):
        unpack("unknown way", packed, checksum(data), "book")
