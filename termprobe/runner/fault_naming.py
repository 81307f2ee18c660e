"""Watches a run for the moment at which a fault can be named, and does what is decided about it."""

from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import EYES
from termprobe.plan.model import Look, Step
from termprobe.runner.known_fault import (
    CARRY_ON,
    NO_PROSPECT,
    REPAIR,
    Decide,
    NamedFault,
    Prospect,
    helping_step,
    is_asked_again,
)
from termprobe.runner.run import Run
from termprobe.runner.told import SearchBegun
from termprobe.verdict.model import FAIL


class FaultNaming:
    """Names faults in `run`; `decide` says what is to become of each."""

    def __init__(self, run: Run, decide: Decide) -> None:
        self._run, self._decide = run, decide
        self._is_narrowed_down = False
        """Whether looks are asked out of order since they help to name a fault."""
        self._declined: set[str] = set()
        self.is_to_be_repaired = False
        """The run is to stop for a repair."""

    def after(self, step: Step) -> Step | None:
        """Do what is due once `step` was answered; return the step to be asked next.

        None is returned where nothing calls for another than the next in order.
        """
        prospect = self._prospect(step)
        if prospect.named is not None:
            self._act_on(prospect.named, step)
        self._is_narrowed_down = prospect.next is not None
        following = helping_step(self._run.course, prospect)
        if following is not None and is_asked_again(self._run.course, following):
            self._run.decide(AskedAgain(following.id))
        return following

    def _prospect(self, step: Step) -> Prospect:
        """Return what can be said; nothing once the builder wanted to be asked on."""
        run = self._run
        if run.foresight is None or self._declined or not isinstance(step, Look):
            return NO_PROSPECT
        if run.verdict(step).verdict != FAIL and not self._is_narrowed_down:
            return NO_PROSPECT
        run.tell(SearchBegun())
        return run.foresight.prospect(run.journal.records, run.verdicts())

    def _act_on(self, named: NamedFault, step: Step) -> None:
        match self._decide(named):
            case decided if decided == CARRY_ON:
                self._run.decide(named.known(is_seen_by_eyes(self._run, step)))
            case decided if decided == REPAIR:
                self._run.decide(named.to_repair())
                self.is_to_be_repaired = True
            case _:
                self._declined.add(named.fault)


def is_seen_by_eyes(run: Run, look: Step) -> bool:
    """Return whether nothing but eyes answers `look` in a run."""
    return all(one.strength == EYES for one in run.observers if one.can_answer(look))
