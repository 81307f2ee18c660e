"""What a run says of the fault that its board has."""

import pytest

from termprobe.cli.named_faults import finding


@pytest.mark.parametrize(
    "named, words",
    [
        ((), "but no fault is named: none explains what was seen."),
        (("b", "c"), "but other faults are named: b, c."),
        (("a",), "The fault was found: a. No other that is modelled shows what was seen."),
        (("b", "a", "c"), "The fault was found: a is named, with b, c."),
    ],
)
def test_a_fault_is_found_where_it_is_named(named, words):
    assert finding("a", named).endswith(words)
