"""Which steps exercise the blocks in which the cause of a failed run may lie.

After a repair they are asked next: what was mended, or harmed, shows in them.
"""

from collections.abc import Sequence
from typing import NamedTuple

from termprobe.diagnosis.diagnose import case_of, diagnose
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.spectrum import exercised_by
from termprobe.journal.records import Record
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile
from termprobe.verdict.model import FAIL, RunVerdict

LEAST_SHARE = 0.1
"""A block less probable than this is not held for the one where the cause lies."""


class Sharing(NamedTuple):
    """Blocks that may be at fault, and the steps that share one of them with what failed."""

    blocks: tuple[str, ...] = ()
    """Most likely first."""
    steps: tuple[str, ...] = ()
    """Their ids, in the order of the plan; none of those that failed."""


def sharing(
    profile: Profile,
    plan: Plan,
    records: Sequence[Record],
    verdict: RunVerdict,
    dictionary: FaultDictionary | None,
) -> Sharing:
    """Return which steps of a run share a block with what failed in it.

    `dictionary` is that of the plan, None where no board can be simulated: then blocks are known of
    the keyboard alone.
    """
    failed = {step.id for step in verdict.steps if step.verdict == FAIL}
    diagnosis = diagnose(profile, plan, records, verdict, dictionary)
    exercised = exercised_by(case_of(profile, plan, records, verdict), dictionary)
    suspected = [share.block for share in diagnosis.blocks if share.probability >= LEAST_SHARE]
    blocks = [block for block in suspected if failed & exercised.get(block, set())]
    steps = {step for block in blocks for step in exercised[block]} - failed
    return Sharing(tuple(blocks), tuple(step.id for step in plan.steps if step.id in steps))
