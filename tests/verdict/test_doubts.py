"""A damaged run file: what may have held an answer never makes a failed run pass."""

from hypothesis import example, given
from hypothesis import strategies as st

from helpers.bench import FakeLink, look, plan
from helpers.bench_plan import step
from helpers.examples import examples
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.lost import LostRecords
from termprobe.journal.reading import parse, read_bytes
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Answered,
    BoardUnderTest,
    Finished,
    Header,
    Noted,
    Resumed,
    Sent,
    StepBegun,
    TakenBack,
)
from termprobe.runner.run import Run
from termprobe.verdict.doubts import Doubts, has_lost, is_text_lost
from termprobe.verdict.ending import as_filed
from termprobe.verdict.judge import judge
from termprobe.verdict.model import MayBeLost

PLAN = plan(
    look("whole"),
    look("part", covered_by=("whole",)),
    step("rail", "s", "measure", unit="V", low=4.75, high=5.25),
    look("other"),
)
GOOD, BAD = "good", "bad"
ACTS = (GOOD, BAD, "send", "take-back", "note", "stop")
ALL_GOOD = [(number, GOOD) for number in range(4)]
"""Step number and what is done of it, as `acted` takes them."""


def verdict_of(data):
    records = parse(data).records
    return as_filed(judge(PLAN, records), records).verdict


def new_run(journal):
    clock = CrankedClock()
    return Run(PLAN, FakeLink(clock), journal, clock)


def answer_of(asked, act):
    if asked.kind == "measure":
        return Answer(value={GOOD: 5.0, BAD: 4.6}[act])
    return Answer({GOOD: AS_EXPECTED, BAD: DIFFERS}[act])


def acted(path, acts):
    """Return the bytes of a run file in which all this happened, each step begun before it."""
    journal = Journal.create(path, Header(BoardUnderTest("1")), CrankedClock())
    run = new_run(journal)
    for number, act in acts:
        asked = PLAN.steps[number]
        if act == "stop":
            run.end("stopped")
            journal.close()
            journal = Journal.reopen(path, CrankedClock())
            run = new_run(journal)
        elif act == "take-back":
            run.take_back(asked)
        elif act == "note":
            run.note("a remark", asked)
        else:
            run.perform(asked)
            if act != "send":
                run.record(asked, answer_of(asked, act))
    run.end("stopped")
    journal.close()
    return read_bytes(path)


def gone_on(path, data):
    """Return the run file in `data` once all is answered well that is asked again."""
    path.write_bytes(data)
    journal = Journal.reopen(path, CrankedClock())
    run = new_run(journal)
    while (asked := run.course.next_step()) is not None:
        run.perform(asked)
        run.record(asked, answer_of(asked, GOOD))
    run.end("stopped")
    journal.close()
    return read_bytes(path)


RUNS = st.lists(st.tuples(st.integers(0, 3), st.sampled_from(ACTS)), max_size=12).map(
    lambda acts: [*ALL_GOOD, *acts]
)
"""All passes, then some is answered again, taken back, stopped and gone on with."""


def fresh(folder):
    return folder.mktemp("runs") / "a.run.jsonl"


def flipped(data, places):
    broken = bytearray(data)
    for place, mask in places:
        broken[place % len(broken)] ^= mask
    return bytes(broken)


PLACES = st.lists(st.tuples(st.integers(0, 10**6), st.integers(1, 255)), min_size=1, max_size=4)


@examples(150)
@given(RUNS, PLACES)
@example([*ALL_GOOD, (0, BAD)], [(0, 1)])
def test_flipped_bytes_never_make_a_failed_run_pass(tmp_path_factory, acts, places):
    data = acted(fresh(tmp_path_factory), acts)
    broken = flipped(data, places)
    if verdict_of(data) == "fail":
        assert verdict_of(broken) != "pass"


AGAIN = [(0, "stop"), (1, "send"), (0, "stop"), (0, "send"), (0, "stop"), (1, "send"), (1, "send")]
"""Gone on with several times, and nothing answered."""


@examples(150)
@given(RUNS, st.integers(0, 10**6), st.integers(1, 2000))
@example([*ALL_GOOD, *AGAIN, (2, BAD)], 2619, 1697)
def test_a_piece_cut_out_never_makes_a_failed_run_pass(tmp_path_factory, acts, start, size):
    data = acted(fresh(tmp_path_factory), acts)
    start %= len(data)
    broken = data[:start] + data[start + size :]
    is_whole = b"\n" in (broken[-1:], data[start : start + 1])  # the last record that is left
    is_an_earlier_state = data.startswith(broken) and is_whole
    if verdict_of(data) == "fail" and not is_an_earlier_state:
        assert verdict_of(broken) != "pass"


@examples(150)
@given(RUNS, st.data())
def test_a_lost_record_is_made_good_only_by_asking_again(tmp_path_factory, acts, data):
    whole = acted(fresh(tmp_path_factory), acts)
    lines = whole.split(b"\n")[:-1]
    count = data.draw(st.integers(1, 4))
    first = data.draw(st.integers(1, max(1, len(lines) - count)))
    kept = [*lines[:first], *(b"x" for _ in range(count)), *lines[first + count :]]
    broken = b"\n".join(kept) + b"\n"
    steps = set(judged_fail(whole))
    again = gone_on(fresh(tmp_path_factory), broken)
    asked = {record.step for record in parse(again[len(broken) :]).records if is_answer(record)}
    failing = set(judged_fail(again))
    assert steps <= asked | failing


def judged_fail(data):
    found = judge(PLAN, parse(data).records)
    return [one.id for one in found.steps if one.verdict == "fail"]


def is_answer(record):
    return isinstance(record, Answered)


# -- record by record ------------------------------------------------------------------------------

LOOKS = plan(look("a"), look("b"), look("c", covered_by=("a",)))


def begun(step_id, answers=None):
    return StepBegun(step_id, answers=answers)


def answer(step_id, word=AS_EXPECTED):
    return Answered(step_id, Answer(word))


def doubtful(plan, records):
    """Return the ids of the steps of `plan` whose last answer may be lost."""
    doubts = Doubts(plan)
    for record in records:
        doubts.take(record)
    return doubts.steps


def in_doubt(*records):
    return sorted(doubtful(LOOKS, records))


ONE_LOST = LostRecords(records=1)
A_IS_ANSWERED = (begun("a", 0), answer("a"))


def test_one_lost_record_can_hold_an_answer_to_the_step_begun_last_alone():
    assert in_doubt(*A_IS_ANSWERED, begun("b", 1), ONE_LOST) == ["b"]
    assert in_doubt(ONE_LOST) == []
    assert in_doubt(*A_IS_ANSWERED) == []


def test_of_several_lost_records_nobody_knows_which_step_they_answer():
    assert in_doubt(*A_IS_ANSWERED, LostRecords(records=2)) == ["a", "b", "c"]
    assert in_doubt(*A_IS_ANSWERED, LostRecords()) == ["a", "b", "c"]
    assert in_doubt(begun("a"), ONE_LOST, Noted("x"), ONE_LOST) == [
        "a",
        "b",
        "c",
    ]
    assert in_doubt(begun("a"), ONE_LOST, Sent("b", b"x"), ONE_LOST) == ["a", "b"]


def test_the_counts_behind_the_gap_tell_that_no_answer_is_lost():
    assert in_doubt(*A_IS_ANSWERED, LostRecords(records=3), begun("b", 1)) == []
    assert in_doubt(*A_IS_ANSWERED, LostRecords(records=3), Finished("pass", answers=1)) == []
    assert in_doubt(*A_IS_ANSWERED, ONE_LOST, begun("b", 2)) == ["a"]
    assert in_doubt(*A_IS_ANSWERED, ONE_LOST, begun("b")) == ["a"]  # an earlier version


def test_whoever_goes_on_knows_nothing_of_what_was_lost_before():
    gap = (*A_IS_ANSWERED, ONE_LOST, Resumed(answers=1), begun("b", 1))
    assert in_doubt(*gap) == ["a"]
    assert in_doubt(*gap, answer("b"), ONE_LOST, begun("c", 2)) == ["a"]


def test_a_later_answer_counts_and_one_taken_back_is_missed_by_nobody():
    gap = (*A_IS_ANSWERED, ONE_LOST)
    assert in_doubt(*gap, begun("a", 2), answer("a")) == []
    assert in_doubt(*gap, TakenBack("a")) == []


def test_a_press_tells_of_its_contact_with_each_answer_so_a_later_one_is_not_enough():
    keys = plan(step("k", "s", "press"), look("a"))
    gap = (begun("k", 0), answer("k"), ONE_LOST, begun("k", 2), answer("k"))
    assert doubtful(keys, gap) == {"k"}
    assert doubtful(keys, (*gap, TakenBack("k"), answer("k"))) == frozenset()


def test_a_step_in_doubt_is_unanswered_whatever_covers_it():
    records = [*A_IS_ANSWERED, begun("c", 1), ONE_LOST, begun("b", 2), answer("b")]
    verdict = judge(LOOKS, records)
    assert [one.verdict for one in verdict.steps] == ["pass", "pass", "unanswered"]
    assert verdict.steps[2].title == LOOKS.steps[2].title
    assert verdict.steps[2].because == MayBeLost() and verdict.verdict == "incomplete"
    failed = judge(LOOKS, [begun("a", 0), answer("a", DIFFERS), ONE_LOST])
    assert failed.steps[0].verdict == "unanswered"


def test_answers_to_steps_of_no_text_that_can_be_read_let_no_run_pass():
    passed = [*A_IS_ANSWERED, answer("b")]
    stranger = [*passed, ONE_LOST, begun("new", 2), answer("new"), begun("b", 3)]
    assert judge(LOOKS, passed).verdict == "pass" and not has_lost(passed)
    assert is_text_lost(LOOKS, stranger) and judge(LOOKS, stranger).verdict == "incomplete"
    assert not is_text_lost(LOOKS, [*passed, answer("new")]), "nothing is lost"


def test_what_is_asked_again_after_a_loss_takes_back_what_was_there(tmp_path):
    data = acted(tmp_path / "a.run.jsonl", [*ALL_GOOD, (3, BAD)])
    lines = data.split(b"\n")
    second = next(number for number, line in enumerate(lines) if b'"differs"' in line)
    broken = b"\n".join([*lines[:second], b"x", *lines[second + 1 :]])
    open_again = [one.id for one in judge(PLAN, parse(broken).records).steps if one.because]
    assert "other" in open_again and verdict_of(broken) == "incomplete"
    again = gone_on(tmp_path / "b.run.jsonl", broken)
    kinds = [record.kind for record in parse(again[len(broken) :]).records]
    assert kinds[-3:] == ["taken-back", "answer", "finished"] and verdict_of(again) == "pass"
