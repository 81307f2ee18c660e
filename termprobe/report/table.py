"""The formats of a report by their words: one for each module of termprobe/report/formats/."""

from collections.abc import Callable, Mapping, Sequence
from types import ModuleType

from termprobe.listing import lacking, modules_in
from termprobe.report import formats
from termprobe.report.record import RunReport

Format = Callable[[Sequence[RunReport]], str]
"""Renders reports as one text."""


def formats_in(folder: ModuleType) -> Mapping[str, Format]:
    """Return the word of each format -> its `render`; the word is the module's name.

    Raises TypeError where a module has none.
    """
    found: dict[str, Format] = {}
    for module in modules_in(folder):
        render = getattr(module, "render", None)
        if not callable(render):
            raise lacking(module, "render", "a function of reports")
        found[module.__name__.rpartition(".")[2]] = render
    return found


FORMATS = formats_in(formats)
"""All formats by their words."""
