"""What limits a report: model, sources, cautions, damages."""

import dataclasses

from helpers.reports import report, step
from helpers.whole_reports import PROFILE, whole_report
from termprobe.profile.load import load
from termprobe.profile.model import UNVERIFIED
from termprobe.report.facts.about import MODELLED, NO_MODEL, about


def test_what_of_the_profile_has_no_source_is_named():
    commands = (dataclasses.replace(PROFILE.commands[0], source=UNVERIFIED), *PROFILE.commands[1:])
    link = dataclasses.replace(PROFILE.link, source="a manual")
    profile = dataclasses.replace(PROFILE, commands=commands, link=link)
    found = about(dataclasses.replace(report(step("pass")), profile=profile)).unverified
    assert f"command {commands[0].name}" in found and "line" not in found


def test_it_says_what_the_model_leaves_out():
    assert about(whole_report()).model == MODELLED
    other = dataclasses.replace(report(step("pass")), profile=load("ecma48-24x80"))
    assert about(other).model == NO_MODEL


def test_each_caution_stands_once_with_what_gives_it():
    found = about(whole_report("hot"))
    assert found.cautions[0] == ("hot", ("hot",))
    assert [one.where for one in found.cautions[1:]] == [("Probing",), ("Probing",)]
    assert found.damages == ("hot",) and found.remarks == ("hot",)


def test_of_very_many_damages_the_first_are_told():
    made = dataclasses.replace(whole_report(), damages=tuple(map(str, range(100_000))))
    found = about(made).damages
    assert found[0] == "0" and found[-2:] == ("99", "and 99,900 more")
