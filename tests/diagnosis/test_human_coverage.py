"""What a builder sees who misses some differences, by hand."""

import pytest

from termprobe.diagnosis.cheapest import Want
from termprobe.diagnosis.human_coverage import human_coverage
from termprobe.diagnosis.key_coverage import PressesShow
from termprobe.diagnosis.playing import BothWays
from termprobe.diagnosis.showing import FaultShown
from termprobe.diagnosis.visibility import CELLS, LINE, SCREEN, USUAL_MISS

NOTHING = BothWays((), ())


def fault(looks, presses=None):
    return FaultShown("some/fault", True, looks, NOTHING, presses)


def test_the_share_is_the_mean_over_all_faults_that_can_be_shown():
    faults = [fault({0: SCREEN}), fault({0: LINE, 1: LINE}), fault({})]
    found = human_coverage(faults, {0, 1}, USUAL_MISS)
    assert found.share == pytest.approx((0.95 + (1 - 0.11**2) + 0) / 3)
    assert found.twice == 1
    none = {"cells": 0, "dots": 0, "cursor": 0, "sound": 0}
    assert found.by_visibility == {"screen": 1, "line": 1} | none


def test_a_look_that_is_not_asked_is_seen_by_nobody():
    found = human_coverage([fault({0: SCREEN, 1: CELLS})], {1}, USUAL_MISS)
    assert found.share == pytest.approx(1 - 0.23)
    assert found.by_visibility["cells"] == 1 and found.by_visibility["screen"] == 0


def test_what_a_press_shows_no_eye_can_miss():
    heard = PressesShow(Want(1, 1), frozenset())
    assert human_coverage([fault({}, heard)], {0}, USUAL_MISS).share == 1
    assert human_coverage([], {0}, USUAL_MISS).share == 0
