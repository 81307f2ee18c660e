"""What a command line asks for of the bench: its options, and the frozen record made of them."""

import argparse
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from termprobe.errors import UsageError
from termprobe.journal.records import BoardUnderTest
from termprobe.observer.base import Observer
from termprobe.plan.choose import choose_stages
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile

Choice = Callable[[Profile, Plan], Plan]
"""Makes the part of a plan that is wanted."""


Invited = Callable[[Plan], Sequence[Observer]]
"""Makes the observers that options bring in, of the plan of the whole script."""


def _no_observers(plan: Plan) -> Sequence[Observer]:
    return ()


@dataclass(frozen=True)
class BenchRequest:
    """What the bench is set up with."""

    port: str
    """Device path, pyserial URL, `sim:`, `sim:FAULT` or `sim:random`."""
    profile: str | None = None
    """Id or path; None for that of the run that is resumed."""
    script: str | None = None
    """Id or path; None for that of the run that is resumed."""
    board: BoardUnderTest = BoardUnderTest("")
    """Without a serial number where none was told; a run that is resumed knows its board."""
    speed_baud: int | None = None
    """None for the profile's."""
    resume: str | None = None
    """Path of the run file to go on with."""
    after: str | None = None
    """Path of the run file that a new run comes after."""
    folder: str = "."
    """Where a new run file goes."""
    attention: float | None = None
    """The share of looks that are to have an attention check; None for none, or as it was."""
    choice: Choice | None = None
    """None for the whole plan. A run that is resumed goes on with its own part."""
    cable: str | None = None
    """Which simulated cable leads to a simulated board; None for a line without one."""
    is_of_keys: bool = False
    """Of the board only keyboard and line are needed."""
    observers: Invited = _no_observers
    """Makes those that options bring in; raises TermprobeError where there can be none."""


def add_bench_arguments(parser: argparse.ArgumentParser, has_script: bool = True) -> None:
    """Add the options that every command at the bench takes; --script only where `has_script`."""
    parser.add_argument(
        "--profile",
        metavar="P",
        help="id or path of the profile; on --resume and --after that of the run by default",
    )
    if has_script:
        parser.add_argument(
            "--script",
            metavar="S",
            help="id or path of the script; on --resume and --after that of the run by default",
        )
    _add_line_arguments(parser)
    _add_label_arguments(parser)
    parser.add_argument(
        "--resume",
        metavar="RUN",
        help="go on with this run file at the first step without an answer",
    )
    parser.add_argument(
        "--after",
        metavar="RUN",
        help="begin a new run of the same board that asks first what failed in this run file, then "
        "what shares a block of the circuit with that, then the rest; the report says what has "
        "changed. Profile, script, part and board are those of RUN by default",
    )
    parser.add_argument(
        "--out", metavar="DIR", default=".", help="folder of the run file (default: this one)"
    )


def _add_line_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--port",
        metavar="URL",
        help="device path, pyserial URL, sim: or sim:FAULT",
    )
    parser.add_argument(
        "--speed",
        metavar="BAUD",
        type=_speed_baud,
        help="speed of the line; the profile's by default",
    )


def _add_label_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--board",
        metavar="SERIAL",
        help="serial number of the board; on --resume and --after that of the run",
    )
    parser.add_argument("--revision", metavar="R", default="", help="revision of its layout")
    parser.add_argument("--builder", metavar="NAME", default="", help="who built it")
    parser.add_argument(
        "--fitted", metavar="TEXT", default="", help="what is fitted, where not everything is"
    )
    parser.add_argument(
        "--batch",
        metavar="NAME",
        default="",
        help="batch of parts or kit that it was built from; `termprobe errata` compares them",
    )


def _speed_baud(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text) > 0):
        raise argparse.ArgumentTypeError(
            f"must be a whole number of baud, for example 9600, not {text!r}"
        )
    return int(text)


def add_stage_argument(parser: argparse.ArgumentParser) -> None:
    """Add --stage and --skip-stage, for commands that take a part of a script."""
    parser.add_argument(
        "--stage",
        action="append",
        default=[],
        metavar="STAGE",
        help="only this stage, by its id, number or title; may be given several times",
    )
    parser.add_argument(
        "--skip-stage",
        action="append",
        default=[],
        metavar="STAGE",
        help="all but this stage, named in the same way; may be given several times",
    )


def add_attention_argument(parser: argparse.ArgumentParser) -> None:
    """Add --attention, for commands in which eyes look at screens."""
    parser.add_argument(
        "--attention",
        metavar="SHARE",
        type=_share,
        help="before this share of the looks, for example 0.1, show a screen that is wrong on "
        "purpose, and tell afterwards whether it was noticed; it never counts for or against the "
        "board (default: none)",
    )


def _share(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value <= 1:
        raise argparse.ArgumentTypeError(
            f"must be a share, more than 0 and at most 1, for example 0.1, not {text!r}"
        )
    return value


def stage_choice(names: Sequence[str], skipped: Sequence[str] = ()) -> Choice | None:
    """Return the choice of the stages named without those skipped; None where all are wanted."""
    if not (names or skipped):
        return None
    return lambda profile, plan: choose_stages(plan, names, skipped)


def bench_request(
    arguments: argparse.Namespace, choice: Choice | None, is_of_keys: bool = False
) -> BenchRequest:
    """Return the request made of the options of add_bench_arguments.

    Raises UsageError where --port is not given.
    """
    if not arguments.port:
        raise UsageError(
            "--port must name the port of the board; `termprobe ports` lists them, "
            "and sim: is a simulated board"
        )
    return BenchRequest(
        port=arguments.port,
        profile=arguments.profile,
        script=arguments.script,
        board=_board(arguments),
        speed_baud=arguments.speed,
        resume=arguments.resume,
        after=arguments.after,
        attention=vars(arguments).get("attention"),
        folder=arguments.out,
        choice=choice,
        cable=vars(arguments).get("cable"),
        is_of_keys=is_of_keys,
    )


def request_on_paper(
    profile: str | None, script: str | None, stages: Sequence[str]
) -> BenchRequest:
    """Return the request for a plan alone, which is carried out without a port."""
    return BenchRequest(port="", profile=profile, script=script, choice=stage_choice(stages))


def _board(arguments: argparse.Namespace) -> BoardUnderTest:
    return BoardUnderTest(
        arguments.board or "",
        arguments.revision,
        arguments.builder,
        arguments.fitted,
        arguments.batch,
    )
