"""Every fault of the display played on the texts of a symptom, and its dots compared."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from termprobe.board.counters import Counted
from termprobe.board.faults.bus import STUCK_LEVELS
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.cell import fault_named as cell_named
from termprobe.board.faults.dots import fault_named as dot_named
from termprobe.board.faults.model import Fault
from termprobe.board.generator import CharacterGenerator, has_wrong_dots
from termprobe.board.wiring import DATA_LINES, Wiring, wire
from termprobe.diagnosis.accounts import Account
from termprobe.diagnosis.area import Region
from termprobe.diagnosis.bell_symptom import Ringers
from termprobe.diagnosis.blank_board import BlankBoard, BlankBoards, code_of
from termprobe.diagnosis.causes import NO_CAUSE, Cause, cause_of, cause_of_cell
from termprobe.diagnosis.dot_symptom import DRAWN_CODES, DotsNoticed, DrawnCharacter, light_of
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.playing import has_part_in_display
from termprobe.diagnosis.processes import TellCount, told_nobody
from termprobe.diagnosis.single_dots import MOST_DOTS, cause_of_dots, wrong_dots
from termprobe.diagnosis.symptom import (
    Glimpse,
    Stagehand,
    Symptom,
    fit_of_area,
    fit_of_text,
    slips_in,
)
from termprobe.profile.characters import art_of, character_set
from termprobe.profile.model import Dots, Profile

WHERE_STEP, TEXT_STEP, DRAWN_STEP, BELL_STEP = "where", "text ", "drawn ", "bell"
MAY_HOLD_SLIPS = (TEXT_STEP, DRAWN_STEP)
SLIPS_BORNE = 1
"""So many characters and dots of all that was written down may be wrong."""
DRAWINGS_TO_TELL_OF = len(DRAWN_CODES)
"""Whichever of them has a wrong dot, that one is told of; of other faults any may be."""
DRAWN_IN = (Counted(0, 0), Counted(1, 0))
"""Where a character is drawn that was seen: one of each bank."""


class StagedBoard(NamedTuple):
    """What one board shows of a symptom."""

    glimpse: Glimpse
    fits: Mapping[str, Fit]
    odd_dots: int = 0
    """Of all drawings, so many dots are not as they were written down."""


class SymptomStage:
    """Plays all faults of the display on what was sent."""

    def __init__(self, profile: Profile, symptom: Symptom, rates: ErrorRates) -> None:
        self._profile, self._symptom, self._rates = profile, symptom, rates
        self._played: dict[str, StagedBoard] = {}
        self.good: Mapping[str, Fit] = {}
        if symptom.texts or symptom.area or symptom.dots or symptom.bell:
            self._boards = BlankBoards(profile)
            self._hand = Stagehand(profile, symptom, self._boards.wired(wire(profile)))
            self._shares = [start.share for start in self._hand.starts]
            if symptom.bell:
                self._ringers = Ringers(profile, self._boards.wired(wire(profile)))
            self.good = self._fits(NO_CAUSE, wire(profile))

    def accounts(self, told: TellCount = told_nobody) -> Iterator[Account]:
        """Yield the Account of each fault that can change what is seen.

        `told` is told how many faults of how many have been tried.
        """
        if not self.good:
            return
        healthy, causes = wire(self._profile), list(self._causes())
        for number, (cause, fault) in enumerate(causes):
            told(number, len(causes))
            wiring = wire(self._profile)
            fault.apply(wiring)
            is_seen = self._tells_of_codes and has_part_in_display(wiring, healthy)
            if is_seen or self._shows_in_dots(wiring):
                yield Account(cause, self._fits(cause, wiring))

    @property
    def _tells_of_codes(self) -> bool:
        """Whether anything was told that hangs on which characters a screen shows."""
        drawn = (isinstance(one, DrawnCharacter) for one in self._symptom.dots)
        told = self._symptom.texts or self._symptom.area or self._symptom.bell
        return bool(told) or any(drawn)

    def _shows_in_dots(self, wiring: Wiring) -> bool:
        return bool(self._symptom.dots) and has_wrong_dots(wiring)

    def _causes(self) -> Iterator[tuple[Cause, Fault]]:
        for fault in catalogue(self._profile).values():
            yield cause_of(fault), fault
        for reading in self._symptom.area:
            region = reading.region
            if len(region.rows) == len(region.columns) == 1:
                for fault in _bits_of(region, self._profile):
                    yield cause_of_cell(fault, self._profile), fault
        for one in self._symptom.dots:
            if isinstance(one, DrawnCharacter):
                for fault in _dots_of(one, self._profile):
                    cause = cause_of_dots(fault, self._profile)
                    yield cause._replace(weight=cause.weight * DRAWINGS_TO_TELL_OF), fault

    def _fits(self, cause: Cause, wiring: Wiring) -> Mapping[str, Fit]:
        board = self._boards.wired(wiring)
        glimpse = self._hand.glimpse(board)
        if self._shows_in_dots(wiring):
            glimpse = glimpse._replace(differing=self._hand.whole)
        fits = {}
        pairs = zip(self._symptom.texts, glimpse.texts, strict=True)
        for number, (text, shown) in enumerate(pairs, 1):
            fits[f"{TEXT_STEP}{number}"] = fit_of_text(text, shown, self._rates, self._shares)
        if self._symptom.area:
            fits[WHERE_STEP] = fit_of_area(self._symptom.area, glimpse)
        if self._symptom.bell is not None:
            shows_all = self._ringers.shows_all(board)
            fits[BELL_STEP] = self._symptom.bell.fit(self._ringers.rings(wiring), shows_all)
        box, odd_dots = self._profile.display.dots, 0
        for number, one in enumerate(self._symptom.dots, 1):
            assert box is not None
            if isinstance(one, DotsNoticed):
                fits[f"noticed {number}"] = one.fit(light_of(box, wiring))
            else:
                drawn = self._drawn(one.code, box, wiring, board)
                fits[f"{DRAWN_STEP}{chr(one.code)}"] = one.fit(drawn, self._rates)
                odd_dots += one.odd_dots(drawn)
        self._played[cause.name] = StagedBoard(glimpse, fits, odd_dots)
        return fits

    def _drawn(
        self, code: int, box: Dots, wiring: Wiring, board: BlankBoard
    ) -> list[tuple[str, ...]]:
        """Return how a character that is sent is drawn, in one row and another."""
        generator, columns = CharacterGenerator(box, wiring), self._profile.display.columns
        shown = [code_of(board, code, cursor, columns) for cursor in DRAWN_IN]
        return [art_of(generator.drawing(one), box.columns) for one in shown]

    @property
    def is_as_on_good_board(self) -> bool:
        """Whether a good board shows just what was seen, wherever the texts began."""
        if not self.good:
            return True
        glimpse = self._played[NO_CAUSE.name].glimpse
        pairs = zip(self._symptom.texts, glimpse.texts, strict=True)
        return not any(any(slips_in(text, shown)) for text, shown in pairs)

    def bears(self, cause: Cause) -> bool:
        """Return whether all that was seen is as `cause` predicts, but for a slip.

        A slip must not be all that a good board would need. Of the dots that are drawn otherwise on
        a good board most must be accounted for.
        """
        if not self.good:
            return True
        good = self._played[NO_CAUSE.name]
        board = self._played.get(cause.name, good)
        slips, on_good = self._slips(board), self._slips(good)
        if slips and slips >= on_good:
            return False
        if board.odd_dots and 2 * board.odd_dots >= good.odd_dots:
            return False
        others = (fit for step, fit in board.fits.items() if not step.startswith(MAY_HOLD_SLIPS))
        is_borne = slips + board.odd_dots <= SLIPS_BORNE
        return is_borne and all(fit.is_as_predicted for fit in others)

    def _slips(self, board: StagedBoard) -> int:
        """Return how many characters of all texts are not as `board` shows them."""
        pairs = zip(self._symptom.texts, board.glimpse.texts, strict=True)
        return sum(min(slips_in(text, shown)) for text, shown in pairs)


def _bits_of(region: Region, profile: Profile) -> Iterator[Fault]:
    """Yield every bit stuck of the only cell of `region`."""
    (row,), (column,) = region
    for bit in range(DATA_LINES):
        for level in STUCK_LEVELS:
            yield cell_named(profile, f"cell/stuck/{row}-{column}-{bit}/{level}")


def _dots_of(one: DrawnCharacter, profile: Profile) -> Iterator[Fault]:
    """Yield the dots of a drawing that are not as they should be, where they are few."""
    box = profile.display.dots
    assert box is not None
    dots = list(wrong_dots(one.code, one.rows, character_set(str(box.characters))))
    if len(dots) <= MOST_DOTS:
        for dot in dots:
            yield dot_named(profile, dot.fault)
