"""Sets the bench up as it was asked for: the plan, the line, the simulated board, the run file."""

import pathlib
import platform
import random
import re
from dataclasses import dataclass, replace

from termprobe import __version__
from termprobe.board.base import SimulatedBoard
from termprobe.cli.after import board_of, comes_after, run_before
from termprobe.cli.going_on import last_link, other_link_in_words, refuse_other_board
from termprobe.cli.opened_line import OpenedLink, link_to, open_link, unlisted_speed
from termprobe.cli.recorded import Recorded, load_run
from termprobe.cli.request import BenchRequest
from termprobe.cli.run_texts import PROFILE_TEXT, SCRIPT_TEXT, TextPair, changed_in
from termprobe.cli.task import Task, task_of, with_looks_spared
from termprobe.clock import Clock
from termprobe.errors import FileError, UsageError
from termprobe.journal.attention import AttentionWanted
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.file import Journal
from termprobe.journal.records import (
    BoardUnderTest,
    Header,
    Linked,
    LinkUsed,
    Record,
    Resumed,
    TakenBack,
)
from termprobe.journal.standing import to_be_asked_again
from termprobe.link.base import LineFormat, Link
from termprobe.observer.base import Observer
from termprobe.plan.covered import covering_in
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile

NO_SERIAL = "--board must give the serial number of the board, for example --board 0007"


@dataclass(frozen=True)
class Bench:
    """All that a run needs, opened."""

    profile: Profile
    plan: Plan
    link: Link
    board: SimulatedBoard | None
    """None where the board is real."""
    clock: Clock
    """Paces the line."""
    journal: Journal
    records: tuple[Record, ...] = ()
    """What the run file held before, on --resume."""
    changed_steps: tuple[str, ...] = ()
    """Ids of the steps that are not what they were when the run began, on --resume."""
    hidden_fault: str = ""
    """The fault that `sim:random` chose."""
    left_out: int = 0
    """How many steps of the script that are fitted are not in the plan."""
    observers: tuple[Observer, ...] = ()
    """Those that options bring in."""
    cable: str | None = None
    """Which simulated cable leads to the board, where one was named."""
    profile_text: str = ""
    """Of which the profile was read."""
    after: ComesAfter | None = None
    """Of a new run that comes after another: that one, and what is asked first."""
    about_link: str = ""
    """What is to be said of the link: on --resume that it was another before, and that its speed is
    none of the profile's."""

    @property
    def path(self) -> pathlib.Path:
        """Where the run file is."""
        return pathlib.Path(self.journal.path)

    def link_in(self, line: LineFormat) -> Link:
        """Return a new link to the board in the format `line`; raise LinkError."""
        name, cable = self.link.name, self.cable
        return link_to(name, self.board, line, self.clock, self.profile, cable)

    def close(self) -> None:
        """Let go of the link and the run file."""
        self.link.close()
        self.journal.close()


def open_bench(request: BenchRequest, clock: Clock) -> Bench:
    """Return the Bench asked for; raise TermprobeError where it cannot be set up.

    The run file is made last, so that a wrong port or a bad file of answers leaves none behind.
    """
    before = run_before(request)
    earlier = _earlier(request)
    task = task_of(request, earlier, before)
    request = replace(request, board=board_of(request, before))
    if earlier is None and not request.board.serial:
        raise UsageError(NO_SERIAL)
    observers = tuple(request.observers(task.whole))
    chance = _chance(earlier)
    opened = _opened(request, task.profile, clock, chance)
    try:
        task = with_looks_spared(task, earlier)
        after = comes_after(before, task.plan) if before else None
        journal = _journal(request, clock, task, opened, earlier, after, chance)
        if request.attention is not None:
            journal.append(AttentionWanted(request.attention, random.getrandbits(32)))
    except BaseException:
        opened.link.close()
        raise
    return Bench(
        profile=task.profile,
        plan=task.plan,
        link=opened.link,
        board=opened.board,
        clock=clock,
        journal=journal,
        records=_before(earlier, journal),
        changed_steps=_changed(earlier, task.plan),
        hidden_fault=opened.hidden_fault,
        left_out=task.left_out,
        observers=observers,
        cable=request.cable,
        profile_text=task.profile_text,
        after=after,
        about_link=_about_link(earlier, opened.link, task.profile, request.speed_baud),
    )


def _earlier(request: BenchRequest) -> Recorded | None:
    """Return the run that is gone on with, None without; refuse one of another board."""
    if not request.resume:
        return None
    earlier = load_run(request.resume)
    refuse_other_board(earlier.header.board, request.board)
    return earlier


def _about_link(
    earlier: Recorded | None, link: Link, profile: Profile, speed_baud: int | None
) -> str:
    """Return what is to be said of the link, after the `earlier` run; nothing in most cases."""
    said = [unlisted_speed(profile, speed_baud)]
    if earlier is not None:
        before = last_link(earlier.header, earlier.recording.records)
        said.insert(0, other_link_in_words(before, _link_used(link)))
    return " ".join(filter(None, said))


def _journal(
    request: BenchRequest,
    clock: Clock,
    task: Task,
    opened: OpenedLink,
    earlier: Recorded | None,
    after: ComesAfter | None,
    chance: int,
) -> Journal:
    """Return the run file: that of the `earlier` run or a new one, which may be `after` another."""
    if request.resume:
        return _reopened(request.resume, clock, _resumed(earlier, task), opened.link)
    header = _header(request, task, opened, chance)
    journal = new_journal(request.folder, request.board.serial, header, clock)
    if after is not None:
        journal.append(after)
    return journal


def _opened(request: BenchRequest, profile: Profile, clock: Clock, chance: int) -> OpenedLink:
    keys, speed_baud = request.is_of_keys, request.speed_baud
    return open_link(request.port, profile, clock, speed_baud, chance, keys, request.cable)


def _reopened(path: str, clock: Clock, resumed: Resumed, link: Link) -> Journal:
    """Return the run file that is gone on with, over `link`.

    The answers count no more for which the last sitting stopped to repair a fault.
    """
    journal = Journal.reopen(path, clock, resumed)
    journal.append(Linked(_link_used(link)))
    for step in to_be_asked_again(journal.records):
        journal.append(TakenBack(step))
    return journal


def _before(earlier: Recorded | None, journal: Journal) -> tuple[Record, ...]:
    """Return what the run file held before this sitting, and what then counted no more."""
    if earlier is None:
        return ()
    count = len(earlier.recording.records)
    new = (record for record in journal.records[count:] if isinstance(record, TakenBack))
    return (*earlier.recording.records, *new)


def _chance(earlier: Recorded | None) -> int:
    """Return the number that decides about the hidden fault: a new one, or that of before."""
    if earlier is None:
        return random.getrandbits(32)
    return earlier.header.practice or 0


def _header(request: BenchRequest, task: Task, opened: OpenedLink, chance: int) -> Header:
    """Return the first record of a new run file."""
    header = replace(header_of(request.board, task), link=_link_used(opened.link))
    if opened.hidden_fault:
        return replace(header, practice=chance)
    return header


def header_of(board: BoardUnderTest, task: Task) -> Header:
    """Return the first record of a new run file, but for the link."""
    return Header(
        board,
        profile=str(task.profile.id),
        script=str(task.script.id),
        plan_hash=task.plan.hash,
        profile_text=task.profile_text,
        script_text=task.script_text,
        tool=f"termprobe {__version__}",
        platform=f"{platform.system()}, Python {platform.python_version()}",
        chosen=task.chosen,
        left_out=task.left_out,
        covered=tuple(covering_in(task.plan).items()),
    )


def _link_used(link: Link) -> LinkUsed:
    return LinkUsed(link.name, str(link.format), link.note)


def new_journal(folder: str, serial: str, header: Header, clock: Clock) -> Journal:
    """Return a new run file of board `serial` in `folder`, whatever others begin there meanwhile.

    Raises FileError and JournalError where there can be none.
    """
    make_folder(folder)
    while True:
        path = free_path(pathlib.Path(folder), serial, clock.date())
        try:
            return Journal.create(path, header, clock)
        except FileError:
            if not path.exists():
                raise


def make_folder(name: str) -> None:
    """Make the folder `name` where there is none; raise FileError where it cannot be."""
    folder = pathlib.Path(name)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        wanted = f"must be a folder that can be written ({error.strerror})"
        raise FileError([f"{folder}: {wanted}; try another --out DIR"]) from None


LONGEST_NAME = 80
"""Characters of a serial number that stand in the name of its run file; the file holds it whole."""


def free_path(folder: pathlib.Path, serial: str, date: str) -> pathlib.Path:
    """Return a path in `folder` for a run of board `serial` begun at `date`, that no file has."""
    board = re.sub(r"[^A-Za-z0-9._-]+", "_", serial)[:LONGEST_NAME].strip(".") or "board"
    moment = re.sub(r"[^0-9T]", "", date[:19])
    stem = f"{board}-{moment}"
    path = folder / f"{stem}.run.jsonl"
    number = 1
    while path.exists():
        path = folder / f"{stem}-{number}.run.jsonl"
        number += 1
    return path


def _resumed(earlier: Recorded | None, task: Task) -> Resumed:
    """Return the record with which a run goes on: the texts stand in it that are not as before."""
    resumed = Resumed(plan_hash=task.plan.hash)
    if earlier is None:
        return resumed
    changed = changed_in(TextPair(task.profile_text, task.script_text), earlier.texts[-1].pair)
    if PROFILE_TEXT in changed:
        resumed = replace(resumed, profile_text=task.profile_text)
    if SCRIPT_TEXT in changed:
        resumed = replace(resumed, script_text=task.script_text)
    if changed:
        resumed = replace(resumed, covered=tuple(covering_in(task.plan).items()))
    return resumed


def _changed(earlier: Recorded | None, plan: Plan) -> tuple[str, ...]:
    """Return the ids of the steps that are new, or not what they were last."""
    if earlier is None:
        return ()
    before = {step.id: step.hash for step in earlier.plan.steps}
    return tuple(
        step.id
        for step in plan.steps
        if step.id not in before or not plan.earlier.counts(step.id, step.hash, before[step.id])
    )
