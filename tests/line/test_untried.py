"""What a line cannot try: without a plug, control lines or frames; what is claimed is tried."""

import pytest

from termprobe.line.checks import CHECKS
from termprobe.line.untried import NO_PLUG, TAKES, why_untried
from termprobe.link.base import ABILITIES

STREAM, ALL = frozenset(), frozenset(ABILITIES)


def test_each_is_a_check_and_can_be_tried_on_a_line_that_can_do_all():
    assert set(TAKES) < set(CHECKS)
    assert not any(why_untried(check, ALL, "none") for check in CHECKS)


@pytest.mark.parametrize("check", ["plug-bytes", "plug-rate", "plug-lines", "plug-break"])
def test_without_an_adapter_no_plug_is_tried(check):
    assert why_untried(check, ALL, "none", can_plug=False) == NO_PLUG


@pytest.mark.parametrize(
    "check, lacking",
    [("board-lines", "lines"), ("key-format", "frames"), ("plug-break", "break")],
)
def test_what_the_line_cannot_do_is_the_reason(check, lacking):
    assert why_untried(check, STREAM, "none") == f"this line cannot {ABILITIES[lacking]}"


def test_a_handshake_that_is_claimed_is_never_left_out_for_the_line():
    assert why_untried("board-stops-cts", STREAM, "none")
    assert not why_untried("board-stops-cts", STREAM, "rts-cts")
    assert not why_untried("board-stops-xoff", STREAM, "none")
