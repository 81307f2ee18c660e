"""What was proved of a smallest set of presses, in words."""

from termprobe.diagnosis.key_sets import Quick


def proof_in_words(quick: Quick) -> str:
    """Return what was proved, in one sentence without its full stop."""
    does = "tell apart the" if quick.is_telling else "show all"
    count = len(quick.presses)
    what = f"{count} presses {does} {len(quick.faults)} faults of lines"
    if quick.is_smallest:
        return f"{what}; no set of {count - 1} does"
    return f"{what}; at least {quick.lower_bound} are needed"
