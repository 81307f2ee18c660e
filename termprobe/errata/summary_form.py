"""Summaries as plain data that JSON can hold, and back: what is kept from one time to the next."""

import dataclasses
from collections.abc import Callable, Mapping
from typing import Any

from termprobe.errata.summary import BoardCause, FailedStep, RunSummary
from termprobe.errata.time_to_cause import TimeToCause

NOT_KEPT = ("path", "digest")
"""What is known of a file beside its content, and what it is found by."""
WRONG_SUMMARY = (TypeError, ValueError, KeyError, IndexError, AttributeError)
"""What may be raised by plain data that is no summary."""


def plain_summary(summary: RunSummary) -> dict[str, object]:
    """Return the summary as plain data, without path and digest."""
    names = [field.name for field in dataclasses.fields(summary)]
    return {name: getattr(summary, name) for name in names if name not in NOT_KEPT}


def summary_from(plain: Mapping[str, Any], path: str, digest: str) -> RunSummary:
    """Return the RunSummary of the file at `path`; raise one of WRONG_SUMMARY where it is none."""
    fields = dict(plain)
    for name, read in _READ.items():
        fields[name] = read(fields[name])
    return RunSummary(path=path, digest=digest, **fields)


def _tuple_of_words(plain: list[str]) -> tuple[str, ...]:
    return tuple(map(str, plain))


def _failed_steps(plain: list[list[str]]) -> tuple[FailedStep, ...]:
    return tuple(FailedStep(*step) for step in plain)


def _causes(plain: list[list[Any]]) -> tuple[BoardCause, ...]:
    return tuple(_cause(*parts) for parts in plain)


def _cause(faults: list[str], title: str, block: str, steps: list[str]) -> BoardCause:
    return BoardCause(tuple(faults), title, block, tuple(steps))


def _time(plain: list[Any] | None) -> TimeToCause | None:
    return None if plain is None else TimeToCause(*plain)


_READ: Mapping[str, Callable[[Any], object]] = {
    "passed": _tuple_of_words,
    "failed": _failed_steps,
    "causes": _causes,
    "time": _time,
    "script": str,
    "is_from_card": bool,
}
