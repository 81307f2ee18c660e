"""Dates and times of day of a run, as people where it is read write them. Pure."""

import datetime
from collections.abc import Iterable

from termprobe.journal.added import of_sittings
from termprobe.journal.records import Record, Resumed

MONTHS = ("January", "February", "March", "April", "May", "June") + (
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
MINUTE, HOUR = 60, 3600


def parsed(at: str, zone: datetime.tzinfo | None = None) -> datetime.datetime | None:
    """Return a moment in `zone`, this computer's own by default; None where `at` is none."""
    try:
        return datetime.datetime.fromisoformat(at).astimezone(zone)
    except (ValueError, OverflowError, OSError):
        return None


def day_alone(at: str) -> datetime.date | None:
    """Return the day where `at` is one without a time, as it is written on a card; else None."""
    try:
        return datetime.date.fromisoformat(at)
    except ValueError:
        return None


def day_of(moment: datetime.date) -> str:
    """Return `2 January 2026`."""
    return f"{moment.day} {MONTHS[moment.month - 1]} {moment.year}"


def moment_in_words(at: str, zone: datetime.tzinfo | None = None) -> str:
    """Return `2 January 2026, 03:04`, or a day alone; the text itself where it is no moment."""
    day = day_alone(at)
    if day is not None:
        return day_of(day)
    moment = parsed(at, zone)
    return at if moment is None else f"{day_of(moment)}, {moment:%H:%M}"


def clock_time(at: str, zone: datetime.tzinfo | None = None) -> str:
    """Return the time of day, `03:04:05`; the text itself where it is no moment, or a day alone."""
    moment = parsed(at, zone)
    if moment is None or day_alone(at) is not None:
        return at
    return f"{moment:%H:%M:%S}"


def span_in_words(start: str, end: str, zone: datetime.tzinfo | None = None) -> str:
    """Return `2 January 2026, 03:04 to 03:09 UTC`, or with two dates; by the zone's own name.

    Where only a day is known, or one minute, it stands alone.
    """
    first, last = parsed(start, zone), parsed(end, zone)
    if first is None or last is None:
        return " to ".join(filter(None, dict.fromkeys((start, end))))
    if day_alone(start) or day_alone(end):
        return " to ".join(
            dict.fromkeys((moment_in_words(start, zone), moment_in_words(end, zone)))
        )
    named = f"{last:%Z}"
    if _minute(first) == _minute(last):
        return f"{moment_in_words(start, zone)} {named}"
    if first.date() == last.date():
        return f"{day_of(first)}, {first:%H:%M} to {last:%H:%M} {named}"
    return f"{day_of(first)}, {first:%H:%M} to {day_of(last)}, {last:%H:%M} {named}"


def _minute(moment: datetime.datetime) -> datetime.datetime:
    return moment.replace(second=0, microsecond=0)


def seconds_in_words(seconds: float) -> str:
    """Return `38 s`, `4 min 38 s`, `2 h 5 min`."""
    whole = round(seconds)
    if whole < MINUTE:
        return f"{whole} s"
    if whole < HOUR:
        return f"{whole // MINUTE} min {whole % MINUTE} s"
    return f"{whole // HOUR} h {whole % HOUR // MINUTE} min"


def sittings(begun: str, records: Iterable[Record]) -> tuple[tuple[str, str], ...]:
    """Return (first moment, last moment) of each time that a run was worked at, in order."""
    found = [(begun, begun)]
    for record in of_sittings(records):
        if isinstance(record, Resumed):
            found.append((record.at, record.at))
        elif record.at:
            found[-1] = found[-1][0], record.at
    return tuple(found)


def duration_in_words(begun: str, records: Iterable[Record]) -> str:
    """Return how long a run was worked at: `38 s`, `1 h 5 min in 2 sittings`; empty if unknown."""
    spans = sittings(begun, records)
    lengths = [_seconds(start, end) for start, end in spans]
    known = [seconds for seconds in lengths if seconds is not None]
    if len(known) < len(lengths):
        return ""
    told = seconds_in_words(sum(known))
    return told if len(spans) == 1 else f"{told} in {len(spans)} sittings"


def _seconds(start: str, end: str) -> float | None:
    first, last = parsed(start), parsed(end)
    if first is None or last is None or day_alone(start) or day_alone(end):
        return None
    return max(0.0, (last - first).total_seconds())
