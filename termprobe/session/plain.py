"""The session without a full screen: plain prompts, one line after another.

For screen readers, and where there is no terminal.
"""

from collections.abc import Callable, Iterable
from functools import partial

from termprobe.errors import LinkError, LinkLostError
from termprobe.link.base import Link
from termprobe.observer.builder_words import STOPS
from termprobe.runner.course import BY_BUILDER
from termprobe.runner.known_fault import Decide, ask_on
from termprobe.runner.run import Run
from termprobe.runner.sitting import interruptible
from termprobe.runner.walk import carry_out

TROUBLE = {
    True: (
        "The line is gone: {error}\nPlug the adapter into the computer again.",
        "ENTER when it is plugged in, or stop: ",
    ),
    False: (
        "Trouble with the line: {error}\nPut it right; the step is then sent again.",
        "ENTER to try again, or stop: ",
    ),
}
"""Whether the line is gone -> what is said, and asked."""


def run_plain(
    run: Run,
    show: Callable[[str], None],
    ask: Callable[[str], str],
    relink: Callable[[], Link],
    opening: Iterable[str] = (),
    decide: Decide = ask_on,
) -> bool:
    """Carry out the run at plain prompts; return whether its end was reached.

    `show(text)` and `ask(prompt)` are the console, `relink()` gives a new link after the adapter
    was lost; it may raise LinkError again. `decide` says what is to become of a fault that
    is named. Raises what ends the run: JournalError, KeyboardInterrupt, LinkError where nobody goes
    on.
    """
    for text in opening:
        show(text)
    while True:
        try:
            return carry_out(run, decide)
        except LinkError as error:
            what, prompt = TROUBLE[isinstance(error, LinkLostError)]
            show(f"\n{what.format(error=error)} Nothing answered is lost.")
            with interruptible(run):
                is_back = _is_back(run, show, partial(ask, prompt), relink)
            if not is_back:
                run.end(BY_BUILDER)
                raise


def _is_back(
    run: Run,
    show: Callable[[str], None],
    ask: Callable[[], str],
    relink: Callable[[], Link],
) -> bool:
    """Ask until the line is back; return False where the builder gives up."""
    while _goes_on(ask):
        try:
            run.relink(relink())
        except LinkError as again:
            show(str(again))
        else:
            show("The line is back.")
            return True
    return False


def _goes_on(ask: Callable[[], str]) -> bool:
    """Return whether the builder has put the line right; the end of the input gives up."""
    try:
        return ask().strip().lower() not in STOPS
    except EOFError:
        return False
