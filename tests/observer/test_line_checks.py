"""A check of the line answers for itself: right, wrong, or that it cannot tell."""

import pytest

from helpers.looped_line import LoopedInUse
from termprobe.clock import CrankedClock
from termprobe.journal.records import AS_EXPECTED, DIFFERS, UNSURE
from termprobe.observer.line_checks import LineObserver
from termprobe.plan.model import LineCheck


@pytest.mark.parametrize(
    "comes_back, word, note",
    [
        (b"", AS_EXPECTED, "nothing of what is sent comes back"),
        (b"UTP#75", DIFFERS, "I hear myself"),
        (b"?", UNSURE, "something else came"),
    ],
)
def test_the_word_is_what_was_found_and_the_note_says_it(comes_back, word, note):
    line = LoopedInUse(CrankedClock(), spoil=lambda data: comes_back)
    answer = LineObserver(line).answer(LineCheck("a", "b", "c", check="no-echo"))
    assert answer.word == word and note in answer.note
