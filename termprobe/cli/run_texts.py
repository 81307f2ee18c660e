"""The texts of profile and script in a run file: those it was begun with, and each that followed.

Each is compiled, and knows which of its steps earlier texts asked in the same way.
"""

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from termprobe.errors import FileError
from termprobe.journal.lost import LostRecords
from termprobe.journal.records import Answered, Header, Linked, LinkUsed, Record, Resumed
from termprobe.plan.carry import EarlierStep, earlier_of
from termprobe.plan.choose import choose, left_out
from termprobe.plan.covered import Covering, with_covering
from termprobe.plan.model import Plan
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.script import load as scripts
from termprobe.verdict.texts import TextInForce

PROFILE_TEXT, SCRIPT_TEXT = "profile", "script"


class TextPair(NamedTuple):
    """What a plan is made of, as it stands in the files."""

    profile: str
    script: str


@dataclass(frozen=True)
class RunText:
    """Texts as they held for a part of a run."""

    pair: TextPair
    profile: Profile
    text: TextInForce
    """With the plan as it is compiled now, of the part that was chosen."""
    steps: tuple[EarlierStep, ...]
    """Its steps under each hash that answers given under it have."""
    left_out: int
    """How many steps of the script that are fitted are not in the plan."""
    speed_baud: int | None
    """Of the line, by which some limits go; None where it is not known."""


class _Source(NamedTuple):
    """Texts as a record holds them."""

    pair: TextPair
    plan_hash: str | None
    since: str
    first: int
    covering: Covering
    speed_baud: int | None
    """Of the line, by which some limits go; None where it is not known."""


def run_texts(path: str, header: Header, records: Sequence[Record]) -> tuple[RunText, ...]:
    """Return the texts of the run file at `path`, in order.

    Raises FileError where one cannot be compiled.
    """
    sources = list(_sources(header, records))
    ends = [source.first for source in sources[1:]] + [len(records)]
    found: list[RunText] = []
    for source, end in zip(sources, ends, strict=True):
        found.append(_run_text(path, header, source, records[source.first : end], found))
    return tuple(found)


def with_earlier(plan: Plan, profile: Profile, texts: Iterable[RunText]) -> Plan:
    """Return `plan` with what it knows of its steps as `texts` made them."""
    earlier = itertools.chain.from_iterable(text.steps for text in texts)
    return replace(plan, earlier=earlier_of(plan.steps, normal_positions(profile), earlier))


def normal_positions(profile: Profile) -> dict[str, str]:
    """Return option -> the position that the profile calls normal."""
    return {str(option.name): str(option.normal) for option in profile.options}


def changed_in(pair: TextPair, before: TextPair) -> tuple[str, ...]:
    """Return which of profile and script is not as it was before."""
    changed: list[str] = []
    if pair.profile != before.profile:
        changed.append(PROFILE_TEXT)
    if pair.script != before.script:
        changed.append(SCRIPT_TEXT)
    return tuple(changed)


def _sources(header: Header, records: Sequence[Record]) -> Iterator[_Source]:
    """Yield the texts of the first record, and those of each Resumed that has others."""
    pair = TextPair(header.profile_text, header.script_text)
    covering, speed_baud = dict(header.covered), speed_of(header.link)
    source = _Source(pair, header.plan_hash, header.at, 0, covering, speed_baud)
    yield source
    for first, record in enumerate(records):
        if isinstance(record, Resumed):
            before, source = source, _after(source, record, first, _speed_after(records, first))
            if (source.pair, source.plan_hash) != (before.pair, before.plan_hash):
                yield source


def _speed_after(records: Sequence[Record], first: int) -> int | None:
    """Return the speed of the line where the record behind the one at `first` tells another."""
    behind = next(iter(records[first + 1 : first + 2]), None)
    return speed_of(behind.link) if isinstance(behind, Linked) else None


def speed_of(link: LinkUsed | None) -> int | None:
    """Return the speed of a link in baud; None where it is not known."""
    if link is None:
        return None
    speed, *_ = link.format.split() or [""]
    return int(speed) if speed.isdecimal() else None


def _after(source: _Source, record: Resumed, first: int, speed_baud: int | None) -> _Source:
    profile = record.profile_text or source.pair.profile
    script = record.script_text or source.pair.script
    pair = TextPair(profile, script)
    covering = source.covering
    if pair != source.pair:
        covering = dict(record.covered)
    plan_hash = record.plan_hash or source.plan_hash
    return _Source(pair, plan_hash, record.at, first, covering, speed_baud or source.speed_baud)


def _run_text(
    path: str,
    header: Header,
    source: _Source,
    records: Sequence[Record],
    before: Sequence[RunText],
) -> RunText:
    """Return the RunText of texts under which `records` were made, after those `before`."""
    profile, whole = _compiled(path, source)
    plan = whole
    if header.chosen is not None:
        plan = choose(whole, header.chosen)
    missed = left_out(whole, plan)
    plan = with_covering(plan, source.covering)
    steps = _under_each_hash(plan, profile, source.plan_hash, records)
    own = RunText(source.pair, profile, TextInForce(plan), steps, missed, source.speed_baud)
    changed: tuple[str, ...] = ()
    if before:
        changed = changed_in(source.pair, before[-1].pair)
    text = TextInForce(
        with_earlier(plan, profile, [*before, own]), source.since, source.first, changed
    )
    return replace(own, text=text)


def _compiled(path: str, source: _Source) -> tuple[Profile, Plan]:
    """Return profile and plan of texts in the run file at `path`; many files hold the same texts.

    Raises FileError where they cannot be compiled, with findings that name the file.
    """
    try:
        return _compiled_once(source.pair, source.speed_baud)
    except FileError:
        names = named(path, PROFILE_TEXT), named(path, SCRIPT_TEXT)
        return _compiled_anew(source.pair, source.speed_baud, names)


@lru_cache(maxsize=8)
def _compiled_once(pair: TextPair, speed_baud: int | None) -> tuple[Profile, Plan]:
    return _compiled_anew(pair, speed_baud, (PROFILE_TEXT, SCRIPT_TEXT))


def _compiled_anew(
    pair: TextPair, speed_baud: int | None, names: tuple[str, str]
) -> tuple[Profile, Plan]:
    """Return profile and plan; `names` are what findings call their texts."""
    from termprobe.plan.compile import compile_plan  # it loads pyte

    profile_name, script_name = names
    profile = profiles.parse(pair.profile, profile_name)
    script = scripts.parse_recorded(pair.script, script_name)
    return profile, compile_plan(profile, script, script_name, speed_baud)


def named(path: str, kind: str) -> str:
    """Return what findings call the text of a profile or script in the run file at `path`."""
    return f"{path} ({kind})"


def _under_each_hash(
    plan: Plan, profile: Profile, plan_hash: str | None, records: Sequence[Record]
) -> tuple[EarlierStep, ...]:
    """Return the steps of `plan`, under each hash that they have in `records`.

    Another version of the program may have hashed the same step in another way, which the hash of
    the plan tells. Behind a lost record another text may have held.
    """
    normal = normal_positions(profile)
    found = [EarlierStep(step, step.hash, normal) for step in plan.steps]
    if plan_hash in (None, plan.hash):
        return tuple(found)
    for record in itertools.takewhile(_is_not_lost, records):
        if isinstance(record, Answered) and record.step in plan.index:
            found.append(EarlierStep(plan.step(record.step), record.hash, normal))
    return tuple(found)


def _is_not_lost(record: Record) -> bool:
    return not isinstance(record, LostRecords)
