"""Boards that a run is sent to as it grows hold what those do to which all is sent at once."""

import pytest

from helpers.scripts import SINGLE, look, plan_of
from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis import run_boards
from termprobe.diagnosis.answers import done_to_board, evidence_of
from termprobe.diagnosis.replay import OTHER_SEED, ReplayedBoard, replay
from termprobe.diagnosis.run_boards import RunBoards
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import DIFFERS, Answer, Answered, Sent, StepBegun
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("word", [{"text": "HELLO"}]),
        look("bell", [{"text": "AGAIN"}, {"command": "bell"}], start="keep"),
        look("stars", [{"pattern": "solid", "with": "*"}]),
    ]
)
DEAD = fault(SINGLE, "decoder/dead/clear")


def asked(*names):
    """Return the records of a run in which these looks were said to differ."""
    records = []
    for name in names:
        step = PLAN.step(name)
        if name in [one.step for one in records if isinstance(one, Answered)]:
            records.append(AskedAgain(name))
        records.append(StepBegun(name, step.hash))
        records += [Sent(name, group.data) for group in step.groups]
        records.append(Answered(name, Answer(DIFFERS), step.hash))
    return records


@pytest.fixture(name="created")
def _created(monkeypatch):
    """Return a list to which each board is added that is made."""
    created = []

    class Counted(ReplayedBoard):
        def __init__(self, *told):
            created.append(self)
            super().__init__(*told)

    monkeypatch.setattr(run_boards, "ReplayedBoard", Counted)
    return created


def shown(records, seed):
    answers = evidence_of(PLAN, records, judge(PLAN, records))
    return replay(SINGLE, PLAN, records, answers, DEAD, seed=seed), answers


def seen_at(board, moment):
    """Return what `board` showed, whatever of that is known."""
    return [one._replace(unknown=frozenset()) for one in board.shown_at(moment)]


def test_a_run_that_grows_is_played_on_and_shows_what_it_does_as_a_whole(created):
    records, boards = asked("word", "bell", "stars", "word"), RunBoards(SINGLE, PLAN)
    for count in range(len(records) + 1):
        boards.take(records[:count])
        boards.of(DEAD)
    board = boards.of(DEAD)
    for place, seed in enumerate((1, OTHER_SEED)):
        for one, answer in zip(*shown(records, seed), strict=True):
            assert seen_at(board, answer.moment)[place] == one._replace(sent=b""), answer.step_id
    assert len(created) == 2


def test_each_reading_of_a_look_saw_what_was_shown_then():
    records, boards = asked("stars", "word", "word"), RunBoards(SINGLE, PLAN)
    boards.take(records)
    answers = {one.step_id: one for one in evidence_of(PLAN, records, judge(PLAN, records))}
    first, last = answers["word"].readings
    assert 0 < first.moment < last.moment == done_to_board(records)
    assert seen_at(boards.of(DEAD), last.moment)[0] == shown(records, 1)[0][0]
    assert seen_at(boards.of(DEAD), first.moment)[0] == shown(asked("stars", "word"), 1)[0][0]


def test_a_run_that_is_another_is_played_from_its_beginning(created):
    boards = RunBoards(SINGLE, PLAN)
    for records in (asked("stars", "word"), asked("word", "stars")):
        boards.take(records)
        assert boards.of(DEAD).shown_at(done_to_board(records))
    assert len(created) == 4


def test_a_board_that_is_past_an_answer_begins_once_more(created):
    records, boards = asked("word", "stars"), RunBoards(SINGLE, PLAN)
    boards.take([one for one in records if one.kind != "answer" or one.step == "stars"])
    boards.of(DEAD)
    boards.take(records)
    answers = evidence_of(PLAN, records, judge(PLAN, records))
    found = [seen_at(boards.of(DEAD), one.moment)[0] for one in answers]
    assert found == list(shown(records, 1)[0])
    assert len(created) == 4


def test_what_was_there_at_power_up_is_not_predicted():
    records, boards = asked("word", "bell", "stars"), RunBoards(SINGLE, PLAN)
    boards.take(records)
    answers = evidence_of(PLAN, records, judge(PLAN, records))
    word, _, stars = (boards.of(DEAD).shown_at(one.moment) for one in answers)
    assert len(word[0].unknown) > 1000 > 100 > len(stars[0].unknown)
    good = boards.of(fault(SINGLE, "decoder/dead/bell"))
    assert not any(good.shown_at(one.moment)[0].unknown for one in answers)


def test_once_power_up_is_written_over_one_board_goes_on_alone(created, monkeypatch):
    taken = []
    monkeypatch.setattr(
        ReplayedBoard, "state", property(lambda board: taken.append(board) or "the same")
    )
    boards = RunBoards(SINGLE, PLAN)
    boards.take(asked("stars"))
    boards.of(DEAD)
    boards.take(asked("stars", "word"))
    first, other = boards.of(DEAD).shown_at(done_to_board(asked("stars", "word")))
    assert first == other and taken[:2] == created and created[1] not in taken[2:]
