"""Sets the bench up from the words on the command line: profile, plan, link, board, run file, observers."""

import argparse
import pathlib
import platform
import random
import re
from dataclasses import dataclass, field

from termprobe import __version__
from termprobe.errors import FileError, UsageError

SIMULATED = "sim:"


@dataclass
class Bench:
    """All that a run needs, opened. `board` is the simulated board, or None where the board is real."""

    profile: object
    plan: object
    link: object
    board: object
    clock: object
    journal: object
    path: pathlib.Path
    records: tuple = ()
    """What the run file held before, on --resume."""
    changed_steps: tuple[str, ...] = ()
    """Ids of the steps that are not what they were when the run began, on --resume."""
    hidden_fault: str = ""
    """The fault that `sim:random` chose."""
    closers: list = field(default_factory=list)

    def close(self):
        """Let go of the link and the run file."""
        self.link.close()
        self.journal.close()


def add_bench_arguments(parser, script=True, needs_port=True):
    """Add the words that every command at the bench takes."""
    parser.add_argument(
        "--profile",
        metavar="P",
        help="id or path of the profile; on --resume that of the run by default",
    )
    if script:
        parser.add_argument(
            "--script",
            metavar="S",
            help="id or path of the script; on --resume that of the run by default",
        )
    parser.add_argument(
        "--port",
        metavar="URL",
        required=needs_port,
        help="device path, pyserial URL, sim: or sim:FAULT",
    )
    parser.add_argument(
        "--speed",
        metavar="BAUD",
        type=_speed_baud,
        help="speed of the line; the profile's by default",
    )
    parser.add_argument("--board", metavar="SERIAL", help="serial number of the board")
    parser.add_argument("--revision", metavar="R", default="", help="revision of its layout")
    parser.add_argument("--builder", metavar="NAME", default="", help="who built it")
    parser.add_argument(
        "--fitted", metavar="TEXT", default="", help="what is fitted, where not everything is"
    )
    parser.add_argument(
        "--resume",
        metavar="RUN",
        help="go on with this run file at the first step without an answer",
    )
    parser.add_argument(
        "--out", metavar="DIR", default=".", help="folder of the run file (default: this one)"
    )


def add_stage_argument(parser):
    """Add --stage, for commands that carry out a part of a script."""
    parser.add_argument(
        "--stage",
        action="append",
        default=[],
        metavar="STAGE",
        help="only this stage; may be given several times",
    )


def selected_stages(arguments):
    """Return the `select` of open_bench for the stages asked for, None where all are wanted."""
    from termprobe.plan.choose import choose_stages

    return (lambda profile, plan: choose_stages(plan, arguments.stage)) if arguments.stage else None


def _speed_baud(text):
    if not (text.isascii() and text.isdigit() and int(text) > 0):
        raise argparse.ArgumentTypeError(
            f"must be a whole number of baud, for example 9600, not {text!r}"
        )
    return int(text)


def open_bench(arguments, clock, select=None, is_of_keys=False):
    """Return the Bench that the command line asks for; raise TermprobeError where it cannot be set up.

    `clock` paces the line. `select(profile, plan) -> plan` makes the part of the plan that is wanted; a resumed run goes
    on with its own part. `is_of_keys`: of the board only keyboard and line are needed. The link is opened before the run
    file is made, so that a wrong port leaves no file behind.
    """
    from termprobe.plan.choose import choose
    from termprobe.plan.compile import compile_plan

    earlier = _earlier(arguments)
    profile, profile_text = _text_of(arguments.profile, earlier, "profile")
    script, script_text = _text_of(arguments.script, earlier, "script")
    plan = whole = compile_plan(profile, script, arguments.script)
    chosen = earlier.recording.header.get("chosen") if earlier else None
    if chosen is not None:
        plan = choose(plan, chosen)
    elif select:
        plan = select(profile, plan)
        chosen = [step.id for step in plan.steps]
    board = earlier.recording.header["board"] if earlier else _board(arguments)
    chance = earlier.recording.header.get("practice", 0) if earlier else random.getrandbits(32)
    link, simulated, hidden = open_link(
        arguments.port, profile, clock, arguments.speed, chance, is_of_keys
    )
    try:
        journal, path = _journal(
            arguments,
            clock,
            earlier,
            {
                "tool": f"termprobe {__version__}",
                "platform": platform.platform(),
                "board": board,
                "link": {
                    "name": link.name,
                    "format": str(link.format),
                    "note": link.note,
                },
                "profile": profile.id,
                "script": script.id,
                "plan_hash": plan.hash,
                "profile_text": profile_text,
                "script_text": script_text,
                **({"practice": chance} if hidden else {}),
                **(
                    {}
                    if chosen is None
                    else {"chosen": chosen, "left_out": _left_out(whole, chosen)}
                ),
            },
        )
    except Exception:
        link.close()
        raise
    return Bench(
        profile,
        plan,
        link,
        simulated,
        clock,
        journal,
        path,
        earlier.recording.records if earlier else (),
        _changed(earlier, plan),
        hidden,
    )


def _left_out(plan, chosen):
    """Return how many steps of `plan` that are fitted are not among those chosen."""
    return sum(not step.not_fitted and step.id not in chosen for step in plan.steps)


def open_link(url, profile, clock, speed_baud=None, chance=0, is_of_keys=False):
    """Return (Link, simulated Board or None, name of a hidden fault or nothing) for a port as the user wrote it.

    The number `chance` decides which fault `sim:random` has, so that a practice that is resumed has the same one.
    """
    from termprobe.link.base import LineFormat

    needs = profile.link
    line = LineFormat(
        speed_baud or needs.speed_baud, needs.data_bits, needs.parity, needs.stop_bits
    )
    if not url.startswith(SIMULATED):
        from termprobe.link.open import open_port

        return open_port(url, line, clock, needs.rts, needs.dtr), None, ""
    from termprobe.board.board import Board
    from termprobe.board.keyboard_board import KeyboardBoard
    from termprobe.board.link import SimLink

    fault = url.removeprefix(SIMULATED)
    hidden = _any_fault(profile, chance, is_of_keys) if fault == "random" else ""
    new_board = KeyboardBoard if is_of_keys and profile.circuit is None else Board
    board = new_board(profile, [hidden or fault] if fault else [])
    return SimLink(board, clock, line, SIMULATED if hidden else url), board, hidden


def _any_fault(profile, chance, is_of_keys):
    from termprobe.board.faults.catalogue import catalogue, keyboard_catalogue

    return random.Random(chance).choice(
        sorted((keyboard_catalogue if is_of_keys else catalogue)(profile))
    )


def _earlier(arguments):
    if not arguments.resume:
        return None
    from termprobe.cli.recorded import load_run

    return load_run(arguments.resume)


def _text_of(name, earlier, kind):
    """Return (the profile or script, its text): from the file that the user names, else as the earlier run holds it."""
    from termprobe import yamlfile
    from termprobe.profile import load as profiles
    from termprobe.script import load as scripts

    parse = {"profile": profiles.parse, "script": scripts.parse}[kind]
    if name:
        path = yamlfile.find(name, f"{kind}s")
        text = yamlfile.read_text(path)
        return parse(text, str(path)), text
    if not earlier:
        raise UsageError(
            f"--{kind} must name a {kind}; `termprobe {kind} list` shows those that come with termprobe"
        )
    text = earlier.recording.header[f"{kind}_text"]
    return parse(text, f"{earlier.path} ({kind})"), text


def _board(arguments):
    if not arguments.board:
        raise UsageError(
            "--board must give the serial number of the board, for example --board 0007"
        )
    return {
        "serial": arguments.board,
        "revision": arguments.revision,
        "builder": arguments.builder,
        "fitted": arguments.fitted,
    }


def _journal(arguments, clock, earlier, header):
    from termprobe.journal.file import Journal

    if earlier:
        return Journal.reopen(arguments.resume, clock), pathlib.Path(arguments.resume)
    folder = pathlib.Path(arguments.out)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(
            [
                f"{folder}: must be a folder that can be written ({error.strerror}); try another --out DIR"
            ]
        ) from None
    path = free_path(folder, arguments.board, clock.date())
    return Journal.create(path, header, clock), path


def free_path(folder, serial, date):
    """Return a path in `folder` for a run of board `serial` begun at `date`, that no file has yet."""
    stem = f"{re.sub(r'[^A-Za-z0-9._-]+', '_', serial).strip('.') or 'board'}-{re.sub(r'[^0-9T]', '', date[:19])}"
    names = (f"{stem}{f'-{n}' if n else ''}.run.jsonl" for n in range(10_000))
    return next(folder / name for name in names if not (folder / name).exists())


def _changed(earlier, plan):
    if not earlier:
        return ()
    before = {step.id: step.hash for step in earlier.plan.steps}
    return tuple(step.id for step in plan.steps if before.get(step.id) != step.hash)
