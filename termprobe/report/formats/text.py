"""Runs as plain text, 80 columns wide, safe for any console and printer."""

from collections.abc import Sequence

from termprobe import notation
from termprobe.report import headline as headlines
from termprobe.report.dot_lines import lines_on_dots
from termprobe.report.facts.sheet import sheet
from termprobe.report.record import RunReport
from termprobe.report.text_sections import first_page_lines, last_lines, middle_lines
from termprobe.report.text_stages import stage_lines
from termprobe.verdict.model import FAIL

WIDTH = 80


def render(reports: Sequence[RunReport]) -> str:
    """Return the reports one after another; the first word of each says the verdict."""
    return "\n".join(map(page, reports))


def page(report: RunReport) -> str:
    """Return one report."""
    told = sheet(report)
    failed = [step for step in report.verdict.steps if step.verdict == FAIL]
    lines = [*first_page_lines(told.first), *middle_lines(told)]
    lines += lines_on_dots(report.plan, failed, WIDTH)
    lines += ["", "Stage by stage"]
    for stage in told.stages:
        lines += stage_lines(stage)
    lines += last_lines(told)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def headline(report: RunReport) -> str:
    """Return the one line that says pass, partial, fail or incomplete, of which board, and why."""
    board = notation.visible(report.board_name)
    return headlines.headline(board, report.plan, report.verdict, report.scope)
