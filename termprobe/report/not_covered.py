"""What a run leaves out that its terminal has: line settings, options, commands, keys. Pure.

It is worked out of profile, plan and records, so that PASS says how far it goes.
"""

from collections.abc import Iterator, Sequence

from termprobe.folding import first_of
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answered, OptionSet, Record
from termprobe.journal.spans import LinkSpan
from termprobe.plan.model import KeyPress, LineCheck, Plan
from termprobe.profile.model import Option, Profile
from termprobe.terminal.decoded import Decoded
from termprobe.terminal.decoder import Decoder

STOPPED_BY = {"xon-xoff": "board-stops-xoff", "rts-cts": "board-stops-cts"}
"""Handshake of a profile -> the check that tells whether the board keeps it."""
NAMED = 6
"""So many commands are named."""


def not_covered(
    profile: Profile, plan: Plan, records: Sequence[Record], spans: Sequence[LinkSpan]
) -> tuple[str, ...]:
    """Return a phrase for each thing that a run does not cover, the line first."""
    formats = _formats(spans)
    told: list[str] = []
    if formats:
        told.append(f"at {' and '.join(formats)} only")
    told += _unmoved(profile, records)
    untried = [
        *_positions_missed(profile, records),
        *_speeds(profile, formats),
        *_handshake(profile, plan, records),
        *_commands(profile, plan),
        *_keys(profile, plan),
    ]
    if untried:
        told.append(f"not tried: {', '.join(untried)}")
    return tuple(told)


def _formats(spans: Sequence[LinkSpan]) -> tuple[str, ...]:
    """Return the line settings over which steps were answered, each once."""
    return tuple(
        dict.fromkeys(span.link.format for span in spans if span.steps and span.link.format)
    )


def _unmoved(profile: Profile, records: Sequence[Record]) -> Iterator[str]:
    """Yield the options that stood in one position all the time."""
    found = [
        option for option in profile.options if len(_never(option, records)) == _others(option)
    ]
    named = [f"{option.name} ({option.normal})" for option in found if _others(option)]
    if named:
        yield f"options not moved: {', '.join(named)}"


def _positions_missed(profile: Profile, records: Sequence[Record]) -> Iterator[str]:
    """Yield the positions never taken of the options that were moved."""
    for option in profile.options:
        never = _never(option, records)
        if len(never) < _others(option):
            yield from (f"{option.name} at {position}" for position in never)


def _others(option: Option) -> int:
    """Return how many positions an option has beside its normal one."""
    return len(option.positions) - 1


def _never(option: Option, records: Sequence[Record]) -> list[str]:
    """Return the positions that an option never had."""
    taken = {str(option.normal), *_positions(str(option.name), records)}
    return [position for position in option.positions if position not in taken]


def _positions(option: str, records: Sequence[Record]) -> set[str]:
    moved = (record for record in records if isinstance(record, OptionSet))
    return {record.position for record in moved if record.option == option}


def _speeds(profile: Profile, formats: Sequence[str]) -> Iterator[str]:
    """Yield the speeds at which nothing was tried."""
    tried = {name.split(" ")[0] for name in formats}
    others = [str(speed) for speed in profile.link.speeds_baud if str(speed) not in tried]
    if others:
        yield f"other speeds ({', '.join(others)} baud)"


def _handshake(profile: Profile, plan: Plan, records: Sequence[Record]) -> Iterator[str]:
    """Yield the handshake where no check has told whether the board keeps it."""
    claimed = str(profile.link.handshake)
    wanted = set(STOPPED_BY.values())
    if claimed in STOPPED_BY:
        wanted = {STOPPED_BY[claimed]}
    checks = {
        step.id for step in plan.steps if isinstance(step, LineCheck) and step.check in wanted
    }
    told = (one for one in records if isinstance(one, Answered) and one.step in checks)
    if any(one.answer.word in (AS_EXPECTED, DIFFERS) for one in told):
        return
    yield "handshake" if claimed == "none" else f"handshake ({claimed})"


def _commands(profile: Profile, plan: Plan) -> Iterator[str]:
    """Yield the commands of the profile that no step sends."""
    decoder = Decoder(profile)
    meanings = [meaning for step in plan.steps for meaning in decoder.feed(step.data)]
    sent = {str(meaning.command.name) for meaning in meanings if isinstance(meaning, Decoded)}
    missed = [str(command.name) for command in profile.commands if str(command.name) not in sent]
    if missed:
        yield f"commands that no step sends ({first_of(missed, NAMED)})"


def _keys(profile: Profile, plan: Plan) -> Iterator[str]:
    """Yield the keyboard where no key of it is pressed alone."""
    is_pressed = any(isinstance(step, KeyPress) for step in plan.steps)
    if profile.keyboard is not None and not is_pressed:
        yield "keys of the keyboard"
