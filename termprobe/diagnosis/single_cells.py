"""Single cells of the display RAM as causes: one bit that always reads the same.

There are thousands. Where a few cells were seen to differ, their bits are tried one by one; else
bits that the same looks show are one cause.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple, TypeGuard

from termprobe.board.faults.bus import STUCK_LEVELS
from termprobe.board.faults.cell import fault_named
from termprobe.board.faults.model import Fault
from termprobe.board.wiring import DATA_LINES
from termprobe.diagnosis.accounts import Account, Case
from termprobe.diagnosis.answers import LookAnswer, Observation
from termprobe.diagnosis.causes import Cause, cause_of_cell
from termprobe.diagnosis.cover import bits_of
from termprobe.diagnosis.evident import Evident, histories, stuck_in
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.fits import SeenBothWays, fit_of_sights
from termprobe.diagnosis.playing import chains_of, kept_codes, looks_of
from termprobe.diagnosis.replay import replay
from termprobe.diagnosis.score import PlayedChain
from termprobe.diagnosis.shown import AS_WANTED, Sight
from termprobe.diagnosis.told_alone import is_more_told
from termprobe.profile.model import Profile

FEW_MARKS = 6
"""Where eyes marked more cells than these, no single cell is the cause."""
MOST_CELLS = 4
"""So many cells are tried at most, those that differ in most looks."""
ONE_CELL = Sight(1, False, False, "one cell")


def cells_in_question(case: Case) -> tuple[Fault, ...]:
    """Return every bit stuck of the cells that were seen to differ, where these are few.

    There are none where most of the screens that were read differ in more than one cell.
    """
    counted = [one.cells for one in case.observations if _is_read_and_failed(one)]
    if 2 * sum(cells > 1 for cells in counted) > len(counted):
        return ()
    shown = replay(case.profile, case.plan, case.records, case.observations)
    found: Counter[tuple[int, int]] = Counter()
    for look, good in zip(case.observations, shown, strict=True):
        if isinstance(look, LookAnswer) and not look.has_passed:
            cells = _differing(look)
            if len(cells) <= _most_cells(look):
                found.update(_kept_in(cells, look.columns, good.offset, case.profile))
    cells_found = [cell for cell, _ in found.most_common(MOST_CELLS)]
    return tuple(fault for cell in cells_found for fault in _bits_of(cell, case.profile))


def _is_read_and_failed(one: Observation) -> TypeGuard[LookAnswer]:
    return isinstance(one, LookAnswer) and one.codes is not None and not one.has_passed


def _most_cells(look: LookAnswer) -> int:
    """Return how many cells may differ for one of them to be tried."""
    return FEW_MARKS if look.codes is None else 1


def _differing(look: LookAnswer) -> Sequence[int]:
    """Return the cells that are known to differ."""
    if look.codes is None:
        return list(look.marks or ())
    pairs = enumerate(zip(look.codes, look.wanted.codes, strict=True))
    return [cell for cell, (seen, wanted) in pairs if seen != wanted]


def _kept_in(
    cells: Sequence[int], columns: int, offset: int, profile: Profile
) -> Iterator[tuple[int, int]]:
    """Yield row and column, as counted after a clear, of what is shown in `cells`."""
    for cell in cells:
        row, column = divmod(cell, columns)
        yield (row + offset) % profile.display.rows, column


def _bits_of(cell: tuple[int, int], profile: Profile) -> Iterator[Fault]:
    row, column = cell
    for bit in range(DATA_LINES):
        for level in STUCK_LEVELS:
            yield fault_named(profile, f"cell/stuck/{row}-{column}-{bit}/{level}")


def cells_by_looks(case: Case) -> Iterator[Account]:
    """Yield an Account of all bits of cells that the looks which were asked do not tell apart."""
    chains = chains_of(case.plan)
    numbers = {look: number for number, look in enumerate(looks_of(chains))}
    looks = _looks(case)
    asked = sum(1 << numbers[look.step_id] for look in looks)
    groups: dict[Evident, list[str]] = {}
    for whole, names in _bits_by_looks(case.profile, chains).items():
        evident = whole.by(asked)
        if evident.perhaps:
            groups.setdefault(evident, []).extend(names)
    fits = [_fits_of(case, look, 1 << numbers[look.step_id]) for look in looks]
    for evident, names in groups.items():
        yield Account(_cause_of_some(names, case.profile), dict(_fits(fits, evident)))


def looks_of_cells(case: Case, names: Iterable[str]) -> dict[str, dict[Evident, int]]:
    """Return by each cause of `names` that is a cell how many bits it stands for, by their looks.

    By yes and no it stands for all bits that the looks which were asked do not tell apart.
    """
    chains = chains_of(case.plan)
    by_looks = _bits_by_looks(case.profile, chains)
    whole_of = {bit: whole for whole, bits in by_looks.items() for bit in bits}
    cells = [name for name in names if name in whole_of]
    if is_more_told(case):
        return {name: {whole_of[name]: 1} for name in cells}
    asked = bits_of(looks_of(chains).index(look.step_id) for look in _looks(case))
    groups: dict[Evident, dict[Evident, int]] = {}
    for whole, bits in by_looks.items():
        groups.setdefault(whole.by(asked), {})[whole] = len(bits)
    return {name: groups[whole_of[name].by(asked)] for name in cells}


def _looks(case: Case) -> list[LookAnswer]:
    return [one for one in case.observations if isinstance(one, LookAnswer)]


_known: list[tuple[Profile, tuple[PlayedChain, ...], dict[Evident, list[str]]]] = []
"""What was worked out last: a session asks for the same again after every answer."""


def _bits_by_looks(profile: Profile, chains: tuple[PlayedChain, ...]) -> dict[Evident, list[str]]:
    """Return the names of all stuck bits by the looks that show them."""
    for of_profile, of_chains, found in _known:
        if of_profile is profile and of_chains == chains:
            return found
    found = {}
    for history, cells in histories(kept_codes(profile, chains)).items():
        for number, evident in enumerate(stuck_in(history)):
            named = _names(cells, divmod(number, len(STUCK_LEVELS)), profile)
            found.setdefault(evident, []).extend(named)
    _known[:] = [(profile, chains, found)]
    return found


def _names(cells: Sequence[int], bit_and_level: tuple[int, int], profile: Profile) -> Iterator[str]:
    bit, level = bit_and_level
    for cell in cells:
        row, column = divmod(cell, profile.display.columns)
        yield f"cell/stuck/{row}-{column}-{bit}/{level}"


def _cause_of_some(names: Sequence[str], profile: Profile) -> Cause:
    first, *others = names
    cause = cause_of_cell(fault_named(profile, first), profile, tuple(others))
    if others:
        title = (
            f"one bit of one RAM cell always reads the same ({len(names)} bits would look alike)"
        )
        return cause._replace(title=title)
    return cause


class _CellFits(NamedTuple):
    """How a stuck bit of a cell accounts for the answer to one look."""

    step_id: str
    bit: int
    """Of the look among those of an Evident."""
    surely: Fit
    perhaps: Fit


def _fits_of(case: Case, look: LookAnswer, bit: int) -> _CellFits:
    surely = fit_of_sights(look, SeenBothWays(ONE_CELL, ONE_CELL), case.rates)
    perhaps = fit_of_sights(look, SeenBothWays(ONE_CELL, AS_WANTED), case.rates)
    return _CellFits(look.step_id, bit, surely, perhaps)


def _fits(fits: Sequence[_CellFits], evident: Evident) -> Iterator[tuple[str, Fit]]:
    for of_look in fits:
        if evident.surely & of_look.bit:
            yield of_look.step_id, of_look.surely
        elif evident.perhaps & of_look.bit:
            yield of_look.step_id, of_look.perhaps
