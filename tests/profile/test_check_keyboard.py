"""The keys of a profile: names, crossings and codes of their own, side by side."""

import pytest

from helpers.mistakes import one_finding


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        ("{name: tab,", "{name: '',", ": a key's name must not be empty"),
        ("{name: tab,", "{name: escape,", 'each key must stand once, not "escape" again'),
        (
            "legend: TAB, row: 1, offset: 0, width: 1.25",
            "legend: TAB, row: 1, offset: 0, width: 1.5",
            "offset of q must be at least 1.5, where tab ends, not 1.25",
        ),
        (
            "matrix: [2, 0], code: HT",
            "matrix: [2], code: HT",
            "matrix of tab must be a row and a column",
        ),
        ("matrix: [2, 0], code: HT", "matrix: [2, 0]", 'tab must have the key "code"'),
        (
            "matrix: [2, 0], code: HT",
            "matrix: [2, 0], code: ''",
            "code of tab must be one byte or more of 7 data bits",
        ),
        (
            "role: break}",
            "role: break, code: NUL}",
            "code of break must be left out: its role is break",
        ),
        (
            "role: break}",
            "role: break, shift: NUL}",
            "shift of break must be left out: its role is break",
        ),
        ("role: repeat}", "role: local}", "repeat must not be key: no key has the role repeat"),
    ],
)
def test_one_mistake_gives_one_finding(old, new, part):
    assert part in one_finding(old, new)
