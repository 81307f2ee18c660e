"""How often eyes miss: the larger the difference, the less."""

from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates, rates_by
from termprobe.diagnosis.shown import Sight
from termprobe.journal.attention import AttentionChecked
from termprobe.journal.records import AS_EXPECTED, DIFFERS, UNSURE, Answer, Answered

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


def checks(caught, missed):
    words = [DIFFERS] * caught + [AS_EXPECTED] * missed
    return [AttentionChecked("a", Answer(word)) for word in (*words, UNSURE)]


def test_enough_attention_checks_tell_how_often_a_wrong_screen_is_missed():
    found = rates_by([*checks(9, 5), Answered("a", Answer(AS_EXPECTED))])
    assert found.miss_few == 6 / 16 and found.false_alarm == USUAL_RATES.false_alarm
    assert found.miss_whole < found.miss_part < found.miss_few
    assert found.miss_part / USUAL_RATES.miss_part == found.miss_few / USUAL_RATES.miss_few
    assert rates_by(checks(1000, 0)).miss_whole == 0.01, "nobody misses nothing"


def test_too_few_attention_checks_change_nothing():
    assert rates_by(checks(5, 4)) is USUAL_RATES and rates_by([]) is USUAL_RATES
