"""Which steps show which faults, against boards that have them."""

from helpers.scripts import SINGLE, look, plan_of
from termprobe.diagnosis.cheapest import Want
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.showing import showing_of
from termprobe.diagnosis.visibility import CELLS, LINE, SCREEN, SOUND

PLAN = plan_of(
    [
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("ding", [{"text": "A"}, {"command": "bell"}]),
        look("more", [{"command": "down"}, {"text": "B"}], start="keep"),
        '{id: keys, kind: keys, title: Keys, question: "Press it."}',
    ]
)
SHOWING = showing_of(fault_dictionary(SINGLE, PLAN), PLAN, SINGLE)
SHOWN = {fault.name: fault for fault in SHOWING.faults}
STARS, DING, MORE = range(3)


def test_each_look_tells_how_easily_a_fault_is_seen_at_it():
    # * is 2Ah: bit 0 stuck high makes a + of every other row, 12 rows of 80 columns.
    assert SHOWN["bank-0-data/stuck/0/1"].looks[STARS] is SCREEN
    assert SHOWN["decoder/dead/bell"].looks == {DING: SOUND}
    assert SHOWN["decoder/acts-as/down-left"].looks == {MORE: CELLS}
    assert SHOWN["clear/bank-1-skipped"].looks[DING] is SCREEN
    assert SHOWN["column-counter/stuck/0/1"].looks[STARS] in (SCREEN, LINE)


def test_what_has_a_part_in_the_display():
    of_display = {fault.name.split("/")[0] for fault in SHOWING.faults if fault.is_of_display}
    assert {"bank-0-data", "ram-address", "decoder", "baud"} <= of_display
    beside = {"key-matrix", "keyboard-code", "transmitter-data", "parity", "echo-gate"}
    assert not of_display & beside
    assert not any(SHOWN[name].looks for name in SHOWN if name.split("/")[0] in beside)


def test_steps_are_numbered_looks_first():
    assert SHOWING.looks == ("stars", "ding", "more")
    assert SHOWING.steps == SHOWING.looks + SHOWING.presses
    assert "press/a+shift" in SHOWING.presses


def test_a_fault_wants_any_step_that_shows_it():
    wants = set(SHOWING.wants())
    assert Want(1 << DING, 1) in wants and Want(1 << MORE, 1) in wants
    any_press = sum(1 << number for number in range(3, len(SHOWING.steps)))
    assert any(want.items & any_press == any_press and want.items & 7 for want in wants)
    a = {SHOWING.steps.index(f"press/a{more}") for more in ("", "+shift", "+control")}
    assert Want(sum(1 << number for number in a), 2) in wants
    assert len(list(SHOWING.wants())) == sum(fault.is_shown for fault in SHOWING.faults)


def test_faults_that_no_step_tells_apart_have_one_signature():
    first, second = (SHOWN[f"ram-address/stuck/9/{level}"].signature for level in (0, 1))
    assert first == second != SHOWN["ram-address/stuck/8/0"].signature
    assert SHOWN["key-matrix/row-open/1"].signature != SHOWN["key-matrix/row-open/2"].signature
