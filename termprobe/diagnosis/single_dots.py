"""Single dots of single drawings as causes: one dot of a character that is always, or never, lit.

There are thousands. Where it was seen how a character is drawn, its dots are compared; else all
dots of the characters that the same looks show are one cause.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from termprobe.board.faults.dots import fault_named
from termprobe.board.faults.model import Fault
from termprobe.diagnosis.accounts import Account, Case
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.cover import bits_of
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.evident import Evident
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.fits import SeenBothWays, fit_of_sights
from termprobe.diagnosis.shown import AS_WANTED, Sight
from termprobe.diagnosis.told_alone import is_more_told
from termprobe.profile.characters import LIT, CharacterSet, art_of, character_set
from termprobe.profile.model import Profile
from termprobe.terminal.dots import is_character

ALL_DOTS = 1.0
"""Weight of all dots of single drawings together. A judgement: a cell of a character generator
fails less often than one of the RAM."""
MOST_DOTS = 4
"""Where more dots of one drawing are wrong, no single dot is the cause."""
ONE_DOT = Sight(0, False, False, "one dot", 1)


DOT = "glyph-cell/stuck/"


class Dot(NamedTuple):
    """One dot of one drawing."""

    code: int
    row: int
    column: int
    level: int
    """1 where it is lit and should not be."""

    @property
    def fault(self) -> str:
        """The name of the fault that it is so."""
        return f"{DOT}{self.code}-{self.row}-{self.column}/{self.level}"


def dots_in_question(case: Case) -> tuple[Fault, ...]:
    """Return the dots that were seen wrong, where it is one drawing alone and they are few."""
    box = case.profile.display.dots
    seen = {
        one
        for look in case.observations
        if isinstance(look, LookAnswer)
        for one in look.misdrawn or ()
    }
    if box is None or len(seen) != 1:
        return ()
    ((what, drawn),) = seen
    if not is_character((what, drawn)):
        return ()
    dots = list(wrong_dots(ord(what), drawn.split("/"), character_set(str(box.characters))))
    if len(dots) > MOST_DOTS:
        return ()
    return tuple(fault_named(case.profile, dot.fault) for dot in dots)


def wrong_dots(code: int, drawn: Sequence[str], of: CharacterSet) -> Iterator[Dot]:
    """Yield the dots of a drawing that are not as they should be."""
    wanted = art_of(of.glyphs[code], of.columns) if code in of.glyphs else ()
    for row, (good, seen) in enumerate(zip(wanted, drawn, strict=False)):
        for column, (dot, other) in enumerate(zip(good, seen, strict=False)):
            if dot != other:
                yield Dot(code, row, column, int(other == LIT))


def cause_of_dots(fault: Fault, profile: Profile, count: int = 1) -> Cause:
    """Return the Cause that a dot is wrong: that of `fault`, or one of `count` that look alike."""
    drawn = _drawn_by(profile)
    every = len(drawn.glyphs) * drawn.rows * drawn.columns
    return Cause(fault.name, fault.title, fault.block, ALL_DOTS * count / every)


def dots_by_looks(case: Case, dictionary: FaultDictionary) -> Iterator[Account]:
    """Yield an Account of all dots of drawings that no look which was asked tells apart."""
    numbers = {look: number for number, look in enumerate(dictionary.looks)}
    looks = _looks_at_dots(case, dictionary)
    asked = sum(1 << numbers[look.step_id] for look in looks)
    groups: dict[Evident, list[int]] = {}
    for code, whole in dictionary.single_dots.items():
        if whole.perhaps & asked:
            groups.setdefault(whole.by(asked), []).append(code)
    for evident, codes in groups.items():
        fits = {
            look.step_id: _fit(case, look, evident, numbers[look.step_id])
            for look in looks
            if evident.perhaps >> numbers[look.step_id] & 1
        }
        yield Account(_cause_of_some(codes, case.profile), fits)


def looks_of_dots(
    case: Case, names: Iterable[str], dictionary: FaultDictionary
) -> dict[str, dict[Evident, int]]:
    """Return by each cause of `names` that is a dot how many drawings it is of, by their looks.

    By yes and no it stands for all drawings that the looks which were asked do not tell apart.
    """
    known = dictionary.single_dots
    code_of = {name: _code_of(name) for name in names if name.startswith(DOT)}
    if is_more_told(case):
        return {name: {known[code]: 1} for name, code in code_of.items()}
    looks = _looks_at_dots(case, dictionary)
    asked = bits_of(dictionary.looks.index(look.step_id) for look in looks)
    groups: dict[Evident, Counter[Evident]] = {}
    for whole in known.values():
        groups.setdefault(whole.by(asked), Counter())[whole] += 1
    return {name: groups[known[code].by(asked)] for name, code in code_of.items()}


def _code_of(dot: str) -> int:
    """Return the code in whose drawing the fault named `dot` is."""
    return int(dot.removeprefix(DOT).split("-")[0])


def _looks_at_dots(case: Case, dictionary: FaultDictionary) -> list[LookAnswer]:
    """Return the answered looks of the dictionary in which dots were seen."""
    looks = [one for one in case.observations if isinstance(one, LookAnswer)]
    return [one for one in looks if one.step_id in dictionary.looks and one.sees_dots]


def _fit(case: Case, look: LookAnswer, evident: Evident, number: int) -> Fit:
    if evident.surely >> number & 1:
        return fit_of_sights(look, SeenBothWays(ONE_DOT, ONE_DOT), case.rates)
    return fit_of_sights(look, SeenBothWays(ONE_DOT, AS_WANTED), case.rates)


def _cause_of_some(codes: Sequence[int], profile: Profile) -> Cause:
    """Return the cause that a dot in the drawing of one of the characters is wrong."""
    drawn = _drawn_by(profile)
    first, *others = [dot.fault for code in codes for dot in _dots_of(code, drawn)]
    cause = cause_of_dots(fault_named(profile, first), profile, 1 + len(others))
    count = 1 + len(others)
    title = f"one dot in the drawing of one character is wrong ({count} dots would look alike)"
    return cause._replace(title=title, alike=tuple(others))


def _dots_of(code: int, drawn: CharacterSet) -> Iterator[Dot]:
    """Yield each dot of a drawing as it must not be."""
    for row, dots in enumerate(drawn.glyphs[code]):
        for column in range(drawn.columns):
            yield Dot(code, row, column, 1 - (dots >> column & 1))


def _drawn_by(profile: Profile) -> CharacterSet:
    """Return the character set of a profile that tells of its dots."""
    box = profile.display.dots
    assert box is not None
    return character_set(str(box.characters))
