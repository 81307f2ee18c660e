"""What observers did not see of screens, in words. One sentence each, without its full stop."""

from collections import Counter
from collections.abc import Iterable, Iterator

from termprobe.verdict.model import PASS, StepVerdict


def characters_only(not_seen: tuple[str, ...]) -> str:
    """Return of one look what was not seen, where not all was."""
    return f"characters only; not seen: {', '.join(not_seen)}"


def passed_by_characters(steps: Iterable[StepVerdict]) -> Iterator[str]:
    """Yield how many looks passed for what could be seen, for each of what could not."""
    passed = [step.not_seen for step in steps if step.verdict == PASS and step.not_seen]
    for not_seen, count in Counter(passed).items():
        looks = "1 look" if count == 1 else f"{count} looks"
        yield f"{looks} passed by {characters_only(not_seen)}"
