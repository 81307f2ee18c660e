"""What is to become of a fault that was named: asked at a prompt, or the run stops."""

from termprobe.cli.console import Console
from termprobe.report.known_fault_words import named_fault_lines
from termprobe.runner.known_fault import ASK_ON, CARRY_ON, REPAIR, Decide, NamedFault, carry_on

PROMPT = "Repair now (r), carry on with the known fault (c), or ask on as before (a)? "
DECISIONS = {
    "r": REPAIR,
    REPAIR: REPAIR,
    "c": CARRY_ON,
    CARRY_ON: CARRY_ON,
    "a": ASK_ON,
    ASK_ON: ASK_ON,
}
CARRIED_ON = (
    "From here on each screen is drawn as this board shows it with that fault. "
    "Whatever else is wrong stands out; the board itself does not pass."
)
UNFORESEEN = (
    "What this board shows with that fault cannot be foreseen: the looks wait until it is "
    "repaired. The board itself does not pass."
)
REPAIRED = "Once it is repaired what has differed is asked again; go on with:"


def asked_at(console: Console, going_on: str) -> Decide:
    """Return what asks at `console`; the end of the input asks on.

    `going_on` is the command that goes on with the run after a repair.
    """

    def decide(named: NamedFault) -> str:
        _tell(named, console)
        decided = _decided(console)
        if decided == CARRY_ON:
            console.tell_paragraph(_carried_on(named))
        if decided == REPAIR:
            console.tell(f"{REPAIRED}\n  {going_on}")
        return decided

    return decide


def stopping_at(console: Console) -> Decide:
    """Return what tells at `console` which fault is named, and stops for the repair."""

    def decide(named: NamedFault) -> str:
        _tell(named, console)
        return REPAIR

    return decide


def going_on_at(console: Console) -> Decide:
    """Return what tells at `console` which fault is named, and goes on with it."""

    def decide(named: NamedFault) -> str:
        _tell(named, console)
        console.tell_paragraph(_carried_on(named))
        return carry_on(named)

    return decide


def _carried_on(named: NamedFault) -> str:
    """Return what follows of going on with the fault."""
    return CARRIED_ON if named.is_foreseen else UNFORESEEN


def _tell(named: NamedFault, console: Console) -> None:
    console.tell("\n" + "\n".join(named_fault_lines(named.title, named.alike, named.told)))


def _decided(console: Console) -> str:
    try:
        while True:
            typed = " ".join(console.ask(PROMPT).lower().split())
            if typed in DECISIONS:
                return DECISIONS[typed]
            console.tell("It must be one of r, c and a.")
    except EOFError:
        return ASK_ON
