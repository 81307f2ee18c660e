"""Wrong dots in a report: as they must be, where the look enlarges them, and as they were seen."""

import dataclasses

from helpers.bench import look, plan, screen_of
from helpers.reports import step
from termprobe.report.dot_lines import lines_on_dots
from termprobe.terminal.dots import Enlarged
from termprobe.verdict.model import Differing

L = Enlarged("L", ("#..", "#..", "###"))
ASKING = dataclasses.replace(look("asking"), enlarged=(L,))
PLAN = plan(look("plain"), ASKING)
WRONG = (("E", "##./#../##."), ("L", "#../#../..."))


def failed(step_id, misdrawn):
    return step("fail", step_id, because=Differing(0, misdrawn=misdrawn))


def test_the_look_that_asks_for_dots_is_drawn_beside_what_must_be():
    lines = lines_on_dots(PLAN, [failed("plain", WRONG), failed("asking", WRONG)], 80)
    assert lines == [
        "",
        "Dots at asking, # lit and . dark",
        "  must be",
        "    L",
        "    #..",
        "    #..",
        "    ###",
        "  were seen",
        "    L",
        "    #..",
        "    #..",
    ]


def test_of_another_look_what_was_seen_is_drawn_alone():
    lines = lines_on_dots(PLAN, [failed("plain", WRONG)], 80)
    assert lines[1:4] == ["Dots at plain, # lit and . dark", "  were seen", "    E    L"]


def test_a_narrow_page_has_them_below_one_another():
    lines = lines_on_dots(PLAN, [failed("plain", WRONG)], 12)
    assert max(map(len, lines[3:])) <= 12


def test_nothing_is_drawn_where_no_dots_were_wrong():
    assert not lines_on_dots(PLAN, [failed("plain", ()), step("fail", "asking")], 80)
    assert not lines_on_dots(PLAN, [failed("plain", (("cursor", "missing"),))], 80)
    assert screen_of("A").misdrawn == ()
