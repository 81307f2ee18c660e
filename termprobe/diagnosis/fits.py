"""How well what a cause predicts fits what was answered, as a log-likelihood.

No answer is impossible: eyes miss, fingers slip, and a fault may differ in part from its model.
"""

import math
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from typing import NamedTuple

from termprobe.board.memory import characters_of
from termprobe.diagnosis.answers import LookAnswer, Mark
from termprobe.diagnosis.edits import distance
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import NOT_KNOWN, Fit, over_readings, yes_or_no
from termprobe.diagnosis.replay import Replayed, ShownTwice
from termprobe.diagnosis.shown import AS_WANTED, Sight, count_differing, counts_of, noticed_dots
from termprobe.terminal.dots import cells_of

ODD_CELL = 7.6
"""What each cell costs that is not as predicted: one in two thousand is misread. A judgement."""
ODD_DRAWING = 2
"""As so many cells counts a character whose dots are not as predicted: it has many."""
ODD_SCREEN, ODD_AT_WORST = 6.0, 8.0
"""What a screen costs that is not as predicted, and how much more where it is altogether different:
the model of a fault may be wrong in part. Judgements, about one screen in four hundred and one in a
million."""
ODD_MARKS = 6.0
"""What marks cost at worst that stand where nothing differs."""
UNMARKED = 0.5
"""How much it counts that most of what is predicted was not marked: people mark what they see
first."""
UNMARKED_AT_WORST = 3.0
UNMARKED_BESIDE_LINES, AT_WORST_BESIDE_LINES = 3.0, 6.0
"""The same where several rows or columns were marked as a whole: who does so goes through them."""
MOST_SLIPS = 4
UNCERTAIN = "either"
"""What is predicted of a look that differs or not, by what was shown before it."""


class SeenBothWays(NamedTuple):
    """How one look differs, in either way of playing."""

    in_order: Sight
    alone: Sight


NEVER_DIFFERS = SeenBothWays(AS_WANTED, AS_WANTED)


def fit_of_sights(answer: LookAnswer, sights: SeenBothWays, rates: ErrorRates) -> Fit:
    """Return the Fit of a look by how it differs in either way of playing."""
    if not answer.sees_dots:
        sights = SeenBothWays(*map(by_codes, sights))
    if answer.codes is not None:
        fits = [_counted_cells(answer, sight, rates) for sight in sights]
        return max(fits, key=lambda fit: fit.log_likelihood)
    return over_readings(answer, rates, lambda one, how: _of_reading(one, answer, sights, how))


def _of_reading(
    one: LookAnswer, answer: LookAnswer, sights: SeenBothWays, rates: ErrorRates
) -> Fit:
    """Return the Fit of one reading of `answer`.

    A look that is asked once more is sent to a screen on which it stands already. Where a cause
    lets what was sent before be seen, nothing is known of that.
    """
    fit = _of_either_way(one, sights, rates)
    if one is answer.readings[0] or sights.in_order == sights.alone:
        return fit
    unknown = math.log(NOT_KNOWN)
    return fit._replace(log_likelihood=unknown, flipped=(unknown,) * len(fit.flipped))


def _of_either_way(answer: LookAnswer, sights: SeenBothWays, rates: ErrorRates) -> Fit:
    """Return the Fit of one answer of eyes where the look is as in either way of playing."""
    first = yes_or_no(answer, sights.in_order, rates)
    if sights.in_order == sights.alone:
        return first
    second = yes_or_no(answer, sights.alone, rates)
    better = max(first, second, key=lambda fit: (fit.is_as_predicted, sum(fit.regions)))
    told: Hashable = first.told
    if first.told != second.told:
        told = UNCERTAIN
    flips = zip(first.flipped, second.flipped, strict=True)
    return better._replace(
        log_likelihood=_mean_of(first.log_likelihood, second.log_likelihood),
        told=told,
        flipped=tuple(_mean_of(*pair) for pair in flips),
    )


def fit_in_run(
    answer: LookAnswer, shown_to: Callable[[LookAnswer], ShownTwice], rates: ErrorRates
) -> Fit:
    """Return the Fit of a look by what `shown_to` tells was shown to each of its readings."""
    if answer.codes is not None:
        return fit_of_screen(answer, shown_to(answer)[0], rates)
    return over_readings(answer, rates, lambda one, how: _in_run(one, shown_to(one), how))


def _in_run(answer: LookAnswer, shown: ShownTwice, rates: ErrorRates) -> Fit:
    """Return the Fit of one answer of eyes by what was shown then."""
    sights = SeenBothWays(*(one.against(answer.wanted) for one in shown))
    fit = _of_either_way(answer, sights, rates)
    if answer.has_passed or not answer.marks:
        return fit
    return _with_marks(answer, answer.marks, shown[0], fit, rates)


def _mean_of(first: float, second: float) -> float:
    """Return the logarithm of the mean of two chances, given by theirs."""
    return math.log((math.exp(first) + math.exp(second)) / 2)


def fit_of_screen(answer: LookAnswer, shown: Replayed, rates: ErrorRates) -> Fit:
    """Return the Fit of a look by the screen that is predicted."""
    if not answer.sees_dots:
        shown = shown._replace(misdrawn=())
    sight = shown.against(answer.wanted)
    if answer.codes is not None:
        return _counted(answer, shown, sight, rates)
    return over_readings(answer, rates, lambda one, how: _seen(one, shown, sight, how))


def _seen(answer: LookAnswer, shown: Replayed, sight: Sight, rates: ErrorRates) -> Fit:
    """Return the Fit of one answer of eyes by the screen that is predicted."""
    fit = yes_or_no(answer, sight, rates)
    if answer.has_passed or not answer.marks:
        return fit
    return _with_marks(answer, answer.marks, shown, fit, rates)


def by_codes(sight: Sight) -> Sight:
    """Return how a look differs to whom the dots of the characters say nothing."""
    if sight.is_of_dots_alone:
        return AS_WANTED
    return sight


def fit_of_typed(came: bytes, predicted: bytes, rates: ErrorRates) -> Fit:
    """Return the Fit of bytes that a person typed, or wrote down; slips are borne."""
    slips = min(distance(came, predicted), MOST_SLIPS)
    cost = slips * -math.log(rates.slip / 2)
    return Fit(math.log(1 - rates.slip) - cost, predicted, slips == 0)


def fit_of_word(came: bytes, seen: bytes, asked: bytes, rates: ErrorRates) -> Fit:
    """Return the Fit of a word that was read off a screen which shows `seen`, and typed.

    As the word that must stand there is `asked` for, that may have been typed unread, as likely.
    """
    fits = fit_of_typed(came, seen, rates), fit_of_typed(came, asked, rates)
    chance = sum(math.exp(fit.log_likelihood) for fit in fits) / 2
    is_as_predicted = any(fit.is_as_predicted for fit in fits)
    return Fit(math.log(chance), seen, is_as_predicted)


def fit_of_reply(came: bytes, predicted: bytes, rates: ErrorRates) -> Fit:
    """Return the Fit of bytes that came back by themselves."""
    if came == predicted:
        return Fit(math.log(1 - rates.machine), predicted, True)
    return Fit(-ODD_SCREEN - ODD_AT_WORST, predicted, False)


def _counted_cells(answer: LookAnswer, sight: Sight, rates: ErrorRates) -> Fit:
    """Return the Fit of a whole screen, by the number of its cells that differ.

    Where cursor and bells were told as well, the picture is compared; else a screen with as many
    wrong cells counts as the same.
    """
    count = answer.cells
    is_same = count == sight.cells
    if answer.sight is not None:
        is_same = answer.sight.picture == sight.picture
    told = sight.picture
    if is_same:
        return Fit(math.log(1 - rates.machine), told, True)
    odd = abs(count - sight.cells)
    return Fit(_cost_of_odd(max(odd, 1), max(count, sight.cells, 1)), told, False)


def _counted(answer: LookAnswer, shown: Replayed, sight: Sight, rates: ErrorRates) -> Fit:
    """Return the Fit of a whole screen that was read, cell by cell."""
    assert answer.codes is not None
    wanted, seen = answer.wanted, answer.codes
    odd = count_differing(_known(seen, shown, wanted.codes), shown.codes)
    if answer.cursor is not None and wanted.cursor is not None:
        odd += answer.cursor != shown.cursor
    if answer.bells is not None:
        odd += answer.bells != shown.bells
    if answer.misdrawn is not None:
        predicted = noticed_dots(shown.codes, shown.misdrawn, wanted)
        unlike = set(answer.misdrawn) ^ set(predicted)
        if unlike:
            odd += ODD_DRAWING * cells_of(tuple(unlike), counts_of(shown.codes, wanted.variant))
    told = sight.picture
    if not odd:
        return Fit(math.log(1 - rates.machine), told, True)
    of = max(odd, _differing_in_either(seen, shown, wanted.codes))
    return Fit(_cost_of_odd(odd, of), told, False)


def _cost_of_odd(odd: int, of: int) -> float:
    """Return the log-likelihood where `odd` of `of` cells that differ are not as predicted."""
    return -min(odd * ODD_CELL, ODD_SCREEN + ODD_AT_WORST * odd / of)


def _differing_in_either(seen: bytes, shown: Replayed, wanted: bytes) -> int:
    """Return in how many cells what was seen, or what is predicted, is not as it must be."""
    first, second, must = (int.from_bytes(codes, "big") for codes in (seen, shown.codes, wanted))
    odd = (first ^ must) | (second ^ must)
    return len(wanted) - odd.to_bytes(len(wanted), "big").count(0)


def _known(seen: bytes, shown: Replayed, wanted: bytes) -> bytes:
    """Return what was seen, and what is predicted where nothing is known of a cell.

    Where most such cells are just as they must be, what was at power-up does not stand in them.
    """
    if not shown.unknown:
        return seen
    right = sum(seen[cell] == wanted[cell] for cell in shown.unknown)
    if 2 * right > len(shown.unknown):
        return seen
    filled = bytearray(seen)
    for cell in shown.unknown:
        filled[cell] = shown.codes[cell]
    return bytes(filled)


def _with_marks(
    answer: LookAnswer,
    marks: Mapping[int, Mark],
    shown: Replayed,
    fit: Fit,
    rates: ErrorRates,
) -> Fit:
    """Return the Fit of a screen that eyes found different, and marked."""
    wanted = answer.wanted.codes
    drawn_wrong = {what for what, _ in noticed_dots(shown.codes, shown.misdrawn, answer.wanted)}
    seen = characters_of(shown.codes, answer.wanted.variant)
    predicted = {
        cell
        for cell, code in enumerate(shown.codes)
        if code != wanted[cell] or seen[cell] in drawn_wrong
    }
    groups = list(_marked_together(marks, answer.columns, len(wanted)))
    outside = sum(predicted.isdisjoint(group) for group in groups)
    told = {cell: code for cell, code in marks.items() if code is not None}
    slips = sum(shown.codes[cell] != code for cell, code in told.items())
    cost = ODD_MARKS * outside / len(groups)
    cost += min(slips, MOST_SLIPS) * -math.log(rates.slip)
    inside = len(predicted.intersection(marks))
    goes_through = sum(len(group) > 1 for group in groups) > 1
    left_out = 0.0
    if inside:
        left_out = math.log(len(predicted) / inside)
    if goes_through:
        cost += min(UNMARKED_BESIDE_LINES * left_out, AT_WORST_BESIDE_LINES)
    else:
        cost += min(UNMARKED * left_out, UNMARKED_AT_WORST)
    is_as_predicted = fit.is_as_predicted and not outside and not slips
    told_of_marks = bytes(shown.codes[cell] for cell in sorted(told))
    told_of_rest = goes_through and round(left_out, 1)
    picture = fit.told, outside, told_of_marks, told_of_rest
    flipped = (*fit.flipped, fit.log_likelihood)
    return Fit(fit.log_likelihood - cost, picture, is_as_predicted, flipped, fit.regions)


def _marked_together(
    marks: Mapping[int, Mark], columns: int, cells: int
) -> Iterator[Sequence[int]]:
    """Yield the rows and columns that are marked as a whole, and each other cell alone."""
    lines = [range(row, row + columns) for row in range(0, cells, columns)]
    lines += [range(column, cells, columns) for column in range(columns)]
    left = set(marks)
    for line in lines:
        if marks.keys() >= set(line):
            left -= set(line)
            yield line
    for cell in sorted(left):
        yield (cell,)
