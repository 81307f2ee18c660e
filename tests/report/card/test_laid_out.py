"""What stands on a card, by the records of facts.py."""

import dataclasses

from helpers.cards import CARD, PLAN, PROFILE
from termprobe.plan.choose import choose_stages
from termprobe.report.card.laid_out import card_of, line_in_words

BY_NUMBER = {step.number: step for stage in CARD.stages for step in stage.steps}
KEYS = [key for stage in CARD.stages for key in stage.keys]


def test_a_caution_stands_once_and_its_stage_names_it():
    assert [(one.number, one.text, one.where) for one in CARD.cautions] == [
        (1, "Keep one hand behind your back.", ("Screen",))
    ]
    assert [stage.cautions for stage in CARD.stages] == [(), (1,), ()]


def test_a_look_has_its_bytes_its_screen_and_what_spares_it():
    step = BY_NUMBER["2"]
    assert step.do == (
        "Only once as expected: 1.",
        "May be left out where all of these are as expected: 1.",
        "Right behind 1, its screen left as it is.",
    )
    assert step.sent == 'CR LF "WORLD"' and step.sent_in_words == "Send 7 bytes"
    assert step.screen.expected[0].rstrip() == "HELLO"
    assert step.screen.expected[1].rstrip() == "WORLD"
    assert step.drawn[2].startswith(" 0|HELLO") and "cursor: row 1, column 5" in step.beside
    assert len(step.drawn[2]) == 80 + 4


def test_what_must_be_read_come_and_set_is_told():
    assert BY_NUMBER["V1"].is_reading and BY_NUMBER["V1"].stop_if == "the regulator gets hot"
    assert BY_NUMBER["V1"].must == (
        "Must read 4.75 to 5.25 V, that is 5 V ± 5 %.",
        "Source: made up.",
    )
    assert BY_NUMBER["3"].do == ("Set duplex to half.",)
    assert BY_NUMBER["4"].do == ("Set duplex to full.",)
    assert BY_NUMBER["5"].must == ("Must come back from the board: ACK",)
    assert BY_NUMBER["6"].must == ('"OK" and RETURN, typed on the board: must come "OK" CR',)
    assert [(key.number, key.pressed, key.hexadecimal) for key in KEYS] == [
        ("K1", '"a"', "61"),
        ("K2", '"b"', "62"),
        ("K3", '"break"', ""),
    ]


def test_the_codes_that_are_sent_say_how_they_are_typed():
    codes = {code.name: code for code in CARD.codes}
    assert set(codes) == {"BEL", "LF", "CR", "SUB"}
    assert codes["CR"].hexadecimal == "0Dh"
    plan = dataclasses.replace(PLAN, key_codes=((b"\r", ('key "RETURN"',)),))
    (again,) = [one for one in card_of(PROFILE, plan, plan).codes if one.name == "CR"]
    assert again.pressed == 'key "RETURN"'


def test_what_keys_send_can_be_typed_in_local_mode_where_it_is_short():
    keys = tuple((bytes([code]), ("a key",)) for code in range(0x80))
    typed = dataclasses.replace(PLAN, key_codes=keys)
    steps = [step for stage in card_of(PROFILE, typed, typed).stages for step in stage.steps]
    told = {step.number: step.sent_in_words for step in steps}
    assert told["2"] == "Send 7 bytes, or type them in local mode" and told["3"] == ""


def test_a_part_keeps_the_numbers_of_the_whole():
    part = card_of(PROFILE, PLAN, choose_stages(PLAN, ["keys"]))
    assert [key.number for stage in part.stages for key in stage.keys] == ["K1", "K2", "K3"]
    assert part.left_off == () and CARD.left_off == ("A plug", "Every code comes back")


def test_the_line_is_told_in_words():
    assert line_in_words(PROFILE.link) == "9600 baud, 7 data bits, even parity, 1 stop bit"
