"""The pauses that a board needs after its commands, found by few looks, ready for its profile."""

import contextlib
import sys
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from termprobe.cli.console import Console, is_typed_at
from termprobe.cli.observers import builder_at, screen_observer
from termprobe.cli.opened_line import open_link
from termprobe.clock import Clock
from termprobe.errors import EXIT_INCOMPLETE, EXIT_PASSED, UsageError
from termprobe.findings import nearest
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.line.settling import AMPLE_S, Settling, fill_characters
from termprobe.link.base import LineFormat, Link
from termprobe.link.pacer import Pacer
from termprobe.observer.base import Observer
from termprobe.observer.dump import DumpObserver
from termprobe.plan.model import Look
from termprobe.plan.settle_tries import settle_try, slow_commands
from termprobe.profile.model import Profile
from termprobe.report.formats.json import dump


class Settled(NamedTuple):
    """What was found of one command."""

    name: str
    settling: Settling


class SettleFinder:
    """Tries pauses over one link, and asks `observer` what came of each."""

    def __init__(self, link: Link, clock: Clock, profile: Profile, observer: Observer) -> None:
        self._pacer = Pacer(link, clock, handshake=str(profile.link.handshake))
        self._profile, self._observer = profile, observer
        self._character_s = link.format.character_s

    def find(self, name: str) -> Settled | None:
        """Return what pause the command `name` needs; None where the observer stops."""
        settling = Settling(self._character_s)
        while (pause_s := settling.next_s) is not None:
            look = settle_try(self._profile, name, pause_s, AMPLE_S)
            is_right = self._tried(look)
            if is_right is None:
                return None
            settling.told(pause_s, is_right)
        return Settled(name, settling)

    def _tried(self, look: Look) -> bool | None:
        """Send a try; return whether all was right, None where nobody says so."""
        for group in look.groups:
            self._pacer.send(group.data)
            if group.settle_s:
                self._pacer.settle(group.settle_s)
        self._pacer.settle(0.0)
        said = self._observer.answer(look)
        if isinstance(said, Answer) and said.word in (AS_EXPECTED, DIFFERS):
            return said.word == AS_EXPECTED
        return None


def find_settling(
    port: str,
    profile: Profile,
    names: Sequence[str],
    clock: Clock,
    speed_baud: int | None = None,
    dump_command: str | None = None,
    is_json: bool = False,
) -> int:
    """Print which pause each of the commands `names` needs, all slow ones by default.

    Return the exit code. Raises UsageError for names that are none, and where nobody can look.
    """
    wanted = _commands(profile, names)
    opened = open_link(port, profile, clock, speed_baud)
    with contextlib.closing(opened.link) as link:
        observer: Observer
        if dump_command:
            observer = DumpObserver(dump_command, clock)
        elif opened.board is not None:
            observer = screen_observer(opened.board)
        elif is_typed_at():
            observer = builder_at(Console(sys.stderr))
        else:
            raise UsageError("--settle must have somebody who looks: a console, or --dump COMMAND")
        finder, found = SettleFinder(link, clock, profile, observer), []
        for name in wanted:
            settled = finder.find(name)
            if settled is None:
                break
            found.append(settled)
        format = link.format
    print(dump([_document(one, format) for one in found]) if is_json else _page(found, format))
    return EXIT_PASSED if len(found) == len(wanted) else EXIT_INCOMPLETE


def _commands(profile: Profile, names: Sequence[str]) -> Sequence[str]:
    known = slow_commands(profile)
    for name in names:
        if name not in known:
            raise UsageError(
                f"--settle must name commands of {profile.id} that may be slow: "
                f'{", ".join(known)}, not "{name}"{nearest(name, known)}'
            )
    return names or known


def _page(found: Sequence[Settled], format: LineFormat) -> str:
    return "\n".join(line for one in found for line in _lines(one, format))


def _lines(settled: Settled, format: LineFormat) -> Iterator[str]:
    name, settling = settled
    if settling.right_s is None:
        yield f"{name}: not right even {1000 * settling.longest_s:g} ms after it; it may be wrong"
    elif not settling.right_s:
        yield f"{name}: needs no pause at {format}"
    else:
        count = fill_characters(settling.right_s, format.character_s)
        wrong_ms = 1000 * (settling.wrong_s or 0.0)
        yield (
            f"{name}: settle_ms: {1000 * settling.right_s:.1f}   or {count} fill characters at "
            f"{format}; {wrong_ms:.1f} ms was too short"
        )


def _document(settled: Settled, format: LineFormat) -> dict[str, object]:
    right_s, wrong_s = settled.settling.right_s, settled.settling.wrong_s
    return {
        "command": settled.name,
        "settle_ms": None if right_s is None else round(1000 * right_s, 3),
        "too_short_ms": None if wrong_s is None else round(1000 * wrong_s, 3),
        "fill_characters": fill_characters(right_s or 0.0, format.character_s),
        "line": str(format),
    }
