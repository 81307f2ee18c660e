"""Which look keeps the lines of a fault busy, so that a scope has something to show."""

from termprobe.board.wiring import BUSES, DATA_LINES
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.shown import wanted_of
from termprobe.plan.model import Plan, expected_of


def toggled_by(name: str, plan: Plan, dictionary: FaultDictionary | None) -> str | None:
    """Return the id of the look to be sent over and over for the fault `name`, if there is one.

    It is one that shows the fault: that in which data lines stand at either level in most cells,
    and for others that on which most cells differ.
    """
    if dictionary is None or name not in dictionary.faults:
        return None
    sights = zip(dictionary.looks, dictionary.faults[name].alone, strict=True)
    shown = {look: sight.cells or sight.dots for look, sight in sights}
    shown = {look: cells for look, cells in shown.items() if cells}
    return max(shown, key=lambda look: (_balance(name, look, plan), shown[look]), default=None)


def _balance(name: str, look: str, plan: Plan) -> int:
    """Return in how many cells the data lines of a fault stand at the level that is rarer there."""
    parts, expected = parsed(name), expected_of(plan.step(look))
    is_of_data = parts.where in BUSES and BUSES[parts.where].lines == DATA_LINES
    if expected is None or not is_of_data or not parts.lines:
        return 0
    codes, rarest = wanted_of(expected).codes, []
    for line in map(int, parts.lines.split("-")):
        high = sum(code >> line & 1 for code in codes)
        rarest.append(min(high, len(codes) - high))
    return min(rarest)
