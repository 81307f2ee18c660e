"""`termprobe card`: a plan as a card to print, and a run made of what was written on one."""

import argparse
from collections.abc import Callable, Mapping

from termprobe.cli.output import add_output_argument, output
from termprobe.cli.request import add_stage_argument, request_on_paper
from termprobe.cli.task import Task, task_of, with_looks_spared
from termprobe.errors import EXIT_PASSED, UsageError
from termprobe.plan.card_items import card_items
from termprobe.report.card.facts import Card
from termprobe.report.card.laid_out import card_of

TEXT_CARD, FORM = "text", "form"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--profile", metavar="P", help="id or path of the profile")
    parser.add_argument("--script", metavar="S", help="id or path of the script")
    add_stage_argument(parser)
    parser.add_argument(
        "--format",
        choices=(*_RENDERED, FORM),
        default=TEXT_CARD,
        help="html is for print; form is the empty form into which is typed what was written on "
        "the card (default: text)",
    )
    add_output_argument(parser)
    parser.add_argument(
        "--fill",
        metavar="FORM",
        help="make a run file of this form, and report on it; profile, script and stages are those "
        "that it names where they are not given here",
    )
    parser.add_argument(
        "--out",
        metavar="DIR",
        default=".",
        help="folder of the run file that --fill makes (default: this one)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the card or its form, or make a run of a form; return the exit code."""
    if arguments.fill:
        if arguments.output or arguments.format != TEXT_CARD:
            raise UsageError(
                "-o and --format must be left out beside --fill, which makes a run file and tells "
                "what it shows; `termprobe report RUN --format html -o FILE` makes pages of it"
            )
        from termprobe.cli.filled_card import fill

        return fill(arguments)
    request = request_on_paper(arguments.profile, arguments.script, arguments.stage)
    task = task_of(request, None)
    if not any(item.step.id in task.plan.index for item in card_items(task.whole)):
        raise UsageError(
            "--stage must name a stage of which something can be tried without a computer on the "
            "line; `termprobe script show` lists the stages"
        )
    task = with_looks_spared(task, None)
    card = card_of(task.profile, task.whole, task.plan)
    with output(arguments.output, arguments.format) as stream:
        stream.write(_rendered(card, task, arguments))
    return EXIT_PASSED


def _rendered(card: Card, task: Task, arguments: argparse.Namespace) -> str:
    if arguments.format != FORM:
        return _RENDERED[arguments.format](card)
    from termprobe.report.card.form import card_form

    stages: list[str] = []
    if task.chosen is not None:
        stages = [stage.id for stage in task.plan.stages]
    return card_form(card, arguments.profile, arguments.script, stages)


def _text(card: Card) -> str:
    from termprobe.report.card.text import card_text

    return card_text(card)


def _markdown(card: Card) -> str:
    from termprobe.report.card.markdown import card_markdown

    return card_markdown(card)


def _html(card: Card) -> str:
    from termprobe.report.card.html import card_html  # it loads Jinja2

    return card_html(card)


_RENDERED: Mapping[str, Callable[[Card], str]] = {
    TEXT_CARD: _text,
    "markdown": _markdown,
    "html": _html,
}
