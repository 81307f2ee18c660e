"""Bytes as somebody tells of them."""

import pytest

from termprobe.cli.told_bytes import told_bytes
from termprobe.errors import UsageError


def test_notation_or_plain_text():
    assert told_bytes('"AB" CR 7Fh') == b"AB\r\x7f"
    assert told_bytes("HELLO world") == b"HELLO world"


def test_an_eighth_bit_is_what_a_host_shows():
    assert told_bytes("\u00c1", is_eight_bits=True) == b"\xc1"
    with pytest.raises(UsageError, match="TEXT must be plain ASCII"):
        told_bytes("\u00c1")
