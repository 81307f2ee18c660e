"""What is not carried out while the board must be switched off.

Pure.
"""

from termprobe.session.messages import Announce, Request, Send, SendGroups, StartLoop
from termprobe.verdict.model import RunVerdict

NOTHING_IS_SENT = "the board must be switched off: nothing is sent"


def is_refused(request: Request, verdicts: RunVerdict) -> bool:
    """Return whether it would send to a board that must be switched off.

    The step that says so may be tried again.
    """
    if isinstance(request, Send):
        return bool(verdicts.switch_off) and request.step_id not in verdicts.switch_off
    return bool(verdicts.switch_off) and isinstance(request, SendGroups | Announce | StartLoop)
