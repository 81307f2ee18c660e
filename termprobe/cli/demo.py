"""`termprobe demo`: the whole job without hardware, on an invented board with one fault."""

import argparse
import contextlib
import pathlib
import sys
import tempfile

from termprobe.board.faults.catalogue import fault as fault_of
from termprobe.cli.assembly import carry_out, hands_at, unwatched_clock
from termprobe.cli.bench import Bench, open_bench
from termprobe.cli.console import Console
from termprobe.cli.fault_decision import stopping_at
from termprobe.cli.observers import simulated_hands, simulated_screen
from termprobe.cli.recorded import Recorded, load_run
from termprobe.cli.report_page import write_page
from termprobe.cli.request import BenchRequest
from termprobe.errors import EXIT_FAILED, EXIT_PASSED
from termprobe.folding import folded
from termprobe.journal.records import AS_EXPECTED, Answer, BoardUnderTest
from termprobe.link.base import SIMULATED
from termprobe.notation import visible
from termprobe.observer.scripted import ScriptedObserver
from termprobe.plan.model import Ask, Look, Measure, Plan, Step, expected_of
from termprobe.report.formats import text
from termprobe.report.record import RunReport
from termprobe.report.scope_words import limits
from termprobe.runner.known_fault import NamedFault
from termprobe.verdict.counts import counts
from termprobe.verdict.judge import judge
from termprobe.verdict.model import FAIL, PASS, StepVerdict

PROFILE, DEMO_SCRIPT = "club-16x64", "acceptance"
DEFAULT_FAULT = "bank-0-address/bridged/2-5/low"
NO_FAULT = "none"
DEMO_BOARD = BoardUnderTest("DEMO-07", "B", "nobody; it is simulated")
INVENTED = "invented for the demonstration"
COLUMNS_SHOWN = 36


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument(
        "--fault",
        metavar="NAME",
        default=DEFAULT_FAULT,
        help=f"its fault, or none (default: {DEFAULT_FAULT})",
    )
    parser.add_argument(
        "--out",
        metavar="DIR",
        help="folder of the run file and the report (default: a new one for temporary files)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Show the job; return 0 where the run found what was announced, 1 where it did not."""
    folder = arguments.out or tempfile.mkdtemp(prefix="termprobe-demo-")
    fault = arguments.fault
    if fault == NO_FAULT:
        fault = ""
    port = f"{SIMULATED}{fault}"
    request = BenchRequest(port, PROFILE, DEMO_SCRIPT, DEMO_BOARD, folder=folder)
    with contextlib.closing(open_bench(request, unwatched_clock(port))) as bench:
        _introduce(bench, fault)
        answers = ScriptedObserver(_invented_answers(bench.plan))
        observers = [*simulated_screen(bench), *simulated_hands(bench), answers]
        carry_out(bench, observers, hands_at(bench), sys.stdout, _stops)
    recorded = load_run(bench.path)
    report = recorded.report
    _show_a_difference(report)
    rendered = text.page(report)
    path = pathlib.Path(folder) / f"{DEMO_BOARD.serial}-report.txt"
    path.write_text(rendered, encoding="utf-8")
    _say_headline(report)
    return _conclude(recorded, path, report.verdict.verdict, fault)


def _say_headline(report: RunReport) -> None:
    """Print what the run has shown, and how far that goes."""
    for told in (text.headline(report), *limits(report.verdict, report.scope, report.not_covered)):
        print("\n".join(folded("", told, text.WIDTH)))


def _stops(named: NamedFault) -> str:
    """Say which fault is named, and stop there for the repair."""
    print("\nHere the run stops asking:")
    return stopping_at(Console(sys.stdout))(named)


def _introduce(bench: Bench, fault: str) -> None:
    steps = counts(judge(bench.plan, ()).steps).all
    looks = sum(isinstance(step, Look) and not step.not_fitted for step in bench.plan.steps)
    display = bench.profile.display
    announced = "no fault at all."
    if fault:
        title = folded("    ", fault_of(bench.profile, fault).title, text.WIDTH)
        announced = "\n".join(["this fault:", *title])
    print(
        f"On the bench: board {DEMO_BOARD.serial}, a terminal of {display.rows} x "
        f"{display.columns} built of small TTL chips.\n"
        f"It is simulated at the level of its circuit, and has {announced}\n"
        f"The script '{bench.plan.script_id}' is not told. It knows what the manual says, "
        "sends codes,\n"
        f"and compares: {steps} steps, {looks} of them looks at the screen.\n"
    )


def _invented_answers(plan: Plan) -> dict[str, Answer]:
    """Return step id -> what a builder with good supplies would answer where no screen can."""
    answers = {step.id: _invented(step) for step in plan.steps}
    return {step_id: answer for step_id, answer in answers.items() if answer}


def _invented(step: Step) -> Answer | None:
    """Return a reading well within what is best, or a yes; None where a screen answers."""
    if isinstance(step, Measure):
        return Answer(AS_EXPECTED, value=_well_within(*step.best), note=INVENTED)
    if isinstance(step, Ask) and step.expected is None:
        return Answer(AS_EXPECTED, note=INVENTED)
    return None


def _well_within(low: float | None, high: float | None) -> float:
    """Return a reading that stands on no limit: the middle, or at some distance from the only one.

    0 is returned where there is none.
    """
    if low is not None and high is not None:
        return (low + high) / 2
    if low is not None:
        return low + (abs(low) / 2 or 1)
    if high is not None:
        return high - (abs(high) / 2 or 1)
    return 0.0


def _show_a_difference(report: RunReport) -> None:
    """Print rows of the failed look that differs most, what must be seen beside what is seen."""
    steps = report.verdict.steps
    failed = [step for step in steps if step.verdict == FAIL and step.differs]
    if not failed:
        return
    worst = max(failed, key=_extent)
    expected = expected_of(report.plan.step(worst.id))
    if expected is None:
        return
    rows = expected.rows
    first = min(row for row, _, _, _ in worst.differs)
    seen = {(row, column): character for row, column, _, character in worst.differs}
    print(f"\nThe look '{worst.id}', left as it must be, right as this board shows it:\n")
    for row in range(max(0, first - 1), min(len(rows), first + 3)):
        wanted = rows[row][:COLUMNS_SHOWN]
        characters = [seen.get((row, column), own) for column, own in enumerate(wanted)]
        print(f"  {row:>2} {visible(wanted)}  {visible(''.join(characters))}")
    print()


def _extent(failed: StepVerdict) -> tuple[int, int]:
    """Return how many cells differ, and in how many of them something was to be seen."""
    visible_cells = [expected for _, _, expected, _ in failed.differs if expected != " "]
    return len(failed.differs), len(visible_cells)


def _conclude(recorded: Recorded, path: pathlib.Path, verdict: str, fault: str) -> int:
    """Say whether the run found what was announced; return that as an exit code."""
    is_found, told = _found(recorded, verdict, fault)
    for line in folded("", told, text.WIDTH):
        print(line)
    print(f"Report:  {path}")
    print(f"Page:    {write_page(recorded)}")
    print(f"Run:     {recorded.path}")
    print(f"Next:    termprobe script show {DEMO_SCRIPT} --profile {PROFILE}")
    print(f"or:      termprobe session --profile {PROFILE} --port sim:random")
    if is_found:
        return EXIT_PASSED
    return EXIT_FAILED


def _found(recorded: Recorded, verdict: str, fault: str) -> tuple[bool, str]:
    """Return (whether it is what was announced, what was and was not found).

    A fault is found where the run names it: a board that fails may do so for anything.
    """
    from termprobe.cli.named_faults import finding, named_faults  # it loads diagnosis

    if not fault:
        if verdict == PASS:
            return True, "The board passed."
        return False, f"This is not what was announced: the verdict is {verdict}."
    if verdict != FAIL:
        return False, f"The fault was not found: the verdict is {verdict}."
    named = named_faults(recorded)
    return fault in named, finding(fault, named)
