"""The wrong screens that a look would show with the faults that lead by the answers so far. Pure.

Which faults look alike the dictionary knows; only what stands for each such group is played, to get
its screen.
"""

from collections.abc import Hashable, Iterator, Sequence
from typing import NamedTuple

from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.model import Fault
from termprobe.board.memory import rows_of
from termprobe.diagnosis.accounts import Case, has_wrong_speed
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.narrowing import LookedAt, looked_at, region_to_ask
from termprobe.diagnosis.picture_outlooks import MOST_PICTURES
from termprobe.diagnosis.picture_words import first_in_words, sentence_of
from termprobe.diagnosis.playing import Performance
from termprobe.diagnosis.replay import Replayed, records_of_chain, replay
from termprobe.diagnosis.shown import Sought, noticed_dots, wanted_of
from termprobe.journal.records import Record
from termprobe.plan.model import Look, Plan, Step
from termprobe.profile.model import Profile
from termprobe.terminal.predicted import Prediction, Predictions
from termprobe.terminal.screen import Screen
from termprobe.verdict.model import RunVerdict

MOST_PLAYED = 24
"""So many groups are played at most: what was sent before may make two of them look alike."""


class _Group(NamedTuple):
    """Faults with which the look shows the same."""

    probability: float
    fault: Fault
    """The most probable of them."""
    depends: bool
    """What they show depends on what was sent before."""


class _Shown(NamedTuple):
    """What a board shows, and how probable that is."""

    seen: Replayed
    probability: float
    picture: str

    def screen(self, wanted: Sought, expected: Screen) -> Screen:
        """Return the screen, with the wrong dots that an eye notices."""
        seen, variant = self.seen, expected.variant
        dots = noticed_dots(seen.codes, seen.misdrawn, wanted)
        rows = rows_of(seen.codes, len(expected.rows[0]), variant)
        return Screen(rows, seen.cursor, bells=seen.bells, misdrawn=dots, variant=variant)


def pictures(
    profile: Profile,
    plan: Plan,
    records: Sequence[Record],
    verdict: RunVerdict,
    dictionary: FaultDictionary,
    step_id: str,
) -> Predictions | None:
    """Return what the look `step_id`, which has just been sent, may show where it is not right.

    `records` and `verdict` are those of the run so far. It is None where no fault of the catalogue
    would show in that look.
    """
    step = plan.step(step_id)
    if not isinstance(step, Look) or step.expected is None or step_id not in dictionary.looks:
        return None
    wanted = wanted_of(step.expected, step.asks_dots)
    seen = looked_at(profile, plan, records, verdict, dictionary, step)
    case = seen.case
    leading = _groups(seen, dictionary, step_id)[:MOST_PLAYED]
    played = [(_played(case, one, step), one.probability) for one in leading]
    shown = _merged([_Shown(*one, one[0].against(wanted).picture) for one in played])
    if not shown:
        return None
    found = shown[:MOST_PICTURES]
    screens = [one.screen(wanted, step.expected) for one in found]
    named = tuple(_named(profile, step.expected, screens, found))
    return Predictions(step_id, named, region_to_ask(seen, step_id, dictionary))


def _groups(seen: LookedAt, dictionary: FaultDictionary, step_id: str) -> list[_Group]:
    """Return the faults by what the look shows with them, the most probable first.

    A wrong clock has no certain picture: it depends on where the sending pauses.
    """
    number = dictionary.looks.index(step_id)
    faults = catalogue(seen.case.profile)
    found: dict[Hashable, _Group] = {}
    for share, account in seen.ranked:
        performance = dictionary.faults.get(account.cause.name, dictionary.good)
        if performance == dictionary.good or has_wrong_speed([faults[account.cause.name]]):
            continue
        alike = _alike(performance, number)
        fresh = _Group(0.0, faults[account.cause.name], alike is performance)
        known = found.get(alike, fresh)
        found[alike] = known._replace(probability=known.probability + share)
    return sorted(found.values(), key=lambda group: -group.probability)


def _alike(performance: Performance, number: int) -> Hashable:
    """Return what faults have in common with which the look of this number shows the same.

    Where it may come of what was sent before, that is all that is known of them.
    """
    if performance.in_order != performance.alone:
        return performance
    return performance.alone[number].picture


def _played(case: Case, group: _Group, step: Step) -> Replayed:
    """Return what the look shows on a board of the group: as in the run, where that matters."""
    asked = case.observations[-1:]
    records: Sequence[Record] = case.records
    if not group.depends:
        records = records_of_chain(case.plan, step)
    (shown,) = replay(case.profile, case.plan, records, asked, group.fault)
    return shown


def _merged(shown: Sequence[_Shown]) -> list[_Shown]:
    """Return those that differ from what is wanted, each picture once, the likeliest first."""
    found: dict[str, _Shown] = {}
    for one in shown:
        if not one.picture:
            continue
        known = found.setdefault(one.picture, one)
        if known is not one:
            both = known.probability + one.probability
            found[one.picture] = known._replace(probability=both)
    return sorted(found.values(), key=lambda one: -one.probability)


def _named(
    profile: Profile, expected: Screen, screens: Sequence[Screen], shown: Sequence[_Shown]
) -> Iterator[Prediction]:
    """Yield each with its sentence; where two are alike, what comes first is told as well."""
    box = profile.display.dots
    sentences = [sentence_of(expected, screen, box) for screen in screens]
    for one, screen, sentence in zip(shown, screens, sentences, strict=True):
        if sentences.count(sentence) > 1:
            sentence = f"{sentence}; {first_in_words(expected, screen)}"
        yield Prediction(one.picture, screen, sentence, one.probability)
