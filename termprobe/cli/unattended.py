"""Carries out a script, unattended or at plain prompts, for the commands that do so."""

import argparse
import contextlib
import dataclasses
import sys

from termprobe.cli.assembly import carry_out, hands_at, unwatched_clock
from termprobe.cli.bench import Bench, open_bench
from termprobe.cli.console import Console, is_typed_at
from termprobe.cli.fault_decision import asked_at, going_on_at, stopping_at
from termprobe.cli.going_on import tell_of_link
from termprobe.cli.key_hands import told_hands
from termprobe.cli.observers import (
    builder_of,
    offered,
    simulated_hands,
    simulated_screen,
)
from termprobe.cli.recorded import load_run
from termprobe.cli.report_page import leave_page, write_junit
from termprobe.cli.request import (
    bench_request,
    stage_choice,
)
from termprobe.cli.resume import kept, resume_command, tell_resume
from termprobe.folding import first_of, folded
from termprobe.observer.base import Observer
from termprobe.report.after_words import order_in_words
from termprobe.report.formats import json, text
from termprobe.report.record import RunReport
from termprobe.runner.asking import NO_HANDS
from termprobe.runner.known_fault import Decide

CHANGES_SHOWN = 8
TOLD_WIDTH = 80


def carry_out_script(arguments: argparse.Namespace) -> int:
    """Carry out the run and print its report; return the exit code of its verdict."""
    request = dataclasses.replace(
        bench_request(arguments, stage_choice(arguments.stage, arguments.skip_stage)),
        observers=lambda whole: offered(arguments, whole),
    )
    clock = unwatched_clock(request.port)
    with contextlib.closing(open_bench(request, clock)) as bench:
        console = Console(sys.stderr)
        going_on = resume_command(arguments, bench.path)
        _carry_out(bench, going_on, console, arguments)
        recorded = load_run(bench.path)
        report = recorded.report
        _print_report(report, arguments.json)
        leave_page(recorded, console)
        if arguments.junit:
            write_junit(recorded, arguments.junit)
        tell_resume(report.verdict, going_on, console)
    return report.verdict.exit_code


def _carry_out(
    bench: Bench, going_on: str, console: Console, arguments: argparse.Namespace
) -> None:
    """Carry out the plan with all who can answer; standard output stays the report's.

    `going_on` is the command that goes on with the run where it ends early. What is to become of a
    fault that is named the arguments say, or who types at the console.
    """
    decide = _decided_by(arguments, console)
    observers: list[Observer] = [
        *simulated_screen(bench),
        *simulated_hands(bench),
        *bench.observers,
    ]
    person = NO_HANDS
    if is_typed_at():
        observers.append(builder_of(bench, console))
        person = told_hands(console)
        decide = decide or asked_at(console, going_on)
    _tell_changes(bench, console)
    if bench.after is not None:
        console.tell("\n".join(folded("", order_in_words(bench.after), TOLD_WIDTH)))
    with kept(bench.path, "run", going_on, console):
        hands = hands_at(bench, person)
        carry_out(bench, observers, hands, sys.stderr, decide, arguments.until_sure)


def _decided_by(arguments: argparse.Namespace, console: Console) -> Decide | None:
    """Return what decides on a fault that is named; None where the arguments do not say."""
    if arguments.until_sure:
        return stopping_at(console)
    if arguments.carry_on:
        return going_on_at(console)
    return None


def _tell_changes(bench: Bench, console: Console) -> None:
    tell_of_link(bench.about_link)
    changed = bench.changed_steps
    if not changed:
        return
    shown = first_of([bench.plan.title_of(step) for step in changed], CHANGES_SHOWN)
    console.tell(
        "Profile or script changed since the run began; "
        f"these steps are new or not what was answered then, and are asked: {shown}"
    )


def _print_report(report: RunReport, is_json: bool) -> None:
    if is_json:
        print(json.dump(json.run_document(report)))
    else:
        print(text.page(report), end="")
