"""What the steps of a run that passed support, each claim with how far it goes. Pure."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from termprobe.plan.model import KeyPress, Measure, Plan, Reply, Step, TypedBack, expected_of
from termprobe.profile.model import Profile
from termprobe.report.facts.numbers import share_in_words
from termprobe.report.record import RunReport
from termprobe.terminal.decoded import Decoded
from termprobe.terminal.decoder import Decoder
from termprobe.terminal.screen import Screen
from termprobe.verdict.evidence import code_of_character
from termprobe.verdict.model import PASS, AsWithFault

NOTHING_TRIED = "not tried"
EXCLUDED = "modelled faults would have shown in a step that passed"


@dataclass(frozen=True)
class Claim:
    """How many of all there are were proven by steps that passed."""

    what: str
    """Of what they are, and what was shown of them: `cells held both values of each data bit`."""
    done: int
    of: int
    is_tried: bool = True
    """Whether any of them was."""

    @property
    def share(self) -> str:
        """`100 %`, or that none was tried."""
        return share_in_words(self.done, self.of) if self.is_tried else NOTHING_TRIED

    @property
    def figure(self) -> str:
        """`1,920 of 1,920, 100 %`."""
        return f"{self.done:,} of {self.of:,}, {self.share}"

    @property
    def sentence(self) -> str:
        """`1,920 of 1,920 cells held both values of each data bit (100 %)`."""
        return f"{self.done:,} of {self.of:,} {self.what} ({self.share})"


def claims(report: RunReport) -> tuple[Claim, ...]:
    """Return the claims: screen, characters, commands, keys, then replies, words and readings.

    What the terminal has nothing of is not claimed.
    """
    passed = _passed(report)
    found = list(_of_profile(report, passed))
    found += _of_kinds(report, passed)
    if report.blocks:
        shown = sum(block.shown for block in report.blocks)
        possible = sum(block.possible for block in report.blocks)
        found.append(
            Claim("modelled faults would have shown in a step that passed", shown, possible)
        )
    return tuple(claim for claim in found if claim.of)


def _passed(report: RunReport) -> list[Step]:
    """Return the steps that passed as on a good board."""
    passed = {
        step.id
        for step in report.verdict.steps
        if step.verdict == PASS and not isinstance(step.because, AsWithFault)
    }
    return [step for step in report.plan.steps if step.id in passed]


def _of_profile(report: RunReport, passed: Sequence[Step]) -> Iterator[Claim]:
    """Yield what is claimed of what the profile says that the terminal has."""
    profile, plan = report.profile, report.plan
    if profile is None:
        return
    fitted = [step for step in plan.steps if not step.not_fitted]
    if any(map(expected_of, fitted)):
        yield from _of_screens(profile, plan, passed)
    if any(step.data for step in fitted):
        sent = set(_commands_sent(profile, passed))
        names = [str(command.name) for command in profile.commands]
        yield Claim("commands were obeyed", len(sent.intersection(names)), len(names))
        with_edge = [command for command in profile.commands if command.edge is not None]
        at_edge = len(report.over_edges)
        yield Claim("commands kept to their rule at an edge", at_edge, len(with_edge))
    if any(isinstance(step, KeyPress) for step in fitted):
        presses = sum(len(pressed) for _, pressed in plan.key_codes)
        right = sum(isinstance(step, KeyPress) and not step.press.held for step in passed)
        is_tried = _is_tried(report, KeyPress)
        yield Claim("key codes came, each from its own key", right, max(presses, right), is_tried)


def _of_screens(profile: Profile, plan: Plan, passed: Sequence[Step]) -> Iterator[Claim]:
    """Yield what is claimed of cells and characters."""
    codes = _codes_by_cell([screen for screen in map(expected_of, passed) if screen])
    printing = profile.display.printing
    cells = plan.rows * plan.columns
    wanted = _bits(range(printing.first, printing.last + 1))
    both = sum(_bits(own) >= wanted for own in codes.values())
    yield Claim("cells held both values of each data bit", both, cells)
    shown = {code for own in codes.values() for code in own}
    characters = range(printing.first, printing.last + 1)
    yield Claim("characters were shown", len(shown.intersection(characters)), len(characters))


def _codes_by_cell(screens: Iterable[Screen]) -> dict[tuple[int, int], set[int]]:
    """Return cell -> the codes that it held."""
    columns: dict[tuple[int, int], set[str]] = {}
    for screen in screens:
        for row, text in enumerate(screen.rows):
            for column, character in enumerate(text):
                columns.setdefault((row, column), set()).add(character)
    return {cell: _codes(characters) for cell, characters in columns.items()}


def _codes(characters: Iterable[str]) -> set[int]:
    found = map(code_of_character, characters)
    return {code for code in found if code is not None}


def _bits(codes: Iterable[int]) -> frozenset[tuple[int, int]]:
    """Return (bit, level) of each bit that was seen at a level in the codes."""
    ones = zeros = 0
    for code in codes:
        ones |= code
        zeros |= ~code
    levels = ((bit, level) for bit in range(8) for level in (0, 1))
    return frozenset((bit, level) for bit, level in levels if (zeros, ones)[level] >> bit & 1)


def _commands_sent(profile: Profile, passed: Iterable[Step]) -> Iterator[str]:
    decoder = Decoder(profile)
    for step in passed:
        for meaning in decoder.feed(step.data):
            if isinstance(meaning, Decoded):
                yield str(meaning.command.name)


def _is_tried(report: RunReport, kind: type[Step]) -> bool:
    """Return whether a step of this kind has an answer."""
    answered = {step.id for step in report.verdict.steps if step.answers}
    return any(isinstance(step, kind) and step.id in answered for step in report.plan.steps)


def _of_kinds(report: RunReport, passed: Sequence[Step]) -> Iterator[Claim]:
    """Yield what is claimed of the steps of one kind, of those that the plan has."""
    fitted = [step for step in report.plan.steps if not step.not_fitted]
    for kind, what in (
        (Reply, "replies came as they must"),
        (TypedBack, "words typed back came as they must"),
        (Measure, "readings lie within their limits"),
    ):
        done = sum(isinstance(step, kind) for step in passed)
        count = sum(isinstance(step, kind) for step in fitted)
        yield Claim(what, done, count, _is_tried(report, kind))
