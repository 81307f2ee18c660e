"""Pages of HTML, filled in from the templates beside this file.

Whatever is filled in is escaped, and its control characters are shown, so that nothing that came
from a board or a builder can act in a page. A name that a template asks for and is not given is a
mistake, never an empty place.
"""

from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from termprobe.notation import visible
from termprobe.report.drawn import drawn_path, drawn_row

TEMPLATES = Path(__file__).with_name("templates")


def page(template: str, **facts: object) -> str:
    """Return the page that `template`, a file of the folder `templates`, makes of `facts`.

    Raises jinja2.UndefinedError where the template names a fact that is not there.
    """
    return _environment().get_template(template).render(facts)


@cache
def _environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(TEMPLATES, encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_shown,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters |= {"drawn_row": drawn_row, "drawn_path": drawn_path}
    return made


def _shown(value: object) -> object:
    """Return what is filled in for `value`: text with its control characters made visible."""
    if isinstance(value, Markup):
        return value
    return visible(value) if isinstance(value, str) else value
