"""The line's clock: usual ratios are listed, any other can be named."""

import pytest

from helpers.boards import PROFILE
from termprobe.board.faults.speed import USUAL_RATIOS, fault_named, faults
from termprobe.board.wiring import Wiring
from termprobe.errors import UsageError


def test_the_usual_ratios_are_listed():
    assert [found.name for found in faults(PROFILE)] == [
        f"baud/ratio/{one}" for one in USUAL_RATIOS
    ]


@pytest.mark.parametrize("text, ratio", [("0.01", 0.01), ("1.055", 1.055), ("100", 100.0)])
def test_any_other_ratio_has_a_name(text, ratio):
    wiring, found = Wiring(), fault_named(PROFILE, f"baud/ratio/{text}")
    found.apply(wiring)
    assert wiring.speed_ratio == ratio and f" {text} times " in found.title


@pytest.mark.parametrize("text", ["", "0", "0.009", "101", "-1", "1e1", "1.0000001", "x"])
def test_what_is_no_ratio_is_refused(text):
    with pytest.raises(UsageError, match="from 0.01 to 100"):
        fault_named(PROFILE, f"baud/ratio/{text}")
