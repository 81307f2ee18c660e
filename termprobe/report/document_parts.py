"""Parts of a run as records of its JSON document: links, texts, answers, changes. Pure."""

from termprobe.journal.attention import is_measured
from termprobe.journal.records import LinkUsed
from termprobe.journal.spans import LinkSpan
from termprobe.report import earlier_words, words
from termprobe.report.attention_words import AttentionChecks
from termprobe.report.changes import Changes
from termprobe.report.document import (
    AttentionTold,
    ChangesTold,
    EarlierAnswerTold,
    EarlierTold,
    LinkSpanTold,
    LinkTold,
    TextsTold,
    TextTold,
)
from termprobe.verdict.model import Earlier
from termprobe.verdict.texts import EarlierAnswer, TextsUsed


def link(used: LinkUsed) -> LinkTold:
    """Return a link of a run."""
    return LinkTold(used.name, used.format, used.note)


def link_span(span: LinkSpan) -> LinkSpanTold:
    """Return a link with the time in which it was in use."""
    used = span.link
    return LinkSpanTold(
        used.name, used.format, used.note, span.start, span.end, span.is_practice, span.steps
    )


def earlier(answer: Earlier) -> EarlierTold:
    """Return an answer that does not count any more."""
    return EarlierTold(answer.verdict, earlier_words.reason(answer), answer.is_taken_back)


def texts(used: TextsUsed) -> TextsTold:
    """Return all texts of a run, and the answers that count no more since steps changed."""
    pairs = zip(used.texts, used.judged, strict=True)
    told = (TextTold(text.since, text.changed, text.plan.hash, judged) for text, judged in pairs)
    return TextsTold(tuple(told), tuple(map(_earlier_answer, used.earlier)))


def _earlier_answer(answer: EarlierAnswer) -> EarlierAnswerTold:
    then = answer.then
    return EarlierAnswerTold(then.id, answer.text, then.verdict, words.reason(then), answer.now)


def changes(found: Changes) -> ChangesTold:
    """Return what has changed since the run before."""
    after = found.after
    return ChangesTold(
        after.run,
        after.digest,
        after.begun,
        after.blocks,
        found.mended,
        found.still_failing,
        found.new_faults,
        found.first_known,
        found.not_proven,
        found.waiting,
    )


def attention(checks: AttentionChecks) -> AttentionTold:
    """Return how the attention checks of a run went."""
    return AttentionTold(
        checks.rate,
        checks.seed,
        checks.caught,
        checks.missed,
        checks.undecided,
        is_measured(len(checks.caught), len(checks.missed)),
    )
