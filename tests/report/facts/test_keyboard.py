"""The keyboard with the mark of each key."""

import dataclasses

from helpers.bench_plan import step as made_step
from helpers.reports import report, step
from termprobe.diagnosis.key_conclusion import Conclusion
from termprobe.profile.load import load
from termprobe.report.facts.keyboard import keyboard_facts
from termprobe.report.key_findings import KeyFindings

KEYBOARD = load("singlebyte-24x80").keyboard


def test_each_key_has_its_place_its_legend_and_a_sign_with_its_meaning():
    made = report(step("pass", "press/q"), step("fail", "press/w"))
    presses = tuple(made_step(f"press/{key}", "link", "press", key=key) for key in "qw")
    plan = dataclasses.replace(made.plan, steps=presses)
    keys = KeyFindings(KEYBOARD, Conclusion(True, True))
    found = keyboard_facts(dataclasses.replace(made, plan=plan, keys=keys))
    by_name = {key.name: key for key in found.keys}
    assert by_name["q"][1:] == ("Q", by_name["q"].left, 1, 1, "+", "right", "good")
    assert by_name["w"][5:] == ("x", "wrong", "bad") and by_name["e"][5:] == (" ", "", "")
    assert found.width > 15 and found.height == 5
    assert found.drawn[-1].startswith("+ right  x wrong")


def test_without_presses_there_is_none():
    assert keyboard_facts(report(step("pass"))) is None
