"""Lays a plan out as a card. Pure."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from termprobe.notation import show, show_code
from termprobe.plan.card_items import CardItem, card_items, left_off
from termprobe.plan.dot_drawing import draw_dots, enlarged_of
from termprobe.plan.model import (
    KeyPress,
    Look,
    Measure,
    Plan,
    Reply,
    Stage,
    Step,
    Switch,
    TypedBack,
    expected_of,
)
from termprobe.plan.show import beside_rows, draw_screen, show_data
from termprobe.plan.typed_word import word_shown
from termprobe.profile.model import LinkNeeds, Profile
from termprobe.report.card.facts import (
    Card,
    CardCaution,
    CardCode,
    CardKey,
    CardStage,
    CardStep,
)
from termprobe.report.facts.numbers import counted
from termprobe.report.facts.pictures import ScreenFacts, fitted
from termprobe.terminal.screen import Screen

TYPED_AT_MOST = 120
"""So many bytes are typed by hand in local mode without a slip. A judgement."""
DRAWN_COLUMNS = 96
"""Of a screen drawn as text, frame and row numbers included."""


def card_of(profile: Profile, whole: Plan, plan: Plan) -> Card:
    """Return the card of `plan`, a part of the `whole` one or all of it, of which come numbers."""
    numbers = {item.step.id: item.number for item in card_items(whole)}
    items = [CardItem(numbers[step.id], step) for step in plan.steps if step.id in numbers]
    cautions = _cautions(plan, items)
    by_text = {one.text: one.number for one in cautions}
    return Card(
        plan.title,
        f"{profile.title} ({plan.profile_id})",
        plan.script_id,
        plan.hash,
        line_in_words(profile.link),
        cautions,
        tuple(_codes(plan, items)),
        tuple(_stages(profile, plan, items, by_text)),
        tuple(step.title for step in left_off(whole) if step.id in plan.index),
    )


def line_in_words(needs: LinkNeeds) -> str:
    """Return `4800 baud, 7 data bits, odd parity, 1 stop bit`, and the handshake if any."""
    parity = f"{needs.parity} parity"
    told = [f"{needs.speed_baud} baud", counted(needs.data_bits, "data bit"), parity]
    told.append(counted(needs.stop_bits, "stop bit"))
    if needs.handshake != "none":
        told.append(f"handshake {needs.handshake}")
    return ", ".join(told)


def _cautions(plan: Plan, items: Iterable[CardItem]) -> tuple[CardCaution, ...]:
    """Return each caution once, in order, with the stages that it holds for."""
    titles = {stage.id: stage.title for stage in plan.stages}
    where: dict[str, dict[str, None]] = {}
    for item in items:
        if item.step.caution:
            where.setdefault(item.step.caution, {})[titles[item.step.stage]] = None
    return tuple(
        CardCaution(number, text, tuple(stages))
        for number, (text, stages) in enumerate(where.items(), 1)
    )


def _codes(plan: Plan, items: Iterable[CardItem]) -> Iterator[CardCode]:
    """Yield the codes that items send and that are no characters, lowest first."""
    pressed = dict(plan.key_codes)
    sent = {code for item in items for code in item.step.data if not 0x20 <= code < 0x7F}
    for code in sorted(sent):
        ways = pressed.get(bytes([code]), ())
        yield CardCode(show_code(code), f"{code:02X}h", next(iter(ways), ""))


def _stages(
    profile: Profile, plan: Plan, items: Sequence[CardItem], cautions: Mapping[str, int]
) -> Iterator[CardStage]:
    standing = {str(option.name): str(option.normal) for option in profile.options}
    numbers = {item.step.id: item.number for item in items}
    typed = {code for code, _ in plan.key_codes}
    for stage in plan.stages:
        own = [item for item in items if item.step.stage == stage.id]
        if own:
            yield _stage(stage, own, cautions, _Laid(plan, numbers, standing, typed))


@dataclass(frozen=True)
class _Laid:
    """What is known while items are laid out."""

    plan: Plan
    numbers: Mapping[str, str]
    standing: dict[str, str]
    """Where each option stands, after what the card has said so far."""
    typed: set[bytes]
    """The codes that keys of the board send."""


def _stage(
    stage: Stage, items: Sequence[CardItem], cautions: Mapping[str, int], laid: _Laid
) -> CardStage:
    shared = _shared_needs(items)
    keys = [item for item in items if isinstance(item.step, KeyPress)]
    steps = [item for item in items if not isinstance(item.step, KeyPress)]
    told = [cautions[item.step.caution] for item in items if item.step.caution]
    return CardStage(
        stage.title,
        tuple(dict.fromkeys(told)),
        tuple(_needs(shared, laid)),
        tuple(_step(item, shared, laid) for item in steps),
        tuple(_key(item, laid) for item in keys),
    )


def _shared_needs(items: Sequence[CardItem]) -> tuple[str, ...]:
    """Return what all of the items need; nothing where they do not all need the same."""
    first, *others = [item.step.needs for item in items]
    return first if all(needs == first for needs in others) else ()


def _key(item: CardItem, laid: _Laid) -> CardKey:
    assert isinstance(item.step, KeyPress)
    press = item.step.press
    do = " ".join(_settings(item.step, laid))
    return CardKey(item.number, do, press.asked, press.sends, press.code.hex(" ").upper())


def _step(item: CardItem, shared: Sequence[str], laid: _Laid) -> CardStep:
    step = item.step
    screen = expected_of(step)
    do: list[str] = []
    if tuple(step.needs) != tuple(shared):
        do += _needs(step.needs, laid)
    do += _before(step, laid)
    return CardStep(
        item.number,
        step.title,
        tuple(do),
        show_data(step.data),
        _sent_in_words(step, laid.typed),
        step.question,
        tuple(_must(step)),
        step.stop_if or "",
        _picture(screen, laid.plan),
        tuple(_beside(screen)),
        _drawn(screen),
        tuple(draw_dots(enlarged_of(step), DRAWN_COLUMNS)),
        isinstance(step, Measure),
    )


def _picture(screen: Screen | None, plan: Plan) -> ScreenFacts | None:
    if screen is None:
        return None
    return ScreenFacts(plan.columns, fitted(screen.rows, plan.rows, plan.columns), screen.cursor)


def _drawn(screen: Screen | None) -> tuple[str, ...]:
    return () if screen is None else tuple(draw_screen(screen, DRAWN_COLUMNS).split("\n"))


def _beside(screen: Screen | None) -> Iterator[str]:
    """Yield what the characters of a screen do not show."""
    if screen is None:
        return
    if screen.cursor is not None:
        row, column = screen.cursor
        yield f"cursor: row {row}, column {column}"
    yield from beside_rows(screen)


def _needs(needs: Iterable[str], laid: _Laid) -> Iterator[str]:
    """Yield what must have been as expected before, of what is on the card."""
    known = [laid.numbers[need] for need in needs if need in laid.numbers]
    if known:
        yield f"Only once as expected: {', '.join(known)}."


def _before(step: Step, laid: _Laid) -> Iterator[str]:
    """Yield what else must be done or known before the bytes of a step are sent."""
    spared_by = step.covered_by if isinstance(step, Look) else ()
    spared = [laid.numbers[one] for one in spared_by if one in laid.numbers]
    if spared:
        yield f"May be left out where all of these are as expected: {', '.join(spared)}."
    if step.continues:
        before = laid.plan.steps[laid.plan.index[step.id] - 1]
        yield f"Right behind {laid.numbers[before.id]}, its screen left as it is."
    if isinstance(step, Switch):
        laid.standing[step.option] = step.position
        yield f"Set {step.option} to {step.position}."
    else:
        yield from _settings(step, laid)


def _settings(step: Step, laid: _Laid) -> Iterator[str]:
    """Yield the options that are to be moved for a step, as far as they are known to stand."""
    for option, position in step.settings:
        if laid.standing.get(option) != position:
            laid.standing[option] = position
            yield f"Set {option} to {position}."


def _sent_in_words(step: Step, typed: set[bytes]) -> str:
    """Return `Send 57 bytes, or type them in local mode`; nothing where none are sent."""
    data = step.data
    if not data:
        return ""
    told = f"Send {counted(len(data), 'byte')}"
    can_be_typed = len(data) <= TYPED_AT_MOST and all(bytes([code]) in typed for code in data)
    return f"{told}, or type them in local mode" if can_be_typed else told


def _must(step: Step) -> Iterator[str]:
    """Yield what must come back, or be read."""
    if isinstance(step, Measure):
        limits = step.limits_with_edges
        yield f"Must read {limits}." if limits else "Noted; there are no limits."
    elif isinstance(step, Reply):
        yield f"Must come back from the board: {step.wanted}"
    elif isinstance(step, TypedBack):
        yield f'"{word_shown(step)}" and RETURN, typed on the board: must come {show(step.typed)}'
    if step.source:
        yield f"Source: {step.source}."
