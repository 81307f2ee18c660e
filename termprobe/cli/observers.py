"""Who answers the steps of a run: whom options bring in, and who is at the bench itself."""

import argparse

from termprobe import observer as folder
from termprobe.board.base import SimulatedBoard
from termprobe.cli.bench import Bench
from termprobe.cli.console import Console
from termprobe.clock import SystemClock
from termprobe.journal.kept import KeptPhoto
from termprobe.listing import modules_in
from termprobe.observer.base import Observer, Offer
from termprobe.observer.choosing import ChoosingBuilder
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.observer.switch_hands import HandsObserver
from termprobe.plan.model import Plan
from termprobe.terminal.screen import Screen


def offers() -> tuple[Offer, ...]:
    """Return the OFFER of each module of termprobe.observer that has one, modules by alphabet."""
    return tuple(m.OFFER for m in modules_in(folder) if hasattr(m, "OFFER"))


def add_observer_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the option of each offer."""
    for offer in offers():
        parser.add_argument(offer.option, dest=offer.option, metavar=offer.metavar, help=offer.help)


def offered(arguments: argparse.Namespace, plan: Plan) -> list[Observer]:
    """Return the observers whose options were given; raise TermprobeError."""
    given, clock = vars(arguments), SystemClock()
    return [
        offer.make(given[offer.option], plan, clock) for offer in offers() if given[offer.option]
    ]


def simulated_screen(bench: Bench) -> list[Observer]:
    """Return the observer that sees the screen of a simulated board; empty for a real board."""
    if bench.board is None:
        return []
    return [screen_observer(bench.board)]


def screen_observer(board: SimulatedBoard) -> Observer:
    """Return the observer that sees the screen of the simulated `board`."""
    return SimulatedScreenObserver(board.screen)


def simulated_hands(bench: Bench) -> list[Observer]:
    """Return the observer that moves a simulated board's switches; empty for a real board."""
    if bench.board is None:
        return []
    options = [option.name for option in bench.profile.options]
    return [HandsObserver(bench.board.set_option, options)]


class PracticingBuilder(ChoosingBuilder):
    """A builder who is also shown what a simulated `board` shows, below what is expected of it.

    How often its bell rang is counted from a fresh screen on, as it is where it is expected.
    """

    def __init__(self, console: Console, board: SimulatedBoard) -> None:
        super().__init__(console.ask, console.tell, self._draw_both)
        self.draw_dots = console.draw_dots
        self._console, self._board, self._bells = console, board, 0

    def begin(self) -> None:
        """Count bells from here: a step is about to be sent on a fresh screen."""
        self._bells = self._board.screen().bells

    def _draw_both(self, screen: Screen) -> str:
        seen = self._board.screen()
        bells, misdrawn = seen.bells - self._bells, seen.misdrawn or ()
        shown = Screen(seen.rows, seen.cursor, bells=bells, misdrawn=misdrawn)
        expected, drawn = self._console.draw(screen), self._console.draw(shown)
        return f"{expected}\nThe simulated board shows:\n{drawn}"


def builder_of(bench: Bench, console: Console) -> ChoosingBuilder:
    """Return the builder of a run, whose photos are put beside its file."""

    def keep(path: str) -> KeptPhoto:
        from termprobe.photo.keeping import keep_photo  # it loads Pillow

        return keep_photo(path, str(bench.path))

    builder = builder_at(console, bench.board)
    builder.keep_photo = keep
    return builder


def builder_at(console: Console, board: SimulatedBoard | None = None) -> ChoosingBuilder:
    """Return the builder, who is asked at prompts on `console`; at a simulated `board` if given."""
    if board is not None:
        return PracticingBuilder(console, board)
    builder = ChoosingBuilder(console.ask, console.tell, console.draw)
    builder.draw_dots = console.draw_dots
    return builder
