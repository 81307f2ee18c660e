"""Coverage made up for tests of what is told of it."""

from collections.abc import Mapping

from helpers.bench_plan import plan
from helpers.bench_plan import step as made_step
from termprobe.diagnosis.coverage import Coverage, PartCoverage
from termprobe.diagnosis.human_coverage import HumanCoverage
from termprobe.diagnosis.smallest_steps import SmallestSteps
from termprobe.diagnosis.visibility import CLASSES, USUAL_MISS
from termprobe.plan.effort import Effort
from termprobe.report.coverage_document import CoverageTold

NONE_SEEN: Mapping[str, int] = dict.fromkeys([each.name for each in CLASSES], 0)
FOUND = Coverage(
    detected=("ram/stuck/0/0", "ram/stuck/0/1", "scroll/dead"),
    missed=("scroll/line-not-cleared", "gate/stuck-open", "gate/stuck-closed"),
    undetectable={"ram/swapped/0-1": "both are moved alike", "ram/swapped/0-2": "it is so"},
    classes=2,
    by_block={
        "gate": PartCoverage(2, 0),
        "scroll": PartCoverage(2, 1),
        "ram": PartCoverage(4, 2, 2),
    },
    display=PartCoverage(6, 3, 2),
    dots=PartCoverage(0, 0),
    beside=PartCoverage(2, 0),
    human=HumanCoverage(0.701, {**NONE_SEEN, "line": 3}, 1),
    shows_all_bits=False,
    shows_all_dots=None,
    smallest=SmallestSteps(("look-1",), 1, 1),
)
PLAN = plan(made_step("look-1", "s", "look"), made_step("look-2", "s", "look"))
TOLD = CoverageTold(FOUND, PLAN, Effort(1.0, 2, 5.1, 2), 6.1, USUAL_MISS, "steps")
