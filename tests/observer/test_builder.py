"""The builder at plain prompts: what is shown, what may be typed, and what it means."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look
from helpers.bench_plan import step
from termprobe.errors import FileError
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import AS_EXPECTED, DIFFERS, DISPUTED, SKIPPED, UNSURE, Answer
from termprobe.observer.base import BACK, REPEAT, SKIP_STAGE, SLOWER, STOP, Remark, Wish
from termprobe.observer.builder import BuilderObserver
from termprobe.observer.builder_words import BUILDER_WORDS
from termprobe.plan.model import Measure
from termprobe.terminal.dots import Enlarged

RAIL = Measure(
    "rail",
    "power",
    "The 5 V rail",
    "Meter at the socket.",
    unit="V",
    low=4.75,
    high=5.25,
    source="TTL data",
    stop_if="it is below 4 V",
)


class Desk:
    """A builder who types prepared lines; `shown` and `asked` are what the observer printed."""

    def __init__(self, *lines):
        self.lines, self.shown, self.asked = list(lines), [], []
        self.observer = BuilderObserver(
            self._ask, self.shown.append, lambda screen: "[screen]\n" + "\n".join(screen.rows)
        )

    def _ask(self, text):
        self.asked.append(text)
        if not self.lines:
            raise EOFError
        return self.lines.pop(0)

    def answer(self, step):
        answer = self.observer.answer(step)
        assert not self.lines, f"not asked for: {self.lines}"
        return answer

    @property
    def text(self):
        return "\n".join(self.shown)


@pytest.mark.parametrize(
    "lines, answer",
    [
        (["y"], Answer(AS_EXPECTED)),
        (["Yes"], Answer(AS_EXPECTED)),
        ([" y "], Answer(AS_EXPECTED)),
        (["n", "row 3 is blank"], Answer(DIFFERS, note="row 3 is blank")),
        (["n", ""], Answer(DIFFERS)),
        (["u"], Answer(UNSURE)),
        (["unsure"], Answer(UNSURE)),
        (["d", "the manual says so"], Answer(DISPUTED, note="the manual says so")),
        (["s", "not stuffed"], Answer(SKIPPED, note="not stuffed")),
        (["s", " ", "y"], Answer(AS_EXPECTED)),
        (["d", "", "s", "not stuffed"], Answer(SKIPPED, note="not stuffed")),
        (["e", "no plug"], Wish(SKIP_STAGE, "no plug")),
        (["stage", "", "y"], Answer(AS_EXPECTED)),
        (["r"], Wish(REPEAT)),
        (["slower"], Wish(SLOWER)),
        (["b"], Wish(BACK)),
        (["stop"], Wish(STOP)),
        (["q"], Wish(STOP)),
        (["note", "it hums"], Remark("it hums")),
        (["maybe", "?", "", "y"], Answer(AS_EXPECTED)),
        ([], Wish(STOP)),
    ],
)
def test_each_word_means_what_it_says(lines, answer):
    assert Desk(*lines).answer(look("a")) == answer


def test_the_expected_screen_and_the_question_stand_above_the_prompt():
    desk = Desk("y")
    desk.answer(look("a", stop_if="it smokes"))
    assert "[screen]\nHELLO" in desk.text
    assert "What is there?" in desk.text
    assert "Switch off at once if: it smokes" in desk.text


def test_a_word_that_means_nothing_shows_all_that_may_be_typed():
    desk = Desk("maybe\x1b[2J", "y")
    desk.answer(look("a"))
    assert "\x1b" not in desk.text and "maybe" in desk.text
    assert all(word.full in desk.text for word in BUILDER_WORDS)


def test_a_switch_shows_option_and_position():
    desk = Desk("y")
    switch = step("w", "s", "switch", option="echo", position="on")
    assert desk.answer(switch).word == AS_EXPECTED
    assert "Set echo to on." in desk.text


@pytest.mark.parametrize(
    "lines, value, word",
    [
        (["4.9"], 4.9, AS_EXPECTED),
        (["4.9 V"], 4.9, AS_EXPECTED),
        (["4900 mV"], 4.9, AS_EXPECTED),
        (["4.75"], 4.75, AS_EXPECTED),
        (["5.25v"], 5.25, AS_EXPECTED),
        (["five", "4,900", "4.9 A", "5"], 5.0, AS_EXPECTED),
        (["5.4", ""], 5.4, DIFFERS),
        (["54", "r", "5.1"], 5.1, AS_EXPECTED),
        (["-5", ""], -5.0, DIFFERS),
    ],
)
def test_readings_are_judged_at_once(lines, value, word):
    rail = dataclasses.replace(RAIL, stop_if=None)
    assert Desk(*lines).answer(rail) == Answer(word, value=value)


def test_a_reading_shows_its_limits_before_and_what_is_wrong_after():
    desk = Desk("3.2")
    assert desk.answer(RAIL) == Answer(DIFFERS, value=3.2), "it is not asked whether to keep it"
    assert "It must read 4.75 to 5.25 V, that is 5 V \u00b1 5 % (TTL data)." in desk.text
    assert "Switch off at once if: it is below 4 V" in desk.text
    assert "OUTSIDE: 3.2 V is not 5 V \u00b1 5 %." in desk.text


@pytest.mark.parametrize(
    "lines, again", [(["m"], True), (["", "yes", "M"], True), (["stop"], False), (["q"], False)]
)
def test_a_board_that_must_be_switched_off_is_measured_again_or_the_run_stops(lines, again):
    desk = Desk(*lines)
    assert desk.observer.switch_off(RAIL) is again
    assert "SWITCH OFF NOW. The 5 V rail" in desk.text and "it is below 4 V" in desk.text


def test_a_reading_without_limits_is_noted():
    desk = Desk("2 V")
    assert desk.answer(step("m", "s", "measure", unit="V")) == Answer(AS_EXPECTED, value=2.0)
    assert "It is noted; there are no limits.\nNoted." in desk.text


def test_a_blank_reading_is_not_measured_and_no_answer():
    assert Desk("").answer(RAIL) is None


def test_a_reading_may_be_skipped_or_stopped():
    assert Desk("s", "no meter").answer(RAIL) == Answer(SKIPPED, note="no meter")
    assert Desk("s", "", "5").answer(RAIL) == Answer(AS_EXPECTED, value=5.0)
    assert Desk("stop").answer(RAIL) == Desk("q").answer(RAIL) == Wish(STOP)
    assert Desk().answer(RAIL) == Wish(STOP)


@pytest.mark.parametrize(
    "lines, wish",
    [
        (["yes"], None),
        (["", "what", "y"], None),
        (["stop"], Wish(STOP)),
        (["q"], Wish(STOP)),
        ([], Wish(STOP)),
        (["e", "no plug"], Wish(SKIP_STAGE, "no plug")),
        (["stage", "", "yes"], None),
    ],
)
def test_a_caution_is_acknowledged_by_yes_only(lines, wish):
    desk = Desk(*lines)
    assert desk.observer.acknowledge("mains within reach") == wish
    assert not desk.lines
    assert "CAUTION: mains within reach" in desk.text


@pytest.mark.parametrize(
    "lines, answer",
    [
        (["r"], None),
        ([""], None),
        (["wrong", "yes", "always"], Answer(DIFFERS, note="always")),
        (["wrong", "no", "n", "no", "r"], None),
        (["hello"], None),
        (["b"], Wish(BACK)),
        ([], Wish(STOP)),
        (["what", "r"], None),
        (["s", "no keyboard"], Answer(SKIPPED, note="no keyboard")),
    ],
)
def test_a_mistyped_word_is_asked_about(lines, answer):
    desk = Desk(*lines)
    typed = step("t", "s", "typed-back", word="HELLO")
    assert desk.observer.typed(typed, b"\x1bH") == answer
    assert 'ESC "H"' in desk.text and "\x1b" not in desk.text


@pytest.mark.parametrize("asked", [look("a"), RAIL], ids=lambda step: step.kind)
@given(lines=st.lists(st.text(max_size=8), max_size=6))
def test_any_typing_ends_in_an_answer_or_stop(asked, lines):
    desk = Desk(*lines)
    said = desk.observer.answer(asked)
    assert said is None or isinstance(said, Answer | Wish | Remark)
    shown = "".join(desk.shown).replace("\n", "")
    assert not [character for character in shown if ord(character) < 0x20]


def test_a_word_typed_at_the_prompt_by_mistake_records_nothing():
    for word in ("n", "no", "any", "u", "yn"):
        desk = Desk(word)
        assert desk.observer.typed(step("t", "s", "typed-back", word=word), b"") is None
        assert "on this computer" in desk.text


def test_a_reason_that_is_not_given_leads_back_to_the_question_and_says_so():
    desk = Desk("s", "", "y")
    desk.answer(look("a"))
    assert "ENTER alone goes back to the question" in desk.asked[1]
    assert "Nothing is recorded." in desk.shown and "must be one of" not in desk.text


def test_characters_whose_dots_are_asked_for_are_drawn_below_the_screen():
    asking = dataclasses.replace(look("a"), enlarged=(Enlarged("L", ("#..", "###")),))
    desk = Desk("y")
    desk.answer(asking)
    assert "L\n#..\n###" in desk.text and desk.text.index("[screen]") < desk.text.index("#..")
    plain = Desk("y")
    plain.answer(look("a"))
    assert "#" not in plain.text


def test_a_photo_is_named_before_a_note_and_one_that_cannot_be_taken_is_told():
    def keep(path):
        if path == "none.jpg":
            raise FileError([f"{path}: there is none"])
        return KeptPhoto(path)

    desk = Desk("note", "@none.jpg", "note", "@u7.jpg hot")
    desk.observer.keep_photo = keep
    assert desk.answer(look("a")) == Remark("hot", KeptPhoto("u7.jpg"))
    without = Desk("note", "@none.jpg hot")
    without.observer.keep_photo = keep
    assert without.answer(look("a")) == Remark("hot")
    assert "Noted without the photo: none.jpg: there is none." in without.text
    assert "Not noted: none.jpg: there is none." in desk.text and "@FILE" in desk.asked[1]
    unknown = Desk("note", "@u7.jpg", "y")
    assert unknown.answer(look("a")).word == AS_EXPECTED and "none is known here" in unknown.text
