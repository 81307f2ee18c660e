"""Each kind of record by its word in the run file."""

from collections.abc import Mapping

from termprobe.journal.added import Added
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.attention import AttentionChecked, AttentionWanted
from termprobe.journal.card import FilledFromCard
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.journal.records import (
    Answered,
    Arrived,
    CautionRead,
    Finished,
    Header,
    LineGone,
    Linked,
    Noted,
    OptionSet,
    Record,
    Resumed,
    Sent,
    SentLate,
    StepBegun,
    Stopped,
    TakenBack,
)
from termprobe.journal.soaking import SoakBegun, SoakTold

RECORD_KINDS: Mapping[str, type[Record]] = {
    record.kind: record
    for record in (
        Header,
        ComesAfter,
        FilledFromCard,
        AttentionWanted,
        AttentionChecked,
        Resumed,
        Added,
        StepBegun,
        Sent,
        Arrived,
        Answered,
        AskedAgain,
        TakenBack,
        Noted,
        CautionRead,
        OptionSet,
        KnownFault,
        ToRepair,
        Linked,
        LineGone,
        SentLate,
        Stopped,
        Finished,
        SoakBegun,
        SoakTold,
    )
}
