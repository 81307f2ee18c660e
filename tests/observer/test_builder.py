"""The builder at plain prompts: what is shown, what may be typed, and what it means."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look
from termprobe.plan.model import Step
from termprobe.observer.base import AS_EXPECTED, DIFFERS, DISPUTED, SKIPPED, UNSURE, Answer
from termprobe.observer.builder import WORDS, BuilderObserver
from termprobe.observer.reading import parse_reading

RAIL = Step(
    "rail",
    "power",
    "measure",
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
        (["d", "", "the manual says so"], Answer(DISPUTED, note="the manual says so")),
        (["s", " ", "not stuffed"], Answer(SKIPPED, note="not stuffed")),
        (["r"], Answer(wish="repeat")),
        (["slower"], Answer(wish="slower")),
        (["b"], Answer(wish="back")),
        (["stop"], Answer(wish="stop")),
        (["note", "it hums"], Answer(note="it hums")),
        (["maybe", "?", "", "y"], Answer(AS_EXPECTED)),
        ([], Answer(wish="stop")),
    ],
)
def test_each_word_means_what_it_says(lines, answer):
    assert Desk(*lines).answer(look("a")) == answer


def test_the_expected_screen_and_the_question_stand_above_the_prompt():
    desk = Desk("y")
    desk.answer(look("a", stop_if="it smokes"))
    assert (
        "[screen]\nHELLO" in desk.text
        and "What is there?" in desk.text
        and "Switch off at once if: it smokes" in desk.text
    )


def test_a_word_that_means_nothing_shows_all_that_may_be_typed():
    desk = Desk("maybe\x1b[2J", "y")
    desk.answer(look("a"))
    assert "\x1b" not in desk.text and "maybe" in desk.text
    assert all(full in desk.text for full, _ in WORDS.values())


def test_a_switch_shows_option_and_position():
    desk = Desk("y")
    assert (
        desk.answer(Step("w", "s", "switch", "Echo", "", option="echo", position="on")).word
        == AS_EXPECTED
    )
    assert "Set echo to on." in desk.text


@pytest.mark.parametrize(
    "lines, value, word",
    [
        (["4.9"], 4.9, AS_EXPECTED),
        (["4.9 V"], 4.9, AS_EXPECTED),
        (["4900 mV"], 4.9, AS_EXPECTED),
        (["4.75"], 4.75, AS_EXPECTED),
        (["5.25v"], 5.25, AS_EXPECTED),
        (["five", "4,9", "4.9 A", "5"], 5.0, AS_EXPECTED),
        (["5.4", ""], 5.4, DIFFERS),
        (["54", "r", "5.1"], 5.1, AS_EXPECTED),
        (["-5", ""], -5.0, DIFFERS),
    ],
)
def test_readings_are_judged_at_once(lines, value, word):
    assert Desk(*lines).answer(RAIL) == Answer(word, value=value)


def test_a_reading_shows_its_limits_before_and_what_is_wrong_after():
    desk = Desk("3.2", "")
    desk.answer(RAIL)
    assert "It must read 4.75 to 5.25 V (TTL data)." in desk.text
    assert "OUTSIDE: 3.2 is not 4.75 to 5.25 V. Switch off at once if: it is below 4 V" in desk.text


def test_a_blank_reading_is_not_measured_and_no_answer():
    assert Desk("").answer(RAIL) is None


def test_a_reading_may_be_skipped_or_stopped():
    assert Desk("s", "no meter").answer(RAIL) == Answer(SKIPPED, note="no meter")
    assert Desk("stop").answer(RAIL) == Answer(wish="stop")
    assert Desk().answer(RAIL) == Answer(wish="stop")


@pytest.mark.parametrize(
    "lines, goes_on", [(["yes"], True), (["", "what", "y"], True), (["stop"], False), ([], False)]
)
def test_a_caution_is_acknowledged_by_yes_only(lines, goes_on):
    desk = Desk(*lines)
    assert desk.observer.acknowledge("mains within reach") is goes_on
    assert "CAUTION: mains within reach" in desk.text


@pytest.mark.parametrize(
    "lines, answer",
    [
        (["r"], None),
        ([""], None),
        (["n", "always"], Answer(DIFFERS, note="always")),
        (["b"], Answer(wish="back")),
        ([], Answer(wish="stop")),
        (["what", "r"], None),
        (["s", "no keyboard"], Answer(SKIPPED, note="no keyboard")),
    ],
)
def test_a_mistyped_word_is_asked_about(lines, answer):
    desk = Desk(*lines)
    assert (
        desk.observer.typed(Step("t", "s", "typed-back", "Type", "", word="HELLO"), b"\x1bH")
        == answer
    )
    assert 'ESC "H"' in desk.text and "\x1b" not in desk.text


@pytest.mark.parametrize(
    "text, unit, value",
    [
        ("10.6445 MHz", "MHz", 10.6445),
        ("15840 hz", "kHz", 15.84),
        ("15.84 kHz", "Hz", 15840.0),
        ("100 ms", "s", 0.1),
        ("2 us", "\u00b5s", 2.0),
        ("330 \u03a9", "ohm", 330.0),
        ("1.5 Kohm", "ohm", 1500.0),
        ("-12", "V", -12.0),
        ("\u221212 V", "V", -12.0),
        (".5", "A", 0.5),
        ("1e3", "Hz", 1000.0),
        ("12", None, 12.0),
        ("12 %", "%", 12.0),
        ("3 rows", "rows", 3.0),
    ],
)
def test_a_number_takes_its_unit_along(text, unit, value):
    assert parse_reading(text, unit) == value


@pytest.mark.parametrize(
    "text, unit",
    [
        ("", "V"),
        ("V", "V"),
        ("4,9", "V"),
        ("4.9.1", "V"),
        ("4.9 V V", "V"),
        ("nan", "V"),
        ("inf", "V"),
        ("4.9 A", "V"),
        ("5 V", None),
        ("5 XV", "V"),
        ("1e999", "V"),
        ("5 rows", "V"),
        ("0x10", "V"),
        ("\u0664", "rows" * 10),
    ],
)
def test_nonsense_is_refused_with_what_must_be_typed(text, unit):
    with pytest.raises(ValueError, match="must be"):
        parse_reading(text, unit)


@given(st.text(max_size=30), st.sampled_from(["V", "kHz", "ohm", "%", None]))
def test_no_typed_text_breaks_the_reading(text, unit):
    try:
        value = parse_reading(text, unit)
    except ValueError as error:
        assert "must be" in str(error)
    else:
        assert abs(value) < float("inf")


@given(st.lists(st.text(max_size=8), max_size=6))
def test_any_typing_ends_in_an_answer_or_stop(lines):
    for step in (look("a"), RAIL):
        desk = Desk(*lines)
        answer = desk.observer.answer(step)
        assert answer is None or isinstance(answer, Answer)
        assert not [
            character
            for text in desk.shown
            for character in text
            if ord(character) < 0x20 and character != "\n"
        ]
