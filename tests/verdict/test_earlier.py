"""Earlier answers are told as they stood when the verdict was made, whatever comes later."""

from termprobe.journal.records import AS_EXPECTED, DIFFERS, UNSURE, Answer, Answered
from termprobe.verdict.earlier import before_last
from termprobe.verdict.model import Earlier

WORDS = (AS_EXPECTED, DIFFERS, UNSURE)


def said(answer, is_taken_back):
    return Earlier(answer.answer.word, is_taken_back=is_taken_back)


def test_those_taken_back_come_first_and_the_last_given_is_none_of_them():
    first, second, third = (Answered("a", Answer(word)) for word in WORDS)
    taken_back, given = [first], [second, third]
    told = before_last(said, taken_back, given)
    wanted = (Earlier(AS_EXPECTED, is_taken_back=True), Earlier(DIFFERS))
    taken_back.append(second)
    given.append(first)
    assert told == wanted and tuple(told) == wanted and told[1] == wanted[1]
    assert told != wanted[:1] and hash(told) == hash(wanted)


def test_nothing_is_told_of_a_first_answer():
    assert before_last(said, [], [Answered("a", Answer(UNSURE))]) == ()


def test_an_answer_is_judged_when_it_is_asked_for_and_once():
    asked = []
    told = before_last(lambda *one: asked.append(one), [], [Answered("a", Answer(UNSURE))] * 3)
    assert len(told) == 2 and not asked
    assert [*told] and told[0] is told[1] and len(asked) == 2
