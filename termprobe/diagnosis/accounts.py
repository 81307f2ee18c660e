"""How each cause accounts for the answers of a run: by the dictionary, by replay, by presses."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.board.faults.model import Fault
from termprobe.board.wiring import Wiring
from termprobe.diagnosis.answers import LookAnswer, Observation, ReplyAnswer, TypedAnswer
from termprobe.diagnosis.causes import NO_CAUSE, Cause, cause_of, cause_of_hypothesis
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.fits import (
    NEVER_DIFFERS,
    SeenBothWays,
    fit_of_reply,
    fit_of_screen,
    fit_of_sights,
    fit_of_typed,
    fit_of_word,
)
from termprobe.diagnosis.key_hypothesis import Hypothesis
from termprobe.diagnosis.key_ranking import Outcomes, log_likelihood
from termprobe.diagnosis.key_table import KeyTable
from termprobe.diagnosis.playing import Performance
from termprobe.diagnosis.replay import PIECES, Replayed, replay, shown_as_wanted
from termprobe.diagnosis.shown import AS_WANTED, Sight
from termprobe.journal.records import Record
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile

Fits = Mapping[str, Fit]
"""Step id -> Fit."""


class Account(NamedTuple):
    """How one cause accounts for the answers."""

    cause: Cause
    fits: Fits
    """Of the steps where it predicts anything else than a good board."""


@dataclass(frozen=True)
class Case:
    """What is known of a board: what was sent, and what was answered."""

    profile: Profile
    plan: Plan
    records: Sequence[Record]
    observations: tuple[Observation, ...]
    came: Outcomes
    """Of each press what came each time, as it is compared."""
    table: KeyTable | None = None
    """Of the keyboard, where it has one."""
    rates: ErrorRates = USUAL_RATES

    def of_nothing(self) -> Account:
        """Return how a good board accounts for the answers: the Fit of every step."""
        fits = {one.step_id: self._of_good_board(one) for one in self.observations}
        if self.table is not None:
            fits |= healthy_presses(self.table, self.came)
        return Account(NO_CAUSE, fits)

    def _of_good_board(self, one: Observation) -> Fit:
        match one:
            case LookAnswer():
                return fit_of_screen(one, shown_as_wanted(one.wanted), self.rates)
            case TypedAnswer():
                return fit_of_typed(one.came, one.wanted, self.rates)
            case ReplyAnswer():
                return fit_of_reply(one.came, one.wanted, self.rates)

    def by_dictionary(self, dictionary: FaultDictionary, faults: Iterable[Fault]) -> list[Account]:
        """Return an Account of each of `faults`, by how the looks of the plan differ with it.

        Of what is typed back nothing is known by that: each may account for it, but for wrong
        dots, which leave the codes as they are.
        """
        found = []
        numbers = {look: number for number, look in enumerate(dictionary.looks)}
        looks = [one for one in self.observations if one.step_id in numbers]
        told: dict[Performance, Fits] = {}
        for fault in faults:
            performance = dictionary.faults[fault.name]
            if performance == dictionary.good:
                continue
            if performance not in told:
                told[performance] = dict(self._of_performance(performance, looks, numbers))
            found.append(Account(cause_of(fault), told[performance]))
        return found

    def _of_performance(
        self, performance: Performance, looks: Sequence[Observation], numbers: Mapping[str, int]
    ) -> Iterator[tuple[str, Fit]]:
        for one in looks:
            number = numbers[one.step_id]
            sights = SeenBothWays(performance.in_order[number], performance.alone[number])
            if isinstance(one, LookAnswer) and sights != NEVER_DIFFERS:
                yield one.step_id, fit_of_sights(one, sights, self.rates)
        if any(map(_changes_codes, performance.in_order + performance.alone)):
            for one in self.observations:
                if isinstance(one, TypedAnswer):
                    yield one.step_id, fit_of_typed(one.came, one.came, self.rates)

    def by_replay(self, cause: Cause, *faults: Fault) -> Account:
        """Return the Account of a board with `faults`, to which the run is played once more."""
        if has_wrong_speed(faults):
            return self._by_replay_in_pieces(cause, faults)
        return Account(cause, self.fits_of_all_shown(self.shown_with(*faults)))

    def shown_with(self, *faults: Fault) -> tuple[Replayed, ...]:
        """Return what a board with `faults`, whose clock is right, shows at each answer."""
        return replay(self.profile, self.plan, self.records, self.observations, *faults)

    def _by_replay_in_pieces(self, cause: Cause, faults: Sequence[Fault]) -> Account:
        """Return the Account of a board whose clock is wrong.

        What it hears depends on where the sending pauses, which is not known: of each step the Fit
        is the best that a way of pausing gives.
        """
        ways = []
        for piece in PIECES:
            shown = replay(
                self.profile, self.plan, self.records, self.observations, *faults, piece=piece
            )
            ways.append(self.fits_of_all_shown(shown))
        best = dict(ways[0])
        for fits in ways[1:]:
            for step, fit in fits.items():
                best[step] = max(best[step], fit, key=_likelihood)
        return Account(cause, best)

    def fits_of_all_shown(self, shown: Sequence[Replayed]) -> dict[str, Fit]:
        """Return the Fit of every answer by what a board shows at each of them."""
        pairs = zip(self.observations, shown, strict=True)
        return {one.step_id: self.fit_of_shown(one, seen) for one, seen in pairs}

    def fit_of_shown(self, one: Observation, shown: Replayed) -> Fit:
        """Return the Fit of one answer by what a board shows, and sends."""
        match one:
            case LookAnswer():
                return fit_of_screen(one, shown, self.rates)
            case TypedAnswer():
                return fit_of_word(one.came, typed_off(shown, one), one.wanted, self.rates)
            case ReplyAnswer():
                return fit_of_reply(one.came, shown.sent, self.rates)

    def by_presses(self) -> Iterator[Account]:
        """Yield an Account of each cause that changes what keys send, where an answer tells of it.

        Of a keyboard that was not tried nothing is known: the many faults that it may have make it
        no likelier that all else is right.
        """
        if self.table is None:
            return
        for one, fits in fits_of_presses(self.table, self.came):
            all_fits = {**fits, **self._of_typed(one)}
            if all_fits:
                yield Account(cause_of_hypothesis(one), all_fits)

    def _of_typed(self, one: Hypothesis) -> dict[str, Fit]:
        """Return the Fits of what was typed on a keyboard of which `one` holds."""
        assert self.table is not None
        fits = {}
        for typed in self.observations:
            if isinstance(typed, TypedAnswer):
                sent = typed_on(self.table, one, typed.wanted)
                fits[typed.step_id] = fit_of_typed(typed.came, sent, self.rates)
        return fits


def _changes_codes(sight: Sight) -> bool:
    return sight != AS_WANTED and not sight.is_of_dots_alone


def _likelihood(fit: Fit) -> float:
    return fit.log_likelihood


def has_wrong_speed(faults: Iterable[Fault]) -> bool:
    """Return whether one of `faults` makes the clock of the line wrong."""
    wiring = Wiring()
    for fault in faults:
        fault.apply(wiring)
    return wiring.speed_ratio != 1


def healthy_presses(table: KeyTable, came: Outcomes) -> dict[str, Fit]:
    """Return the Fits of presses on a healthy keyboard."""
    return {press: _fit_of_press(table.healthy, press, came) for press in came}


def fits_of_presses(table: KeyTable, came: Outcomes) -> Iterator[tuple[Hypothesis, Fits]]:
    """Yield each cause that changes what keys send, with the Fits of the presses it changes."""
    for of_class in table.classes(came.keys()):
        changed = {table.changes[number].press for number in of_class.changes}
        fits = {press: _fit_of_press(of_class.members[0], press, came) for press in changed}
        for one in of_class.members:
            if one is not table.healthy:
                yield one, fits


def _fit_of_press(one: Hypothesis, press: str, came: Outcomes) -> Fit:
    predicted, heard = one.sends[press], came[press]
    is_as_predicted = all(outcome.count_in(predicted) for outcome in heard)
    return Fit(log_likelihood(predicted, heard), predicted, is_as_predicted)


def typed_off(shown: Replayed, typed: TypedAnswer) -> bytes:
    """Return what is typed by whoever reads the word off the screen `shown`."""
    length = len(typed.wanted) - 1
    return shown.codes[typed.first_cell : typed.first_cell + length] + b"\r"


def typed_on(table: KeyTable, one: Hypothesis, word: bytes) -> bytes:
    """Return what comes of `word` from a keyboard of which `one` holds."""
    press_of = {press.code: press.id for press in reversed(table.presses.values())}
    presses = [press_of.get(bytes([code])) for code in word]
    return b"".join(one.sends[press][0].codes for press in presses if press is not None)


def score(account: Account, healthy: Account) -> float:
    """Return the log-odds of `account` against a good board, but for the weight of that."""
    gains = (
        fit.log_likelihood - healthy.fits[step].log_likelihood for step, fit in account.fits.items()
    )
    return math.log(account.cause.weight) + sum(gains)
