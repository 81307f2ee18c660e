"""A run sends, asks and records a step at a time, serves every wish, and loses no step to a lost link or a crash."""

import pytest

from helpers.bench import FakeLink, Says, look, screen_of, plan
from termprobe.clock import CrankedClock
from termprobe.errors import LinkError, LinkLostError, ObserverError
from termprobe.journal.file import Journal, read
from termprobe.plan.model import Group, Step
from termprobe.runner import events
from termprobe.runner.run import Run
from termprobe.observer.base import AS_EXPECTED, DIFFERS, DUMP, Answer

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)


class Bench:
    """A run of a few steps with everything at hand."""

    def __init__(self, folder, *steps, observers=(), react=lambda data: b"", **options):
        self.clock = CrankedClock()
        self.link = FakeLink(self.clock, react)
        self.path = folder / "a.run.jsonl"
        self.journal = Journal.create(self.path, {"board": {"serial": "0042"}}, self.clock)
        self.events = []
        self.options = options
        self.plan = plan(*steps)
        self.run = self.new_run(*observers)

    def new_run(self, *observers):
        return Run(
            self.plan,
            self.link,
            self.journal,
            self.clock,
            observers,
            self.events.append,
            **self.options,
        )

    def resumed(self, *observers):
        self.journal.close()
        self.journal = Journal.reopen(self.path, self.clock)
        self.run = self.new_run(*observers)
        return self.run

    def kinds(self, kind):
        return [record for record in read(self.path).records if record["kind"] == kind]

    def verdicts(self):
        return [step.verdict for step in self.run.verdicts().steps]

    def sent(self):
        return b"".join(self.link.written)


def test_whole_loop_sends_asks_and_records(tmp_path):
    bench = Bench(tmp_path, look("a"), look("b", "BYE"), observers=[Says(YES, NO)])
    assert bench.run.carry_out() is True
    assert bench.verdicts() == ["pass", "fail"]
    assert bench.sent() == b"\x1aHELLO\x1aBYE"
    assert [record["kind"] for record in read(bench.path).records] == [
        "step",
        "sent",
        "sent",
        "answer",
        "step",
        "sent",
        "sent",
        "answer",
        "finished",
    ]
    assert bench.kinds("sent")[1]["data"] == b"HELLO".hex()


def test_a_step_that_nobody_answers_stays_unanswered_and_the_run_incomplete(tmp_path):
    bench = Bench(tmp_path, look("a"), look("b"), observers=[Says(None, YES)])
    assert bench.run.carry_out() is True
    assert (
        bench.verdicts() == ["unanswered", "pass"] and bench.run.verdicts().verdict == "incomplete"
    )
    assert bench.run.next_step() is None  # not asked again in this sitting
    assert bench.resumed().next_step().id == "a"


def test_repeat_and_slower_send_again(tmp_path):
    bench = Bench(
        tmp_path, look("a"), observers=[Says(Answer(wish="repeat"), Answer(wish="slower"), YES)]
    )
    bench.run.carry_out()
    assert bench.sent() == b"\x1aHELLO" * 3
    assert len(bench.kinds("answer")) == 1


def test_slower_stretches_characters_and_pauses(tmp_path):
    bench = Bench(tmp_path, look("a", groups=(Group(b"x" * 100, "text", 1.0),)))
    step, start_s = bench.plan.steps[0], bench.clock.now_s()
    bench.run.perform(step)
    took_s = bench.clock.now_s() - start_s
    assert took_s == pytest.approx(100 * 10 / 9600 + 1.0, abs=1e-6)
    bench.run.perform(step, 2.0)
    assert bench.clock.now_s() - start_s - took_s == pytest.approx(2 * took_s, rel=0.01)


def test_back_asks_the_step_before_again_and_keeps_both_answers(tmp_path):
    bench = Bench(
        tmp_path, look("a"), look("b"), observers=[Says(NO, Answer(wish="back"), YES, YES)]
    )
    assert bench.run.carry_out() is True
    assert bench.verdicts() == ["pass", "pass"]
    assert [record["word"] for record in bench.kinds("answer")] == [
        DIFFERS,
        AS_EXPECTED,
        AS_EXPECTED,
    ]
    assert bench.run.verdicts().steps[0].answers == 2


def test_back_twice_goes_two_steps_back_and_back_at_the_first_step_stays(tmp_path):
    back = Answer(wish="back")
    says = Says(YES, YES, back, back, back, YES, YES)
    Bench(tmp_path, look("a"), look("b"), look("c"), observers=[says]).run.carry_out()
    assert says.asked == ["a", "b", "c", "b", "a", "a", "c"]


def test_stop_ends_with_a_record_and_resume_goes_on_at_the_first_unanswered_step(tmp_path):
    bench = Bench(tmp_path, look("a"), look("b"), observers=[Says(YES, Answer(wish="stop"))])
    assert bench.run.carry_out() is False
    assert bench.kinds("stopped")[-1]["reason"] == "stopped by the builder"
    says = Says(YES)
    assert bench.resumed(says).carry_out() is True
    assert says.asked == ["b"] and bench.verdicts() == ["pass", "pass"]


def test_ctrl_c_leaves_a_stopped_record(tmp_path):
    def interrupt(step):
        raise KeyboardInterrupt

    bench = Bench(tmp_path, look("a"), look("b"), observers=[Says(YES, interrupt)])
    with pytest.raises(KeyboardInterrupt):
        bench.run.carry_out()
    assert bench.kinds("stopped")[-1]["reason"] == "interrupted" and len(bench.kinds("answer")) == 1


def test_a_note_alone_is_kept_and_the_question_stands(tmp_path):
    bench = Bench(tmp_path, look("a"), observers=[Says(Answer(note="dim screen"), YES)])
    bench.run.carry_out()
    assert bench.kinds("note")[0]["text"] == "dim screen" and bench.verdicts() == ["pass"]


def test_blocked_steps_are_not_tried(tmp_path):
    says = Says(NO)
    bench = Bench(
        tmp_path, look("a"), look("b", needs=("a",)), look("c", needs=("b",)), observers=[says]
    )
    assert bench.run.carry_out() is True
    assert says.asked == ["a"] and bench.verdicts() == ["fail", "blocked", "blocked"]


def test_lost_link_is_noted_and_the_step_goes_on_over_another(tmp_path):
    bench = Bench(tmp_path, look("a"), look("b"), observers=[Says()])
    bench.run.perform(bench.plan.steps[0])
    bench.run.record(bench.plan.steps[0], YES)
    bench.link.trouble = LinkLostError("fake: the port vanished")
    with pytest.raises(LinkError):
        bench.run.carry_out()
    assert bench.kinds("link-lost")[-1]["reason"] == "fake: the port vanished"
    assert events.LinkTrouble("fake: the port vanished") in bench.events
    fresh = FakeLink(bench.clock)
    bench.run.relink(fresh)
    assert bench.run.carry_out() is True
    assert bench.verdicts() == ["pass", "pass"] and b"".join(fresh.written) == b"\x1aHELLO"


def test_a_continuing_step_is_sent_alone_after_its_predecessor_and_with_it_elsewhere(tmp_path):
    more = look("b", groups=(Group(b"!", "text"),), continues=True)
    bench = Bench(tmp_path, look("a"), more)
    a, b = bench.plan.steps
    bench.run.perform(a)
    bench.run.perform(b)
    assert bench.sent() == b"\x1aHELLO!"
    bench.run.perform(b)  # the screen shows b already, so the way there is made again
    assert bench.sent() == b"\x1aHELLO!\x1aHELLO!"


def test_what_returns_belongs_to_the_step_in_progress(tmp_path):
    bench = Bench(tmp_path, look("a"), react=lambda data: b"\x06" if data == b"HELLO" else b"")
    bench.run.perform(bench.plan.steps[0])
    assert bench.run.data == b"\x06"
    bench.link.waiting = b"k"
    assert bench.run.poll() == b"k" and bench.run.data == b"\x06k"
    assert [(record["step"], record["data"]) for record in bench.kinds("received")] == [
        ("a", "06"),
        ("a", "6b"),
    ]


def test_replies_and_typed_words_are_judged_by_the_bytes(tmp_path):
    reply = Step("r", "back", "reply", "Reply", "", (Group(b"\x05", "ENQ"),), reply=b"ok\r")
    typed = Step("t", "back", "typed-back", "Type", "", word="HELLO", needs=())
    answers = {b"\x05": b"ok\r"}
    bench = Bench(
        tmp_path,
        reply,
        typed,
        react=lambda data: answers.get(data, b""),
        hand=lambda step: setattr(bench.link, "waiting", b"HGLLO\r"),
    )
    assert bench.run.carry_out() is True
    assert bench.verdicts() == ["pass", "fail"]
    assert bench.run.verdicts().steps[1].evidence == (
        "1 of 6 characters differ; bit 1 arrives as 1",
    )


def test_a_typed_word_without_a_hand_stays_unanswered(tmp_path):
    bench = Bench(
        tmp_path, Step("t", "back", "typed-back", "Type", "", word="HELLO"), observers=[Says()]
    )
    bench.run.carry_out()
    assert bench.verdicts() == ["unanswered"]


def test_a_missing_reply_takes_limited_time_and_fails(tmp_path):
    bench = Bench(
        tmp_path, Step("r", "back", "reply", "Reply", "", (Group(b"\x05", "ENQ"),), reply=b"ok")
    )
    bench.run.carry_out()
    assert bench.verdicts() == ["fail"] and bench.clock.now_s() < 5
    assert "not nothing" in bench.run.verdicts().steps[0].reason


def test_strongest_observer_is_asked_first_and_the_next_where_it_cannot(tmp_path):
    def broken(step):
        raise ObserverError("the dump command d must print 24 rows, not 3")

    strong, weak = Says(broken, YES, strength=DUMP), Says(YES)
    bench = Bench(tmp_path, look("a"), look("b"), observers=[weak, strong])
    bench.run.carry_out()
    assert (strong.asked, weak.asked) == (["a", "b"], ["a"])
    assert [event.text for event in bench.events if isinstance(event, events.ObserverTrouble)] == [
        "the dump command d must print 24 rows, not 3"
    ]
    assert "24 rows" in bench.kinds("note")[0]["text"]


def test_a_observer_in_trouble_three_times_in_a_row_is_given_up(tmp_path):
    def broken(step):
        raise ObserverError("no")

    strong = Says(*[broken] * 9, strength=DUMP)
    bench = Bench(tmp_path, *(look(name) for name in "abcde"), observers=[strong])
    bench.run.carry_out()
    assert strong.asked == ["a", "b", "c"] and bench.verdicts() == ["unanswered"] * 5
    assert [
        event.is_given_up for event in bench.events if isinstance(event, events.ObserverTrouble)
    ] == [False, False, True]


def test_options_are_asked_for_once_and_noted(tmp_path):
    on = (("echo", "on"),)
    says = Says()
    bench = Bench(
        tmp_path,
        look("a", settings=(("echo", "off"),)),
        look("b", settings=on),
        look("c", settings=on),
        observers=[says],
        positions={"echo": "off"},
    )
    bench.run.carry_out()
    assert says.asked == ["a", "echo-on", "b", "c"]
    assert [(record["option"], record["position"]) for record in bench.kinds("option")] == [
        ("echo", "on")
    ]
    bench.options = {}
    assert bench.resumed().to_be_set(bench.plan.steps[1]) == ()


def test_positions_that_are_known_overrule_what_the_journal_holds(tmp_path):
    bench = Bench(
        tmp_path,
        look("a", settings=(("echo", "on"),)),
        observers=[Says(YES, Answer(wish="stop"))],
        positions={"echo": "off"},
    )
    bench.run.carry_out()
    step = bench.plan.steps[0]
    assert bench.run.to_be_set(step) == ()
    assert bench.resumed().to_be_set(step) == (("echo", "on"),)  # a simulated board starts anew
    bench.options = {}
    bench.run.set_option("echo", "on")
    assert bench.resumed().to_be_set(step) == ()  # a real one is as it was left


def test_a_step_whose_option_nobody_sets_stays_open(tmp_path):
    bench = Bench(
        tmp_path,
        look("a", settings=(("echo", "on"),)),
        observers=[Says(kinds=("look",))],
        positions={"echo": "off"},
    )
    bench.run.carry_out()
    assert bench.verdicts() == ["unanswered"] and bench.sent() == b""
    assert events.LeftOpen(bench.plan.steps[0], "needs option echo at on") in bench.events


def test_the_plan_s_own_switch_step_sets_an_option(tmp_path):
    switch = Step("set-echo", "looks", "switch", "Echo", "", option="echo", position="on")
    bench = Bench(
        tmp_path,
        switch,
        look("b", settings=(("echo", "on"),)),
        observers=[Says()],
        positions={"echo": "off"},
    )
    bench.run.carry_out()
    assert bench.verdicts() == ["pass", "pass"] and len(bench.kinds("option")) == 1


class Careful(Says):
    """An observer who acknowledges cautions, or does not."""

    def __init__(self, goes_on, *answers):
        super().__init__(*answers)
        self.goes_on, self.cautions = goes_on, []

    def acknowledge(self, text):
        self.cautions.append(text)
        return self.goes_on


def test_a_caution_is_acknowledged_once_a_stage_and_again_after_resume(tmp_path):
    says = Careful(True, YES, YES, Answer(wish="stop"))
    steps = [
        look("a", caution="mains"),
        look("b", caution="mains"),
        look("c", caution="mains", stage="more"),
        look("d", caution="mains", stage="more"),
    ]
    bench = Bench(tmp_path, *steps, observers=[says])
    bench.run.carry_out()
    assert says.cautions == ["mains", "mains"] and len(bench.kinds("caution")) == 2
    again = Careful(True)
    bench.resumed(again).carry_out()
    assert again.cautions == ["mains"]


def test_a_caution_not_acknowledged_stops_before_anything_is_sent(tmp_path):
    bench = Bench(tmp_path, look("a", caution="mains"), observers=[Careful(False)])
    assert bench.run.carry_out() is False
    assert bench.sent() == b"" and bench.kinds("stopped")


def test_wishes_and_remarks_are_no_answers(tmp_path):
    bench = Bench(tmp_path, look("a"))
    for answer in (Answer(wish="back"), Answer(note="x"), Answer()):
        with pytest.raises(ValueError):
            bench.run.record(bench.plan.steps[0], answer)


def test_bells_count_from_the_fresh_screen_also_over_continuing_steps(tmp_path):
    from termprobe.observer.simulated_screen import SimulatedScreenObserver

    bell = look("a", groups=(Group(b"\x1a\x07", "bell"),), expected=screen_of(bells=1))
    more = look("b", groups=(Group(b"\x07", "bell"),), expected=screen_of(bells=2), continues=True)
    bench = Bench(tmp_path, bell, more)
    screen = SimulatedScreenObserver(lambda: screen_of(bells=5 + bench.sent().count(b"\x07")))
    bench.run = bench.new_run(screen)
    bench.run.carry_out()
    assert bench.verdicts() == ["pass", "pass"]
