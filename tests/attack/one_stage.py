"""Scripts of one stage, for sittings that are to be interrupted."""

HEAD = """\
id: {id}
title: {title}
stages:
  - id: all
    title: All
    steps:
"""


def script_of(name, steps):
    """Return the text of a script whose steps are these flow mappings."""
    rows = (f"      - {{{step}}}\n" for step in steps)
    return HEAD.format(id=name, title=name.capitalize()) + "".join(rows)
