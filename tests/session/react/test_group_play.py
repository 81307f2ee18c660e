"""A step played group by group: the board has always been sent what its screen needs."""

from hypothesis import given
from hypothesis import strategies as some

from helpers.bench_plan import PROFILE, full_plan
from helpers.examples import examples
from termprobe.session.react import group_play
from termprobe.terminal.reference import Reference


def played():
    made = full_plan()
    return group_play.play_of(made, made.step("more"), PROFILE)


def test_playing_forward_gives_the_screen_of_a_straight_run():
    found, sent = played(), b""
    while found.sent < len(found.groups):
        found, groups = group_play.forward(found)
        sent += b"".join(group.data for group in groups)
    straight = Reference(PROFILE)
    straight.feed(sent)
    assert found.screen.rows == straight.screen().rows == full_plan().step("more").expected.rows
    assert sent == full_plan().step("hello").data + full_plan().step("more").data, (
        "a step that goes on begins with the one before"
    )


@examples(60)
@given(
    some.lists(
        some.sampled_from(
            (group_play.forward, group_play.back, group_play.to_mark, group_play.restart)
        ),
        max_size=20,
    ),
    some.integers(0, 5),
)
def test_after_any_walk_the_board_has_been_sent_what_the_screen_needs(walk, mark):
    """Whatever was sent since the screen was last fresh must give the screen that is shown."""
    found = group_play.set_mark(played(), mark)
    reference, is_known = Reference(PROFILE), False
    for go in walk:
        found, groups = go(found)
        for group in groups:
            reference.feed(group.data)
            is_known = is_known or group.label.startswith("clear ")
        if is_known and found.sent:
            assert (
                found.screen.rows == reference.screen().rows
                and found.screen.cursor == reference.screen().cursor
            )


def test_running_to_the_mark_stops_there_then_goes_to_the_end():
    found, groups = group_play.to_mark(group_play.set_mark(played(), 2))
    assert (found.sent, len(groups)) == (2, 2)
    found, groups = group_play.to_mark(found)
    assert found.sent == len(found.groups)
    assert (
        group_play.set_mark(found, found.sent).mark == found.sent
        and group_play.set_mark(group_play.set_mark(found, 1), 1).mark is None
    )
