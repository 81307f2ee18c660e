"""Which single fault explains the presses so far: every hypothesis is weighed against all of them, slips of people allowed for."""

import math
from dataclasses import dataclass

from termprobe.diagnosis.key_hypotheses import ERROR, HEALTHY, hypotheses, seen
from termprobe.plan.presses import CHORD
from termprobe.verdict.noticed import REPEATS_AFTER_S

SLIP = 0.03
"""Share of presses in which something else comes than the fault predicts: a person presses the wrong key, a contact is dirty."""
ANYTHING = 1 / 200
"""How likely one particular wrong outcome is then."""
NONE_PREDICTED = math.log(SLIP * ANYTHING)
SHOWN = 8
"""Suspects that are named at most."""
LEAST = 0.001
"""Suspects less probable than this are left out."""
TOLERATED = 0.1
"""A suspect explains a walk of which at most this share of presses contradicts it."""


@dataclass(frozen=True)
class Suspect:
    """Faults that the presses so far cannot tell apart, and how probable it is that one of them is the cause."""

    faults: tuple[str, ...]
    title: str
    block: str
    probability: float
    supports: tuple[str, ...]
    """Presses that went wrong just as it predicts."""
    contradicts: tuple[str, ...]
    """Presses that it does not explain."""


@dataclass(frozen=True)
class Conclusion:
    """What the presses so far say."""

    explained: bool
    """A single fault, or none, accounts for what came."""
    is_healthy: bool
    """Nothing speaks for a fault."""
    suspects: tuple[Suspect, ...]
    """Best first; empty where all is well."""
    next: tuple[str, ...]
    """Up to three presses that would decide best between the leading suspects."""
    odd: tuple[str, ...] = ()
    """Presses of which something came that the leading hypothesis, a fault or none, does not predict: slips, or more faults."""


def outcomes_of(records):
    """Return press id -> [(bytes, error), ...] of every press in a journal's records that was not taken back.

    What a key adds while it is held is left out: a repeat says nothing of the lines.
    """
    outcomes = {}
    for record in records:
        if record["kind"] == "taken-back":
            outcomes.pop(record["step"], None)
        elif record["kind"] == "answer" and record.get("heard"):
            events = _without_repeats(record["heard"]["events"])
            error = next((error for _, _, error in events if error), "")
            outcomes.setdefault(record["step"], []).append(
                (b"".join(bytes.fromhex(data) for _, data, _ in events), error)
            )
    return outcomes


def _without_repeats(events):
    """Return the events, as a journal has them, without those that bring once more, after a pause, what came before."""
    kept, known, before_s, is_held = [], set(), math.inf, False
    for at_s, data, error in events:
        is_held = is_held or at_s - before_s >= REPEATS_AFTER_S
        if not (is_held and data in known):
            kept.append((at_s, data, error))
        known.add(data)
        before_s = at_s
    return kept


def conclude(profile, outcomes):
    """Return the Conclusion for `outcomes`, press or chord id -> list of (bytes that came, error of the line)."""
    table = _Table.of(profile, any(press.startswith(CHORD) for press in outcomes))
    came = {
        press: [seen(data, error, press.startswith(CHORD)) for data, error in heard]
        for press, heard in outcomes.items()
        if press in table.presses and heard
    }
    if not came:
        return Conclusion(True, True, (), ())
    observed = [(press, what) for press, heard in came.items() for what in heard]
    ranked = _ranked(table, came)
    leading = ranked[0][1]
    is_healthy = any(one.name == HEALTHY for one in leading)
    healthy = table.healthy
    suspects = tuple(
        _suspect(share, members, observed, healthy)
        for share, members in ranked[:SHOWN]
        if share >= LEAST and not any(one.name == HEALTHY for one in members)
    )
    odd = dict.fromkeys(press for press, what in observed if not _predicts(leading[0], press, what))
    return Conclusion(
        _explains(leading[0], observed, healthy),
        is_healthy,
        () if is_healthy else suspects,
        () if is_healthy else _next(table, ranked, outcomes),
        tuple(odd),
    )


def _ranked(table, came):
    """Return [(probability, members of a class), ...], best first."""
    classes, gains = table.classes(came.keys()), table.gains(came)
    scores = [
        math.log(sum(one.weight for one in members)) + sum(map(gains.__getitem__, changes))
        for changes, members in classes
    ]
    best = max(scores)
    total = sum(math.exp(score - best) for score in scores)
    shares = (
        (math.exp(score - best) / total, members) for score, (_, members) in zip(scores, classes)
    )
    return sorted(shares, key=lambda pair: -pair[0])


def suspects_document(conclusion):
    """Return the suspects as the JSON of `keys` and `diagnose` names them."""
    return [
        {
            "class": list(suspect.faults),
            "title": suspect.title,
            "block": suspect.block,
            "probability": round(suspect.probability, 4),
        }
        for suspect in conclusion.suspects
    ]


class _Table:
    """The hypotheses of one profile, each with the presses in which it is not like the healthy keyboard."""

    _known = {}

    def __init__(self, profile, with_chords):
        self.all = hypotheses(profile, with_chords)
        self.healthy = self.all[0]
        self.presses = tuple(self.healthy.sends)
        numbers = {}
        self._changes = [
            (
                one,
                tuple(
                    numbers.setdefault(change, len(numbers))
                    for change in one.changes(self.healthy).items()
                ),
            )
            for one in self.all
        ]
        self._meaning = tuple(numbers)
        """For the number of each change: (press id, outcomes)."""

    @classmethod
    def of(cls, profile, with_chords):
        """Return the table of `profile`, made once."""
        known = cls._known.get((id(profile), with_chords))
        if known is None or known[0] is not profile:
            known = cls._known[id(profile), with_chords] = profile, cls(profile, with_chords)
        return known[1]

    def classes(self, pressed):
        """Return [(numbers of changes, hypotheses that predict these of `pressed`, the most common first), ...]."""
        groups, known = (
            {},
            {number for number, (press, _) in enumerate(self._meaning) if press in pressed},
        )
        for one, changes in self._changes:
            groups.setdefault(tuple(filter(known.__contains__, changes)), []).append(one)
        return [
            (changes, sorted(members, key=lambda one: -one.weight))
            for changes, members in groups.items()
        ]

    def gains(self, came):
        """Return for each change by how much it lifts the log-likelihood of what came over that of the healthy keyboard."""
        normal = {
            press: sum(_log_share(self.healthy.sends[press], what) for what in heard)
            for press, heard in came.items()
        }
        return [
            sum(_log_share(outcomes, what) for what in came.get(press, ())) - normal.get(press, 0.0)
            for press, outcomes in self._meaning
        ]


def _log_share(outcomes, what):
    count = (
        sum(_is(outcome, what) for outcome in outcomes)
        if len(outcomes) > 1
        else _is(outcomes[0], what)
    )
    return (
        math.log((1 - SLIP) * count / len(outcomes) + SLIP * ANYTHING) if count else NONE_PREDICTED
    )


def _is(outcome, what):
    """Tell whether an outcome is what came; the outcome (ERROR, kind) stands for any bytes with that error."""
    return outcome[1] == what[1] if outcome[0] == ERROR else outcome == what


def _predicts(hypothesis, press, what):
    return any(_is(outcome, what) for outcome in hypothesis.sends[press])


def _explains(leading, observed, healthy):
    """Tell whether the leading hypothesis accounts for nearly all that came, and for most of what went wrong."""
    wrong = [(press, what) for press, what in observed if not _predicts(healthy, press, what)]
    against = sum(not _predicts(leading, press, what) for press, what in observed)
    accounted = sum(_predicts(leading, press, what) for press, what in wrong)
    return against <= TOLERATED * len(observed) + 1 and (
        not wrong or accounted * 2 > len(wrong) or leading.name == HEALTHY and len(wrong) <= 1
    )


def _suspect(share, members, observed, healthy):
    first = members[0]
    supports = [
        press
        for press, what in observed
        if _predicts(first, press, what) and not _predicts(healthy, press, what)
    ]
    contradicts = [press for press, what in observed if not _predicts(first, press, what)]
    blocks = list(dict.fromkeys(one.block for one in members))
    return Suspect(
        tuple(one.name for one in members),
        _title(members),
        blocks[0],
        share,
        tuple(dict.fromkeys(supports)),
        tuple(dict.fromkeys(contradicts)),
    )


def _title(members):
    """Return what is wrong in one line: both titles of a pair, the most common one of more."""
    if len(members) == 2:
        return f"{members[0].title}; or {members[1].title}"
    return members[0].title + (
        f" (or {len(members) - 1} more that look the same)" if len(members) > 2 else ""
    )


def _next(table, ranked, outcomes):
    """Return up to three presses not made yet, each with the most information on which of the leading suspects is the cause."""
    leading = [
        (share / len(members), one)
        for share, members in ranked[:SHOWN]
        if share >= LEAST
        for one in members
    ]
    chosen, groups = [], [leading]
    candidates = [press for press in table.presses if press not in outcomes]
    while candidates and len(chosen) < 3:
        gain, press = max(
            ((_gain(groups, press), press) for press in candidates), key=lambda pair: pair[0]
        )
        if gain < 0.01:
            break
        chosen.append(press)
        candidates.remove(press)
        groups = [part for group in groups for part in _parted(group, press).values()]
    return tuple(chosen)


def _parted(group, press):
    parts = {}
    for share, one in group:
        parts.setdefault(one.sends[press], []).append((share, one))
    return parts


def _gain(groups, press):
    """Return the entropy in bits by which `press` would part the groups further."""
    gain = 0.0
    for group in groups:
        whole = sum(share for share, _ in group)
        for part in _parted(group, press).values():
            share = sum(one for one, _ in part)
            gain -= share * math.log2(share / whole) if share else 0.0
    return gain
