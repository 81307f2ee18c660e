"""One screen in the room there is."""

from helpers.bench_state import rows_of, state
from helpers.predicted import predictions_of
from termprobe.session.draw.screen_block import ScreenPart, block, first_in, is_framed, parts
from termprobe.session.draw.screen_rows import Picture
from termprobe.terminal.predicted import RegionAsked
from termprobe.terminal.screen import Screen

TALL = Screen(("TOP".ljust(20), *(" " * 20,) * 10, "LOW".ljust(20)), (11, 3))
PICTURE = Picture(TALL, "this must be seen")


def test_a_picture_is_framed_only_where_all_of_its_caption_has_room():
    assert is_framed(PICTURE, 15, 22) and not is_framed(PICTURE, 14, 22)
    assert not is_framed(PICTURE, 15, 21)


def test_a_gap_takes_one_row_and_is_told():
    shown = rows_of(block(state(), PICTURE, [TALL], 6, 60))
    assert shown[0] == "── this must be seen; rows 0-11 of 12 (g: alone) ───────────"
    assert [row.strip(" ─") for row in shown[1:]] == [
        "TOP",
        "",
        "rows 2-9 are blank",
        "",
        "LOW",
    ]


def test_a_builder_who_moves_sees_an_unbroken_part():
    made = state(scroll=(3, 0))
    shown = rows_of(block(made, PICTURE, [TALL], 6, 60))
    assert "rows 3-7 of 12" in shown[0] and "───" not in "".join(shown[1:])
    assert first_in(made, PICTURE, [TALL], 6, 60) == (3, 0)


def test_the_part_of_the_screen_that_is_asked_about_is_shown():
    full = Screen(tuple(f"row {row}".ljust(20, "x") for row in range(12)), (0, 0))
    picture, predicted = Picture(full, "this must be seen"), predictions_of(state().step)
    for row in (0, 11):
        asked = predicted._replace(region=RegionAsked(f"row {row}"))
        made = state(mode="narrowing", predictions=asked)
        shown = rows_of(block(made, picture, [full], 6, 60))
        assert any(f"row {row}x" in text for text in shown)


def test_marking_is_around_its_cursor():
    made = state(mode="marking", cursor=(11, 0))
    assert first_in(made, PICTURE, [TALL], 6, 60) == (7, 0)


def test_columns_that_have_no_room_are_told():
    shown = rows_of(block(state(), PICTURE, [TALL], 20, 18))
    assert "columns 0-17 of 20" in " ".join("".join(shown).split())


def test_parts_are_drawn_as_told():
    assert len(parts(PICTURE, ScreenPart((0, 1, 11)), 20)) == 4
