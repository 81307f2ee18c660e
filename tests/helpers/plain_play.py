"""Plays a plan on boards in the plainest way, for what plays faster to be compared with.

Each group is written to the board's line, and the screen is compared character by character.
"""

import operator

from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.plan.model import Look


class PlainPlay:
    """A board of `profile` with the fault named, or given, or none; steps are played on it."""

    def __init__(self, profile, fault=None):
        self.board = Board(profile, [fault] if fault else [])
        self.link = SimLink(self.board, CrankedClock())

    def play(self, step):
        """Send `step`; return what is (different cells, cursor, bells, dots, picture) of a look."""
        before = self.board.bells
        for option, position in step.settings:
            self.board.set_option(option, position)
        for group in step.groups:
            self.link.write(group.data)
        if isinstance(step, Look):
            return self._compared(step, before)
        return None

    def _compared(self, step, bells_before):
        expected, shown = step.expected, self.board.screen()
        bells = shown.bells - bells_before
        pairs = zip(expected.rows, shown.rows, strict=True)
        cells = sum(_count_differing(*rows) for rows in pairs if len(set(rows)) > 1)
        is_elsewhere = shown.cursor != expected.cursor
        dots, drawn = wrong_dots(shown, step.asks_dots)
        picture = shown.rows, shown.cursor, bells, drawn
        return cells, is_elsewhere, bells != expected.bells, dots, picture

    def in_order(self, plan):
        """Return what each look shows when all steps are played one after another."""
        told = [self.play(step) for step in plan.steps if not step.not_fitted]
        return [each for each in told if each]

    def alone(self, plan):
        """Return what each look shows when each chain of steps begins on a board switched on."""
        found = []
        for step in plan.steps:
            if step.not_fitted:
                continue
            if not step.continues:
                self.board.power_up()
            found.append(self.play(step))
        return [each for each in found if each]


def wrong_dots(shown, is_asked):
    """Return in how many cells dots are seen to be wrong, and how these are drawn."""
    characters = [one for one in shown.misdrawn if len(one[0]) == 1]
    others = [one for one in shown.misdrawn if len(one[0]) > 1]
    size = len(shown.rows) * len(shown.rows[0])
    cells = sum(row.count(what) for what, _ in characters for row in shown.rows)
    if not is_asked and cells < size / 4:
        cells, characters = 0, []
    if others:
        is_everywhere = any(how != "missing" for _, how in others)
        cells = size if is_everywhere else cells + 1
    return cells, (*characters, *others)


def _count_differing(wanted, seen):
    assert len(wanted) == len(seen)
    return sum(map(operator.ne, wanted, seen))


def assert_same(performance, profile, plan, fault, pictures):
    """Assert that `performance` tells of each look what is seen on a plain board.

    `pictures` keeps which picture stood for which screen: one for each, everywhere.
    """
    plain = PlainPlay(profile, fault)
    ways = plain.in_order(plan), plain.alone(plan)
    for told, seen in zip(performance, ways, strict=True):
        for sight, (*differs, picture) in zip(told, seen, strict=True):
            assert [sight.cells, sight.cursor, sight.bells, sight.dots] == differs, fault
            assert bool(sight.picture) == any(differs), fault
            if sight.picture:
                assert pictures.setdefault(sight.picture, picture) == picture
                assert pictures.setdefault(picture, sight.picture) == sight.picture
