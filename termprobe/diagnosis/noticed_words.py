"""What was noticed of the picture: of dots and light, or of what is not modelled. Pure."""

from termprobe.diagnosis.bell_symptom import is_of_silent_bell
from termprobe.diagnosis.dot_symptom import DotsNoticed
from termprobe.diagnosis.dot_symptom_words import DOT_EXAMPLES, dots_noticed
from termprobe.diagnosis.nearest_phrase import nearest_phrase
from termprobe.diagnosis.unmodelled import UNMODELLED, Unmodelled, unmodelled_in
from termprobe.errors import UsageError
from termprobe.profile.model import Profile

BELL_WORDS = "bell silent"
SOME = '"left dot column missing", "cursor missing" or "rolling picture"'
SOME_WITHOUT_DOTS = '"rolling picture", "snow" or "bell silent", since it has no section dots'


def read_noticed(words: str, profile: Profile) -> DotsNoticed | Unmodelled:
    """Return what `words` mean; raise UsageError where they mean nothing."""
    found = _read(words, profile)
    if found is not None:
        return found
    known = [*(one.name for one in UNMODELLED), BELL_WORDS]
    some = f"of what {profile.id} has, such as {SOME_WITHOUT_DOTS}"
    if profile.display.dots is not None:
        known, some = [*DOT_EXAMPLES, *known], f"words such as {SOME}"

    def is_understood(phrase: str) -> bool:
        return is_of_silent_bell(phrase) or _read(phrase, profile) is not None

    near = nearest_phrase(words, known, is_understood)
    raise UsageError(
        f'--noticed must be {some}, not "{words}"{near}; `termprobe explain --words` prints all '
        "that is understood"
    )


def _read(words: str, profile: Profile) -> DotsNoticed | Unmodelled | None:
    """Return what `words` mean: what is not modelled, which has words of its own, or dots."""
    found = unmodelled_in(words)
    if found is None and profile.display.dots is not None:
        return dots_noticed(words, profile)
    return found
