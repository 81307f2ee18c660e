"""How often eyes miss: the larger the difference, the less."""

from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates
from termprobe.diagnosis.shown import Sight

CELLS = 24 * 80


def sight(cells, cursor=False, bells=False):
    return Sight(cells, cursor, bells, "x")


def test_what_is_seen_at_once_is_missed_least():
    sights = [sight(960), sight(80), sight(1), sight(0, bells=True)]
    misses = [USUAL_RATES.miss(one, CELLS) for one in sights]
    assert misses == [0.05, 0.11, 0.23, 0.5]
    assert USUAL_RATES.miss(sight(0, cursor=True), CELLS) == 0.23


def test_every_rate_is_a_parameter():
    assert ErrorRates(miss_part=0.4).miss(sight(100), CELLS) == 0.4
