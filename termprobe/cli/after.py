"""A new run that comes after another of the same board: what it takes from that, and asks first."""

import dataclasses
import hashlib
import pathlib

from termprobe.cli.key_choice import KEYBOARD_SCRIPT
from termprobe.cli.recorded import Recorded, load_run
from termprobe.cli.request import BenchRequest
from termprobe.errors import FileError, UsageError
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.reading import read_bytes
from termprobe.journal.records import BoardUnderTest
from termprobe.link.base import is_simulated
from termprobe.notation import visible
from termprobe.plan.model import Look, Plan, Reply, TypedBack
from termprobe.plan.needed import behind_needs
from termprobe.verdict.model import FAIL, PASS, AsWithFault, StepVerdict

OF_BOARD = ("revision", "builder", "fitted", "batch")
"""What is told of a board beside its serial number."""
WITH_RESUME = (
    "--after begins a new run and --resume goes on with one, so only one of them may be given; "
    "a run that was begun with --after knows what it comes after when it is resumed"
)


def run_before(request: BenchRequest) -> Recorded | None:
    """Return the run that the one asked for comes after; None where it comes after none.

    Raises FileError where that run cannot be read whole, UsageError where it is of something else.
    """
    if request.after is None:
        return None
    if request.resume:
        raise UsageError(WITH_RESUME)
    before = load_run(request.after)
    _refuse_damaged(before)
    _refuse_other_kind(before, request)
    _refuse_other_board(before, request.board.serial)
    _refuse_practice(before, request.port)
    return before


def _refuse_damaged(before: Recorded) -> None:
    if before.recording.damages:
        first = before.recording.damages[0]
        raise FileError(
            [
                f"{before.path}: must be whole on --after, since what is lost may have failed "
                f"({first}); see what is left with `termprobe report`, and begin a new run without "
                "--after"
            ]
        )


def _refuse_other_kind(before: Recorded, request: BenchRequest) -> None:
    """Refuse a walk over keys where a script is carried out, and the other way round."""
    begun = before.plan.script_id
    if request.is_of_keys and begun != KEYBOARD_SCRIPT:
        raise UsageError(
            f"--after must name a walk over the keys, not a run of the script {begun}; "
            "`termprobe run` and `termprobe session` take it"
        )
    if not request.is_of_keys and begun == KEYBOARD_SCRIPT and request.script is None:
        raise UsageError(
            f"--after must name a run of a script, and {before.path} is a walk over the keys; "
            f"`termprobe keys` takes it, or add --script {KEYBOARD_SCRIPT}"
        )


def _refuse_other_board(before: Recorded, serial: str) -> None:
    known = before.header.board.serial
    if serial and serial != known:
        raise UsageError(
            f"--board must be {visible(known)} on --after, as in {before.path}, not "
            f"{visible(serial)}; begin a run without --after for another board"
        )


def _refuse_practice(before: Recorded, port: str) -> None:
    """Refuse a run on a simulated board where a real one is tried: it says nothing of that."""
    link = before.header.link
    if link is not None and is_simulated(link.name) and not is_simulated(port):
        raise UsageError(
            f"--after must name a run on the board itself, and {before.path} is practice on a "
            "simulated one, which says nothing of a real one; begin a run without --after"
        )


def board_of(request: BenchRequest, before: Recorded | None) -> BoardUnderTest:
    """Return the board that is asked for; what is not told of it is as in the run `before`."""
    if before is None:
        return request.board
    own = dataclasses.asdict(request.board)
    told = {name: own[name] for name in OF_BOARD if own[name]}
    return dataclasses.replace(before.header.board, **told, more={})


def comes_after(before: Recorded, plan: Plan) -> ComesAfter:
    """Return the record of a new run of `plan` that comes after the run `before`.

    Where it takes longer than a moment to find which blocks its steps exercise, a line on standard
    error says so.
    """
    same = {step.id for step in plan.steps if _is_as_before(before.plan, step.id, step.hash)}
    steps = [step for step in before.verdict.steps if step.id in same]
    failed = tuple(step.id for step in steps if _has_failed(step))
    passed = tuple(step.id for step in steps if step.verdict == PASS and step.id not in failed)
    blocks, sharing = _sharing(before) if failed else ((), ())
    first = behind_needs(plan, failed)
    following = behind_needs(plan, [*first, *(step for step in sharing if step in same)])
    return ComesAfter(
        pathlib.Path(before.path).name,
        hashlib.sha256(read_bytes(before.path)).hexdigest(),
        before.header.at,
        failed,
        passed,
        first,
        following[len(first) :],
        blocks,
    )


def _is_as_before(before: Plan, step_id: str, step_hash: str) -> bool:
    """Return whether the run before asked the step just as it is asked now."""
    return step_id in before.index and before.step(step_id).hash == step_hash


def _has_failed(step: StepVerdict) -> bool:
    """Return whether a step did not show what a good board shows, be it with a known fault."""
    return step.verdict == FAIL or isinstance(step.because, AsWithFault)


def _sharing(before: Recorded) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the blocks that may be at fault by the run `before`, and the steps that share them."""
    from termprobe.cli.kept_dictionary import dictionary_if_simulated  # these load diagnosis
    from termprobe.diagnosis.sharing import sharing

    failed = [before.plan.step(step.id) for step in before.verdict.steps if step.verdict == FAIL]
    dictionary = None
    if any(isinstance(step, Look | Reply | TypedBack) for step in failed):
        profile_text, _ = before.text_of("profile")
        dictionary = dictionary_if_simulated(before.plan, before.profile, profile_text)
    records = before.recording.records
    return sharing(before.profile, before.plan, records, before.verdict, dictionary)
