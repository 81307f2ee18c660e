"""Which steps show which faults, against boards that have them."""

import dataclasses
import functools
import re

from helpers.few_faults import play_few
from helpers.paths import ROOT
from helpers.scripts import SINGLE, look, plan_of
from termprobe.diagnosis import showing
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


@functools.cache
def whole():
    return showing_of(fault_dictionary(SINGLE, PLAN), PLAN, SINGLE)


@functools.cache
def shown():
    return {fault.name: fault for fault in whole().faults}


STARS, DING, MORE = range(3)


def test_each_look_tells_how_easily_a_fault_is_seen_at_it():
    # * is 2Ah: bit 0 stuck high makes a + of every other row, 12 rows of 80 columns.
    assert shown()["bank-0-data/stuck/0/1"].looks[STARS] is SCREEN
    assert shown()["decoder/dead/bell"].looks == {DING: SOUND}
    assert shown()["decoder/acts-as/down-left"].looks == {MORE: CELLS}
    assert shown()["clear/bank-1-skipped"].looks[DING] is SCREEN
    assert shown()["column-counter/stuck/0/1"].looks[STARS] in (SCREEN, LINE)


def test_what_has_a_part_in_the_display():
    of_display = {fault.name.split("/")[0] for fault in whole().faults if fault.is_of_display}
    assert {"bank-0-data", "ram-address", "decoder", "baud"} <= of_display
    beside = {"key-matrix", "keyboard-code", "transmitter-data", "parity", "echo-gate"}
    assert not of_display & beside
    assert not any(shown()[name].looks for name in shown() if name.split("/")[0] in beside)


def test_steps_are_numbered_looks_first():
    assert whole().looks == ("stars", "ding", "more")
    assert whole().steps == whole().looks + whole().presses
    assert "press/a+shift" in whole().presses


def test_a_fault_wants_any_step_that_shows_it():
    wants = set(whole().wants())
    assert Want(1 << DING, 1) in wants and Want(1 << MORE, 1) in wants
    any_press = sum(1 << number for number in range(3, len(whole().steps)))
    assert any(want.items & any_press == any_press and want.items & 7 for want in wants)
    a = {whole().steps.index(f"press/a{more}") for more in ("", "+shift", "+control")}
    assert Want(sum(1 << number for number in a), 2) in wants
    assert len(list(whole().wants())) == sum(fault.is_shown for fault in whole().faults)


def test_faults_that_no_step_tells_apart_have_one_signature():
    first, second = (shown()[f"ram-address/stuck/9/{level}"].signature for level in (0, 1))
    assert first == second != shown()["ram-address/stuck/8/0"].signature
    assert shown()["key-matrix/row-open/1"].signature != shown()["key-matrix/row-open/2"].signature


def test_of_few_faults_nothing_is_kept_for_other_tests(monkeypatch):
    profile = dataclasses.replace(SINGLE)
    with monkeypatch.context() as meanwhile:
        play_few(meanwhile)
        few = showing.names_of_display(profile)
    assert few < showing.names_of_display(profile)


def test_no_test_makes_the_catalogue_smaller_in_another_way():
    smaller = re.compile(r"setattr\(.*\bcatalogue\b")
    files = (ROOT / "tests").rglob("*.py")
    found = [path.name for path in files if smaller.search(path.read_text(encoding="utf-8"))]
    assert found == ["few_faults.py"]
