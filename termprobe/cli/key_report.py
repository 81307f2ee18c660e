"""The report of a walk over a keyboard, with the faults that would explain what came."""

from termprobe.cli.key_choice import keyboard_of
from termprobe.cli.recorded import Recorded
from termprobe.diagnosis.key_conclusion import Conclusion, conclude, suspects_document
from termprobe.diagnosis.key_outcomes import outcomes_of
from termprobe.plan.model import KeyPress
from termprobe.report.formats import json, text
from termprobe.report.key_suspects import render
from termprobe.report.keyboard_drawing import drawing, states
from termprobe.report.record import RunReport
from termprobe.verdict.counts import counts


def key_report(recorded: Recorded, report: RunReport, is_json: bool) -> str:
    """Return the report and its suspects as text, or as one JSON document."""
    outcomes = outcomes_of(recorded.recording.records)
    conclusion = conclude(recorded.profile, outcomes)
    if is_json:
        suspects = suspects_document(conclusion)
        return json.dump(json.run_document(report) | {"suspects": suspects}) + "\n"
    return text.page(report) + "\n" + _page(recorded, report, conclusion)


def _page(recorded: Recorded, report: RunReport, conclusion: Conclusion) -> str:
    """Return the keyboard with the mark of each key, and the suspects below it."""
    keyboard = keyboard_of(recorded.profile)
    presses = [step for step in recorded.plan.steps if isinstance(step, KeyPress)]
    verdicts = {step.id: step for step in report.verdict.steps}
    lines = drawing(keyboard, states(keyboard, presses, verdicts))
    asked = {step.press.id: step.press for step in presses}
    return "\n".join(lines) + "\n\n" + render(conclusion, asked, _untried(report))


def _untried(report: RunReport) -> int:
    """Return how many steps of the script have no verdict, or were no part of the run."""
    return report.scope.left_out + counts(report.verdict.steps).left
