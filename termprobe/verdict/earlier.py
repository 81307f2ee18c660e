"""The answers to a step before the one that counts, judged when somebody asks for them.

There may be thousands of them, and each new answer makes a new verdict: none is copied for it.
"""

import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import overload

from termprobe.journal.records import Answered
from termprobe.verdict.model import Earlier

Judging = Callable[[Answered, bool], Earlier]
"""Says what an answer, which was taken back or was not, said."""


def before_last(
    judged: Judging, taken_back: Sequence[Answered], given: Sequence[Answered]
) -> Sequence[Earlier]:
    """Return what the answers `taken_back` said, and then those of `given` but the last.

    More answers may follow in both, but those so far must stand there for ever.
    """
    told = EarlierAnswers(
        judged, Beginning(taken_back, len(taken_back)), Beginning(given, len(given) - 1)
    )
    return told or ()


@dataclass(frozen=True)
class Beginning:
    """The first `count` of `answers`, which stand there for ever; more may follow them."""

    answers: Sequence[Answered]
    count: int

    def __iter__(self) -> Iterator[Answered]:
        return itertools.islice(self.answers, self.count)


@dataclass(frozen=True, eq=False)
class EarlierAnswers(Sequence[Earlier]):
    """The answers that were taken back, and then those before the one that counts."""

    judged: Judging
    taken_back: Beginning
    before: Beginning

    def __len__(self) -> int:
        return self.taken_back.count + self.before.count

    def __iter__(self) -> Iterator[Earlier]:
        return iter(self._told)

    @cached_property
    def _told(self) -> tuple[Earlier, ...]:
        taken_back = [self.judged(answer, True) for answer in self.taken_back]
        return (*taken_back, *(self.judged(answer, False) for answer in self.before))

    @overload
    def __getitem__(self, index: int) -> Earlier: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Earlier]: ...
    def __getitem__(self, index: int | slice) -> Earlier | Sequence[Earlier]:
        return self._told[index]

    def __eq__(self, other: object) -> bool:
        """Return whether `other` tells the same of as many answers."""
        if not isinstance(other, Sequence) or len(self) != len(other):
            return False
        return all(mine == its for mine, its in zip(self, other, strict=True))

    def __hash__(self) -> int:
        return hash(self._told)
