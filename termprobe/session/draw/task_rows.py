"""What a step without a screen asks for, and what its builder must know of it.

Pure.
"""

from termprobe.plan.model import Step
from termprobe.session.draw.rows import Rows, blank, paragraph


def task_rows(step: Step, asked: Rows, columns: int) -> Rows:
    """Return the rows `asked`, then when to switch off, and the source of the expectation."""
    rows = [blank(), *asked]
    if step.stop_if:
        stop = paragraph(f"Switch off at once if: {step.stop_if}", columns, "class:fail")
        rows += [blank(), *stop]
    if step.source:
        rows += [blank(), *paragraph(f"Source: {step.source}", columns)]
    return rows
