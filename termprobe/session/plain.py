"""The session without a full screen: plain prompts, one line after another.

For screen readers, and where there is no terminal.
"""

from collections.abc import Callable, Iterable

from termprobe.errors import LinkLostError
from termprobe.link.base import Link
from termprobe.runner.run import Run
from termprobe.runner.walk import carry_out


def run_plain(
    run: Run,
    show: Callable[[str], None],
    ask: Callable[[str], str],
    relink: Callable[[], Link],
    opening: Iterable[str] = (),
) -> bool:
    """Carry out the run at plain prompts; return whether its end was reached.

    `show(text)` and `ask(prompt)` are the console, `relink()` gives a new link after the adapter
    was lost; it may raise LinkError again. Raises what ends the run: JournalError,
    KeyboardInterrupt, LinkError where nobody goes on.
    """
    for text in opening:
        show(text)
    while True:
        try:
            return carry_out(run)
        except LinkLostError as error:
            _wait_for_line(run, show, ask, relink, error)


def _wait_for_line(
    run: Run,
    show: Callable[[str], None],
    ask: Callable[[str], str],
    relink: Callable[[], Link],
    error: LinkLostError,
) -> None:
    """Ask until the line is back, or the builder gives up, which raises `error`."""
    show(
        f"\nThe line is gone: {error}\n"
        "Plug the adapter into the computer again. Nothing answered is lost."
    )
    while True:
        try:
            typed = ask("ENTER when it is plugged in, or stop: ").strip().lower()
        except EOFError:
            raise error from None
        if typed == "stop":
            raise error
        try:
            run.relink(relink())
            show("The line is back.")
            return
        except LinkLostError as again:
            show(str(again))
