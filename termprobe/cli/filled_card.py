"""Makes a run of what was written on a card."""

import argparse
import contextlib
import hashlib
import pathlib
import sys
from dataclasses import dataclass

from termprobe import yamlfile
from termprobe.cli.bench import free_path, header_of, make_folder
from termprobe.cli.console import Console
from termprobe.cli.opened_line import line_format
from termprobe.cli.recorded import load_run
from termprobe.cli.report_page import leave_page
from termprobe.cli.request import request_on_paper
from termprobe.cli.run_texts import normal_positions
from termprobe.cli.task import Task, task_of, with_looks_spared
from termprobe.clock import SystemClock
from termprobe.findings import Findings, quoted
from termprobe.journal.card import FilledFromCard
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest
from termprobe.observer.card import CardAnswers, answers_on
from termprobe.observer.card_form import (
    BOARD_LINE,
    DATE_LINE,
    PLAN_LINE,
    PROFILE_LINE,
    SCRIPT_LINE,
    STAGES_LINE,
    CardForm,
    form_of,
    moment_of,
)
from termprobe.plan.card_items import card_items
from termprobe.report.formats import text
from termprobe.runner.from_card import write_down

HASH_SHOWN = 12
"""Characters of the hash of a plan that stand on a card."""


@dataclass(frozen=True)
class CardClock:
    """The date that was written on a card, for all that was; no time passes."""

    written: str

    def now_s(self) -> float:
        """Return always the same."""
        return 0.0

    def date(self) -> str:
        """Return the date as it was written, ISO 8601, perhaps a day alone."""
        return self.written

    def sleep_until(self, deadline_s: float) -> None:
        """Return at once."""


def fill(arguments: argparse.Namespace) -> int:
    """Make a run file of the form, and print its report; return the exit code of its verdict.

    Raises FileError, with every finding, where the form says what it cannot; no file is made then.
    """
    typed = yamlfile.read_text(arguments.fill)
    findings = Findings(arguments.fill)
    form = form_of(typed, findings)
    findings.refuse()
    task = _task(arguments, form)
    answers = _answers(form, task, findings)
    path = _write(arguments.out, form, typed, task, answers)
    recorded = load_run(path)
    print(text.page(recorded.report), end="")
    console = Console(sys.stderr)
    leave_page(recorded, console)
    console.tell(f"Run file: {path}")
    return recorded.report.verdict.exit_code


def _task(arguments: argparse.Namespace, form: CardForm) -> Task:
    """Return the plan of the card: what the command line does not name is that of the form."""
    stages = [name.strip() for name in form.head(STAGES_LINE).split(",") if name.strip()]
    request = request_on_paper(
        arguments.profile or form.head(PROFILE_LINE) or None,
        arguments.script or form.head(SCRIPT_LINE) or None,
        arguments.stage or stages,
    )
    return with_looks_spared(task_of(request, None), None)


def _answers(form: CardForm, task: Task, findings: Findings) -> CardAnswers:
    """Return what the form says of the plan; raise FileError where it is the form of another."""
    _refuse_another_plan(form, task, findings)
    findings.refuse()
    items = [item for item in card_items(task.whole) if item.step.id in task.plan.index]
    answers = answers_on(form, items, line_format(task.profile), findings)
    findings.refuse()
    return answers


def _refuse_another_plan(form: CardForm, task: Task, findings: Findings) -> None:
    """Refuse a form whose numbers are those of another plan."""
    now, written = task.plan.hash[:HASH_SHOWN], form.heads.get(PLAN_LINE)
    if written is not None and written.text != now:
        findings.add(
            written.place,
            f"plan must be {now}, which profile, script and stages make now, not "
            f"{quoted(written.text)}; fill in the card with the texts that it was printed from, or "
            "print it anew",
        )


def _write(
    folder: str, form: CardForm, typed: str, task: Task, answers: CardAnswers
) -> pathlib.Path:
    """Write the run file; return where it is."""
    make_folder(folder)
    clock = CardClock(moment_of(form.head(DATE_LINE)))
    path = free_path(pathlib.Path(folder), form.head(BOARD_LINE), clock.date())
    with contextlib.closing(Journal.create(path, header_of(_board(form), task), clock)) as journal:
        digest = hashlib.sha256(typed.encode()).hexdigest()
        journal.append(FilledFromCard(SystemClock().date(), digest))
        remarks = [note.text for note in form.notes]
        write_down(
            journal,
            task.plan,
            normal_positions(task.profile),
            answers.answers,
            answers.notes,
            remarks,
        )
    return path


def _board(form: CardForm) -> BoardUnderTest:
    head = form.head
    return BoardUnderTest(
        head(BOARD_LINE), head("revision"), head("builder"), head("fitted"), head("batch")
    )
