"""Values out of range, and words that name nothing in the profile."""

import pytest

from helpers.mistakes import one_finding


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        ("rows: 24", "rows: 0", "rows must be 1 to 500, not 0"),
        ("data_bits: 7", "data_bits: -7", "data_bits must be 5 to 8, not -7"),
        ("data_bits: 7", "data_bits: 999999999", "data_bits must be 5 to 8"),
        ("  last: 7Eh", "  last: FEh", "last must be a code of 20h (first) to 7Fh, not 254"),
        (
            "  offset: 20h",
            "  offset: 60h",
            "coordinates must reach 79, the last column or row, in 7 data bits",
        ),
        ("coding: offset", "coding: bcd", "offset must be left out with the coding bcd"),
        ("bytes: BEL", "bytes: BEL\n    settle_ms: -1", "settle_ms must be 0 to 60000, not -1"),
        (
            "    positions: [full, half]",
            "    positions: [full, full]",
            "positions of duplex must be two or more different words",
        ),
        (
            "  - name: duplex",
            "  - {name: line, positions: [a, b], normal: a, meaning: x}\n  - name: duplex",
            "each option must stand once",
        ),
        (
            "echo_option: duplex",
            "echo_option: duplx",
            'echo_option must be an option of this profile, not "duplx"; nearest is "duplex"',
        ),
        (
            "echo_position: half",
            "echo_position: hlf",
            "echo_position must be a position of duplex (full, half)",
        ),
        (
            "echo_option: duplex",
            "labels: {bank-0-data: [U1]}\n  echo_option: duplex",
            "labels of bank-0-data must be 7, line 0 first, not 1",
        ),
        (
            "echo_option: duplex",
            "labels: {bank-0-dat: [U1]}\n  echo_option: duplex",
            'nearest is "bank-0-data"',
        ),
    ],
)
def test_one_mistake_gives_one_finding(old, new, part):
    assert part in one_finding(old, new)
