"""How often people and machines are wrong: parameters, each with where it comes from."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from termprobe.diagnosis.shown import Sight
from termprobe.journal.attention import AttentionChecked, is_measured
from termprobe.journal.records import Record

FEW_CELLS = 3
"""So many cells or fewer are easily overlooked."""
WHOLE_SHARE = 0.25
"""From this share of all cells on the whole screen looks wrong."""
LEAST_MISS, MOST_MISS = 0.01, 0.9
"""No share of misses is reckoned to be less or more. A judgement."""


@dataclass(frozen=True)
class ErrorRates:
    """Shares of answers, from 0 to 1."""

    miss_whole: float = 0.05
    """A screen that is wrong all over is taken for right. A judgement: half the next."""
    miss_part: float = 0.11
    """Some lines differ and pass. Panko's collection of proofreading studies: of errors seeded into
    rows of letters and digits 89.3 % were found with the right text beside them."""
    miss_few: float = 0.23
    """Few cells, dots or the cursor differ and pass. Published studies of visual inspection of
    integrated circuits."""
    miss_sound: float = 0.5
    """Only the bell differs, and nobody asked for it. A judgement."""
    false_alarm: float = 0.02
    """What is right is taken for wrong. The same studies of visual inspection."""
    machine: float = 0.001
    """A screen that a program has read is not what the board shows. A judgement."""
    wrong_picture: float = 0.05
    """Of several pictures one is chosen that is not what was seen. A judgement."""
    same_again: float = 0.3
    """Who looks at the same screen once more says the same, whatever it shows: people repeat their
    misreadings. A judgement."""
    missed_again: float = 0.25
    """So many of the usual misses are made by who looks once more, told that the cause hangs on it.
    A judgement."""
    slip: float = 0.03
    """A character that is typed is not the one that was seen. The share of presses in which a
    person slips, as in key_ranking.py."""

    def miss(self, sight: Sight, cells: int) -> float:
        """Return the share in which eyes miss what `sight` differs by, on a screen of `cells`."""
        if sight.cells >= WHOLE_SHARE * cells:
            return self.miss_whole
        if sight.cells > FEW_CELLS:
            return self.miss_part
        if sight.cells or sight.cursor or sight.dots:
            return self.miss_few
        return self.miss_sound

    def once_more(self) -> "ErrorRates":
        """Return the rates of who looks at the same screen once more, and closely."""
        return replace(
            self,
            miss_whole=self.miss_whole * self.missed_again,
            miss_part=self.miss_part * self.missed_again,
            miss_few=self.miss_few * self.missed_again,
            miss_sound=self.miss_sound * self.missed_again,
        )


USUAL_RATES = ErrorRates()


def rates_by(records: Iterable[Record]) -> ErrorRates:
    """Return the rates of whoever answered a run, by its attention checks where these are enough.

    What they alter is a few cells in a row, so their share of misses stands in the place of
    `miss_few`; the other misses change in proportion. It is reckoned with one miss and one catch
    more than there were (the rule of succession), so that none is certain.
    """
    checks = [record for record in records if isinstance(record, AttentionChecked)]
    caught = sum(check.is_caught for check in checks)
    missed = sum(check.is_missed for check in checks)
    if not is_measured(caught, missed):
        return USUAL_RATES
    share = (missed + 1) / (caught + missed + 2)
    factor = share / USUAL_RATES.miss_few
    return replace(
        USUAL_RATES,
        miss_whole=_within(USUAL_RATES.miss_whole * factor),
        miss_part=_within(USUAL_RATES.miss_part * factor),
        miss_few=_within(share),
    )


def _within(share: float) -> float:
    return min(max(share, LEAST_MISS), MOST_MISS)
